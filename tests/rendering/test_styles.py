"""What the style sheets and drawings keep for tired eyes: room between rows, an edge around every fill."""

import re
from pathlib import Path

import pytest

from binder.cards.blocks import Drawing, Page, Picture
from binder.cards.order import binder_document
from binder.cards.ring.order import ring
from binder.rendering.drawings.drawers import drawn
from tests.cards.binder_rigs import demo

_RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")
_SIZE = re.compile(r"font(?:-size)?: [^;]*?(var\(--[\w-]+\)|[\d.]+pt)(?:/(var\(--[\w-]+\)|[\d.]+pt))?")
_HIGH = re.compile(r"line-height: (var\(--[\w-]+\)|[\d.]+pt)")
_GRAY = re.compile(r'<rect [^>]*fill="#(?!fff|000)[0-9a-f]+"[^>]*>')


def tokens(css: Path) -> dict[str, float]:
    found = re.findall(r"--([\w-]+): ([\d.]+)pt;", (css / "tokens.css").read_text("utf-8"))
    return {f"var(--{name})": float(value) for name, value in found}


def test_every_row_is_1_3_times_as_high_as_its_type_or_more(root: Path) -> None:
    css, checked = root / "templates" / "css", 0
    points = tokens(css)
    for file in sorted(css.rglob("*.css")):
        for selector, body in _RULE.findall(file.read_text("utf-8")):
            size, high = _SIZE.search(body), _HIGH.search(body)
            rows = high[1] if high else size and size[2]
            if size and rows:
                ratio = points.get(rows, 0.0) or float(rows.removesuffix("pt"))
                type_ = points.get(size[1], 0.0) or float(size[1].removesuffix("pt"))
                assert round(ratio / type_, 6) >= 1.3, (file.name, selector.strip())
                checked += 1
    assert checked > 25


@pytest.mark.parametrize("rig", ["larkspur", "tamarack"])
def test_every_gray_bar_has_a_black_edge(rig: str) -> None:
    assessment = demo(rig)
    cards = ring(assessment)
    parts = binder_document(assessment, cards).parts
    blocks = [block for card in cards for side in card.sides for block in side.blocks]
    blocks += [block for part in parts if isinstance(part, Page) for block in part.blocks]
    made = [drawn(block) for block in blocks if isinstance(block, Picture)]
    bars = [bar for one in made if isinstance(one, Drawing) for bar in _GRAY.findall(one.svg)]

    assert len(bars) > 3
    assert [bar for bar in bars if not re.search(r'stroke="#000" stroke-width="(0\.[5-9]|[1-9])', bar)] == []
