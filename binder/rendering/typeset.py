"""A whole printing: every part laid out by itself, on all processors, then put together into the files."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Future, as_completed, wait
from contextlib import contextmanager
from types import MappingProxyType
from typing import NamedTuple, Protocol

from binder.cards.blocks import BinderDocument, Card, Part, StayingPart
from binder.cards.codes import part_key
from binder.rendering import html
from binder.rendering.paper import Paper, PaperName
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
    every = begun_parts(_written(document, laid, printer), submit, cache)
    begin("parts", sum(one.done for one in every.values()), sum(len(one.parts) for one in every.values()))

    def put_together() -> Typeset:
        made: dict[str, list[JoinedPart]] = {}
        sheets: dict[str, bytes] = {}
        files: dict[str, RenderedPdf] = {}
        for name, parts in rendered(every, cache, begin):
            made[name] = parts
            # What has no list is put together while others are being laid out.
            files |= _joined(document, {_WITHOUT_LIST[name]: parts} if name in _WITHOUT_LIST else {})
            if name == _RING and parts:
                sheets = _sheets(laid, files["cards.pdf"], printer)
        # A card stands in the ring and in the binder under one name: the binder's is counted.
        in_order = (part for name in (_TESTED, _RING, _SLIP, _DESK, _BINDER) for part in made[name])
        pages = {part.name: part.pdf.page_count for part in in_order}
        begin("contents")
        lists = begun_parts({_LISTS: _lists(document, laid.paper.name, pages)}, submit, cache)
        ((_, (contents, *of_desk_first)),) = rendered(lists, cache)
        if cache:
            cache.shrink()
        begin("joining")
        cover, bound = made[_BINDER][: document.has_cover], made[_BINDER][document.has_cover :]
        listed = {"binder.pdf": [*made[_SLIP], *cover, contents, *bound]}
        files |= _joined(document, listed | {"desk.pdf": [*of_desk_first, *made[_DESK]]})
        ordered = {name: files[name] for name in _titles(document) if name in files}
        whole = {name: pdf.content for name, pdf in ordered.items()} | sheets
        return Typeset(whole, {name: pdf.page_count for name, pdf in ordered.items()}, pages)

    return put_together


_BINDER, _DESK, _SLIP, _RING, _TESTED, _LISTS = "binder", "desk", "slip", "ring", "tested", "lists"
"""Groups of parts."""
_WITHOUT_LIST: Mapping[str, str] = MappingProxyType({_RING: "cards.pdf", _TESTED: "test_sheet.pdf"})


def _written(document: BinderDocument, laid: Ring, printer: Printer) -> dict[str, Iterable[PartHtml]]:
    """Write the parts, each when it is asked for: the binder's, which are the longest, first."""
    paper, size = laid.paper.name, laid.paper.card.size
    return {
        _BINDER: html.binder_parts(document, paper),
        _DESK: html.desk_parts(document, paper),
        _SLIP: html.slip_parts(document, paper),
        _RING: html.ring_parts(laid.cards, paper, size),
        # A printer is measured where the desk is.
        _TESTED: [html.test_sheet(document, paper, printer.flip)] if document.desk else [],
    }


def _lists(document: BinderDocument, paper: PaperName, pages: Mapping[str, int]) -> list[PartHtml]:
    """List the parts of the binder, and those of the desk where there is one."""

    def listing(title: str, parts: Iterable[Part | StayingPart]) -> PartHtml:
        counted = (
            (one, one.pages if isinstance(one, StayingPart) else pages[part_key(one)]) for one in parts
        )
        return html.contents_part(document, paper, title, counted)

    of_desk = document.desk_in_force or document.desk
    lists = [listing(html.CONTENTS, document.in_force or document.parts)]
    return [*lists, listing(html.DESK, of_desk)] if document.desk else lists


def _joined(document: BinderDocument, files: Mapping[str, list[JoinedPart]]) -> dict[str, RenderedPdf]:
    """Put the parts of each file together."""
    titles = _titles(document)
    return {name: joined(titles[name], parts) for name, parts in files.items() if parts}


def _titles(document: BinderDocument) -> dict[str, str]:
    """Title each file, in the order in which they are told."""
    return {
        "binder.pdf": f"{document.rig}, {document.title}",
        "cards.pdf": f"Cards of {document.rig}",
        "desk.pdf": f"{document.rig}, {html.DESK}",
        "test_sheet.pdf": html.TEST_SHEET,
    }


def _sheets(laid: Ring, cards: RenderedPdf, printer: Printer) -> dict[str, bytes]:
    """Set the cards on sheets, front and back."""
    sides = tuple(len(card.sides) for card in laid.cards)
    corners = tuple(CORNER_OF_FAMILY[card.family] for card in laid.cards)
    return {"sheets.pdf": imposed_sheets(cards.content, laid.paper.name, printer, sides, corners)}


class Begun(NamedTuple):
    """Parts, what of them was kept, and the others, which are being laid out."""

    parts: list[PartHtml]
    kept: list[RenderedPdf | None]
    futures: dict[Future[RenderedPdf], int]

    @property
    def done(self) -> int:
        """How many were kept."""
        return len(self.parts) - len(self.futures)

    def joinable(self, pdfs: Iterable[RenderedPdf | None]) -> list[JoinedPart]:
        """Name what was laid out of each part."""
        laid_out = zip(self.parts, pdfs, strict=True)
        return [JoinedPart(part.name, part.bookmarks, pdf, part.new_lines) for part, pdf in laid_out if pdf]


def begun_parts(
    groups: Mapping[str, Iterable[PartHtml]], submit: Submit, cache: PartCache | None
) -> dict[str, Begun]:
    """Have each part laid out that is not kept, as soon as it is written."""
    every = {name: Begun([], [], {}) for name in groups}
    with _given_up_at_a_fault(every):
        for name, parts in groups.items():
            for at, part in enumerate(parts):
                every[name].parts.append(part)
                every[name].kept.append(cache.get(part) if cache else None)
                if every[name].kept[at] is None:
                    every[name].futures[submit(part)] = at
    return every


def rendered(
    every: Mapping[str, Begun],
    cache: PartCache | None,
    begin: Progress = lambda _step, _done=0, _of=0: None,
) -> Iterator[tuple[str, list[JoinedPart]]]:
    """Give each group of parts as soon as all of it is laid out, and keep each part for the next build."""
    found = {name: list(group.kept) for name, group in every.items()}
    waiting = {future: (name, at) for name, group in every.items() for future, at in group.futures.items()}
    left = Counter(name for name, _ in waiting.values())
    count = sum(map(len, found.values()))
    yield from ((name, group.joinable(found[name])) for name, group in every.items() if not left[name])
    with _given_up_at_a_fault(every):
        for done, future in enumerate(as_completed(waiting), count - len(waiting) + 1):
            name, at = waiting[future]
            found[name][at] = future.result()
            if cache:
                cache.put(every[name].parts[at], future.result())
            begin("parts", done, count)
            left[name] -= 1
            if not left[name]:
                yield name, every[name].joinable(found[name])


@contextmanager
def _given_up_at_a_fault(every: Mapping[str, Begun]) -> Iterator[None]:
    """Wait for what was begun before a fault is passed on: none works on in a folder that is about to go."""
    try:
        yield
    except Exception:
        wait([future for group in every.values() for future in group.futures if not future.cancel()])
        raise
