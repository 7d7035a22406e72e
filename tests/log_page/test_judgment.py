"""What the page says of a reading is what the assessment says of it, for every axle of every rig."""

import itertools
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from click.testing import CliRunner

from binder.assessment.assess import Assessment
from binder.assessment.tires import kinds
from binder.cards.rig_words import axle_groups, words_of
from binder.cli import main
from binder.wording.measures import FILL
from tests.demos import PROFILES
from tests.log_page.conftest import Phone
from tests.log_page.sites import assessed, site, told, written

RIGS = [*sorted(PROFILES.iterdir()), *sorted((Path(__file__).parents[1] / "rigs").iterdir())]


class Rig(NamedTuple):
    """A rig assessed, and its page."""

    assessment: Assessment
    page: dict[str, bytes]


@pytest.fixture(scope="module", params=RIGS, ids=lambda one: str(one.name))
def rig(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Rig:
    folder = Path(shutil.copytree(request.param, tmp_path_factory.mktemp("rigs") / "rig"))
    text = (folder / "rig.yaml").read_text("utf-8")
    if "\nlog: https:" not in text:
        (folder / "rig.yaml").write_text(f"{text}\nlog: https://log.example.org/mine/\n", "utf-8")
    assessment = assessed(folder)
    return Rig(assessment, site(folder, assessment))


@pytest.fixture
def judge(phone: Phone, tmp_path: Path) -> Callable[[dict[str, bytes], str, str], Any]:
    """Open a page from a file and ask it what it says of readings."""

    def judged(page: dict[str, bytes], asked: str, state: str) -> Any:
        phone.page.goto((written(page, tmp_path / "page") / "index.html").as_uri())
        return phone.page.evaluate(f"RIG.axles.map((axle) => {asked})".replace("STATE", f"'{state}'"))

    return judged


SWEEP = "Array.from({ length: 1401 }, (_, at) => judged(axle, at / 2, STATE).word)"


def test_a_cold_reading_falls_into_the_band_of_the_card(
    judge: Callable[[dict[str, bytes], str, str], Any], rig: Rig
) -> None:
    found = iter(judge(rig.page, SWEEP, "cold"))
    words = words_of(rig.assessment)
    for group in axle_groups(rig.assessment):
        point, flat, leave = (
            group.value(one) for one in (kinds.SET_POINT, kinds.RUN_FLAT_BELOW, kinds.LEAVE_UP_TO)
        )
        assert point is not None
        assert flat is not None
        fill = float(words.fill(point, group.known_limit))
        highest = fill if leave is None else words.drawn(leave, FILL)
        for said in itertools.islice(found, len(group.axle_names)):
            good, low = ([at / 2 for at, word in enumerate(said) if word == one] for one in ("GO", "ADD"))
            # Printed numbers are rounded: to fill up, limits down.
            assert fill == min(good) >= words.drawn(point, FILL) - 1e-6
            assert max(good) <= highest + 1e-6
            assert min(low) > words.drawn(flat, FILL)
            assert list(dict.fromkeys(said)) == [
                *("FLAT", "ADD", "GO"),
                *(["NOT KNOWN"] if leave is None else []),
                *(["OVER"] if group.known_limit is not None else []),
            ]
    assert {word for said in found for word in said} <= {"NOT KNOWN"}


def test_a_hot_reading_is_flat_low_or_let_alone(
    judge: Callable[[dict[str, bytes], str, str], Any], rig: Rig
) -> None:
    found = judge(rig.page, SWEEP, "hot")
    for axle, words in zip(told(rig.page)["axles"], found, strict=True):
        if "fill" not in axle:
            assert set(words) == {"NOT KNOWN"}
            continue
        bands = ["FLAT", *(["ADD"] if axle["fill"] > axle["hotFlat"] + 0.5 else []), "GO"]
        assert list(dict.fromkeys(words)) == bands
        assert words.count("FLAT") == axle["hotFlat"] * 2 + 1


@pytest.mark.parametrize("state", ["cold", "hot"])
def test_nothing_passes_as_good_where_nothing_is_known(
    judge: Callable[[dict[str, bytes], str, str], Any], tmp_path: Path, state: str
) -> None:
    folder = tmp_path / "mine"
    assert CliRunner().invoke(main, ["new", str(folder)]).exit_code == 0
    text = (folder / "rig.yaml").read_text("utf-8")
    (folder / "rig.yaml").write_text(text.replace("log:", "log: https://log.example.org/mine/ #", 1), "utf-8")

    found = judge(site(folder), SWEEP, state)
    assert found
    assert {word for axle in found for word in axle} == {"NOT KNOWN"}


def test_what_must_not_be_driven_on_is_said_whatever_is_read(
    judge: Callable[[dict[str, bytes], str, str], Any], tmp_path: Path
) -> None:
    folder = tmp_path / "rig"
    folder.mkdir()
    text = (PROFILES / "kestrel" / "rig.yaml").read_text("utf-8")
    assert "maximum_pressure: 80 psi" in text
    weaker = text.replace("maximum_pressure: 80 psi", "maximum_pressure: 60 psi")
    (folder / "rig.yaml").write_text(weaker, "utf-8")

    found = judge(site(folder), "[0, 40, 80, 120].map((read) => judged(axle, read, STATE).word)", "cold")
    assert found[:2] == [["DO NOT MOVE"] * 4] * 2
