"""A whole printing: every part laid out by itself, on all processors, then put together into the files."""

from collections.abc import Iterable
from concurrent.futures import as_completed, wait
from typing import Protocol

from binder.cards.blocks import BinderDocument, Card, Page
from binder.rendering import html
from binder.rendering.cache import PartCache
from binder.rendering.joining import Part, joined
from binder.rendering.paper import PaperName
from binder.rendering.parts import PartHtml, RenderedPdf, Submit
from binder.rendering.sheets import CORNER_OF_FAMILY, Flip, imposed_sheets


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
) -> tuple[dict[str, bytes], dict[str, int]]:
    """Lay out every part by itself and put them together: contents and pages of each file."""
    cards = document.cards
    begin("html")
    ring, binder = html.ring_parts(cards, paper), html.binder_parts(document, paper)
    desk = html.desk_parts(document, paper)
    every = [*ring, *binder, *desk]
    pdfs = rendered(every, submit, cache, begin)
    # A card stands in the ring and in the binder under one name: the binder's is counted last.
    pages = {part.name: pdf.page_count for part, pdf in zip(every, pdfs, strict=True)}

    def listing(title: str, parts: Iterable[Card | Page]) -> PartHtml:
        return html.contents_part(document, paper, title, [(p, pages[html.part_name(p)]) for p in parts])

    lists = [listing(html.CONTENTS, document.parts)]
    lists += [listing(html.DESK, document.desk)] if desk else []
    begin("contents")
    listed = _made(lists, rendered(lists, submit, cache))
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
    sides = tuple(len(card.sides) for card in cards)
    corners = tuple(CORNER_OF_FAMILY[card.family] for card in cards)
    sheets = imposed_sheets(files["cards.pdf"].content, paper, flip, sides, corners)
    contents = {name: pdf.content for name, pdf in files.items()} | {"sheets.pdf": sheets}
    return contents, {name: pdf.page_count for name, pdf in files.items()}


def _made(parts: list[PartHtml], pdfs: list[RenderedPdf]) -> list[Part]:
    return [Part(part.name, part.bookmarks, pdf) for part, pdf in zip(parts, pdfs, strict=True)]


def _dealt(made: list[Part], ring: int, binder: int) -> tuple[list[Part], list[Part], list[Part]]:
    return made[:ring], made[ring : ring + binder], made[ring + binder :]


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
    try:
        for done, future in enumerate(as_completed(begun), len(listed) - len(begun) + 1):
            at = begun[future]
            found[at] = future.result()
            if cache:
                cache.put(listed[at], future.result())
            begin("parts", done, len(listed))
    except Exception:
        # None works on in a folder that is about to go.
        wait([future for future in begun if not future.cancel()])
        raise
    return [pdf for pdf in found if pdf]
