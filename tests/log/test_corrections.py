"""An entry and its corrections are one matter: the last made counts, whoever was read first."""

from datetime import UTC, datetime, timedelta
from random import Random

from hypothesis import given
from hypothesis import strategies as st

from binder.log.identity import new_id
from binder.log.in_force import in_force, rings
from binder.models.log_entries import Entry

AT = datetime(2026, 6, 1, 7, tzinfo=UTC)


def note(text: str, corrects: Entry | None = None, minute: int = 0, kind: str = "note") -> Entry:
    at = AT + timedelta(minutes=minute)
    return Entry(
        new_id(at),
        at,
        kind,
        {"text": text} if kind == "note" else {},
        corrects=corrects.id if corrects else "",
    )


def texts(*entries: Entry) -> list[object]:
    return [one.written["text"] for one in in_force(entries)]


def test_entries_stand_by_their_time() -> None:
    assert texts(note("b", minute=2), note("a", minute=1)) == ["a", "b"]


def test_a_correction_stands_for_what_it_corrects() -> None:
    first = note("104 psi")

    assert texts(first, note("103 psi", first, 1)) == ["103 psi"]


def test_of_two_corrections_the_later_made_counts_in_any_order() -> None:
    first = note("a")
    early, late = note("b", first, 1), note("c", first, 2)

    assert texts(first, early, late) == texts(late, early, first) == ["c"]


def test_a_correction_of_a_correction_counts_though_a_clock_was_behind() -> None:
    first = note("a", minute=60)
    second = note("b", first, 50)

    assert texts(first, second, note("c", second, 40)) == ["c"]


def test_what_is_withdrawn_says_nothing_any_more() -> None:
    first = note("a")
    second = note("b", first, 1)

    assert texts(first, second, note("", second, 2, "withdrawal")) == []


def test_entries_that_correct_each_other_in_a_ring_are_found() -> None:
    one, other, outside = note("a"), note("b"), note("c")
    ring = [one._replace(corrects=other.id), other._replace(corrects=one.id)]

    assert rings([*ring, outside._replace(corrects=one.id)]) == {one.id, other.id}
    assert rings([one, other._replace(corrects=one.id)]) == set()


@given(st.integers(0, 2**32), st.integers(1, 12))
def test_each_matter_counts_once_whatever_the_order(seed: int, count: int) -> None:
    chance = Random(seed)  # noqa: S311 - a test.
    entries = [note("0")]
    for number in range(1, count):
        before = chance.choice([None, *entries])
        entries.append(note(str(number), before, chance.randrange(60)))
    matters = sum(not one.corrects for one in entries)
    counting = in_force(entries)
    chance.shuffle(entries)

    assert len(counting) == matters
    assert in_force(entries) == counting
    assert not {one.id for one in counting} & {one.corrects for one in entries}
