"""The sheets of the real cards: each back lies behind its front, for either way a printer turns them."""

import numpy as np
import pytest
from numpy.typing import NDArray

from binder.rendering.sheets import CORNER_OF_FAMILY, Flip, Printer, imposed_sheets
from tests import paper_checks as paper
from tests.paper.printings import Printing, Sheet

_TENTH_OF_MM = 0.1 * 72 / 25.4

Points = NDArray[np.float64]


@pytest.fixture(params=["long", "short"])
def flip(request: pytest.FixtureRequest) -> Flip:
    chosen: Flip = request.param
    return chosen


def middles(sheet: Sheet) -> Points:
    """Middle of each letter's ink, in the order it is drawn."""
    return np.array(
        [
            ((glyph.area.left + glyph.area.right) / 2, (glyph.area.bottom + glyph.area.top) / 2)
            for glyph in sheet.glyphs
        ]
    ).reshape(-1, 2)


def seen_through(back: Points, size: tuple[float, float], flip: Flip) -> Points:
    """Where the letters of a back lie on its front: the sheet lies on its side, its long edge level."""
    width, height = size
    turned = back.copy()
    if flip == "long":
        turned[:, 1] = height - back[:, 1]
    else:
        turned[:, 0] = width - back[:, 0]
    return turned


def imposed(printing: Printing, flip: Flip) -> bytes:
    cards = printing.cards
    return imposed_sheets(
        printing.files["cards.pdf"],
        printing.assessment.rig.paper,
        Printer(flip),
        tuple(len(card.sides) for card in cards),
        tuple(CORNER_OF_FAMILY[card.family] for card in cards),
    )


def test_every_letter_of_a_back_lies_behind_its_own_card(printing: Printing, flip: Flip) -> None:
    sheets = [Sheet(page) for page in paper.pages(imposed(printing, flip))]
    sides = iter(printing.pages["cards.pdf"])
    size = sheets[0].page.get_size()
    card_width = printing.pages["cards.pdf"][0].page.get_width()
    placed: list[list[Points]] = [[] for _ in sheets]
    # A card of more than two sides takes several leaves; which of them have a back.
    leaves = [
        begun < count
        for card in printing.cards
        for count in [len(card.sides)]
        for begun in range(1, count + 1, 2)
    ]
    for at, has_back in enumerate(leaves):
        left = size[0] / 2 - (card_width if at % 2 == 0 else 0)
        own = middles(next(sides))
        placed[at // 2 * 2].append(own + np.array([left, 0.0]))
        if has_back:
            own = middles(next(sides))
            # Turned like a page and seen through from the front, a back is mirrored left to right.
            placed[at // 2 * 2 + 1].append(np.column_stack([left + card_width - own[:, 0], own[:, 1]]))

    for number, sheet in enumerate(sheets):
        found = middles(sheet) if number % 2 == 0 else seen_through(middles(sheet), size, flip)
        wanted = np.vstack([*placed[number], np.empty((0, 2))])
        assert found.shape == wanted.shape
        # Turned words are read in another order: each letter is compared with the nearest.
        apart = np.abs(found[:, None, :] - wanted[None, :, :]).max(axis=2)
        nearest = (apart.min(axis=0, initial=np.inf), apart.min(axis=1, initial=np.inf))
        assert max(distances.max(initial=0) for distances in nearest) < _TENTH_OF_MM


def test_the_printed_sheets_are_for_the_long_edge_and_the_same_bytes_again(printing: Printing) -> None:
    assert imposed(printing, "long") == printing.files["sheets.pdf"]
    assert imposed(printing, "short") == imposed(printing, "short") != printing.files["sheets.pdf"]
