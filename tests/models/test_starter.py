"""The starters: each asks for what its kind has, prints as written, and is read once filled."""

import re
import subprocess
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from binder.assessment.body.kinds import OVERALL_HEIGHT
from binder.assessment.entries.contradictions import refuse_contradictions
from binder.assessment.tires.kinds import SET_POINT
from binder.cards.order import binder_document
from binder.cli import main, new
from binder.models.load import load_profile
from binder.printing.build import BuildOptions, printable_cards, read_and_assess
from binder.printing.starter import KINDS, starter_files, write_starter
from binder.problems import InputProblems
from binder.rendering.html import ring_html
from binder.rendering.pdf import render
from tests.rendering.whole_binder import binder_html

_LACKS = {
    "motorhome": ("couplings", "combination_weight", "trailer", "car:", "brake controller"),
    "motorhome-with-car": ("trailer", "brake controller", "ball:"),
    "pickup-with-trailer": ("coach", "car:", "tow bar", "exhaust fluid"),
    "fifth-wheel": ("coach", "car:", "tow bar", "receiver"),
    "camper": ("coach", "car:", "trailer", "breakaway", "brake controller"),
}


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_as_written_is_checked_and_told_what_it_lacks_with_the_path_to_type(
    kind: str, tmp_path: Path
) -> None:
    write_starter(tmp_path / "rig", kind)

    told = CliRunner().invoke(main, ["check", str(tmp_path / "rig")])

    assert told.exit_code == 3, told.output
    assert "DO NOT DRIVE: none" in told.output
    for path in (r"axles\.\w+\.at", r"axles\.\w+\.label_pressure", r"size\.overall_height"):
        assert re.search(rf"(?m)^ +rig\.yaml vehicles\.\w+\.{path}$", told.output)
    assert "trip plan, name, days.leave, days.from.place, days.legs.to.place" in told.output


def test_what_is_private_or_a_record_stays_out_of_version_control(tmp_path: Path) -> None:
    folder = tmp_path / "rig"
    write_starter(folder, "motorhome")
    for name in ("private.yaml", "log.sqlite", "log.sqlite-wal"):
        (folder / name).write_text("")
    subprocess.run(["git", "init", "-q", str(folder)], check=True)  # noqa: S607 - whichever git is here.
    told = subprocess.run(
        ["git", "-C", str(folder), "status", "--porcelain", "-uall"],  # noqa: S607 - as above.
        check=True, capture_output=True, text=True,
    )  # fmt: skip

    assert sorted(line.removeprefix("?? ") for line in told.stdout.splitlines()) == [
        ".gitignore", "cards.schema.json", "rig.schema.json", "rig.yaml", "signs.svg",
        "trip.schema.json", "trips/first_trip.yaml",
    ]  # fmt: skip


def started(folder: Path, kind: str) -> Path:
    """A starter whose axles are placed, its trip as it was written."""
    write_starter(folder, kind)
    rig = folder / "rig.yaml"
    rig.write_text(re.sub(r"(?m)^( +at:) +# \* ", r"\1 120 in # ", rig.read_text("utf-8")), "utf-8")
    return folder


def test_a_plan_that_was_begun_or_asked_for_is_never_passed_over(tmp_path: Path) -> None:
    folder = started(tmp_path, "motorhome")
    trip = folder / "trips" / "first_trip.yaml"
    with pytest.raises(InputProblems, match=r"first_trip\.yaml:5:1: error: name"):
        load_profile(folder, "first_trip")
    trip.write_text(trip.read_text("utf-8").replace("      place:", "      place: Bend", 1), "utf-8")
    with pytest.raises(InputProblems, match=r"first_trip\.yaml:5:1: error: name"):
        load_profile(folder)


@pytest.mark.parametrize("kind", KINDS)
def test_the_cards_of_a_starter_as_written_are_printed_with_blanks(kind: str, tmp_path: Path) -> None:
    write_starter(tmp_path / "rig", kind)

    assessment = read_and_assess(tmp_path / "rig", BuildOptions(date(2026, 6, 1)))
    cards = printable_cards(assessment)
    document = binder_html(binder_document(assessment, cards), assessment.rig.paper)
    sides = sum(len(card.sides) for card in cards)
    pdf = render(ring_html(cards, assessment.rig.paper), sides)

    assert pdf.page_count == sides > len(cards)
    assert "____" in document


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_is_read_once_its_plan_has_a_name_a_departure_and_places(kind: str, tmp_path: Path) -> None:
    write_starter(tmp_path, kind)
    trip = tmp_path / "trips" / "first_trip.yaml"
    answers = {"name:": "Mine", "leave:": "2026-06-01 09:00", "place:": "Bend"}
    filled = trip.read_text("utf-8")
    for name, answer in answers.items():
        filled = re.sub(rf"(?m)^((?: |-)*{name}) *(#.*)?$", rf"\1 {answer}", filled)
    before, levels, after = re.split("(?ms)^(levels_at_start:.*?)^(?=use:)", filled)
    trip.write_text(before + re.sub(r": (?=[,}])", ": 1/2", levels) + after, "utf-8")

    profile = load_profile(tmp_path)
    refuse_contradictions(profile)  # Each tank of the plan is one of that vehicle.

    assert profile.rig.tires
    assert profile.trip is not None
    assert sum(map(len, profile.trip.levels_at_start.values())) >= 4


