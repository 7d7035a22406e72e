"""What the page says of a reading is what the assessment says of it, for every axle of every rig."""

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from binder.assessment.tires import kinds
from binder.cards.rig_words import axle_groups, words_of
from binder.cli import main
from binder.wording.measures import FILL
from tests.demos import PROFILES
from tests.log_page.conftest import Phone
from tests.log_page.sites import assessed, site, told, written

RIGS = [*sorted(PROFILES.iterdir()), *sorted((PROFILES.parent / "tests" / "rigs").iterdir())]


@pytest.fixture
def judge(phone: Phone, tmp_path: Path) -> Callable[[Path, str, str], Any]:
    """Open the page of a rig from a file and ask it what it says of readings."""

    def judged(rig: Path, asked: str, state: str) -> Any:
        page = written(site(rig), tmp_path / "page") / "index.html"
        phone.page.goto(page.as_uri())
        return phone.page.evaluate(f"RIG.axles.map((axle) => {asked})".replace("STATE", f"'{state}'"))

    return judged


@pytest.fixture(params=RIGS, ids=lambda one: str(one.name))
def rig(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    folder = Path(shutil.copytree(request.param, tmp_path / "rig"))
    text = (folder / "rig.yaml").read_text("utf-8")
    if "\nlog: https:" not in text:
        (folder / "rig.yaml").write_text(f"{text}\nlog: https://log.example.org/mine/\n", "utf-8")
    return folder


SWEEP = "Array.from({ length: 1401 }, (_, at) => judged(axle, at / 2, STATE).word)"


def test_a_cold_reading_falls_into_the_band_of_the_card(
    judge: Callable[[Path, str, str], Any], rig: Path
) -> None:
    found = judge(rig, SWEEP, "cold")
    assessment = assessed(rig)
    words = words_of(assessment)
    at = 0
    for group in axle_groups(assessment):
        point, flat, leave = (
            group.value(one) for one in (kinds.SET_POINT, kinds.RUN_FLAT_BELOW, kinds.LEAVE_UP_TO)
        )
        assert point is not None
        assert flat is not None
        for _ in group.axle_names:
            for half, word in enumerate(found[at]):
                reading = half / 2
                if word == "GO":
                    # Printed numbers are rounded: to fill up, limits down.
                    assert reading >= words.drawn(point, FILL) - 1e-6
                    assert reading > words.drawn(flat, FILL)
                    if leave is not None:
                        assert reading <= words.drawn(leave, FILL) + 1e-6
                    else:
                        assert reading == float(words.fill(point, group.known_limit))
                elif word == "ADD":
                    assert words.drawn(flat, FILL) < reading < float(words.fill(point, group.known_limit))
            assert list(dict.fromkeys(found[at])) == [
                *("FLAT", "ADD", "GO"),
                *(["NOT KNOWN"] if leave is None else []),
                *(["OVER"] if group.known_limit is not None else []),
            ]
            at += 1


def test_a_hot_reading_is_flat_low_or_let_alone(judge: Callable[[Path, str, str], Any], rig: Path) -> None:
    found = judge(rig, SWEEP, "hot")
    for axle, words in zip(told(site(rig))["axles"], found, strict=True):
        if "fill" not in axle:
            assert set(words) == {"NOT KNOWN"}
            continue
        bands = ["FLAT", *(["ADD"] if axle["fill"] > axle["hotFlat"] + 0.5 else []), "GO"]
        assert list(dict.fromkeys(words)) == bands
        assert words.count("FLAT") == axle["hotFlat"] * 2 + 1


@pytest.mark.parametrize("state", ["cold", "hot"])
def test_nothing_passes_as_good_where_nothing_is_known(
    judge: Callable[[Path, str, str], Any], tmp_path: Path, state: str
) -> None:
    folder = tmp_path / "mine"
    assert CliRunner().invoke(main, ["new", str(folder)]).exit_code == 0
    text = (folder / "rig.yaml").read_text("utf-8")
    (folder / "rig.yaml").write_text(text.replace("log:", "log: https://log.example.org/mine/ #", 1), "utf-8")

    found = judge(folder, SWEEP, state)
    assert found
    assert {word for axle in found for word in axle} == {"NOT KNOWN"}


def test_what_must_not_be_driven_on_is_said_whatever_is_read(
    judge: Callable[[Path, str, str], Any], tmp_path: Path
) -> None:
    folder = tmp_path / "rig"
    folder.mkdir()
    text = (PROFILES / "kestrel" / "rig.yaml").read_text("utf-8")
    assert "maximum_pressure: 80 psi" in text
    weaker = text.replace("maximum_pressure: 80 psi", "maximum_pressure: 60 psi")
    (folder / "rig.yaml").write_text(weaker, "utf-8")

    found = judge(folder, "[0, 40, 80, 120].map((read) => judged(axle, read, STATE).word)", "cold")
    assert found[:2] == [["DO NOT MOVE"] * 4] * 2
