"""Each thing that must not drive: what `check` says and how it exits, the words on its card, the cover.

Every case is a demo rig with one small change, as a person would make it.
"""

import shutil
from dataclasses import dataclass, fields, is_dataclass
from datetime import date
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner, Result

from binder import cli
from binder.assessment.assess import assess
from binder.cards.order import binder_document
from binder.cards.ring.order import ring
from binder.models.load import load_profile
from tests.demos import PROFILES

ON = date(2026, 6, 1)
BRIDGE = "bridge at the north end of Ketchum, posted: "
Change = tuple[str, str]


@dataclass(frozen=True)
class Case:
    """One change to the files of a demo rig, and what it must lead to.

    ``told``: the finding; ``helps``: what helps; ``card`` and ``words``: where it stands on paper too.
    """

    name: str
    told: str
    helps: str
    card: str
    words: tuple[str, ...]
    rig: tuple[Change, ...] = ()
    trip: tuple[Change, ...] = ()
    demo: str = "larkspur"


LESS = "Take weight off this end or axle, carry less water, or fit tires and wheels rated for it."
CASES = [
    Case(
        "axle over its rating",
        "Coach, drive: 109 lb over its gross axle weight rating (day 3, leaving Twin Falls, Idaho).",
        "Take weight off, carry less water, or move it to another axle with margin.",
        "tires",
        (
            "109 lb over its gross axle weight rating",
            "Drive, pairs: do not drive. Take weight",
        ),
        rig=(
            ("rating: 19000 lb", "rating: 17100 lb"),
            ("gross_vehicle_weight_rating: 30500 lb", "gross_vehicle_weight_rating: 29100 lb"),
            ("unloaded_vehicle_weight: 25370 lb", "unloaded_vehicle_weight: 23970 lb"),
        ),
    ),
    Case(
        "vehicle over its rating",
        "Coach, total: 50 lb over its gross vehicle weight rating (departure).",
        "Take weight off, carry less water, or move it to another axle with margin.",
        "weights",
        ("50 lb OVER",),
        rig=(("gross_vehicle_weight_rating: 12500 lb", "gross_vehicle_weight_rating: 12400 lb"),),
        demo="kestrel",
    ),
    Case(
        "wheel end over its tires",
        "Coach, steer: left end is 169 lb a tire over the limit of its tire (everything full).",
        LESS,
        "tires",
        (
            "left end is 169 lb a tire over the limit of its tire",
            "NONE",
            (
                "Steer: do not drive. Take weight off this end or axle, carry less water,"
                " or fit tires and wheels rated for it."
            ),
        ),
        rig=(
            (
                "steer: {left: 5480 lb, right: 5240 lb, axle: 10720 lb}",
                "steer: {left: 6080 lb, right: 4640 lb, axle: 10720 lb}",
            ),
        ),
    ),
    Case(
        "wheel end over its wheel",
        "Coach, steer: left end is 144 lb a tire over the limit of its wheel (everything full).",
        LESS,
        "tires",
        ("left end is 144 lb a tire over the limit of its wheel", "NONE"),
        rig=(("    maximum_load: 7400 lb", "    maximum_load: 5600 lb"),),
    ),
    Case(
        "coupling over its limit",
        "Coach to car: 60 lb over what the tow bar may tow.",
        "Tow less, or have the part replaced by one rated for it.",
        "coupling",
        ("DO NOT TOW: 60 lb over what the tow bar may tow.",),
        rig=(("tow bar: 8000 lb", "tow bar: 4000 lb"),),
    ),
    Case(
        "combination over its rating",
        "Combination: 117 lb over its gross combination weight rating (day 3, leaving Twin Falls, Idaho).",
        "Take weight off, carry less water, or move it to another axle with margin.",
        "coupling",
        ("DO NOT TOW: 117 lb over its gross combination weight rating",),
        rig=(("rating: 41000 lb", "rating: 32200 lb"),),
    ),
    Case(
        "towed vehicle without a brake",
        "The car has no brake while it is towed.",
        "Fit a supplemental brake; local law differs.",
        "coupling",
        ("DO NOT TOW: the car has no brake while it is towed.",),
        rig=(("supplemental_brake: true", "supplemental_brake: false"),),
    ),
    Case(
        "towed vehicle that nothing brakes when it comes loose",
        "No breakaway switch brakes the car when it comes loose.",
        "Fit one; it must hold 15 minutes.",
        "coupling",
        ("DO NOT TOW: no breakaway switch brakes the car when it comes loose.",),
        rig=(("breakaway: true", "breakaway: false"),),
    ),
    Case(
        "cables under what they hold",
        "The safety cables of the car: rated 4,000 lb each, under its loaded weight of 4,060 lb.",
        "Fit cables that each hold all of it.",
        "coupling",
        ("DO NOT TOW: safety cables of the car rated 4,000 lb each, under its loaded weight of 4,060 lb.",),
        rig=(("safety cables: 10000 lb", "safety cables: 4000 lb"),),
    ),
    Case(
        "no legal pressure",
        "Coach, steer: no legal pressure, the floor is over what the wheel may hold.",
        "Have tires, wheels and valves matched to the label by a tire service.",
        "tires",
        (
            "no legal pressure, the floor is over what the wheel may hold",
            "NONE",
            "Steer: do not drive. Have tires",
        ),
        rig=(("    maximum_pressure: 120 psi", "    maximum_pressure: 95 psi"),),
    ),
    Case(
        "low bridge",
        f"Day 3: {BRIDGE.removesuffix(': ')} 13 ft 1 in: this rig is 5 in under it; 6 in under is wanted.",
        "Take another road, or measure the height again as it stands and correct the profile.",
        "day_sheet",
        ("5 in under bridge at the north end of Ketchum",),
        trip=((f"{BRIDGE}14 ft 2 in", f"{BRIDGE}13 ft 1 in"),),
    ),
    Case(
        "tread under its floor",
        "Coach, steer left: tread 3/32 in is under 4/32 in.",
        "Replace it.",
        "tires",
        ("tread 3/32 in is under 4/32 in", "Steer: do not drive. Replace it."),
        rig=(
            (
                "steer left:        {date_code: 1423, tread: 13/32 in",
                "steer left:        {date_code: 1423, tread: 3/32 in",
            ),
        ),
    ),
    Case(
        "tire past its age",
        "Coach, steer left: 11.2 years old, past its age of 7.",
        "Replace it.",
        "tires",
        ("11.2 years old, past its age of 7",),
        rig=(("steer left:        {date_code: 1423", "steer left:        {date_code: 1415"),),
    ),
    Case(
        "pair that does not match",
        "Coach, drive: the left pair does not match: circumference.",
        "Have the pair matched.",
        "tires",
        ("the left pair does not match: circumference",),
        rig=(
            (
                "drive left inner:  {date_code: 4622, tread: 13/32 in, circumference: 125.5 in",
                "drive left inner:  {date_code: 4622, tread: 13/32 in, circumference: 126.25 in",
            ),
        ),
    ),
]


