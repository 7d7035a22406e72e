"""Parts that are kept: found again as they were, let go when damaged, never more than there is room for."""

import os
import random
from pathlib import Path

import pytest

from binder.rendering.parts.cache import PartCache
from binder.rendering.parts.part import PartHtml, RenderedPdf

PART = PartHtml("card-3", ("3 Tires",), "<p>105 psi</p>", 2)
PDF = RenderedPdf(b"%PDF-1.7 " + bytes(range(256)) * 20, 2)


@pytest.fixture
def kept(tmp_path: Path) -> PartCache:
    cache = PartCache(tmp_path / "parts")
    cache.put(PART, PDF)
    return cache


def test_a_part_is_found_as_it_was(kept: PartCache) -> None:
    assert kept.get(PART) == PDF
    assert kept.notes == []


@pytest.mark.parametrize("other", [PART._replace(html="<p>100 psi</p>"), PART._replace(pages=3)])
def test_another_part_is_not_found(kept: PartCache, other: PartHtml) -> None:
    assert kept.get(other) is None


def test_a_thousand_damages_are_all_noticed(kept: PartCache) -> None:
    (file,) = kept.folder.iterdir()
    whole, chance = file.read_bytes(), random.Random(12)  # noqa: S311 - damage, not secrets.
    for number in range(1000):
        damaged = bytearray(whole)
        if number % 3 == 0:
            damaged = damaged[: chance.randrange(len(whole))]
        elif number % 3 == 1:
            damaged[chance.randrange(len(whole))] ^= 1 << chance.randrange(8)
        else:
            damaged += bytes([chance.randrange(256)])
        file.write_bytes(damaged)
        assert kept.get(PART) is None
        assert not file.exists()
    assert len(kept.notes) == 1000


def test_what_was_used_longest_ago_goes_first(tmp_path: Path) -> None:
    cache = PartCache(tmp_path / "parts", most=3 * (len(PDF.content) + 60))
    parts = [PART._replace(html=f"<p>{number}</p>") for number in range(5)]
    for age, part in enumerate(parts):
        before = set(cache.folder.glob("*"))
        cache.put(part, PDF)
        (new,) = set(cache.folder.iterdir()) - before
        os.utime(new, (age, age))
    assert cache.get(parts[0]) == PDF

    cache.shrink()

    assert [part.html for part in parts if cache.get(part)] == [parts[at].html for at in (0, 3, 4)]


def test_a_place_that_cannot_be_written_is_told_and_does_no_harm(tmp_path: Path) -> None:
    (tmp_path / "parts").write_text("mine")
    cache = PartCache(tmp_path / "parts")

    cache.put(PART, PDF)

    assert cache.get(PART) is None
    assert len(cache.notes) == 2
    assert (tmp_path / "parts").read_text() == "mine"
