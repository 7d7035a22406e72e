"""Trips that cannot work give one finding each, with what to do; figures against hand arithmetic."""

import pytest

from binder.assessment.supplies.walk import walked_trip
from binder.models.load import Profile
from binder.quantities import registry
from tests.assessment.conftest import Assessed
from tests.by_key import ByKey, ReadFinding

Q = registry.Quantity
LAST_LEG = "distance: 82 mi\n        driving: 1.6 h"
BATTERY = "battery: 60 Ah/day"


def supply(found: ByKey) -> list[ReadFinding]:
    return [item for item in found.findings if item.key.startswith("supplies.") and item.grade == "attention"]


def gallons(found: ByKey, key: str) -> float:
    value = found.quantity(key)
    assert value is not None
    return float(value.to("gallon").m)


def test_the_demo_trip_works(larkspur: ByKey) -> None:
    assert supply(larkspur) == []


def test_no_demo_gets_a_do_not_drive_finding_from_its_supplies(larkspur: ByKey, kestrel: ByKey) -> None:
    for found in (larkspur, kestrel):
        assert [item for item in found.findings if item.grade == "do not drive"] == []


def test_a_leg_that_crosses_the_reserve_names_the_last_place_to_fill(assessed: Assessed) -> None:
    found = supply(assessed("larkspur", trip=((LAST_LEG, "distance: 382 mi\n        driving: 7 h"),)))

    # 69 gal less 382 mi at 8 mpg is 21.25 gal; the reserve is a quarter of 100 gal.
    assert [(item.key, item.text, item.what_helps) for item in found] == [
        (
            "supplies.coach.diesel.day_3.stop_2.arriving",
            (
                "Day 3, on the way to Twin Falls, Idaho: the diesel falls to 21 gal, "
                "under the reserve of 25 gal."
            ),
            "Fill at Boise, Idaho (day 2), the last place before it, or plan a stop in between.",
        )
    ]


def test_a_fuel_gap_is_told_once_with_how_much_lacks(assessed: Assessed) -> None:
    found = supply(assessed("larkspur", trip=((LAST_LEG, "distance: 582 mi\n        driving: 10 h"),)))

    # 63 gal can be drawn of 69; 582 mi take 72.75.
    assert [item.text for item in found] == [
        "Day 3, on the way to Twin Falls, Idaho: the diesel ends, 10 gal short."
    ]


def test_propane_that_does_not_last_the_cold_nights(assessed: Assessed) -> None:
    cold = ("propane: 0.9 gal/day", "propane: {50 degF: 0.9 gal/day, 20 degF: 14 gal/day}")

    found = supply(assessed("larkspur", trip=(cold,)))

    # At 24 °F 12.25 gal a day, for the 49 h until the next start 25.0 gal; 23 gal are there.
    assert [item.key for item in found] == ["supplies.coach.propane.day_2.stop_2.leaving"]
    assert found[0].text.startswith("Day 2, at Stanley, Idaho: the propane ends, 3 gal short")


def test_waste_that_overflows_is_one_finding_with_where_to_dump(assessed: Assessed) -> None:
    found = supply(assessed("larkspur", trip=(("water: 14 gal/day", "water: 41 gal/day"),)))

    gray = [item for item in found if ".gray." in item.key]
    assert [item.key for item in gray] == ["supplies.coach.gray.day_2.stop_2.leaving"]
    assert gray[0].what_helps == "Dump at Ontario, Oregon (day 1), dump sooner after it, or use less water."


def test_a_battery_that_does_not_last(assessed: Assessed) -> None:
    heavy = (BATTERY, "battery: 200 Ah/day")

    assert [item.key for item in supply(assessed("larkspur", trip=(heavy,)))] == [
        "supplies.coach.house_battery.day_2.stop_2.leaving"
    ]


def test_what_the_plan_does_not_say_is_missing_and_blank(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=(("propane: 0.9 gal/day", "propane:"), ("diesel: 8.0 mpg", "diesel:")))

    keys = {item.key for item in found.findings if item.grade == "missing"}
    assert {"supplies.coach.propane.use", "supplies.coach.diesel.use"} <= keys
    assert found.quantity("supplies.coach.diesel.range") is None
    assert found.quantity("supplies.coach.exhaust_fluid.range") is None
    assert found.quantity("sitting_out.propane.days") is None


