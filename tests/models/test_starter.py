"""The starters: each asks for what its kind has, tells each needed blank, and is read once filled."""

import re
from datetime import date
from pathlib import Path

import pytest

from binder.assessment.route.kinds import EMPTY_PLAN
from binder.build import (
    KINDS,
    BuildOptions,
    printable_cards,
    read_and_assess,
    starter_files,
    write_starter,
)
from binder.cli import new
from binder.models.load import load_profile
from binder.problems import InputProblems

_LACKS = {
    "motorhome": ("couplings", "trailer", "car:", "brake controller"),
    "motorhome-with-car": ("trailer", "brake controller", "ball:"),
    "pickup-with-trailer": ("coach", "car:", "tow bar", "exhaust fluid", "dual:  "),
    "fifth-wheel": ("coach", "car:", "tow bar", "receiver"),
    "camper": ("coach", "car:", "trailer", "breakaway", "brake controller"),
}


def needed_of(folder: Path) -> list[str]:
    with pytest.raises(InputProblems) as raised:
        load_profile(folder)
    assert all(
        problem.text.endswith("is needed and not there (or empty)") for problem in raised.value.problems
    )
    return [problem.field for problem in raised.value.problems if problem.file.endswith("rig.yaml")]


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_needs_nothing_of_the_rig_but_where_its_axles_stand(kind: str, tmp_path: Path) -> None:
    write_starter(tmp_path / "rig", kind)

    needed = needed_of(tmp_path / "rig")

    assert needed
    assert all(re.fullmatch(r"vehicles\.\w+\.axles\.\w+\.at", field) for field in needed)


def started(folder: Path, kind: str) -> Path:
    """A starter whose axles are placed, its trip as it was written."""
    write_starter(folder, kind)
    rig = folder / "rig.yaml"
    rig.write_text(re.sub(r"(?m)^( +at:) +# \* ", r"\1 120 in # ", rig.read_text("utf-8")), "utf-8")
    return folder


@pytest.mark.parametrize("kind", KINDS)
def test_a_rig_is_printed_before_its_first_trip_is_filled_in_and_that_is_told(
    kind: str, tmp_path: Path
) -> None:
    assessment = read_and_assess(started(tmp_path, kind), BuildOptions(date(2026, 6, 1)))

    assert assessment.profile.trip is None
    assert [found.facts for found in assessment.findings if found.kind is EMPTY_PLAN] == [
        {"file": "trips/first_trip.yaml"}
    ]
    assert printable_cards(assessment)


def test_a_plan_that_was_begun_or_asked_for_is_never_passed_over(tmp_path: Path) -> None:
    folder = started(tmp_path, "motorhome")
    trip = folder / "trips" / "first_trip.yaml"
    with pytest.raises(InputProblems, match=r"first_trip\.yaml:5:1: error: name"):
        load_profile(folder, "first_trip")
    trip.write_text(trip.read_text("utf-8").replace("      place:", "      place: Bend", 1), "utf-8")
    with pytest.raises(InputProblems, match=r"first_trip\.yaml:5:1: error: name"):
        load_profile(folder)


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_is_read_once_its_needed_blanks_are_filled(kind: str, tmp_path: Path) -> None:
    trip = started(tmp_path, kind) / "trips" / "first_trip.yaml"
    answers = {"name:": "Mine", "leave:": "2026-06-01 09:00", "place:": "Bend"}
    filled = trip.read_text("utf-8")
    for name, answer in answers.items():
        filled = re.sub(rf"(?m)^((?: |-)*{name}) *(#.*)?$", rf"\1 {answer}", filled)
    trip.write_text(filled, "utf-8")

    profile = load_profile(tmp_path)

    assert profile.rig.tires
    assert profile.trip is not None


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_names_nothing_its_kind_has_not(kind: str) -> None:
    text = re.sub(r"#.*", "", starter_files(kind)["rig.yaml"])

    assert [word for word in _LACKS[kind] if word in text] == []


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_states_nothing_that_could_be_taken_for_measured(kind: str) -> None:
    quantity = re.compile(r"^\s*[^#]*?:\s*(-?[0-9][^,}#]*?)\s*(#.*)?$", re.MULTILINE)

    stated = {
        match[1]
        for text in starter_files(kind).values()
        if '$schema"' not in text
        for match in quantity.finditer(text)
    }

    assert stated <= {"0 in", "0 lb", "6 in"}


def test_new_offers_each_kind_there_is() -> None:
    option = next(one for one in new.params if one.name == "kind")

    assert tuple(option.type.choices) == KINDS  # type: ignore[attr-defined] # It is a choice.
