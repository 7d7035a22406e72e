"""A whole printing: every part laid out by itself, on all processors, then put together into the files."""

import os
import signal
from collections.abc import Callable, Iterable
from concurrent.futures import Executor, ProcessPoolExecutor
from multiprocessing import get_context

from binder.cards.blocks import BinderDocument, Card, Page
from binder.rendering import html
from binder.rendering.joining import Part, joined
from binder.rendering.paper import PaperName
from binder.rendering.parts import PartHtml, RenderedPdf
from binder.rendering.pdf import render
from binder.rendering.sheets import CORNER_OF_FAMILY, Flip, imposed_sheets


def typeset(
    document: BinderDocument,
    cards: tuple[Card, ...],
    paper: PaperName,
    flip: Flip,
    begin: Callable[[str], None],
) -> tuple[dict[str, bytes], dict[str, int]]:
    """Lay out every part by itself and put them together: contents and pages of each file."""
    begin("html")
    ring, binder = html.ring_parts(cards, paper), html.binder_parts(document, paper)
    desk = html.desk_parts(document, paper)
    begin("parts")
    every = [*ring, *binder, *desk]
    with processes() as pool:
        pdfs = rendered(every, pool)
        # A card stands in the ring and in the binder under one name: the binder's is counted last.
        pages = {part.name: pdf.page_count for part, pdf in zip(every, pdfs, strict=True)}

        def listing(title: str, parts: Iterable[Card | Page]) -> PartHtml:
            return html.contents_part(document, paper, title, [(p, pages[html.part_name(p)]) for p in parts])

        lists = [listing(html.CONTENTS, document.parts), listing(html.DESK, document.desk)]
        cover_list, desk_list = (
            Part(one.name, one.bookmarks, pdf) for one, pdf in zip(lists, rendered(lists, pool), strict=True)
        )
    begin("joining")
    made = [Part(part.name, part.bookmarks, pdf) for part, pdf in zip(every, pdfs, strict=True)]
    of_ring, (cover, *of_binder) = made[: len(ring)], made[len(ring) : -len(desk)]
    files = {
        "binder.pdf": joined(f"{document.rig}, {document.title}", [cover, cover_list, *of_binder]),
        "cards.pdf": joined(f"Cards of {document.rig}", of_ring),
        "desk.pdf": joined(f"{document.rig}, {html.DESK}", [desk_list, *made[-len(desk) :]]),
    }
    begin("sheets")
    sides = tuple(len(card.sides) for card in cards)
    corners = tuple(CORNER_OF_FAMILY[card.family] for card in cards)
    sheets = imposed_sheets(files["cards.pdf"].content, paper, flip, sides, corners)
    contents = {name: pdf.content for name, pdf in files.items()} | {"sheets.pdf": sheets}
    return contents, {name: pdf.page_count for name, pdf in files.items()}


def rendered(parts: Iterable[PartHtml], executor: Executor) -> list[RenderedPdf]:
    """Lay out each part by itself, in their order; the longest begin first, so that all end together."""
    listed = list(parts)
    longest_first = sorted(range(len(listed)), key=lambda at: -len(listed[at].html))
    begun = {at: executor.submit(render, listed[at].html, listed[at].pages) for at in longest_first}
    return [begun[at].result() for at in range(len(listed))]


def processes() -> ProcessPoolExecutor:
    """One process for each processor; an interrupt ends them in silence.

    Each is started for this work: none holds what another printing left behind.
    """
    count = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return ProcessPoolExecutor(count, get_context("spawn"), signal.signal, _NOT_INTERRUPTED)


_NOT_INTERRUPTED = (signal.SIGINT, signal.SIG_IGN)
"""An interrupt is for the process a person started: it ends the others."""
