"""Many rigs in one go: none stops another, a table tells of each, and the worst counts."""

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import distributed
import pytest
from click.testing import CliRunner, Result

from binder import cli
from binder.rendering.parts.cache import makers
from binder.rendering.parts.part import PartHtml
from binder.rendering.parts.processes import laid_out_elsewhere
from tests.demos import PROFILES

ROOT = Path(__file__).parents[2]
KESTREL = PROFILES / "kestrel"
WORDS = ["--set", "mechanic", "--date", "2026-06-01"]


def rig(folder: Path, name: str, *changes: tuple[str, str]) -> Path:
    shutil.copytree(KESTREL, folder / name)
    text = (
        (folder / name / "rig.yaml").read_text("utf-8").replace("name: Kestrel", f"name: {name.title()}", 1)
    )
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    (folder / name / "rig.yaml").write_text(text, "utf-8")
    return folder / name


@pytest.fixture(scope="module")
def fleet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Five rigs: two sound, one over a rating, one with a mistake, one whose folder is in the way."""
    folder = tmp_path_factory.mktemp("fleet")
    rig(folder, "heron")
    rig(folder, "egret")
    rig(folder, "stork", ("gross_vehicle_weight_rating: 12500 lb", "gross_vehicle_weight_rating: 12400 lb"))
    rig(folder, "crane", ("division: 5 lb", "division: 5"))
    rig(folder, "rail")
    return folder


@pytest.fixture(scope="module")
def printed(fleet: Path) -> tuple[Result, Path]:
    out = fleet / "out"
    (out / "rail" / "two-rivers" / "mechanic" / "cards.pdf").mkdir(parents=True)
    return CliRunner().invoke(cli.main, ["build", str(fleet), "--out", str(out), *WORDS]), out


def printing(out: Path, name: str) -> dict[str, bytes]:
    folder = out / name / "two-rivers" / "mechanic"
    return {file.name: file.read_bytes() for file in folder.iterdir() if file.is_file()}


def test_a_rig_that_cannot_be_printed_stops_no_other(printed: tuple[Result, Path]) -> None:
    _, out = printed

    names = {"binder.pdf", "cards.pdf", "sheets.pdf", "numbers.json"}
    assert all(set(printing(out, name)) == names for name in ("egret", "heron", "stork"))
    assert not (out / "crane").exists()
    assert [file.name for file in (out / "rail").rglob("*.pdf")] == ["cards.pdf"]


def test_the_worst_code_counts_and_a_plain_table_tells_of_each(
    printed: tuple[Result, Path], fleet: Path
) -> None:
    told, out = printed
    rows = [line.split() for line in told.stdout.splitlines()]

    assert told.exit_code == 2
    assert rows[0] == ["rig", "ends", "with", "attention", "missing", "in"]
    assert [row[0] for row in rows[1:]] == [
        str(fleet / name) for name in ("crane", "egret", "heron", "rail", "stork")
    ]
    assert [row[1] for row in rows[1:]] == ["2", "0", "0", "2", "1"]
    assert rows[2][2:] == ["printed", "2", "5", str(out / "egret" / "two-rivers" / "mechanic")]
    assert rows[5][2:5] == ["do", "not", "drive"]
    assert "\x1b" not in told.stdout
    assert "scale_tickets[1].division: '5' has no unit" in told.stderr
    assert "a folder stands where a file is to be written" in told.stderr


def test_a_rig_among_many_has_the_bytes_it_has_alone(
    printed: tuple[Result, Path], fleet: Path, tmp_path: Path
) -> None:
    CliRunner().invoke(
        cli.main, ["build", str(fleet / "heron"), "--out", str(tmp_path), *WORDS, "--no-cache"]
    )

    alone = {file.name: file.read_bytes() for file in tmp_path.iterdir() if file.is_file()}
    assert alone == printing(printed[1], "heron")


@pytest.fixture
def cluster(tmp_path: Path) -> Iterator[tuple[Any, dict[str, "subprocess.Popen[bytes]"]]]:
    """Begin a scheduler and two workers here: somebody who watches them, and the workers by their address."""
    told, dask = tmp_path / "scheduler.json", str(Path(sys.executable).with_name("dask"))
    environment = os.environ | {"PYTHONPATH": str(ROOT)}

    def begun(kind: str, *words: str) -> "subprocess.Popen[bytes]":
        command = [dask, kind, "--scheduler-file", str(told), "--no-dashboard", "--host", "127.0.0.1", *words]
        return subprocess.Popen(
            command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=environment, cwd=tmp_path
        )

    processes = [begun("scheduler", "--port", "0")]
    while not told.exists():
        time.sleep(0.1)
    processes += [begun("worker", "--nthreads", "1", "--no-nanny", "--name", name) for name in "ab"]
    client_of: Any = distributed.Client
    with client_of(scheduler_file=str(told)) as client:
        client.wait_for_workers(2, 60)
        workers = client.scheduler_info()["workers"].items()
        yield client, {address: processes["ab".index(one["name"]) + 1] for address, one in workers}
    for process in processes:
        process.kill()
        process.wait()


@pytest.mark.filterwarnings("ignore")  # Of the library's, when a worker goes away.
def test_every_rig_is_printed_though_a_worker_is_ended_in_mid_work(
    cluster: tuple[Any, dict[str, "subprocess.Popen[bytes]"]],
    fleet: Path,
    printed: tuple[Result, Path],
    tmp_path: Path,
) -> None:
    client, workers = cluster
    address = client.scheduler.address
    rigs = [str(fleet / name) for name in ("heron", "egret")]
    options = ["--scheduler", address, "--out", str(tmp_path / "out"), "--no-cache", *WORDS]
    with subprocess.Popen(
        [sys.executable, "-m", "binder.cli", "build", *rigs, *options],
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, cwd=ROOT,
    ) as run:  # fmt: skip
        while not (busy := [worker for worker, tasks in client.processing().items() if tasks]):
            time.sleep(0.05)
        workers[busy[0]].kill()
        told, _ = run.communicate()

    assert run.returncode == 0, told
    assert len(client.scheduler_info()["workers"]) == 1
    for name in ("heron", "egret"):
        assert printing(tmp_path / "out", name) == printing(printed[1], name)


def test_a_worker_that_would_give_other_bytes_is_refused() -> None:
    part = PartHtml("a", ("a",), "<p>a")
    with pytest.raises(OSError, match="another version of binder or of its libraries"):
        laid_out_elsewhere(makers() + " other", part)


def test_a_scheduler_that_is_not_there_ends_with_74(tmp_path: Path) -> None:
    options = ["--scheduler", "tcp://127.0.0.1:9", "--out", str(tmp_path / "out"), *WORDS]
    run = subprocess.run(
        [sys.executable, "-m", "binder.cli", "build", str(KESTREL), *options],
        capture_output=True, text=True, check=False, cwd=ROOT,
    )  # fmt: skip

    assert (run.returncode, (tmp_path / "out").exists()) == (74, False)
    assert run.stderr.splitlines()[-1].startswith("Cannot read or write: ")
    assert "Traceback" not in run.stderr
