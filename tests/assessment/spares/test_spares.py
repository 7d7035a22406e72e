"""Spares: what the equipment asks for, what meets it, what is short, and what it weighs where."""

from datetime import date
from typing import Any

import pytest

from binder.assessment.body.equipment import WORDS
from binder.assessment.ledger import Phrase
from binder.assessment.spares.spares import assess_spares
from binder.assessment.spares.stock import Stock, stocks, wanted_spares
from binder.assessment.weights.kinds import CARGO_UNPLACED
from binder.assessment.weights.loads import StateLoads, loads_in_states
from binder.assessment.weights.states import trip_states
from binder.assessment.weights.tickets import ticket_doubts
from binder.models.equipment import Equipment
from binder.models.load import Profile, load_profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from binder.reference.spares import spare_rules
from binder.wording.measures import Style
from binder.wording.sentences import sentence
from tests.by_key import ByKey, entered_by
from tests.demos import PROFILES

ON = date(2026, 6, 1)
AXLES = {
    "steer": {"at": "0 in", "track": "80 in", "fitment": "single"},
    "drive": {"at": "200 in", "track": "80 in", "fitment": "dual"},
}
COACH: dict[str, Any] = {
    "kind": "motorhome",
    "axles": AXLES,
    "tanks": {"fuel": {"holds": "diesel", "capacity": "100 gal", "at": "0 in"}},
    "engine": {"belts": ["alternator", "fan"]},
    "bays": {"box": {"at": "150 in", "left": "40 in"}, "trunk": {"at": "250 in", "left": "0 in"}},
}
CAR: dict[str, Any] = {"kind": "car", "axles": {}}
TICKET = {
    "on": "2026-03-30",
    "weights": {
        "coach": {
            "steer": {"left": "5000 lb", "right": "5000 lb", "axle": "10000 lb"},
            "drive": {"left": "8000 lb", "right": "8000 lb", "axle": "16000 lb"},
        }
    },
    "aboard": [],
    "levels": {"coach": {"fuel": "full"}},
}
TOWED = [{"ahead": "coach", "behind": "car", "how": "tow bar"}]


def profile(coach: dict[str, Any] | None = None, **entries: Any) -> Profile:
    vehicles = {"coach": COACH | (coach or {})} | entries.pop("behind", {})
    written = {"name": "x", "units": "us", "paper": "letter", "vehicles": vehicles} | entries
    return Profile("x", Rig.model_validate(written), Located("rig.yaml", ""))


def wanted(coach: dict[str, Any] | None = None, **entries: Any) -> dict[str, str]:
    wants = wanted_spares(profile(coach, **entries).rig)
    return {sentence(want.words, {}, Style("us")): want.quantity for want in wants}


def stock(name: str, *items: dict[str, str], coach: dict[str, Any] | None = None, **entries: Any) -> Stock:
    rig = profile(coach, spares=list(items), **entries).rig
    (found,) = (one for one in stocks(rig, ON) if sentence(one.want.words, {}, Style("us")) == name)
    return found


def assessed(*items: dict[str, str] | str, **entries: Any) -> ByKey:
    return entered_by(profile(spares=list(items), **entries), ON, assess_spares)


def finding(ledger: ByKey, key: str) -> str:
    return next((f"{found.grade}: {found.text}" for found in ledger.findings if found.key == key), "")


def test_every_word_of_a_rule_is_of_the_vocabulary_and_every_word_is_used() -> None:
    used = {word for rule in spare_rules() for group in rule.needs for word in group}

    assert used == set(WORDS)


def test_every_rule_is_practice_and_counts_as_carried_what_the_profile_can_say() -> None:
    fields = {"", "fluid", *Equipment.model_fields}

    assert {rule.source for rule in spare_rules()} == {"practice"}
    assert {rule.noted_as for rule in spare_rules()} <= fields
    assert all(rule.reason and rule.us[0].isdigit() and rule.metric[0].isdigit() for rule in spare_rules())


def test_a_diesel_asks_for_two_filters_and_their_wrench_and_gasoline_for_one() -> None:
    gasoline = wanted({"tanks": {"fuel": {"holds": "gasoline"}}})

    assert (wanted()["fuel filter"], wanted()["fuel filter wrench"]) == ("2", "1")
    assert gasoline["fuel filter"] == "1"
    assert "fuel filter wrench" not in gasoline


def test_each_belt_of_the_engine_is_wanted_by_its_own_name() -> None:
    assert {"alternator belt", "fan belt"} <= set(wanted())
    assert "engine belt" in wanted({"engine": {}})


@pytest.mark.parametrize(
    ("coach", "name"),
    [
        ({"brakes": {"service": "air"}}, "tow truck air fitting"),
        ({"equipment": {"wipers": []}}, "wiper blade"),
        ({"tanks": {"blue": {"holds": "exhaust fluid"}}}, "exhaust fluid"),
        ({"tanks": {"gas": {"holds": "propane"}}}, "propane regulator"),
        ({"tanks": {"fresh": {"holds": "fresh water"}}}, "water pump fuse"),
        ({"equipment": {"slide": []}}, "hand crank"),
        ({"equipment": {"brake controller": "true"}}, "brake controller fuse"),
    ],
)
def test_a_thing_is_wanted_only_with_the_equipment_it_is_for(coach: dict[str, Any], name: str) -> None:
    assert name in wanted(coach)
    assert name not in wanted()


