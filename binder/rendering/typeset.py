"""A whole printing: every part laid out by itself, on all processors, then put together into the files."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Future, as_completed, wait
from itertools import islice
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
    paper, size = laid.paper.name, laid.paper.card.size

    def start(parts: list[PartHtml]) -> "Begun":
        return begun_parts(parts, submit, cache)

    # The binder's parts are the longest: they are being laid out while the others are written.
    binder, desk = start(html.binder_parts(document, paper)), start(html.desk_parts(document, paper))
    slip, ring = start(html.slip_parts(document, paper)), start(html.ring_parts(laid.cards, paper, size))
    # A printer is measured where the desk is.
    tested = start([html.test_sheet(document, paper, printer.flip)] if desk.parts else [])
    every = (binder, desk, slip, ring, tested)
    begin("parts", sum(one.done for one in every), sum(len(one.parts) for one in every))

    def put_together() -> Typeset:
        bound, of_desk, front, cards, test = _made(every, rendered(every, cache, begin))
        # A card stands in the ring and in the binder under one name: the binder's is counted.
        pages = {part.name: part.pdf.page_count for part in (*test, *cards, *front, *of_desk, *bound)}
        begin("contents")
        lists = start(_lists(document, paper, pages))
        # What has no list is put together while the lists are being laid out.
        files = _joined(document, {"cards.pdf": cards, "test_sheet.pdf": test})
        sheets = _sheets(laid, files["cards.pdf"], printer) if cards else {}
        ((contents, *of_desk_first),) = _made((lists,), rendered((lists,), cache))
        if cache:
            cache.shrink()
        begin("joining")
        cover = bound[: document.has_cover]
        listed = {"binder.pdf": [*front, *cover, contents, *bound[document.has_cover :]]}
        files |= _joined(document, listed | {"desk.pdf": [*of_desk_first, *of_desk]})
        made = {name: files[name] for name in _titles(document) if name in files}
        whole = {name: pdf.content for name, pdf in made.items()} | sheets
        return Typeset(whole, {name: pdf.page_count for name, pdf in made.items()}, pages)

    return put_together


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


def _made(every: Sequence["Begun"], pdfs: Iterable[RenderedPdf]) -> Iterator[list[JoinedPart]]:
    """Give each group of parts what was laid out of it."""
    following = iter(pdfs)
    for group in every:
        laid_out = zip(group.parts, islice(following, len(group.parts)), strict=True)
        yield [JoinedPart(part.name, part.bookmarks, pdf) for part, pdf in laid_out]


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
    every: Sequence[Begun],
    cache: PartCache | None,
    begin: Progress = lambda _step, _done=0, _of=0: None,
) -> list[RenderedPdf]:
    """Wait for all parts, and keep each for the next build."""
    found = [list(group.kept) for group in every]
    waiting = {future: (group, at) for group, one in enumerate(every) for future, at in one.futures.items()}
    count = sum(map(len, found))
    try:
        for done, future in enumerate(as_completed(waiting), count - len(waiting) + 1):
            group, at = waiting[future]
            found[group][at] = future.result()
            if cache:
                cache.put(every[group].parts[at], future.result())
            begin("parts", done, count)
    except Exception:
        # None works on in a folder that is about to go.
        wait([future for future in waiting if not future.cancel()])
        raise
    return [pdf for group in found for pdf in group if pdf]
