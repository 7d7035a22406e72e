"""A whole printing: every part laid out by itself, on all processors, then put together into the files."""

import os
import signal
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import cached_property
from multiprocessing import get_context
from typing import NamedTuple, Self

from binder.cards.blocks import BinderDocument, Card, Page
from binder.rendering import html
from binder.rendering.cache import PartCache
from binder.rendering.joining import Part, joined
from binder.rendering.paper import Paper
from binder.rendering.parts import PartHtml, RenderedPdf
from binder.rendering.pdf import render
from binder.rendering.sheets import CORNER_OF_FAMILY, Flip, imposed_sheets


class Ring(NamedTuple):
    """Cards laid out on a paper, whose type may be larger than in the binder, which shows them reduced."""

    cards: Sequence[Card]
    paper: Paper


def typeset(
    document: BinderDocument,
    laid: Ring,
    flip: Flip,
    begin: Callable[[str], None],
    cache: PartCache | None = None,
) -> tuple[dict[str, bytes], dict[str, int]]:
    """Lay out every part by itself and put them together: contents and pages of each file."""
    begin("html")
    paper, size = laid.paper.name, laid.paper.card.size
    ring, binder = html.ring_parts(laid.cards, paper, size), html.binder_parts(document, paper)
    desk = html.desk_parts(document, paper)
    begin("parts")
    every = [*ring, *binder, *desk]
    with Processes() as processes:
        pdfs = rendered(every, processes, cache)
        # A card stands in the ring and in the binder under one name: the binder's is counted last.
        pages = {part.name: pdf.page_count for part, pdf in zip(every, pdfs, strict=True)}

        def listing(title: str, parts: Iterable[Card | Page]) -> PartHtml:
            return html.contents_part(document, paper, title, [(p, pages[html.part_name(p)]) for p in parts])

        lists = [listing(html.CONTENTS, document.parts)]
        lists += [listing(html.DESK, document.desk)] if desk else []
        listed = _made(lists, rendered(lists, processes, cache))
    if cache:
        cache.shrink()
    begin("joining")
    made = _made(every, pdfs)
    of_ring, (cover, *of_binder), of_desk = _dealt(made, len(ring), len(binder))
    files = {
        "binder.pdf": joined(f"{document.rig}, {document.title}", [cover, listed[0], *of_binder]),
        "cards.pdf": joined(f"Cards of {document.rig}", of_ring),
    }
    if desk:
        files["desk.pdf"] = joined(f"{document.rig}, {html.DESK}", [listed[1], *of_desk])
    begin("sheets")
    sides = tuple(len(card.sides) for card in laid.cards)
    corners = tuple(CORNER_OF_FAMILY[card.family] for card in laid.cards)
    sheets = imposed_sheets(files["cards.pdf"].content, paper, flip, sides, corners)
    contents = {name: pdf.content for name, pdf in files.items()} | {"sheets.pdf": sheets}
    return contents, {name: pdf.page_count for name, pdf in files.items()}


def _made(parts: list[PartHtml], pdfs: list[RenderedPdf]) -> list[Part]:
    return [Part(part.name, part.bookmarks, pdf) for part, pdf in zip(parts, pdfs, strict=True)]


def _dealt(made: list[Part], ring: int, binder: int) -> tuple[list[Part], list[Part], list[Part]]:
    return made[:ring], made[ring : ring + binder], made[ring + binder :]


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
