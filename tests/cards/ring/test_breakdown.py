from dataclasses import replace

import pytest

from binder.assessment.body.kinds import DEVICE_FACTS, PACES_FROM_REAR
from binder.assessment.coupling.kinds import COMBINATION_LENGTH
from binder.assessment.ledger import Fact, Figure
from binder.assessment.weights.kinds import COMBINATION
from binder.cards.blocks import Blank, Box, Card, Picture, Step
from binder.cards.drawings import WarningDevices
from binder.cards.procedures.facts import fact
from binder.cards.ring.fixed_cards import breakdown
from binder.models.trip import Private, Trip
from binder.quantities import registry
from tests.cards.binder_rigs import demo
from tests.cards.procedure_rigs import answers, assessed, coach, rig, trailer


def figures() -> tuple[Figure, ...]:
    pace: dict[str, Fact] = {**DEVICE_FACTS, "pace": registry.Quantity(30, "inch")}
    weight, moment = registry.Quantity(32287.4, "pound"), {"moment": "departure"}
    return (
        Figure(COMBINATION_LENGTH.of(), registry.Quantity(697.2, "inch")),
        Figure(COMBINATION.heaviest.of(), weight, case="known", facts=moment),
        Figure(PACES_FROM_REAR.of("two_way", "ahead"), 64.0, facts=pace),
    )


def roads(card: Card) -> dict[str, tuple[str, ...]]:
    """Steps on each kind of road, from the front of the rig to the rear."""
    (view,) = (block.view for block in card.sides[0].blocks if isinstance(block, Picture))
    assert isinstance(view, WarningDevices)
    return {road.title: tuple(device.paces for device in road.devices) for road in view.roads}


def count_from(card: Card) -> str:
    (view,) = (block.view for block in card.sides[0].blocks if isinstance(block, Picture))
    assert isinstance(view, WarningDevices)
    return view.roads[0].count_from


def test_people_come_before_devices() -> None:
    blocks = breakdown(assessed()).sides[0].blocks

    assert [block.text if isinstance(block, Step) else block.kind for block in blocks] == [
        "Pull as far off as firm ground goes.",
        "Flashers on.",
        "Brakes smoking? Foot on. Chock a COOL axle.",
        "Parking brake on.",
        "box",
        "Chocks: ______.",
        "Everyone out, away from traffic.",
        "Everyone behind the rail.",
        "No rail? Far off the road, never ahead of the rig.",
        "Fuel or propane leaking? No flame, no switch.",
        "Devices: left. Face traffic.",
        "No safe way to walk? Flashers only.",
        "First one: traffic side. Others: in line with it.",
        "picture",
        "Hill, curve in 500 ft? That side: 40 to 200 steps.",
    ]


def test_the_vest_is_first_with_the_gravest_word() -> None:
    box = next(block for block in breakdown(assessed()).sides[0].blocks if isinstance(block, Box))

    assert (box.word, box.title) == ("DANGER", "Before the door opens, vests: left.")


def test_steps_are_those_of_the_federal_distances() -> None:
    """49 CFR 392.22(b): 10, 100 and 100 ft; 10, 100 and 200 ft; each step 2 ft 6 in."""
    assert roads(breakdown(assessed(figures=figures()))) == {
        "Two-way": ("64 ahead", "4", "40"),
        "One-way": ("4", "40", "80"),
    }


def test_without_the_length_the_device_ahead_is_counted_from_the_front() -> None:
    assert roads(breakdown(assessed()))["Two-way"] == ("40 past front", "4", "40")


def test_a_rig_without_devices_or_vests_is_not_told_to_use_them() -> None:
    front = breakdown(assessed(rig({"coach": coach(("awning",))}))).sides[0].blocks

    assert not [block for block in front if isinstance(block, Picture) or "Vest" in repr(block)]


def test_what_to_say_is_read_from_the_figures() -> None:
    card = breakdown(assessed(figures=figures()))

    assert answers(card) == {
        "Emergency": "911 (Europe 112)",
        "Height": "12 ft 8 in",
        "Length, coupled": "58 ft 2 in",
        "Weight": "32,288 lb",
        "Fuel, brakes": "DIESEL, AIR",
        "Tires, coach": "295/75R22.5",
        "Tires, car": "______",
        "Towing": "CAR, STILL HITCHED",
        "Propane aboard": "30 gal",
    }
    assert card.figures == ("rig.combination_length", "weights.combination.heaviest.load")
    assert card.wrong_as_soon_as == (
        "higher than 12 ft 8 in, longer than 58 ft 2 in, heavier than 32,288 lb, tires, propane, the car or "
        "a number to call changed."
    )


def test_what_is_not_known_is_a_blank_and_never_a_guess() -> None:
    found = answers(breakdown(assessed(rig({"coach": coach(tanks={}, brakes=None, size={})}))))

    assert found["Height"] == "______ ft ______ in"
    assert found["Length"] == "______ ft ______ in"
    assert found["Weight"] == "______ lb"
    assert found["Fuel, brakes"] == "______, ______"
    assert not {"Towing", "Propane aboard"} & set(found)


def test_contacts_are_ruled_lines_unless_they_are_given() -> None:
    private = Private.model_validate(
        {"contacts": [{"who": "Tow service", "phone": "555-0100"}, {"who": "Nobody"}]}
    )

    blank, given = breakdown(assessed()), breakdown(assessed(private=private))

    ruled = [block.name for block in blank.sides[1].blocks if isinstance(block, Blank)]
    assert ruled[:3] == ["Roadside, towing", "Tire service", "Who to tell"]
    assert answers(given)["Tow service"] == "555-0100"
    assert "Nobody" not in answers(given)


def test_a_long_name_does_not_break_the_line_of_the_devices() -> None:
    held = rig({"coach": coach(), "travel trailer": trailer()}, "ball")

    assert count_from(breakdown(assessed(held))) == "steps from the very rear"


def test_propane_aboard_is_what_a_full_tank_holds() -> None:
    """29 CFR 1910.110: a tank is filled to 80 %; the profile gives that as usable."""
    gas = {"propane": {"holds": "propane", "capacity": "67 L", "usable": "53.5 L"}}
    held = rig({"coach": coach(tanks=gas)}, units="metric")

    assert answers(breakdown(assessed(held)))["Propane aboard"] == "54 L"


def test_where_vests_and_devices_lie_is_said_where_they_are_needed() -> None:
    blocks = breakdown(demo("larkspur")).sides[0].blocks
    said = [block.title if isinstance(block, Box) else getattr(block, "text", "") for block in blocks]

    assert "Before the door opens, vests: entry door, 2." in said
    assert "Devices: tool bay, 3. Face traffic." in said


@pytest.mark.parametrize(
    ("zones", "number"),
    [
        (("America/Los_Angeles", "America/Vancouver"), "911"),
        (("Europe/Paris", "Europe/Berlin"), "112"),
        (("America/Denver", "Asia/Tokyo"), "911 / ______"),
    ],
)
def test_the_emergency_number_is_that_of_the_countries_of_the_trip(
    zones: tuple[str, str], number: str
) -> None:
    start, end = ({"place": "a place", "time_zone": zone} for zone in zones)
    day = {"leave": "2026-06-01 09:00", "from": start, "legs": [{"to": end}]}
    bare = assessed()
    trip = Trip.model_validate({"name": "west", "days": [day]})
    planned = bare._replace(profile=replace(bare.profile, trip=trip))

    assert fact("emergency call", planned) == number