def test_only_a_rig_with_duals_asks_for_their_extensions() -> None:
    single = {name: axle | {"fitment": "single"} for name, axle in AXLES.items()}

    assert "dual valve extension" in wanted()
    assert "dual valve extension" not in wanted({"axles": single})


@pytest.mark.parametrize(("family", "asks"), [("light truck", True), ("truck", False)])
def test_plugs_are_not_for_heavy_tires(family: str, asks: bool) -> None:  # noqa: FBT001 - a test's parameter.
    found = wanted(tires={"mine": {"size": "x", "family": family}})

    assert ("tire plug kit" in found, "jack and board" in found) == (asks, asks)


def test_a_towed_car_asks_for_its_own_fuses_and_bulbs() -> None:
    assert {"fuses of the coach", "fuses of the car", "lamp bulbs of the car"} <= set(
        wanted(behind={"car": CAR}, couplings=TOWED)
    )
    assert "fuses" in wanted()


def test_an_entry_counts_by_its_name_before_a_comma_or_by_what_it_is() -> None:
    primary = {"what": "Fuel filter, primary", "quantity": "1"}
    named = {"what": "water separator cartridge", "is": "fuel filter", "quantity": "1"}

    assert stock("fuel filter", primary, named).status == "enough"
    assert stock("fuel filter", {"what": "fuel filters of my neighbor", "quantity": "9"}).status == "missing"


def test_an_entry_for_one_vehicle_does_not_serve_another() -> None:
    behind: dict[str, Any] = {"behind": {"car": CAR}, "couplings": TOWED}
    own, other = {"what": "fuses", "quantity": "1 box"}, {"what": "fuses", "for": "car", "quantity": "1 box"}

    assert stock("fuses of the coach", own, **behind).status == "enough"
    assert stock("fuses of the car", own, **behind).status == "missing"
    assert stock("fuses of the car", own, other, **behind).status == "enough"


def test_what_is_short_is_the_difference() -> None:
    found = stock("fuel filter", {"what": "fuel filter", "quantity": "1"})

    assert (found.status, found.short and found.short.text) == ("few", "1")


def test_volumes_are_compared_in_any_unit() -> None:
    oil = {"what": "engine oil", "quantity": "1 L"}
    found = stock("engine oil", oil)

    # A quart is 0.946353 L (NIST SP 811, appendix B.8): two quarts less a liter are 0.943 quarts.
    assert found.status == "few"
    assert found.short is not None
    assert found.short.number == pytest.approx(2 - 1 / 0.946353, abs=1e-3)
    assert stock("engine oil", oil, oil).status == "enough"
    assert stock("engine oil", {"what": "engine oil", "quantity": "3 bottles"}).status == "uncounted"


def test_what_is_noted_for_topping_up_is_carried() -> None:
    coach = {"fluids": {"engine oil": {"top_up": {"quantity": "2 qt", "place": "box"}}}}

    assert stock("engine oil", coach=coach).status == "enough"
    assert stock("engine oil").status == "missing"


def test_equipment_that_is_noted_with_its_number_is_carried() -> None:
    def devices(words: str) -> Stock:
        return stock("warning devices", coach={"equipment": {"warning devices": [words]}})

    assert (devices("tool bay, 3").status, devices("tool bay, 3").items[0].place) == ("enough", "tool bay")
    assert devices("tool bay, 2").status == "few"
    assert devices("tool bay").status == "uncounted"


def test_what_is_out_of_date_on_the_last_day_does_not_count() -> None:
    kit = {"what": "first-aid kit", "quantity": "1"}

    assert stock("first-aid kit", kit | {"expires": "2026-05-31"}).status == "expired"
    assert stock("first-aid kit", kit | {"expires": "2026-06-01"}).status == "enough"


def test_wants_and_stock_are_figures() -> None:
    ledger = assessed({"what": "fuel filter", "quantity": "1"})

    assert ledger.figure("spares.fuel_filter.wanted").value == 2.0
    assert ledger.figure("spares.fuel_filter.carried").value == 1.0
    assert ledger.figure("spares.fuel_filter.carried").slack == "1 short, 2 usual"
    assert ledger.figure("spares.engine_oil.wanted").value == "2 qt"


def test_an_empty_list_is_one_line() -> None:
    found = assessed().findings

    assert [one.key for one in found] == ["spares.listed"]
    assert found[0].text.startswith("No spares and tools are noted; ")


def test_many_missing_are_counted_by_group_and_few_are_named() -> None:
    everything = [{"what": name, "quantity": "9 gal" if " " in amount else "9", "place": "box"}
                  for name, amount in wanted().items()]  # fmt: skip
    everything = [
        item | ({} if wanted()[item["what"]].endswith(("qt", "gal")) else {"quantity": "9"})
        for item in everything
    ]
    few = [item for item in everything if item["what"] != "fan belt"]

    assert "engine 5" in finding(assessed("wire"), "spares.missing")
    assert finding(assessed(*few), "spares.missing").endswith("1 not noted: fan belt.")
    assert finding(assessed(*everything), "spares.missing") == ""


