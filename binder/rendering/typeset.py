"""A whole printing: every part laid out by itself, on all processors, then put together into the files."""

import os
import signal
from collections.abc import Callable, Iterable
from concurrent.futures import ProcessPoolExecutor
from functools import cached_property
from multiprocessing import get_context
from typing import NamedTuple, Self

from binder.cards.blocks import BinderDocument, InForce, Part, part_key
from binder.rendering import html
from binder.rendering.cache import PartCache
from binder.rendering.joining import JoinedPart, joined
from binder.rendering.paper import PaperName
from binder.rendering.parts import PartHtml, RenderedPdf
from binder.rendering.pdf import render
from binder.rendering.sheets import CORNER_OF_FAMILY, Flip, imposed_sheets


class Typeset(NamedTuple):
    """The files of a printing, pages of each file, and pages of each part."""

    contents: dict[str, bytes]
    pages: dict[str, int]
    pages_of_parts: dict[str, int]


def typeset(
    document: BinderDocument,
    paper: PaperName,
    flip: Flip,
    begin: Callable[[str], None],
    cache: PartCache | None = None,
) -> Typeset:
    """Lay out every part by itself and put them together; no file is made that would have no page."""
    cards = document.cards
    begin("html")
    ring, binder = html.ring_parts(cards, paper), html.binder_parts(document, paper)
    desk, slip = html.desk_parts(document, paper), html.slip_parts(document, paper)
    begin("parts")
    every = [*ring, *slip, *binder, *desk]
    with Processes() as processes:
        pdfs = rendered(every, processes, cache)
        # A card stands in the ring and in the binder under one name: the binder's is counted last.
        pages = {part.name: pdf.page_count for part, pdf in zip(every, pdfs, strict=True)}

        def listing(title: str, parts: Iterable[Part | InForce]) -> PartHtml:
            listed = [(one, one.pages if isinstance(one, InForce) else pages[part_key(one)]) for one in parts]
            return html.contents_part(document, paper, title, listed)

        lists = [listing(html.CONTENTS, document.in_force or document.parts)]
        lists += [listing(html.DESK, document.desk_in_force or document.desk)] if desk else []
        contents, *of_desk = _made(lists, rendered(lists, processes, cache))
    if cache:
        cache.shrink()
    begin("joining")
    made = _made(every, pdfs)
    front = len(ring) + len(slip) + document.has_cover
    of_ring, first = made[: len(ring)], made[len(ring) : front]
    of_binder, desk_parts = made[front : len(every) - len(desk)], made[len(every) - len(desk) :]
    files = {
        "binder.pdf": joined(f"{document.rig}, {document.title}", [*first, contents, *of_binder]),
    }
    if desk:
        files["desk.pdf"] = joined(f"{document.rig}, {html.DESK}", [*of_desk, *desk_parts])
    written = {name: pdf.content for name, pdf in files.items()}
    if cards:
        files["cards.pdf"] = joined(f"Cards of {document.rig}", of_ring)
        begin("sheets")
        sides = tuple(len(card.sides) for card in cards)
        corners = tuple(CORNER_OF_FAMILY[card.family] for card in cards)
        written["cards.pdf"] = files["cards.pdf"].content
        written["sheets.pdf"] = imposed_sheets(written["cards.pdf"], paper, flip, sides, corners)
    return Typeset(written, {name: pdf.page_count for name, pdf in files.items()}, pages)


def _made(parts: list[PartHtml], pdfs: list[RenderedPdf]) -> list[JoinedPart]:
    return [JoinedPart(part.name, part.bookmarks, pdf) for part, pdf in zip(parts, pdfs, strict=True)]


def rendered(parts: Iterable[PartHtml], processes: "Processes", cache: PartCache | None) -> list[RenderedPdf]:
    """Lay out each part that is not kept; the longest begin first, so that all end together."""
    listed = list(parts)
    found = [cache.get(part) if cache else None for part in listed]
    longest_first = sorted(range(len(listed)), key=lambda at: -len(listed[at].html))
    begun = {
        at: processes.pool.submit(render, listed[at].html, listed[at].pages)
        for at in longest_first
        if found[at] is None
    }
    made = [kept or begun[at].result() for at, kept in enumerate(found)]
    if cache:
        for at in begun:
            cache.put(listed[at], made[at])
    return made


class Processes:
    """One process for each processor, begun when there is work; an interrupt ends them in silence.

    Each is started for this printing: none holds what another left behind.
    """

    def __enter__(self) -> Self:
        """Wait for the first work."""
        return self

    def __exit__(self, *_fault: object) -> None:
        """End the processes, if any were begun."""
        if "pool" in self.__dict__:
            self.pool.shutdown(cancel_futures=True)

    @cached_property
    def pool(self) -> ProcessPoolExecutor:
        """The processes."""
        count = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
        return ProcessPoolExecutor(count, get_context("spawn"), signal.signal, _NOT_INTERRUPTED)


_NOT_INTERRUPTED = (signal.SIGINT, signal.SIG_IGN)
"""An interrupt is for the process a person started: it ends the others."""