def test_ranges_and_exhaust_fluid_by_hand(larkspur: ByKey) -> None:
    start = "supplies.coach.exhaust_fluid"
    miles = {
        key: larkspur.quantity(key) for key in ("supplies.coach.diesel.range", f"{start}.container_worth")
    }

    # 94 usable less 19 over the undrawn 6 is 75 gal; 2.5 gal at 2.5 % of 1/8 gal a mile.
    assert {key: round(float(value.to("mile").m)) for key, value in miles.items() if value is not None} == {
        "supplies.coach.diesel.range": 600,
        f"{start}.container_worth": 800,
    }
    assert gallons(larkspur, f"{start}.use_high") == pytest.approx(842 / 8 * 0.025)
    assert larkspur.figure(f"{start}.top_up").value == (
        "at the pump: its filler is on the side of the fuel's, 22 ft apart"
    )


def test_exhaust_fluid_without_a_rate_is_a_band(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=(("  exhaust fluid: 2.5 % of diesel\n", ""),))

    band = [gallons(found, f"supplies.coach.exhaust_fluid.use_{end}") for end in ("low", "high")]
    assert band == pytest.approx([842 / 8 * 0.02, 842 / 8 * 0.03])


def test_the_range_of_exhaust_fluid_runs_to_its_reserve_as_the_fuels_does(larkspur: ByKey) -> None:
    figure = larkspur.figure("supplies.coach.exhaust_fluid.range")
    range_ = larkspur.quantity("supplies.coach.exhaust_fluid.range")

    # 15 gal less a quarter, at 2.5 % of 1/8 gal a mile; all 15 gal to the last drop.
    assert range_ is not None
    assert range_.to("mile").m == pytest.approx(15 * 0.75 / (0.025 / 8))
    assert figure.rule.startswith("from full down to the reserve")
    assert figure.slack == "4,800 mi to the last usable drop"


def test_a_filler_on_the_other_side_wants_a_container(assessed: Assessed) -> None:
    found = assessed("larkspur", ("filler: left rear}", "filler: right rear}"))

    assert str(found.figure("supplies.coach.exhaust_fluid.top_up").value).startswith("wants a container")


def test_sitting_out_by_hand(larkspur: ByKey) -> None:
    found = larkspur

    days = {
        name: found.quantity(f"sitting_out.{name}.days") for name in ("fresh_water", "gray_water", "propane")
    }
    by_hand = {"fresh_water": 90 / 14, "gray_water": 60 / (14 * 0.8), "propane": 24 / 0.9}
    for name, value in days.items():
        assert value is not None
        assert float(value.to("day").m) == pytest.approx(by_hand[name])
    # Lead-acid at 24 °F between 40 % at 0 and 75 % at 32 °F (S-TM10-6140): 66.25 % of 220 Ah, 60 a day.
    battery = found.quantity("sitting_out.days")
    assert battery is not None
    assert float(battery.to("day").m) == pytest.approx(220 * 0.6625 / 60)
    assert found.figure("sitting_out.ends_first").value == "house battery"
    assert found.figure("sitting_out.ends_next").value == "gray water"


def test_the_trade_check_of_a_part_fill(assessed: Assessed) -> None:
    """Practice: between full and 20 gal of a 65-gal tank lie 350 to 400 lb, and full is ten days for two."""
    changes = (
        (
            "fresh:         {holds: fresh water, capacity: 90 gal",
            "fresh:         {holds: fresh water, capacity: 65 gal",
        ),
    )
    plan = (
        ("water: 14 gal/day", "water: 6.5 gal/day"),
        (BATTERY, "battery: 0 Ah/day"),
        ("lasts: {food: 6 days, medicine: 21 days}", "lasts: {food: 30 days, medicine: 60 days}"),
        (
            "fresh: 86 gal, gray: 4 gal, black: 2 gal}}\n          # After",
            "fresh: 60 gal}}\n          # After",
        ),
        ("fresh: 85 gal", "fresh: 60 gal"),
        ("fresh: 86 gal, gray: 9", "fresh: 60 gal, gray: 9"),
        ("fresh: 76 gal", "fresh: 60 gal"),
        ("fresh: 72 gal", "fresh: 60 gal"),
    )

    found = assessed("larkspur", *changes, trip=plan)

    saved, whole, part = (
        found.quantity(f"sitting_out.{key}")
        for key in ("part_full.weight_saved", "fresh_water.days", "part_full.days")
    )
    assert saved is not None
    assert whole is not None
    assert part is not None
    assert 350 <= saved.to("pound").m <= 400
    assert whole.to("day").m == pytest.approx(10)
    assert found.figure("sitting_out.ends_first").value == "fresh water"
    assert part.to("day").m == pytest.approx(20 / 6.5)


