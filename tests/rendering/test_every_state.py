"""Every rig is laid out at any date, with its tires in any state, and far over its ratings."""

import re
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from binder.assessment.assess import assess
from binder.assessment.tires.register_kinds import AGE
from binder.cards.order import binder_document
from binder.cards.ring.order import ring
from binder.models.load import load_profile
from binder.printing.build import BuildOptions, build
from binder.rendering.html import ring_html
from tests.demos import PROFILES
from tests.rendering.whole_binder import binder_html

ROOT = Path(__file__).parents[2]
RIGS = sorted([*PROFILES.iterdir(), *(ROOT / "tests" / "rigs").iterdir()])
DATES = [date(year, 6, 1) for year in range(2024, 2035)]
RATING = r"(rating: )([0-9.]+)( (?:lb|kg))"
STATES: dict[str, tuple[str, str | Callable[[re.Match[str]], str]]] = {
    "old": (r"date_code: [0-9\"']+", "date_code: 0110"),
    "unknown": (r"date_code: [0-9\"']+", "date_code: "),
    "worn": (r"tread: [0-9/.]+ ?(?:in|mm)?", "tread: 1/32 in"),
    "good": (r"tread: [0-9/.]+ ?(?:in|mm)?", "tread: 14/32 in"),
    "no rating": (RATING, lambda found: f"{found[1]}0{found[3]}"),
    "a tenth of each rating": (RATING, lambda found: f"{found[1]}{float(found[2]) / 10:g}{found[3]}"),
}


def plan(rig: Path) -> str | None:
    return next((file.stem for file in sorted(rig.glob("trips/*.yaml"))), None)


def drawings_left_out(rig: Path, on: date) -> list[str]:
    """Lay out all cards and pages; drawings that could not be drawn are said in the text."""
    profile = load_profile(rig, plan(rig))
    assessment = assess(profile, on)
    cards = ring(assessment)
    texts = (
        ring_html(cards, profile.rig.paper),
        binder_html(binder_document(assessment, cards), profile.rig.paper),
    )
    assert all(len(text) > 10_000 for text in texts)
    return re.findall("No drawing: [^<]*", "".join(texts))


def changed(rig: Path, folder: Path, state: str) -> Path:
    copy = folder / rig.name
    shutil.copytree(rig, copy)
    text = (copy / "rig.yaml").read_text("utf-8")
    (copy / "rig.yaml").write_text(re.sub(*STATES[state], text), "utf-8")
    return copy


@pytest.mark.parametrize("rig", RIGS, ids=lambda rig: rig.name)
def test_a_rig_is_drawn_whatever_the_date(rig: Path) -> None:
    assert [left_out for on in DATES for left_out in drawings_left_out(rig, on)] == []


@pytest.mark.parametrize("state", STATES)
@pytest.mark.parametrize("rig", RIGS, ids=lambda rig: rig.name)
def test_a_rig_is_drawn_whatever_its_state(rig: Path, state: str, tmp_path: Path) -> None:
    assert drawings_left_out(changed(rig, tmp_path, state), DATES[2]) == []


@pytest.mark.parametrize(("name", "state"), [("kestrel", "old"), ("sandpiper", "a tenth of each rating")])
def test_a_rig_in_a_bad_state_is_printed(name: str, state: str, tmp_path: Path) -> None:
    rig = changed(PROFILES / name, tmp_path, state)
    report = build(rig, BuildOptions(DATES[-1], plan(rig), tmp_path / "out"))

    assert (report.out / "binder.pdf").is_file()


AXLE = (
    "      axle {n}: {{at: {at} in, track: 70 in, fitment: dual, rating: 9450 lb, label_pressure: 80 psi, "
    "label_tires: LT235/85R16 E, tires: coach tires, wheels: coach wheels, equalized: true}}\n"
)
TRAILER = (
    "  trailer:\n    kind: trailer\n    size: {overall_length: 190 ft, rear_overhang: 60 in}\n"
    "    brakes: {service: electric}\n    towing: {breakaway: true}\n    axles:\n"
)
COUPLING = (
    "\ncouplings:\n  - {ahead: coach, behind: trailer, how: ball, at: 250 in, at_behind: -120 in, "
    "down_load: 500 lb, parts: {ball: 9000 lb}}\n"
)


def test_a_rig_of_200_tire_positions_is_laid_out_and_each_is_in_the_register(tmp_path: Path) -> None:
    """Fifty axles of duals, which no road allows, behind Kestrel: one drawing is words instead."""
    ends = ("left outer", "left inner", "right inner", "right outer")
    axles = "".join(AXLE.format(n=n, at=40 * n) for n in range(50))
    mounted = "".join(f"      axle {n} {end}: {{date_code: 3523}}\n" for n in range(50) for end in ends)
    text = (PROFILES / "kestrel" / "rig.yaml").read_text("utf-8")
    text = text.replace("\ntires:\n", f"\n{TRAILER}{axles}\ntires:\n").replace(
        "    mounted:\n", f"    mounted:\n{mounted}"
    )
    (tmp_path / "rig.yaml").write_text(text + COUPLING, "utf-8")

    (left_out,) = drawings_left_out(tmp_path, DATES[2])
    assert left_out.endswith("What it would show stands beside it in words.")
    assessment = assess(load_profile(tmp_path), DATES[2])
    ages = [one for one in assessment.ledger.entered if one.kind is AGE]
    assert sum(one.key.subject[0] == "trailer" for one in ages) == 200
