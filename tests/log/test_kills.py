"""A few commands killed at random moments, as ``python -m tests.log.kills`` does a thousand times."""

import os
from pathlib import Path
from random import Random

import pytest

from binder.log import store
from tests.log.kills import Outcome, faults, killed_log


@pytest.mark.skipif(os.name == "nt", reason="SIGKILL")
def test_a_command_that_is_killed_leaves_the_log_whole(tmp_path: Path) -> None:
    outcomes, wrong = killed_log(tmp_path, 12, Random(4))  # noqa: S311 - moments to kill at.

    assert wrong == []
    assert any(one.killed for one in outcomes)


def test_an_entry_that_was_told_and_is_lost_would_be_found(rig: Path) -> None:
    lost = Outcome(killed=True, told=True, texts=frozenset({"a"}))

    assert store.entries_in(rig) == []
    assert faults(rig, [lost]) == ["told as taken and not there: ['a']"]
