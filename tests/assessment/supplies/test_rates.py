"""Fuel and exhaust fluid as the log's fills took them: when that stands in for the plan's 8.0 mpg, 2.5 %."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.assessment.supplies.fills import rising
from binder.assessment.supplies.rates import rates_of
from binder.assessment.supplies.tanks import supply_tanks
from binder.cards.pages.supplies_along_trip import supplies_along_trip
from binder.cards.ring.order import ring
from binder.log.in_force import in_force
from binder.models.log_entries import Entry
from binder.quantities import Quantity, number_in
from tests.assessment.logged import by_key, larkspur, logged

USE, SHARE = "supplies.coach.diesel.use", "supplies.coach.exhaust_fluid.share_of_fuel"
START = 33_000


def fill(
    miles: float | None,
    gallons: float,
    *,
    full: bool = True,
    tank: str = "diesel",
    clock_off: bool = False,
) -> Entry:
    """A fill so many miles after the first, on the day that its mile is."""
    read = {} if miles is None else {"odometer": f"{START + miles:g} mi"}
    day = 0.0 if miles is None else miles / 50
    said = {"tank": tank, "vehicle": "coach", "amount": f"{gallons:g} gal", "full": str(full).lower(), **read}
    return logged("fill", day, clock_off=clock_off, **said)


def full_tanks(*rates: float, apart: float = 200) -> list[Entry]:
    """Fills that give these miles a gallon, one after the other."""
    return [fill(0, 20), *(fill(at * apart, apart / one) for at, one in enumerate(rates, 1))]


def gallons_a_mile(use: Quantity | None) -> float:
    assert use is not None
    return number_in(use, "gallon/mile")


def mpg(entries: list[Entry]) -> float:
    return 1 / gallons_a_mile(by_key(larkspur(entries)).quantity(USE))


def test_a_worse_use_is_taken_from_the_first_interval_on_and_rounded_to_the_safe_side() -> None:
    found = by_key(larkspur(full_tanks(7.4)))

    assert mpg(full_tanks(7.4)) == pytest.approx(7.25)
    assert found.figure(USE).slack == "from one fill"
    assert found.figure(USE).kind == "measured"
    reach = found.quantity("supplies.coach.diesel.range")
    assert reach is not None
    # Of 94 gallons that can be drawn, 6 of the 25 kept lie below the draw.
    assert number_in(reach, "mile") == pytest.approx((100 - 25) * 7.25)


@pytest.mark.parametrize(
    ("rates", "used"),
    [
        ((8.3, 8.3, 8.3, 8.3), 8.0),  # Less than 5 % better.
        ((9.1, 9.1), 8.0),  # Two intervals.
        ((9.1, 9.1, 9.1), 9.0),
        ((9.1, 9.1, 9.1, 8.6, 8.6, 8.6, 8.6, 8.6, 8.6), 8.5),  # Six together are worse again.
        ((7.4, 8.2, 8.2, 8.2), 7.75),  # Not above what the last six took together.
        ((7.4, 8.2, 8.2, 8.2, 8.2, 8.2, 8.2), 8.0),
    ],
)
def test_a_better_use_is_taken_if_clearly_better_over_three(rates: tuple[float, ...], used: float) -> None:
    assert mpg(full_tanks(*rates)) == pytest.approx(used)


def test_nothing_about_a_rate_changes_with_each_fill() -> None:
    told = [
        (found.figure(USE).value, found.figure(USE).slack, found.figure(USE).inputs)
        for count in range(6, 14)
        for found in [by_key(larkspur(full_tanks(*[9.1, 9.2] * 7)[: count + 1]))]
    ]

    assert all(one == told[0] for one in told)
    assert told[0][1] == "from 6 fills"


def test_fuel_that_went_in_on_the_way_is_added_with_or_without_an_odometer() -> None:
    part, blank = fill(100, 5, full=False), fill(None, 3)._replace(at=fill(150, 1).at)

    assert mpg([fill(0, 20), part, blank, fill(200, 19)]) == pytest.approx(7.25)  # 27 gallons: 7.41.


def test_a_fill_of_which_it_is_not_said_whether_it_is_full_ends_no_interval() -> None:
    unsaid = fill(200, 20)
    unsaid = unsaid._replace(written={name: text for name, text in unsaid.written.items() if name != "full"})

    assert mpg([fill(0, 20), unsaid, fill(400, 40)]) == pytest.approx(400 / 60, abs=0.25)


def test_a_few_miles_are_no_interval_of_their_own() -> None:
    assert by_key(larkspur([fill(0, 20), fill(30, 10)])).known(USE) is None
    # Topped up after 30 miles: the ten gallons count over all 230.
    assert mpg([fill(0, 20), fill(30, 10), fill(230, 22)]) == pytest.approx(7.0)


def test_a_fill_that_was_not_entered_makes_nothing_better() -> None:
    entries = full_tanks(8.1, 8.1, 8.1, 8.1, 8.1, 8.1)
    without_one = [*entries[:3], *entries[4:]]
    found = by_key(larkspur(without_one)).figure(USE)

    assert mpg(without_one) == pytest.approx(8.0)
    assert found.cautions[-1] == (
        "Left out as unsure, from one full tank to the next: 1 far better than the others or the plan, as "
        "where a fill was not entered."
    )


def test_an_odometer_that_falls_cannot_be_right_and_the_others_hold() -> None:
    slip = fill(400, 25)
    slip = slip._replace(written={**slip.written, "odometer": "3340 mi"})
    entries = [fill(0, 20), fill(200, 25), slip, fill(600, 25), fill(800, 25)]

    # Its fuel was burned all the same: fifty gallons over the four hundred miles.
    assert mpg(entries) == pytest.approx(8.0)
    assert by_key(larkspur(entries)).figure(USE).cautions[-1].startswith("It is taken in steps")


def test_more_than_a_tank_holds_is_left_out() -> None:
    entries = full_tanks(8.0, 8.0, 8.0)
    slip = fill(800, 250)
    found = by_key(larkspur([*entries, slip])).figure(USE)

    assert mpg([*entries, slip]) == pytest.approx(8.0)
    assert "1 with more in a fill than the tank holds" in found.cautions[-1]


def test_a_clock_years_off_is_put_in_its_place_by_the_odometer() -> None:
    entries = full_tanks(9.1, 9.1, 9.1, 9.1)
    off = fill(400, 200 / 9.1, clock_off=True)

    assert mpg([off if one.written == off.written else one for one in entries]) == pytest.approx(9.0)


def test_a_fill_without_its_place_lets_nothing_be_better() -> None:
    lost = fill(None, 20, full=False, clock_off=True)
    found = by_key(larkspur([*full_tanks(9.1, 9.1, 9.1), lost])).figure(USE)

    assert gallons_a_mile(found.quantity) == pytest.approx(1 / 8.0)
    assert "has no odometer" in found.cautions[-1]
    # What is worse is taken all the same.
    assert mpg([*full_tanks(7.4), lost]) == pytest.approx(7.25)


def test_where_the_plan_says_nothing_three_intervals_of_the_log_do() -> None:
    profile = larkspur(full_tanks(9.1, 9.1, 9.1))
    assert profile.trip is not None
    use = profile.trip.use.model_copy(update={"diesel": None})
    without = replace(profile, trip=profile.trip.model_copy(update={"use": use}))

    found = by_key(without)
    assert 1 / gallons_a_mile(found.quantity(USE)) == pytest.approx(9.0)
    assert not [one for one in found.findings if "fuel a distance takes" in one.text]
    few = by_key(replace(without, log=without.log[:3]))
    assert few.figure(USE).value is None
    assert [one for one in few.findings if "fuel a distance takes" in one.text]


def test_the_exhaust_fluid_s_share_is_of_the_fuel_that_is_used() -> None:
    fluid = [fill(at * 400, 1.6, tank="exhaust fluid") for at in range(4)]
    found = by_key(larkspur([*full_tanks(*[8.0] * 6), *fluid]))

    # 1.6 gallons on 400 miles at 8 mpg: 3.2 % of the fuel.
    share = found.quantity(SHARE)
    assert share is not None
    assert number_in(share, "percent") == pytest.approx(3.25)
    assert found.figure("supplies.coach.exhaust_fluid.range").inputs[-1].text == "3.25 % of the fuel"
    assert found.figure(SHARE).slack == "from 3 fills"


def test_the_day_sheets_and_the_page_say_whose_rate_it_is() -> None:
    assessment = by_key(larkspur(full_tanks(7.4, 7.4))).assessment
    said = str(ring(assessment))
    page = str(supplies_along_trip(assessment))

    assert "mi to the reserve at 7.25 mpg, from one fill)" in said
    assert "By the log: diesel 7.25 mpg, from one fill, where the plan says 8 mpg." in page


def test_without_fills_the_log_says_nothing_of_rates() -> None:
    notes = larkspur([logged("note", text="nothing to tell")])

    assert by_key(notes).known(USE) is None
    assert "By the log" not in str(supplies_along_trip(by_key(notes).assessment))


def test_liters_have_steps_of_their_own() -> None:
    profile = larkspur(full_tanks(7.4))
    metric = replace(profile, rig=profile.rig.model_copy(update={"units": "metric"}))
    found = by_key(metric).quantity(USE)

    assert found is not None
    assert number_in(found, "liter/kilometer") * 100 == pytest.approx(32.0)  # Of 31.8.


@pytest.mark.parametrize(
    ("values", "kept"),
    [
        ([1.0, 2.0, 2.0, 3.0], {0, 1, 2, 3}),
        ([1.0, 9.0, 2.0, 3.0], {0, 2, 3}),
        ([5.0, 1.0, 6.0, None, 7.0], {1, 2, 4}),
        ([None], set()),
        ([], set()),
    ],
)
def test_the_longest_run_of_readings_that_never_falls(values: list[float | None], kept: set[int]) -> None:
    assert rising(values) == kept


def drawn_fill(draw: tuple[int | None, int, bool, bool, int, str]) -> Entry:
    miles, gallons, full, clock_off, day, tank = draw
    made = fill(miles, gallons, full=full, tank=tank, clock_off=clock_off)
    return made._replace(at=datetime(2016 if clock_off else 2026, 4, day, 8, tzinfo=UTC))


ANY_FILL = st.tuples(
    st.none() | st.integers(0, 3000),
    st.integers(0, 300) | st.sampled_from([20, 25, 26]),
    st.booleans(),
    st.booleans(),
    st.integers(1, 30),
    st.sampled_from(["diesel", "exhaust fluid"]),
).map(drawn_fill)


@given(st.lists(ANY_FILL, max_size=14))
def test_no_log_makes_a_use_better_than_both_the_plan_and_the_best_interval(
    entries: list[Entry],
) -> None:
    profile = larkspur(in_force(entries))
    rates = rates_of(profile, supply_tanks(profile))

    for rate in (rates.fuel, rates.share):
        if rate is not None:
            best = min((one.use / rate.of for one in rate.fills.sure), default=1.0)
            assert rate.used is not None
            assert rate.planned is not None
            assert rate.used >= min(rate.planned, best) * (1 - 1e-9)