def test_a_generator_answers_by_the_fuel_over_its_cut_off(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=(("generator: 0 h/day", "generator: 4 h/day"),))

    fuel = found.quantity("sitting_out.generator_fuel.days")
    # 75 gal over the quarter; 4 h a day at 0.9 gal/h, its full load.
    assert fuel is not None
    assert float(fuel.to("day").m) == pytest.approx(75 / 3.6)


@pytest.mark.parametrize(
    ("low", "told"),
    [
        ("24 degF", {"diesel may gel", "fresh water freezes"}),
        ("4 degF", {"exhaust fluid freezes", "a battery drawn to half freezes"}),
        ("-5 degF", {"propane gives little vapor", "engine oil of the coach is too thick to start on"}),
        ("-40 degF", {"coolant of the coach freezes", "hydronic fluid of the coach freezes"}),
        ("-40 degF", {"washer fluid of the coach freezes"}),
    ],
)
def test_what_a_cold_night_harms_is_told_once_with_its_stop(
    assessed: Assessed, low: str, told: set[str]
) -> None:
    found = assessed("larkspur", trip=(("low: 24 degF", f"low: {low}"),))

    cold = [item.text for item in found.findings if item.key == "route.day_2.freezes"]
    assert all("at Stanley, Idaho" in text for text in cold)
    for words in told:
        assert len([text for text in cold if words in text]) == 1


def test_fluids_against_the_coldest_night(larkspur: ByKey) -> None:
    stated = larkspur.quantity("fluids.coach.washer_fluid.margin")

    assert stated is not None
    assert float(stated.m) == pytest.approx(24 + 20)  # Stated to -20 °F, low 24 °F.


DAYS = ("sitting_out.days", "sitting_out.least.days")


def test_water_use_left_blank_is_blank_and_the_least_of_the_known_is_no_answer(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=(("water: 14 gal/day", "water:"),))

    assert [found.quantity(key) for key in ("sitting_out.fresh_water.days", *DAYS)] == [None] * 3
    told = {item.key: item.what_helps for item in found.findings}
    # S-FEMA: a gallon a person and day.
    assert told["supplies.coach.fresh.use"].endswith("One person needs 1 gal a day (FEMA).")
    assert "fresh water" in found.figure("sitting_out.days").cautions[0]


@pytest.mark.parametrize(
    ("change", "case"),
    [
        (("chemistry: lead-acid, total: 440 Ah", "total: 440 Ah"), "lead-acid or lithium"),
        (("chemistry: lead-acid, total: 440 Ah", "chemistry: lead-acid"), "when full"),
        (("      house:   {count", "      lead:    {count"), "no battery is called the house battery"),
    ],
)
def test_a_battery_of_which_something_lacks_stays_in_the_list_as_a_blank(
    assessed: Assessed, change: tuple[str, str], case: str
) -> None:
    found = assessed("larkspur", change)

    assert found.figure("sitting_out.house_battery.days").value is None
    assert [found.quantity(key) for key in DAYS] == [None, None]
    assert [item for item in found.findings if case in item.text and item.grade == "missing"]


def test_propane_is_counted_to_80_percent_where_what_is_usable_is_blank(assessed: Assessed) -> None:
    found = assessed("larkspur", ("capacity: 30 gal, usable: 24 gal", "capacity: 40 gal"))
    stated = assessed("larkspur", ("capacity: 30 gal, usable: 24 gal", "capacity: 40 gal, usable: 20 gal"))

    for one, gallons_full in ((found, 32), (stated, 20)):
        days = one.quantity("sitting_out.by_level.propane.full")
        assert days is not None
        assert float(days.to("day").m) == pytest.approx(gallons_full / 0.9)


def test_fresh_water_that_cannot_be_drawn_does_not_last(assessed: Assessed) -> None:
    found = assessed(
        "larkspur",
        ("{holds: fresh water, capacity: 90 gal", "{holds: fresh water, capacity: 90 gal, usable: 83 gal"),
    )

    for key in (
        "sitting_out.fresh_water.days",
        "sitting_out.by_level.fresh_water.full",
        "water.fresh.full.days",
    ):
        days = found.quantity(key)
        assert days is not None
        assert float(days.to("day").m) == pytest.approx(83 / 14)


def test_hours_at_full_load_want_the_use_at_full_load(assessed: Assessed) -> None:
    found = assessed("larkspur", ("use_at_full_load: 0.9 gal/h", "use_at_full_load:"))

    assert found.figure("sitting_out.generator_fuel.hours").value is None
    assert "supplies.coach.generator.use" in {item.key for item in found.findings if item.grade == "missing"}


def test_the_night_that_is_not_known_may_be_the_coldest(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=(("low: 45 degF", "low: "),))

    assert found.figure("sitting_out.night_low").value is None
    assert [found.quantity(key) for key in DAYS] == [None, None]


