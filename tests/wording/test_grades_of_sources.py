"""No number rests on a secondary page alone without saying so beside it."""

from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest

from binder.assessment.ledger import FigureKind
from binder.assessment.weights import kinds as weights
from binder.cards.order import binder_document
from binder.cards.ring.order import ring
from binder.reference import constants
from binder.reference.constants import PROCEDURE_CONSTANTS, Constant
from binder.reference.sources import source, source_ids
from binder.wording.record import origin_words, source_words
from tests.cards.binder_rigs import demo
from tests.rendering.whole_binder import binder_html

_ROOT = Path(__file__).parents[2]
_TABLES = sorted((_ROOT / "binder" / "assessment").glob("*/*kinds.py"))


def _cited() -> Iterator[str]:
    """Every source line of a kind of figure, of a constant and of the fixed numbers."""
    for file in _TABLES:
        module = import_module(".".join(file.relative_to(_ROOT).with_suffix("").parts))
        for entry in vars(module).values():
            for kind in entry if isinstance(entry, tuple) else (entry,):
                if isinstance(kind, FigureKind):
                    yield from (kind.sources,) if isinstance(kind.sources, str) else kind.sources.values()
    yield from (one.source for one in vars(constants).values() if isinstance(one, Constant))
    yield from (one.source for one in PROCEDURE_CONSTANTS.values())


def _is_weak(text: str) -> bool:
    grades = [source(name).grade for name in source_ids(text)]
    return "C" in grades and not any(grade[0] in "AB" for grade in grades)


_CITED = sorted({text for text in _cited() if "{" not in text})
_WEAK = [text for text in _CITED if _is_weak(text)]


def test_some_numbers_rest_on_secondary_pages() -> None:
    assert 5 < len(_WEAK) < len(_CITED) / 3


@pytest.mark.parametrize("text", _WEAK)
def test_a_secondary_page_alone_says_so_beside_the_number_and_in_explain(text: str) -> None:
    weak = [name for name in source_ids(text) if source(name).grade == "C"]
    explained = {line.partition(":")[0]: line for line in source_words(text)}

    assert all(f"{name} (grade C)" in origin_words(text).split("; ") for name in weak)
    assert all(explained[name].endswith("(grade C: a secondary page, get a better one)") for name in weak)


@pytest.mark.parametrize("text", sorted({*_CITED} - {*_WEAK}))
def test_what_a_regulation_or_a_maker_says_too_stands_as_it_is(text: str) -> None:
    assert origin_words(text) == text
    assert "(grade C" not in origin_words(text)


def test_the_binder_of_a_demo_says_it_at_its_reasons_and_numbers() -> None:
    assessment = demo("larkspur")
    printed = binder_html(binder_document(assessment, ring(assessment)), "letter")

    for name in ("W40", "W53", "S35"):
        assert f"{name} (grade C)" in printed
    assert "[practice; S35]" not in printed
    assert "From: practice; S35." not in printed


def test_loads_say_that_fuel_counts_at_a_density_of_a_secondary_page() -> None:
    fuels = (constants.DIESEL_DENSITY, constants.GASOLINE_DENSITY)

    assert all(source(one.source).grade == "C" for one in fuels)
    for rated in (weights.AXLE, weights.TOTAL, weights.COMBINATION):
        assert any("densities, from secondary pages (grade C)" in one for one in rated.load.cautions)
