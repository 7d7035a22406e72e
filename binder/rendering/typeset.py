"""A whole printing: every part laid out by itself, on all processors, then put together into the files."""

from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Future, as_completed, wait
from itertools import chain, islice
from typing import NamedTuple, Protocol

from binder.cards.blocks import BinderDocument, Card, Part, StayingPart
from binder.cards.codes import part_key
from binder.rendering import html
from binder.rendering.paper import Paper
from binder.rendering.parts.cache import PartCache
from binder.rendering.parts.joining import JoinedPart, joined
from binder.rendering.parts.part import PartHtml, RenderedPdf, Submit
from binder.rendering.sheets import CORNER_OF_FAMILY, Printer, imposed_sheets


class Typeset(NamedTuple):
    """The files of a printing, pages of each file, and pages of each part."""

    contents: dict[str, bytes]
    pages: dict[str, int]
    pages_of_parts: dict[str, int]


class Progress(Protocol):
    """Told of each step when it begins, and of parts as they are done."""

    def __call__(self, step: str, done: int = 0, of: int = 0, /) -> None:
        """Tell the step and how far it is."""


class Ring(NamedTuple):
    """Cards laid out on a paper, whose type may be larger than in the binder, which shows them reduced."""

    cards: Sequence[Card]
    paper: Paper


def typeset(  # noqa: PLR0913, PLR0917 - a document, how it is printed, and what it is printed with.
    document: BinderDocument,
    laid: Ring,
    printer: Printer,
    submit: Submit,
    begin: Progress,
    cache: PartCache | None = None,
) -> Callable[[], Typeset]:
    """Begin to lay out every part by itself; what is given back waits for them and puts them together.

    No file is made that would have no page.
    """
    begin("html")
    paper, size = laid.paper.name, laid.paper.card.size
    front, ring = html.slip_parts(document, paper), html.ring_parts(laid.cards, paper, size)
    binder, desk = html.binder_parts(document, paper), html.desk_parts(document, paper)
    # A printer is measured where the desk is.
    tested = [html.test_sheet(document, paper, printer.flip)] if desk else []
    groups = (ring, front, binder, desk, tested)
    every = list(chain.from_iterable(groups))
    begun = begun_parts(every, submit, cache)
    begin("parts", begun.done, len(every))

    def put_together() -> Typeset:
        pdfs = rendered(begun, cache, begin)
        # A card stands in the ring and in the binder under one name: the binder's is counted last.
        pages = {part.name: pdf.page_count for part, pdf in zip(every, pdfs, strict=True)}

        def listing(title: str, parts: Iterable[Part | StayingPart]) -> PartHtml:
            listed = (
                (one, one.pages if isinstance(one, StayingPart) else pages[part_key(one)]) for one in parts
            )
            return html.contents_part(document, paper, title, list(listed))

        lists = [listing(html.CONTENTS, document.in_force or document.parts)]
        lists += [listing(html.DESK, document.desk_in_force or document.desk)] if desk else []
        begin("contents")
        listed = _made(lists, rendered(begun_parts(lists, submit, cache), cache))
        if cache:
            cache.shrink()
        begin("joining")
        made = iter(_made(every, pdfs))
        files = _joined(document, listed, *(list(islice(made, len(group))) for group in groups))
        contents = {name: pdf.content for name, pdf in files.items()}
        if laid.cards:
            begin("sheets")
            sides = tuple(len(card.sides) for card in laid.cards)
            corners = tuple(CORNER_OF_FAMILY[card.family] for card in laid.cards)
            contents["sheets.pdf"] = imposed_sheets(contents["cards.pdf"], paper, printer, sides, corners)
        return Typeset(contents, {name: pdf.page_count for name, pdf in files.items()}, pages)

    return put_together


def _joined(  # noqa: PLR0913, PLR0917 - the lists, and the groups of parts in their order.
    document: BinderDocument,
    lists: list[JoinedPart],
    ring: list[JoinedPart],
    front: list[JoinedPart],
    binder: list[JoinedPart],
    desk: list[JoinedPart],
    tested: list[JoinedPart],
) -> dict[str, RenderedPdf]:
    """Put the parts of each file together, its list after what stands in front of it."""
    contents, *of_desk = lists
    first = [*front, *binder[: document.has_cover]]
    files = {"binder.pdf": [*first, contents, *binder[document.has_cover :]], "cards.pdf": ring}
    files |= {"desk.pdf": [*of_desk, *desk], "test_sheet.pdf": tested} if desk else {}
    titles = {
        "binder.pdf": f"{document.rig}, {document.title}",
        "cards.pdf": f"Cards of {document.rig}",
        "desk.pdf": f"{document.rig}, {html.DESK}",
        "test_sheet.pdf": html.TEST_SHEET,
    }
    return {name: joined(titles[name], parts) for name, parts in files.items() if parts}


def _made(parts: list[PartHtml], pdfs: list[RenderedPdf]) -> list[JoinedPart]:
    return [JoinedPart(part.name, part.bookmarks, pdf) for part, pdf in zip(parts, pdfs, strict=True)]


class Begun(NamedTuple):
    """Parts, what of them was kept, and the others, which are being laid out."""

    parts: list[PartHtml]
    kept: list[RenderedPdf | None]
    futures: dict[Future[RenderedPdf], int]

    @property
    def done(self) -> int:
        """How many were kept."""
        return len(self.parts) - len(self.futures)


def begun_parts(parts: Iterable[PartHtml], submit: Submit, cache: PartCache | None) -> Begun:
    """Have each part laid out that is not kept; the longest begin first, so that all end together."""
    listed = list(parts)
    kept = [cache.get(part) if cache else None for part in listed]
    longest_first = sorted(range(len(listed)), key=lambda at: -len(listed[at].html))
    return Begun(listed, kept, {submit(listed[at]): at for at in longest_first if kept[at] is None})


def rendered(
    begun: Begun,
    cache: PartCache | None,
    begin: Progress = lambda _step, _done=0, _of=0: None,
) -> list[RenderedPdf]:
    """Wait for all parts, and keep each for the next build."""
    found = list(begun.kept)
    try:
        for done, future in enumerate(as_completed(begun.futures), begun.done + 1):
            at = begun.futures[future]
            found[at] = future.result()
            if cache:
                cache.put(begun.parts[at], future.result())
            begin("parts", done, len(found))
    except Exception:
        # None works on in a folder that is about to go.
        wait([future for future in begun.futures if not future.cancel()])
        raise
    return [pdf for pdf in found if pdf]
