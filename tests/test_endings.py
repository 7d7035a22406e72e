"""What a command ends with, whatever happens: one code, one sentence, no traceback."""

import contextlib
import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from binder import cli
from binder.printing import build
from tests.demos import PROFILES

ROOT = Path(__file__).parents[1]
KESTREL = PROFILES / "kestrel"
BINDER = [sys.executable, "-m", "binder.cli"]


def kestrel(folder: Path, old: str, new: str) -> Path:
    (folder / "rig").mkdir()
    text = (KESTREL / "rig.yaml").read_text("utf-8")
    assert old in text
    (folder / "rig" / "rig.yaml").write_text(text.replace(old, new), "utf-8")
    return folder / "rig"


def test_a_fault_of_ours_ends_with_70_and_keeps_what_happened(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise KeyError(9)

    monkeypatch.setattr(build, "read_and_assess", broken)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    told = CliRunner().invoke(cli.main, ["check", str(KESTREL)])
    (kept,) = tmp_path.iterdir()

    assert told.exit_code == 70
    assert told.output == f"binder has a fault of its own; please report what is saved in {kept}.\n"
    assert "KeyError: 9" in kept.read_text("utf-8")


def test_an_interrupt_that_a_library_lost_is_no_fault_of_ours(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        with contextlib.suppress(KeyboardInterrupt):
            signal.raise_signal(signal.SIGINT)
        raise KeyError(9)

    monkeypatch.setattr(build, "read_and_assess", broken)
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    told = CliRunner().invoke(cli.main, ["check", str(KESTREL)])
    signal.signal(signal.SIGINT, before)

    assert (told.exit_code, told.output) == (130, "Stopped; a printing that was there before is as it was.\n")


def test_an_interrupt_that_a_library_lost_is_heeded_at_the_next_step(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def lost(*_: object) -> None:
        with contextlib.suppress(KeyboardInterrupt):
            signal.raise_signal(signal.SIGTERM)

    monkeypatch.setattr(build, "refuse_contradictions", lost)
    out = tmp_path / "out"
    told = CliRunner().invoke(cli.main, ["build", str(KESTREL), "--out", str(out)])

    assert (told.exit_code, out.exists()) == (143, False)
    assert told.output == "... read\nStopped; a printing that was there before is as it was.\n"


OVER = ("rating: 9450 lb", "rating: 8000 lb")
"""Kestrel's drive axle, far under what it carries: do not drive."""


def ended_with(folder: Path, *changes: tuple[str, str]) -> int:
    """What `check` of Kestrel ends with after changes to its file."""
    text = (KESTREL / "rig.yaml").read_text("utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    (folder / "rig.yaml").write_text(text, "utf-8")
    return CliRunner().invoke(cli.main, ["check", str(folder)]).exit_code


def raised(*faults: BaseException) -> Callable[..., None]:
    """What fails with the first of several, after a library lost the others."""

    def broken(*_: object) -> None:
        for fault in faults[1:]:
            with contextlib.suppress(type(fault)):
                if isinstance(fault, KeyboardInterrupt):
                    signal.raise_signal(signal.SIGINT)
                raise fault
        raise faults[0]

    return broken


@pytest.mark.usefixtures("_interruptible")
@pytest.mark.parametrize(
    ("faults", "code"),
    [
        ((OSError(28, "No space left on device"), KeyboardInterrupt()), 130),
        ((KeyError(9), KeyboardInterrupt()), 130),
        ((OSError(28, "No space left on device"),), 74),
        ((KeyError(9),), 70),
    ],
)
def test_an_interrupt_counts_before_what_cannot_be_written_and_that_before_a_fault(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, faults: tuple[BaseException, ...], code: int
) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setattr(build, "read_and_assess", raised(*faults))

    assert CliRunner().invoke(cli.main, ["check", str(KESTREL)]).exit_code == code


LATE = """
import atexit, signal
atexit.register(signal.raise_signal, signal.SIGINT)
from binder.cli import main
main()
"""


@pytest.mark.usefixtures("_interruptible")
def test_an_interrupt_while_python_itself_ends_says_nothing() -> None:
    run = subprocess.run(
        [sys.executable, "-c", LATE, "--version"], capture_output=True, text=True, check=False
    )

    assert (run.returncode, run.stderr) == (0, "")


def test_a_fault_of_ours_counts_before_a_wrong_input(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setattr("binder.problems.InputProblems.__str__", raised(KeyError(9)))

    assert ended_with(tmp_path, ("units: us", "units: feet")) == 70


def test_a_wrong_input_counts_before_do_not_drive_and_that_before_not_cleared(tmp_path: Path) -> None:
    blank = ("gross_vehicle_weight_rating: 12500 lb", "gross_vehicle_weight_rating:")

    assert ended_with(tmp_path, blank) == 3
    assert ended_with(tmp_path, blank, OVER) == 1
    assert ended_with(tmp_path, blank, OVER, ("units: us", "units: feet")) == 2


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a disk that is always full")
@pytest.mark.parametrize("change", [OVER, ("units: us", "units: feet")])
def test_a_full_disk_counts_before_do_not_drive_and_a_wrong_input(
    tmp_path: Path, change: tuple[str, str]
) -> None:
    ended_with(tmp_path, change)
    with Path("/dev/full").open("w") as full:
        run = subprocess.run(
            [*BINDER, "check", str(tmp_path)], stdout=full, stderr=full, check=False, cwd=ROOT
        )

    assert run.returncode == 74


def test_a_fault_that_cannot_be_kept_ends_with_74(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        raise KeyError(9)

    monkeypatch.setattr(build, "read_and_assess", broken)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "gone"))
    told = CliRunner().invoke(cli.main, ["check", str(KESTREL)])

    assert told.exit_code == 74
    assert told.output.startswith("Cannot read or write ")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a disk that is always full")
@pytest.mark.parametrize("words", [["check", str(KESTREL)], ["--help"]])
def test_a_full_disk_behind_the_output_ends_with_74(words: list[str]) -> None:
    with Path("/dev/full").open("w") as full:
        run = subprocess.run(
            [*BINDER, *words], stdout=full, stderr=subprocess.PIPE, text=True, check=False, cwd=ROOT
        )

    assert (run.returncode, run.stderr) == (74, "Cannot read or write: No space left on device.\n")


def test_a_reader_that_went_away_ends_with_74() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    run = subprocess.run(
        [*BINDER, "check", str(KESTREL)],
        stdout=writing,
        stderr=subprocess.PIPE,
        text=True,
        check=False,
        cwd=ROOT,
    )
    os.close(writing)

    assert (run.returncode, run.stderr) == (74, "Nobody reads what binder says any more; it stopped.\n")


def test_a_folder_that_cannot_be_written_ends_with_74(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("os.access", lambda _, mode, **__: mode != os.W_OK)  # Root may write anywhere.
    told = CliRunner().invoke(cli.main, ["build", str(KESTREL), "--out", str(tmp_path / "out")])

    assert told.exit_code == 74
    last = told.output.splitlines()[-1]
    assert last == f"Cannot read or write {tmp_path}: Permission denied; name another folder with --out."


def test_a_missing_library_is_one_sentence_before_anything_is_loaded(tmp_path: Path) -> None:
    (tmp_path / "sitecustomize.py").write_text(
        "import ctypes\nload = ctypes.CDLL\n"
        "def hidden(name, *more, **extra):\n"
        "    if 'harfbuzz-subset' in str(name):\n        raise OSError(name)\n"
        "    return load(name, *more, **extra)\nctypes.CDLL = hidden\n"
        "import atexit, pathlib, sys\n"
        f"loaded = pathlib.Path({str(tmp_path / 'loaded')!r})\n"
        "atexit.register(lambda: loaded.write_text(' '.join(sys.modules)))\n"
    )
    run = subprocess.run(
        [*BINDER, "build", str(KESTREL)], capture_output=True, text=True, check=False, cwd=ROOT,
        env=os.environ | {"PYTHONPATH": f"{tmp_path}{os.pathsep}{ROOT}"},
    )  # fmt: skip

    assert run.returncode == 2
    assert run.stderr.startswith(
        "Error: binder prints with a system library that is missing (libharfbuzz-subset.so.0); "
    )
    assert len(run.stderr.splitlines()) == 1
    loaded = set((tmp_path / "loaded").read_text().split())
    assert "binder.terminal" in loaded
    assert not loaded & {"weasyprint", "pint", "pydantic", "yaml", "binder.printing.build"}


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("Wren \U0001f699", "U+1F699"),
        ("\u65c5 Wren", "U+65C5"),
        ("\ue000", "U+E000"),
        ('"W\\x1b[31m"', "U+001B"),
    ],
)
def test_a_letter_that_no_typeface_has_is_refused_by_check_with_its_place(
    tmp_path: Path, name: str, code: str
) -> None:
    rig = kestrel(tmp_path, "name: Kestrel", f"name: {name}")
    told = CliRunner().invoke(cli.main, ["check", str(rig)])

    assert told.exit_code == 2
    assert f"({code}) cannot be printed; leave it out" in told.output
    assert "rig.yaml:" in told.output
    assert "error: name: " in told.output
    assert "\x1b" not in told.output


def test_a_mark_without_ink_in_a_name_that_is_a_key_is_refused_with_its_place(tmp_path: Path) -> None:
    rig = kestrel(tmp_path, "rear bay:       {at: 246 in", '"rear\\x01 bay": {at: 246 in')
    told = CliRunner().invoke(cli.main, ["check", str(rig)])

    assert told.exit_code == 2
    assert "(U+0001) cannot be printed; leave it out" in told.output


@pytest.mark.parametrize("command", [["check"], ["build", "--private"]])
def test_a_letter_of_the_private_file_that_no_typeface_has_is_refused_with_its_place(
    tmp_path: Path, command: list[str]
) -> None:
    rig = kestrel(tmp_path, "name: Kestrel", "name: Kestrel")
    (rig / "private.yaml").write_text("contacts:\n  - {who: dentist \U0001f9b7, phone: 555 0100}\n", "utf-8")
    told = CliRunner().invoke(cli.main, [*command, str(rig)])

    assert told.exit_code == 2
    assert "'\U0001f9b7' (U+1F9B7) cannot be printed; leave it out" in told.output
    assert "private.yaml:2:" in told.output
    assert "error: contacts[1].who: " in told.output


@pytest.mark.parametrize(
    "name",
    [
        '"Kes\\ttrel"',
        "Kes\u00a0trel",
        "Kes\u202ftrel",
        "Kes\ttrel",
        "Kes \u200btr\u00adel",
        '"Kes\\u00a0trel"',
    ],
)
def test_strange_spaces_are_read_as_plain_ones(tmp_path: Path, name: str) -> None:
    from binder.models.load import load_profile  # noqa: PLC0415 - only here.

    assert load_profile(kestrel(tmp_path, "name: Kestrel", f"name: {name}")).rig.name == "Kes trel"


def test_names_of_many_languages_are_printed(tmp_path: Path) -> None:
    name = (
        "\u017belazny \u0158\u00edp, \u0130\u011fd\u0131r, "
        "\u1f08\u03b8\u1fc6\u03bd\u03b1\u03b9, \u0414\u043e\u043c, Ph\u1ed1"
    )
    rig = kestrel(tmp_path, "name: Kestrel", f"name: {name}")
    told = CliRunner().invoke(
        cli.main, ["build", str(rig), "--out", str(tmp_path / "out"), "--date", "2026-06-01"]
    )

    assert told.exit_code in {0, 1, 3}, told.output
    assert (tmp_path / "out" / "binder.pdf").is_file()
