"""Every code on paper is read by two independent readers, and leads to its own card in the log."""

import re

import numpy as np
import pytest
import zxingcpp
from numpy.typing import NDArray

from tests.paper.printings import Printing, Sheet
from tests.paper.trials import TRIALS, read_by_opencv

Image = NDArray[np.uint8]

_DPI = 300
_POINTS_PER_INCH = 72
_AROUND = 12
"""Points of the page shown around a code, its neighbors with it."""

_ADDRESS = re.compile(r"HTTPS://\S+(?: \S+)*?#(\d+(?:\.\d+)?)\. ?([0-9a-z]{5})")


def picture(sheet: Sheet) -> Image:
    """A page at 300 dpi."""
    bitmap = sheet.page.render(scale=_DPI / _POINTS_PER_INCH, grayscale=True)
    return np.asarray(bitmap.to_numpy().reshape(bitmap.height, bitmap.width))


def pictures(sheet: Sheet) -> list[Image]:
    """Each code of a page, cut out with what stands around it."""
    if not sheet.codes:
        return []
    image = picture(sheet)
    scale, height = _DPI / _POINTS_PER_INCH, sheet.page.get_height()
    return [
        np.ascontiguousarray(
            image[
                int((height - area.top - _AROUND) * scale) : int((height - area.bottom + _AROUND) * scale),
                int((area.left - _AROUND) * scale) : int((area.right + _AROUND) * scale),
            ]
        )
        for area in sheet.codes
    ]


@pytest.mark.parametrize("name", ["cards.pdf", "binder.pdf"])
def test_two_readers_read_what_is_printed_beside_each_code(printing: Printing, name: str) -> None:
    seen = []
    for sheet in printing.pages[name]:
        printed = "".join(sheet.text.split())
        for image in pictures(sheet):
            found = [code.text for code in zxingcpp.read_barcodes(image)]
            assert found == [read_by_opencv(image)]
            assert found[0] in printed
            seen += found

    assert sorted(seen) == sorted(card.target for card in printing.cards)


def test_the_mark_of_a_code_is_its_card_and_its_content_in_the_record(printing: Printing) -> None:
    listed = [(entry["id"], entry["code"]) for entry in printing.record["cards"]]
    marked = [card.target.rpartition("#")[2].rpartition(".")[::2] for card in printing.cards]

    assert marked == listed
    assert all(card.target.startswith("HTTPS://LOG.EXAMPLE.ORG/") for card in printing.cards)


def test_the_code_in_the_foot_is_the_one_in_the_address(printing: Printing) -> None:
    for (card, number, _), sheet in zip(printing.sides, printing.pages["cards.pdf"], strict=True):
        assert f" {card.rig} \u00b7 full set code {card.code} " in f"{sheet.text} "
        assert [match.groups() for match in _ADDRESS.finditer(sheet.text)] == (
            [(card.id, card.code)] if number == 1 else []
        )


def test_a_code_stands_on_the_first_side_only(printing: Printing) -> None:
    shown = [bool(pictures(sheet)) for sheet in printing.pages["cards.pdf"]]

    assert shown == [number == 1 for _, number, _ in printing.sides]


def test_codes_are_read_on_the_sheets_too(printing: Printing) -> None:
    images = [picture(sheet) for sheet in printing.pages["sheets.pdf"]]

    seen = [code.text for image in images for code in zxingcpp.read_barcodes(image)]

    assert sorted(seen) == sorted(card.target for card in printing.cards)


@pytest.mark.parametrize("trial", ["defocus 0.5 mm", "contrast 20 %", "third copy", "phone, 80 dpi"])
def test_two_readers_read_each_code_in_the_field(printing: Printing, trial: str) -> None:
    """The part of the field trials that needs no reader of words; glare and rain hit some codes by chance."""
    chance = np.random.default_rng([*trial.encode()])
    seen = [
        TRIALS[trial](image, chance) for sheet in printing.pages["cards.pdf"] for image in pictures(sheet)
    ]

    unread = [
        at for at, view in enumerate(seen) if not (zxingcpp.read_barcodes(view) and read_by_opencv(view))
    ]

    assert len(seen) == len(printing.cards)
    assert unread == []