@pytest.fixture(autouse=True)
def a_day_of_the_demo(monkeypatch: pytest.MonkeyPatch) -> None:
    """A command without --date takes today; a test must not depend on it."""
    effective = cli._effective
    monkeypatch.setattr(cli, "_effective", lambda on: ON if on is None else effective(on))


def changed(case: Case, folder: Path) -> Path:
    rig = folder / case.demo
    shutil.copytree(PROFILES / case.demo, rig)
    plan = next((rig / "trips").glob("*.yaml"))
    for file, changes in ((rig / "rig.yaml", case.rig), (plan, case.trip)):
        text = file.read_text("utf-8")
        for old, new in changes:
            assert text.count(old) == 1, old
            text = text.replace(old, new)
        file.write_text(text, "utf-8")
    return rig


def strings(value: object) -> list[str]:
    if isinstance(value, str):
        return [value]
    if isinstance(value, tuple):
        return [text for item in value for text in strings(item)]
    if is_dataclass(value):
        return [text for field in fields(value) for text in strings(getattr(value, field.name))]
    return []


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(cli.main, [str(word) for word in words])


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_it_is_told_by_check_on_its_card_and_on_the_cover(case: Case, tmp_path: Path) -> None:
    rig = changed(case, tmp_path)
    checked = run("check", rig)
    assessment = assess(load_profile(rig), ON)
    cards = ring(assessment)
    document = binder_document(assessment, cards)
    said = [text for part in document.parts if part.name == case.card for text in strings(part)]

    assert checked.exit_code == 1
    assert checked.output.startswith(f"DO NOT DRIVE: 1\n  {case.told}\n      {case.helps}\nNOT CLEARED: ")
    assert document.do_not_drive == (f"{case.told} {case.helps}",)
    for words in case.words:
        assert any(words in text for text in said), words
    assert next(card for card in cards if card.name == "leaving").sides[0].use.startswith("DO NOT DRIVE")


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "tamarack", "sandpiper"])
def test_a_sound_rig_is_not_stopped_by_a_card(name: str) -> None:
    assessment = assess(load_profile(PROFILES / name), ON)
    said = [text for card in ring(assessment) for text in strings(card)]

    assert not [text for text in said if "DO NOT DRIVE" in text or "DO NOT TOW" in text]


def test_several_at_once_still_fit_on_paper(tmp_path: Path) -> None:
    """One printing, with the cards that have the most to say: tires, coupling, leaving."""
    names = {
        "wheel end over its tires",
        "coupling over its limit",
        "towed vehicle without a brake",
        "pair that does not match",
    }
    grave = [case for case in CASES if case.name in names]
    changes = tuple(change for case in grave for change in case.rig)
    rig, out = changed(Case("all", "", "", "", (), rig=changes), tmp_path), tmp_path / "out"
    built = run("build", rig, "--out", out)
    cards = printed_words(out / "cards.pdf")
    cover = printed_words(out / "binder.pdf", 1)

    assert built.exit_code == 1, built.output
    assert "DO NOT DRIVE: see the first list of the binder." in cards
    assert "DO NOT TOW: 60 lb over what the tow bar may tow. See the cover." in cards
    assert "169 lb a tire over the limit of its tire" in cards
    assert [case.told for case in grave if case.told not in cover] == []


def printed_words(file: Path, pages: int | None = None) -> str:
    document = pdfium.PdfDocument(file)
    texts = [document[number].get_textpage().get_text_range() for number in range(pages or len(document))]
    return " ".join(" ".join(texts).split())
