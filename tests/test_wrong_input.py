"""What is wrong with a file is told in whole sentences: each ``x.yaml`` beside the ``x.txt`` it prints.

``x.yaml`` is a rig; ``x.trip.yaml`` a plan beside a sound rig. The texts were read by people before
they were kept; they are ``unchanged_since``, no reference.
"""

from pathlib import Path

import pytest

from binder.assessment.entries.contradictions import refuse_contradictions
from binder.models.load import load_profile
from binder.problems import InputProblems

_WRONG_INPUT = Path(__file__).parent / "wrong_input"
_SOUND_RIG = """\
name: Wren
units: us
paper: letter
vehicles:
  coach:
    kind: motorhome
    axles:
      steer: {at: 0 in, fitment: single}
      drive: {at: 178 in, fitment: dual}
    tanks:
      fresh: {holds: fresh water, capacity: 35 gal}
"""
_SOUND_TRIP = """\
name: Home
days:
  - leave: 2026-06-01 09:00
    legs:
      - to: {place: Bend}
"""
_FILES = sorted(file.name.removesuffix(".yaml") for file in _WRONG_INPUT.glob("*.yaml"))


@pytest.fixture
def wren(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Make an empty rig's folder and stand beside it, so that problems name ``wren/rig.yaml``."""
    (tmp_path / "wren" / "trips").mkdir(parents=True)
    monkeypatch.chdir(tmp_path)
    return Path("wren")


def _printed(folder: Path, trip_name: str | None = None) -> str:
    with pytest.raises(InputProblems) as raised:
        refuse_contradictions(load_profile(folder, trip_name))
    return str(raised.value)


def _expected(name: str) -> str:
    return (_WRONG_INPUT / f"{name}.txt").read_text("utf-8").rstrip("\n")


@pytest.mark.parametrize("name", _FILES)
def test_wrong_file_prints_its_text(name: str, wren: Path) -> None:
    wrong = (_WRONG_INPUT / f"{name}.yaml").read_bytes()
    is_trip = name.endswith(".trip")
    (wren / "rig.yaml").write_bytes(_SOUND_RIG.encode() if is_trip else wrong)
    if is_trip:
        (wren / "trips" / "home.yaml").write_bytes(wrong)

    assert _printed(wren) == _expected(name)


def test_every_text_has_its_file() -> None:
    texts = {file.stem for file in _WRONG_INPUT.glob("*.txt")}

    assert len(_FILES) >= 24
    assert texts - set(_FILES) == {
        "folder_is_a_file",
        "folder_is_none",
        "no_rig",
        "several_trips",
        "trip_is_none",
        "trip_with_short_ending",
        "two_wrong_files",
    }


def test_sound_files_are_read(wren: Path) -> None:
    (wren / "rig.yaml").write_text(_SOUND_RIG)
    (wren / "trips" / "home.yaml").write_text(_SOUND_TRIP)

    profile = load_profile(wren, "home")
    refuse_contradictions(profile)

    assert profile.rig.name == "Wren"
    assert profile.trip is not None
    assert profile.trip.days[0].legs[0].to.place == "Bend"


def test_folder_that_is_none(wren: Path) -> None:
    assert _printed(wren / "nest") == _expected("folder_is_none")


def test_folder_that_is_a_file(wren: Path) -> None:
    (wren / "rig.yaml").write_text(_SOUND_RIG)

    assert _printed(wren / "rig.yaml") == _expected("folder_is_a_file")


def test_folder_without_rig(wren: Path) -> None:
    assert _printed(wren) == _expected("no_rig")


def test_trip_that_is_none(wren: Path) -> None:
    (wren / "rig.yaml").write_text(_SOUND_RIG)
    (wren / "trips" / "home.yaml").write_text(_SOUND_TRIP)

    assert _printed(wren, "hone") == _expected("trip_is_none")


def test_several_trips(wren: Path) -> None:
    (wren / "rig.yaml").write_text(_SOUND_RIG)
    for name in ("away", "home"):
        (wren / "trips" / f"{name}.yaml").write_text(_SOUND_TRIP)

    assert _printed(wren) == _expected("several_trips")


def test_trip_with_short_ending_is_not_passed_over(wren: Path) -> None:
    (wren / "rig.yaml").write_text(_SOUND_RIG)
    (wren / "trips" / "home.yml").write_text(_SOUND_TRIP)

    assert _printed(wren) == _expected("trip_with_short_ending")


@pytest.mark.parametrize("name", ["home.txt", "home", "home.YAML", "home.yaml.txt"])
def test_a_plan_of_another_ending_is_told_and_not_passed_over(wren: Path, name: str) -> None:
    (wren / "rig.yaml").write_text(_SOUND_RIG)
    (wren / "trips" / name).write_text(_SOUND_TRIP)

    assert f"wren/trips/{name}: error: a plan's name ends in .yaml; rename it" in _printed(wren)


def test_trips_that_is_a_file_is_told(wren: Path) -> None:
    (wren / "rig.yaml").write_text(_SOUND_RIG)
    (wren / "trips").rmdir()
    (wren / "trips").write_text(_SOUND_TRIP)

    assert "wren/trips: error: this is a file; plans stand in a folder" in _printed(wren)


def test_a_plan_that_is_a_folder_is_told(wren: Path) -> None:
    (wren / "rig.yaml").write_text(_SOUND_RIG)
    (wren / "trips" / "home.yaml").mkdir()

    assert "wren/trips/home.yaml: error: this file cannot be read (Is a directory)" in _printed(wren)


def test_problems_of_all_files_are_told_at_once_in_file_order(wren: Path) -> None:
    (wren / "rig.yaml").write_text(_SOUND_RIG.replace("motorhome", "bus"))
    (wren / "trips" / "home.yaml").write_text(_SOUND_TRIP.replace("09:00", "9am"))

    assert _printed(wren) == _expected("two_wrong_files")
