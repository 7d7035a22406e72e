"""Rigs of every kind that nobody here wrote are printed whole: nothing refused, broken or cut."""

import pytest

from tests.unknown.every_rig_prints import outcome
from tests.unknown.made_up_rigs import KINDS

CARDS = range(1000, 1020)
BOUND = (1020, 1021, 4004, 7050, 7246)
"""Seeds of rigs whose binder is printed too, which takes five times as long: one has a table too wide, one
a tire loaded far beyond its table, one a name too long for the rows of its worksheet."""


def test_the_seeds_give_every_kind() -> None:
    assert {seed % len(KINDS) for seed in CARDS} == set(range(len(KINDS)))


@pytest.mark.parametrize("seed", CARDS)
def test_the_cards_of_a_made_up_rig_are_printed_whole(seed: int) -> None:
    found = outcome(seed, is_bound=False)

    assert (found.kind, found.said, found.faults) == ("printed", "", ())
    assert found.pages > 10
    assert found.letters > 5_000


@pytest.mark.parametrize("seed", BOUND)
def test_the_binder_of_a_made_up_rig_is_printed_whole(seed: int) -> None:
    found = outcome(seed, is_bound=True)

    assert (found.kind, found.said, found.faults) == ("printed", "", ())
    assert found.pages > 40
    assert found.letters > 40_000
