"""A part that is coded by itself has the code it has in the whole printing."""

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from binder.assessment.assess import assess
from binder.cards.assessed import assessed
from binder.log.store import add
from binder.printed.coded import Coded, parts_of, public_document
from binder.printing.build import BuildOptions, read_and_assess
from tests.printed.folders import ON, copied
from tests.printed.test_the_log import entry


@pytest.mark.parametrize("rig", ["kestrel", "larkspur", "sandpiper", "tamarack"])
def test_each_part_made_by_itself_has_the_code_it_has_among_all(tmp_path: Path, rig: str) -> None:
    folder = copied(tmp_path, rig)
    if rig == "larkspur":
        add(folder, [entry(datetime(2026, 5, 2, 8, tzinfo=UTC), "fault", what="lamp dark", vehicle="coach")])
    today = read_and_assess(folder, BuildOptions(ON))
    parts = parts_of(public_document(today, "everything"))

    for on in (ON, date(2027, 6, 1)):
        coded = Coded(assessed(today.profile, on, today.states), "everything", parts)
        assert {key: coded.code(key) for key in coded.every} == coded.every


@pytest.mark.parametrize("rig", ["kestrel", "larkspur", "sandpiper", "tamarack"])
def test_what_a_rig_weighs_in_its_states_is_of_no_day(tmp_path: Path, rig: str) -> None:
    today = read_and_assess(copied(tmp_path, rig), BuildOptions(ON))
    later = date(2031, 2, 1)

    again, whole = assess(today.profile, later, today.states), assess(today.profile, later)

    assert again.states == whole.states
    assert again.findings == whole.findings
    assert again.ledger.entered == whole.ledger.entered
