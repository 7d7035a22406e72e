"""A card has one name in three places: its function, its test and its gold file."""

from pathlib import Path

import pytest

from binder.cards.ring.order import RING

PLACES = {
    "test": "tests/cards/ring/test_{}.py",
    "gold file": "tests/gold/cards/{}.html",
}


def names(root: Path, place: str) -> set[str]:
    """Names that a place holds: the stems of its files, less what the pattern puts before them."""
    pattern = root / place.format("*")
    start = pattern.name.split("*")[0]
    return {file.stem.removeprefix(start) for file in pattern.parent.glob(pattern.name)}


@pytest.mark.parametrize("place", PLACES.values(), ids=PLACES)
def test_every_card_of_the_ring_stands_in_each_place(root: Path, place: str) -> None:
    assert set(RING) - names(root, place) == set()


def test_every_card_is_made_by_the_function_of_its_name() -> None:
    assert [
        name for name, make in RING.items() if make.__name__.removesuffix("s") != name.removesuffix("s")
    ] == []


@pytest.mark.parametrize("place", ["test", "gold file"])
def test_no_place_holds_a_card_that_is_not_in_the_ring(root: Path, place: str) -> None:
    assert names(root, PLACES[place]) == set(RING)
