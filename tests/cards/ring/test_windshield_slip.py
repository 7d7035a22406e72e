from datetime import date
from typing import Any

import pytest

from binder.assessment.body.kinds import OVERALL_HEIGHT, WIDTH_WITH_MIRRORS
from binder.assessment.coupling.kinds import COMBINATION_LENGTH
from binder.assessment.ledger import OF_THOSE_KNOWN, Fact, Figure, FigureKind, Phrase
from binder.assessment.road.kinds import MARGIN_OF_TRIP
from binder.assessment.weights.kinds import COMBINATION
from binder.cards.blocks import Big, Card, Line, Step
from binder.cards.ring.fixed_cards import windshield_slip
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from binder.quantities import registry
from tests.by_key import entered_by

FIGURES = {
    OVERALL_HEIGHT: (152.3, "inch"),
    WIDTH_WITH_MIRRORS: (120, "inch"),
    COMBINATION_LENGTH: (698, "inch"),
    COMBINATION.heaviest: (33111.4, "pound"),
    MARGIN_OF_TRIP: (17.7, "inch"),
}
FACTS: dict[str, Fact] = {"moment": "departure", "margin": registry.Quantity(6, "inch")}
BRIDGE = Phrase("", {"what": "the mill bridge"})


def slip(figures: dict[FigureKind, tuple[float, str]], service: str = "air", case: str = "") -> Card:
    coach: dict[str, Any] = {"kind": "motorhome", "axles": {}, "brakes": {"service": service}}
    rig = {"name": "x", "units": "us", "paper": "letter", "vehicles": {"coach": coach}}
    entered = (
        Figure(kind.of(), registry.Quantity(value, unit), case=case, facts=FACTS, slack=BRIDGE)
        for kind, (value, unit) in figures.items()
    )
    profile = Profile("x", Rig.model_validate(rig), Located("rig.yaml", ""))
    return windshield_slip(entered_by(profile, date(2026, 6, 1), before=tuple(entered)).assessment)


def bigs(card: Card) -> dict[str, Big]:
    return {block.name: block for block in card.sides[0].blocks if isinstance(block, Big)}


def spare(card: Card) -> tuple[str, str]:
    (line,) = [block for block in card.sides[0].blocks if isinstance(block, Line)]
    return line.answer, line.detail


def test_sizes_round_up_and_the_room_rounds_down() -> None:
    found = bigs(slip(FIGURES))

    assert found["Height"].value == "12 ft 9 in"
    assert found["Height"].detail == "3.87 m"
    assert spare(slip(FIGURES)) == ("1 ft 5 in", "the mill bridge")
    assert found["Length"].value == "58 ft 2 in"
    assert found["Weight, all loaded"].value == "33,112 lb"
    assert min(big.points for big in found.values()) >= 24


def test_the_room_of_those_known_says_so() -> None:
    card = slip({MARGIN_OF_TRIP: (17.7, "inch")}, case=OF_THOSE_KNOWN)

    assert spare(card) == ("1 ft 5 in", "the mill bridge, the lowest of those known")


def test_a_trip_without_a_known_bridge_says_that_the_room_is_not_known() -> None:
    coach: dict[str, Any] = {"kind": "motorhome", "axles": {}}
    rig = {"name": "x", "units": "us", "paper": "letter", "vehicles": {"coach": coach}}
    profile = Profile("x", Rig.model_validate(rig), Located("rig.yaml", ""))
    none = Figure(MARGIN_OF_TRIP.of(), None, case="none")
    card = windshield_slip(entered_by(profile, date(2026, 6, 1), before=(none,)).assessment)

    assert spare(card) == ("______", "no bridge of the plan is posted, or the height is not known")


def test_what_is_not_known_is_a_blank() -> None:
    found = bigs(slip({}))

    assert all("______" in big.value for big in found.values())
    assert slip({}).figures == ()


def test_a_rig_that_is_too_high_is_told() -> None:
    card = slip(FIGURES | {MARGIN_OF_TRIP: (-1, "inch")})

    assert spare(card) == ("TOO HIGH: card 5", "the mill bridge")


@pytest.mark.parametrize(("service", "word"), [("air", "yellow knob"), ("hydraulic", "PARKING BRAKE")])
def test_the_co_driver_is_told_the_parking_brake_this_rig_has(service: str, word: str) -> None:
    steps = [block.text for block in slip(FIGURES, service).sides[0].blocks if isinstance(block, Step)]

    assert sum(word in text for text in steps) == 1


def test_the_slip_says_when_it_becomes_wrong() -> None:
    assert slip(FIGURES).wrong_as_soon_as.startswith(
        "the rig stands over 12 ft 9 in, it weighs over 33,112 lb"
    )
