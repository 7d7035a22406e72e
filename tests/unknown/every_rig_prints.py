"""Print rigs made up from seeds, and tell what was refused, broke, or was printed over or off its place.

``python -m tests.unknown.every_rig_prints 300 --seed 1`` builds so many in two processes and counts;
``test_every_rig_prints.py`` does a seeded part.
"""

import re
import sys
import traceback
from argparse import ArgumentParser
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from datetime import date
from functools import partial
from html import unescape
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

import pypdfium2 as pdfium

from binder.assessment.assess import Assessment
from binder.cards.blocks import Card, Drawing, Note, Picture
from binder.printing.build import BuildOptions, build, printable_cards, read_and_assess
from binder.problems import InputProblems
from binder.rendering.drawings.drawers import drawn
from binder.rendering.html import ring_html
from binder.rendering.paper import SAFE_AREA
from binder.rendering.pdf import render
from tests import paper_checks as paper
from tests.paper.printings import said_by_side
from tests.unknown.made_up_rigs import made_up, written

ON = date(2026, 6, 1)


class Outcome(NamedTuple):
    """What became of a made-up rig (``printed``, ``refused`` or ``broke``) and what paper shows wrong."""

    seed: int
    kind: str
    said: str = ""
    pages: int = 0
    letters: int = 0
    faults: tuple[str, ...] = ()


def outcome(seed: int, *, is_bound: bool) -> Outcome:
    """Check a made-up rig as ``check`` does, then print its cards, or all of it where it is bound."""
    with TemporaryDirectory() as work:
        folder = written(Path(work) / "rig", *made_up(seed))
        options = BuildOptions(ON, "trip", Path(work) / "out")
        try:
            assessment = read_and_assess(folder, options)
            cards = printable_cards(assessment)
        except InputProblems as problems:
            return Outcome(seed, "refused", str(problems))
        except Exception:  # noqa: BLE001 - whatever it is, it is told.
            return Outcome(seed, "broke", traceback.format_exc())
        try:
            files = dict(_printed(folder, options, is_bound=is_bound, assessment=assessment, cards=cards))
        except Exception:  # noqa: BLE001 - what check accepts is not refused either.
            return Outcome(seed, "broke", traceback.format_exc())
    return _read_back(seed, files, cards)


def _printed(
    folder: Path, options: BuildOptions, *, is_bound: bool, assessment: Assessment, cards: tuple[Card, ...]
) -> Iterator[tuple[str, bytes]]:
    if not is_bound:
        html = ring_html(cards, assessment.rig.paper)
        yield "cards.pdf", render(html, sum(len(card.sides) for card in cards)).content
        return
    report = build(folder, options)
    yield from ((name, (report.out / name).read_bytes()) for name in ("cards.pdf", "binder.pdf"))


def _read_back(seed: int, files: dict[str, bytes], cards: tuple[Card, ...]) -> Outcome:
    pages, letters = 0, 0
    faults: list[str] = []
    for name, content in files.items():
        for number, page in enumerate(paper.pages(content), 1):
            pages += 1
            letters += len(paper.text(page))
            faults += (f"{name}, page {number}: {fault}" for fault in _faults(page))
    sides = [(card, number) for card in cards for number in range(1, len(card.sides) + 1)]
    for page, (card, number) in zip(paper.pages(files["cards.pdf"]), sides, strict=True):
        faults += (f"{card.id} side {number}: not on it: {text!r}" for text in _lost(page, card, number))
    return Outcome(seed, "printed", "", pages, letters, tuple(faults))


def _faults(page: pdfium.PdfPage) -> Iterator[str]:
    for one, other in paper.overlapping_glyphs(page):
        around = paper.text(page)[max(one.order - 20, 0) : one.order + 20]
        yield f"{one.letter!r} and {other.letter!r} over each other near {around!r}"
    outside = paper.outside_safe_area(page, SAFE_AREA)
    if outside:
        yield f"{len(outside)} outside the safe area"


def _lost(page: pdfium.PdfPage, card: Card, number: int) -> Iterator[str]:
    """Give what a side says and its page does not show, a drawing that was left out included."""
    shown = _unspaced(paper.text(page))
    side = card.sides[number - 1]
    pictures = [drawn(block) for block in side.blocks if isinstance(block, Picture)]
    words = replace(side, blocks=tuple(block for block in side.blocks if not isinstance(block, Picture)))
    card = replace(card, sides=(*card.sides[: number - 1], words, *card.sides[number:]))
    in_pictures = [
        unescape(text)
        for one in pictures
        if isinstance(one, Drawing)
        for text in re.findall("<text[^>]*>([^<]*)", one.svg)
    ]
    for text in (*said_by_side(card, number), *in_pictures):
        if _unspaced(text.removeprefix("Wrong as soon as ")) not in shown:
            yield text
    yield from (one.text for one in pictures if isinstance(one, Note))


def _unspaced(text: str) -> str:
    """Text without spaces and hyphens: a line end adds the one and hides the other."""
    return re.sub(r"[\s\x02\u00ad\ufffe-]", "", text)


def main() -> None:
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int)
    parser.add_argument("--seed", type=int, default=1, help="the first seed")
    parser.add_argument("--cards", action="store_true", help="print the cards alone, in a third of the time")
    given = parser.parse_args()
    kinds: Counter[str] = Counter()
    pages = letters = faults = 0
    with ProcessPoolExecutor(2) as pool:
        seeds = range(given.seed, given.seed + given.count)
        for one in pool.map(partial(outcome, is_bound=not given.cards), seeds):
            kinds[one.kind] += 1
            pages, letters, faults = pages + one.pages, letters + one.letters, faults + len(one.faults)
            for text in (one.said, *one.faults):
                sys.stdout.write(f"seed {one.seed} {one.kind}: {text}\n" if text else "")
            sys.stdout.flush()
    counts = ", ".join(f"{number} {kind}" for kind, number in kinds.items())
    sys.stdout.write(f"{given.count} rigs: {counts}; {pages} pages, {letters} letters, {faults} faults\n")


if __name__ == "__main__":
    main()
