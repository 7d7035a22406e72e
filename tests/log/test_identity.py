"""Ids sort by the moment they were made, or are the same for the same content."""

from datetime import UTC, datetime, timedelta
from uuid import RFC_4122, UUID

from hypothesis import given
from hypothesis import strategies as st

from binder.log.identity import id_of_content, is_id, made_at, new_id

AT = datetime(2026, 6, 1, 7, tzinfo=UTC)


def test_an_id_is_a_uuid_of_version_7_that_holds_its_moment() -> None:
    own_id = new_id(AT)

    assert (UUID(own_id).version, UUID(own_id).variant, is_id(own_id)) == (7, RFC_4122, True)
    assert made_at(own_id) == int(AT.timestamp() * 1000)


def test_ids_sort_by_their_moments_and_two_of_one_moment_differ() -> None:
    ids = [new_id(AT + timedelta(seconds=number)) for number in range(100)]

    assert ids == sorted(ids)
    assert len({new_id(AT) for _ in range(1000)}) == 1000


@given(st.lists(st.text()), st.lists(st.text()))
def test_content_has_one_id_and_other_content_another(one: list[str], other: list[str]) -> None:
    own_id = id_of_content(one)

    assert (UUID(own_id).version, UUID(own_id).variant, made_at(own_id)) == (8, RFC_4122, None)
    assert (id_of_content(other) == own_id) == (one == other)