def test_a_plan_that_is_begun_or_asked_for_is_refused_for_what_it_lacks(tmp_path: Path) -> None:
    write_starter(tmp_path, "motorhome")
    trip = tmp_path / "trips" / "first_trip.yaml"

    with pytest.raises(InputProblems) as asked_for:
        load_profile(tmp_path, "first_trip")
    trip.write_text(trip.read_text("utf-8").replace("\nname:", "\nname: Mine", 1), "utf-8")
    with pytest.raises(InputProblems) as begun:
        load_profile(tmp_path)

    lacking = [problem.field for problem in begun.value.problems]
    assert lacking == ["days[1].leave", "days[1].from.place", "days[1].legs[1].to.place"]
    assert [problem.field for problem in asked_for.value.problems] == ["name", *lacking]


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_names_nothing_its_kind_has_not(kind: str) -> None:
    text = re.sub(r"#.*", "", starter_files(kind)["rig.yaml"])

    assert [word for word in _LACKS[kind] if word in text] == []


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_states_nothing_that_could_be_taken_for_measured(kind: str) -> None:
    quantity = re.compile(r"^\s*[^#]*?:\s*(-?[0-9][^,}#]*?)\s*(#.*)?$", re.MULTILINE)

    stated = {
        match[1]
        for name, text in starter_files(kind).items()
        if name.endswith(".yaml")
        for match in quantity.finditer(text)
    }

    assert stated <= {"0 in", "0 lb", "6 in"}


def test_new_writes_the_picture_of_the_signs_that_readme_shows(root: Path, tmp_path: Path) -> None:
    written = write_starter(tmp_path / "rig", "motorhome")
    picture = (tmp_path / "rig" / "signs.svg").read_text("utf-8")

    assert str(tmp_path / "rig" / "signs.svg") in written
    assert "](templates/starter/signs.svg)" in (root / "README.md").read_text("utf-8")
    for told in ("at: 190 in", "at: -58 in", "at_behind: -40 in", "left: 20 in", "left: -20 in"):
        assert f">{told}</text>" in picture


def test_new_offers_each_kind_there_is() -> None:
    option = next(one for one in new.params if one.name == "kind")

    assert tuple(option.type.choices) == KINDS  # type: ignore[attr-defined] # It is a choice.


STARRED = {
    "size": "LT235/85R16",
    "load_range": "E",
    "maximum_load_single": "3042 lb",
    "maximum_load_dual": "2778 lb",
    "maximum_pressure": "80 psi",
    "overall_height": "11 ft 2 in",
    "at": "176 in",
    "rating": "4600 lb",
    "label_pressure": "65 psi",
    "label_tires": "LT235/85R16 E",
}
"""What an owner of an invented van reads off two labels and a tire."""


def test_the_lines_with_a_star_give_real_pressures_and_a_height(tmp_path: Path) -> None:
    write_starter(tmp_path / "rig", "motorhome")
    file = tmp_path / "rig" / "rig.yaml"
    typed = []

    def filled(line: str) -> str:
        field, _, told = line.partition(":")
        if told.strip().startswith("# *") and field.strip() in STARRED:
            typed.append(field.strip())
            return f"{field}: {STARRED[field.strip()]}"
        return line

    file.write_text("\n".join(map(filled, file.read_text("utf-8").splitlines())), "utf-8")
    words = {
        figure.key.kind: figure
        for figure in read_and_assess(tmp_path / "rig", BuildOptions(date(2026, 6, 1))).ledger.entered
    }

    assert len(typed) <= 18
    assert words[SET_POINT].quantity is not None
    assert words[OVERALL_HEIGHT].quantity is not None


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_names_a_tire_by_an_axle_that_it_has(kind: str) -> None:
    text = starter_files(kind)["rig.yaml"]
    axles = re.findall(r"(?m)^ {6}(\w+):\n {8}at:", text)
    named = re.findall(r'one line a tire: "(\w+) left:', text)

    assert len(named) == text.count("mounted: {}") > 0
    assert set(named) <= set(axles)
