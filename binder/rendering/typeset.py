"""A whole printing: every part laid out by itself, on all processors, then put together into the files."""

from collections.abc import Callable, Iterable
from concurrent.futures import Future, as_completed
from typing import NamedTuple, Protocol, TypeAlias

from binder.cards.blocks import BinderDocument, Part, StayingPart, part_key
from binder.rendering import html
from binder.rendering.cache import PartCache
from binder.rendering.joining import JoinedPart, joined
from binder.rendering.paper import PaperName
from binder.rendering.parts import PartHtml, RenderedPdf
from binder.rendering.sheets import CORNER_OF_FAMILY, Flip, imposed_sheets

Submit: TypeAlias = Callable[[PartHtml], "Future[RenderedPdf]"]
"""Has a part laid out, wherever that is done."""


class Typeset(NamedTuple):
    """The files of a printing, pages of each file, and pages of each part."""

    contents: dict[str, bytes]
    pages: dict[str, int]
    pages_of_parts: dict[str, int]


class Progress(Protocol):
    """Told of each step when it begins, and of parts as they are done."""

    def __call__(self, step: str, done: int = 0, of: int = 0, /) -> None:
        """Tell the step and how far it is."""


def typeset(  # noqa: PLR0913, PLR0917 - a document, how it is printed, and what it is printed with.
    document: BinderDocument,
    paper: PaperName,
    flip: Flip,
    submit: Submit,
    begin: Progress,
    cache: PartCache | None = None,
) -> Typeset:
    """Lay out every part by itself and put them together; no file is made that would have no page."""
    cards = document.cards
    begin("html")
    ring, binder = html.ring_parts(cards, paper), html.binder_parts(document, paper)
    desk, slip = html.desk_parts(document, paper), html.slip_parts(document, paper)
    every = [*ring, *slip, *binder, *desk]
    pdfs = rendered(every, submit, cache, begin)
    # A card stands in the ring and in the binder under one name: the binder's is counted last.
    pages = {part.name: pdf.page_count for part, pdf in zip(every, pdfs, strict=True)}

    def listing(title: str, parts: Iterable[Part | StayingPart]) -> PartHtml:
        listed = [(one, one.pages if isinstance(one, StayingPart) else pages[part_key(one)]) for one in parts]
        return html.contents_part(document, paper, title, listed)

    lists = [listing(html.CONTENTS, document.in_force or document.parts)]
    lists += [listing(html.DESK, document.desk_in_force or document.desk)] if desk else []
    begin("contents")
    contents, *of_desk = _made(lists, rendered(lists, submit, cache))
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


def rendered(
    parts: Iterable[PartHtml],
    submit: Submit,
    cache: PartCache | None,
    begin: Progress = lambda _step, _done=0, _of=0: None,
) -> list[RenderedPdf]:
    """Lay out each part that is not kept; the longest begin first, so that all end together."""
    listed = list(parts)
    found = [cache.get(part) if cache else None for part in listed]
    longest_first = sorted(range(len(listed)), key=lambda at: -len(listed[at].html))
    begun = {submit(listed[at]): at for at in longest_first if found[at] is None}
    begin("parts", len(listed) - len(begun), len(listed))
    for done, future in enumerate(as_completed(begun), len(listed) - len(begun) + 1):
        at = begun[future]
        found[at] = future.result()
        if cache:
            cache.put(listed[at], future.result())
        begin("parts", done, len(listed))
    return [pdf for pdf in found if pdf]
