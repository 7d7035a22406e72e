"""Angles of overhangs, and what a wrecker's driver or a fire crew would ask in vain."""

from math import degrees
from typing import Any

import pytest

from binder.assessment.body import kinds
from binder.cards.rig_words import words_of
from tests.cards.binder_rigs import coach, rig


def known(**changed: Any) -> dict[str, Any]:
    """A coach of which a wrecker's driver knows all."""
    size = {"front_overhang": "88 in", "front_clearance": "15 in", "rear_overhang": "120 in"}
    has = {"jacking points": ["beam"], "lift points": ["axle"], "tow eyes": ["bumper"], "air port": "nose"}
    entry = coach(
        size=size | {"rear_clearance": "18 in"},
        equipment=has | {"exits": [], "extinguishers": []},
        brakes={"service": "air"},
        transmission={"tow_with_wheels_down": "no"},
    )
    return entry | changed


def lacking(entry: dict[str, Any]) -> list[str]:
    assessment = rig(vehicles={"coach": entry})
    found = [one for one in assessment.findings if one.kind is kinds.FOR_A_WRECKER]
    return [words_of(assessment).found(one).text for one in found]


def test_each_free_end_has_its_angle() -> None:
    assessment = rig(vehicles={"coach": known()})

    angles = {end: assessment.quantity(kinds.OVERHANG_ANGLE.of("coach", end)) for end in ("front", "rear")}
    assert {end: int(degrees(float(angle.m))) for end, angle in angles.items() if angle is not None} == {
        "front": 9,
        "rear": 8,
    }


def test_an_end_that_was_not_measured_has_none() -> None:
    assessment = rig(vehicles={"coach": known(size={"front_overhang": "88 in"})})

    assert assessment.quantity(kinds.OVERHANG_ANGLE.of("coach", "front")) is None


def test_nothing_is_missed_of_a_coach_that_is_known() -> None:
    assert lacking(known()) == []


@pytest.mark.parametrize(
    ("changed", "asked"),
    [
        ({"transmission": None}, "its maker's rule on towing"),
        ({"equipment": {}}, "jacking points and lift points and tow eyes and air fitting"),
        ({"size": {}}, "clearances under its overhangs"),
    ],
)
def test_what_a_wrecker_would_ask_in_vain_is_missing(changed: dict[str, Any], asked: str) -> None:
    assert lacking(known(**changed)) == [f"The coach: a wrecker's driver asks for its {asked}."]


def test_brakes_without_air_need_no_air_fitting() -> None:
    hydraulic = known(brakes={"service": "hydraulic"}, equipment={})

    assert "air" not in lacking(hydraulic)[0]


def test_exits_that_nobody_opened_and_extinguishers_without_type_are_missing() -> None:
    entry = known(
        equipment={"exits": ["door", {"place": "window", "opens": "push"}], "extinguishers": ["door"]}
    )
    assessment = rig(vehicles={"coach": entry})
    (found,) = (one for one in assessment.findings if one.kind is kinds.FOR_A_FIRE)

    assert words_of(assessment).found(found).text == (
        "The coach: not noted: type of the extinguisher, door, way to open the exit, door."
    )
