"""Findings of the rigs we keep are sentences: a capital or a digit first, a point or a question mark last."""

from binder.assessment.assess import assess
from binder.models.load import load_profile
from tests.by_key import ByKey
from tests.printings import ON, printed_trips


def is_sentence(text: str) -> bool:
    """An empty text is none."""
    is_begun = text[:1].isupper() or text[:1].isdigit()
    return is_begun and text.endswith((".", "?")) and not text.endswith("..")


def test_every_finding_and_what_helps_is_a_sentence() -> None:
    rigs = list(printed_trips())
    found = [one for rig, trip in rigs for one in ByKey(assess(load_profile(rig, trip), ON)).findings]

    assert len({rig for rig, _ in rigs}) == 9
    assert len(found) > 100
    assert [one for one in found if not (is_sentence(one.text) and is_sentence(one.what_helps))] == []