def test_the_share_of_black_water_is_the_owners_where_the_plan_gives_it(assessed: Assessed) -> None:
    own = assessed("larkspur", trip=(("black: 20 % of water", "black: 50 % of water"),))
    days = own.quantity("sitting_out.gray_water.days")

    assert days is not None
    assert float(days.to("day").m) == pytest.approx(60 / 7)
    assert own.figure("supplies.share_to_black").rule == "as the plan states it"


def test_without_it_the_practice_is_counted_and_said_to_be_assumed(kestrel: ByKey) -> None:
    figure = kestrel.figure("supplies.share_to_black")

    assert (figure.kind, figure.source) == ("assumed", "practice")
    assert figure.value == Q(20.0, "percent")


def test_the_card_is_for_the_arrival_or_departure_where_it_is_shortest(larkspur: ByKey) -> None:
    least = larkspur.quantity("sitting_out.least.days")

    assert larkspur.figure("sitting_out.least.place").value == "leaving Stanley, Idaho, day 2"
    # 44 h at Stanley drew 110 Ah; 24 °F leaves 66.25 % of 220 Ah (S-TM10-6140, between 0 and 32 °F).
    assert least is not None
    assert float(least.to("day").m) == pytest.approx((220 * 0.6625 - 110) / 60)
    for day in range(1, 5):
        for end in ("arriving", "leaving"):
            other = larkspur.quantity(f"sitting_out.day_{day}.stop_1.{end}.days")
            assert other is not None
            assert other >= least


def test_half_the_use_of_what_ends_first_doubles_it_and_no_dose_is_halved(
    larkspur: ByKey, assessed: Assessed
) -> None:
    whole, spared = (larkspur.quantity(f"sitting_out.{key}days") for key in ("", "rationed."))
    sick = assessed("larkspur", trip=(("medicine: 21 days", "medicine: 1 day"),))

    assert whole is not None
    assert spared is not None
    assert float(spared.to("day").m) == pytest.approx(2 * float(whole.to("day").m))
    assert sick.figure("sitting_out.ends_first").value == "medicine"
    assert sick.known("sitting_out.rationed.days") is None


def test_food_and_medicine_that_are_not_counted_are_missing(assessed: Assessed) -> None:
    found = assessed("larkspur", trip=(("{food: 6 days, medicine: 21 days}", "{food: 6 days}"),))

    assert "sitting_out.medicine.days" in {item.key for item in found.findings if item.grade == "missing"}
    assert "Not counted, since not known: medicine." in found.figure("sitting_out.days").cautions


def test_days_by_level_hold_for_what_is_left(larkspur: ByKey) -> None:
    days = {
        share: [
            float(value.to("day").m)
            for name in ("fresh_water", "gray_water", "house_battery")
            if (value := larkspur.quantity(f"sitting_out.by_level.{name}.{share}")) is not None
        ]
        for share in ("full", "half", "quarter")
    }

    # Half of 220 Ah is gone before the cold leaves 66.25 % of all of it.
    assert days["full"] == pytest.approx([90 / 14, 60 / 11.2, 220 * 0.6625 / 60])
    assert days["half"] == pytest.approx([45 / 14, 30 / 11.2, (220 * 0.6625 - 110) / 60])
    assert days["quarter"] == pytest.approx([22.5 / 14, 15 / 11.2, 0])


def test_the_trade_check_of_ten_days_for_two(assessed: Assessed) -> None:
    """Practice, no source: two people who save water stay about ten days on a full tank, waste empty."""
    plan = (("water: 14 gal/day", "water: 6 gal/day"), (BATTERY, "battery: 20 Ah/day"))

    found = assessed("larkspur", trip=plan)

    days = [
        value.to("day").m
        for name in ("fresh_water", "gray_water", "black_water")
        if (value := found.quantity(f"sitting_out.by_level.{name}.full")) is not None
    ]
    assert len(days) == 3
    assert min(days) >= 10


def profile_of(found: ByKey) -> Profile:
    return found.profile


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "sandpiper", "tamarack"])
def test_every_demo_keeps_count_at_every_stop(assessed: Assessed, name: str) -> None:
    walk = walked_trip(profile_of(assessed(name)))

    before = {store: item.start for store, item in walk.tanks.stores.items()}
    for item in walk.moments:
        for store, held in item.moment.held.items():
            level = before[store]
            if level is not None and held.level is not None:
                moved = held.filled + held.adjusted - held.used - held.dumped - held.spilled
                assert held.level == pytest.approx(level + moved, abs=1e-6)
            before[store] = held.level