def test_a_place_and_a_part_number_that_are_not_noted_are_one_line_each() -> None:
    ledger = assessed({"what": "fuel filter", "quantity": "2"}, {"what": "funnel", "place": "box"})

    assert finding(ledger, "spares.place") == "missing: The place is not noted: fuel filter."
    assert finding(ledger, "spares.part_number") == "missing: The part number is not noted: fuel filter."


def test_a_bay_over_its_rating_is_told() -> None:
    coach = {"bays": {"box": {"at": "150 in", "rating": "50 lb"}}}
    jack = {"what": "jack", "place": "box", "weight": "60.5 lb", "since": "2026-01-01"}
    of = profile(coach, spares=[jack, {"what": "rope", "place": "box"}])
    ledger = entered_by(of, ON, assess_spares)

    assert finding(ledger, "spares.coach.box.bay_margin") == (
        "attention: The box of the coach holds 61 lb and is rated 50 lb."
    )
    margin = ledger.figure("spares.coach.box.bay_margin").quantity
    assert margin is not None
    assert margin.to("pound").m == pytest.approx(-10.5)
    assert ledger.figure("spares.coach.box.bay_load").slack == "1 entry without a weight"


def loads(*items: dict[str, str]) -> dict[str, StateLoads]:
    one = profile(spares=list(items), scale_tickets=[TICKET])
    return {state.state.key: state for state in loads_in_states(one.rig, trip_states(one))}


def test_what_was_on_the_scale_adds_nothing_and_what_came_later_all_of_it() -> None:
    """By statics, of 100 lb at 150 in of 200 in: 25 on the front axle, 75 behind; nothing gets lost."""
    jack = {"what": "jack", "place": "box", "weight": "100 lb"}
    before, later = (loads(jack | {"since": day}) for day in ("2026-03-29", "2026-03-30"))

    assert [before[key].combination == before["as_weighed"].combination for key in before] == [True] * 2
    full = later["everything_full"].vehicles["coach"]
    steer, drive, total = full.axles["steer"].load, full.axles["drive"].load, full.total
    assert steer is not None
    assert drive is not None
    assert total is not None
    assert (steer.m, drive.m, total.m) == pytest.approx((10025, 16075, 26100))
    assert later["as_weighed"].vehicles["coach"].total == before["as_weighed"].vehicles["coach"].total


def test_weights_in_two_bays_and_none_are_conserved() -> None:
    items = (
        {"what": "jack", "place": "box", "weight": "100 lb", "since": "2026-05-01"},
        {"what": "oil", "place": "trunk", "weight": "20 lb", "since": "2026-05-01"},
    )
    full = loads(*items)["everything_full"].vehicles["coach"]
    on_axles = [axle.load.m for axle in full.axles.values() if axle.load is not None]

    assert full.total is not None
    assert sum(on_axles) == pytest.approx(full.total.m) == pytest.approx(26000 + 120)


def test_a_weight_without_its_day_is_counted_and_said() -> None:
    jack = {"what": "jack", "place": "box", "weight": "100 lb"}
    total = loads(jack)["everything_full"].vehicles["coach"].total

    assert total is not None
    assert total.m == pytest.approx(26100)
    assert "to be safe: jack." in finding(assessed(jack, scale_tickets=[TICKET]), "spares.weight")


def test_a_weight_in_no_known_vehicle_is_said_to_be_counted_nowhere() -> None:
    lead = {"what": "lead", "place": "drawer", "weight": "9 lb", "since": "2026-05-01"}
    behind: dict[str, Any] = {"behind": {"car": CAR}, "couplings": TOWED}

    assert "counted nowhere" in finding(assessed(lead, **behind), "spares.weight")
    assert finding(assessed(lead | {"in": "coach"}, **behind), "spares.weight") == ""


def test_what_came_later_and_was_not_weighed_is_asked_for() -> None:
    ledger = assessed({"what": "jack", "place": "box", "since": "2026-05-01"}, scale_tickets=[TICKET])

    assert "have no weight: jack." in finding(ledger, "spares.weight")


def test_much_weight_without_a_place_makes_a_ticket_doubtful() -> None:
    lead = {"what": "lead", "place": "drawer", "weight": "301 lb", "since": "2026-05-01"}

    doubts = ticket_doubts(profile(spares=[lead], scale_tickets=[TICKET]), "coach", ON)

    assert Phrase(CARGO_UNPLACED) in doubts


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "sandpiper", "tamarack"])
def test_what_a_demo_carries_was_on_its_scale(name: str) -> None:
    demo = load_profile(PROFILES / name)
    without = demo.rig.model_copy(update={"spares": [], "tools": []})

    with_spares, bare = (
        loads_in_states(rig, trip_states(Profile(name, rig, demo.rig_places, demo.trip)))
        for rig in (demo.rig, without)
    )

    assert [state.combination for state in with_spares] == [state.combination for state in bare]
