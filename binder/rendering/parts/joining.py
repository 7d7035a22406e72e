"""Finished parts put together into one file: pages in order, tags, bookmarks, page labels and links.

Each part comes laid out by itself, with its own page numbers. What a plain merge of PDFs drops is carried
over by hand: the tags hang under one document, the numbers that tie them to pages move on by what came
before, an address of the scheme ``part:`` becomes a place in this file, and a font that all parts bring
along is kept once.
"""

import hashlib
import io
from collections.abc import Sequence
from typing import NamedTuple

import pikepdf
from pikepdf import Array, Dictionary, Name, OutlineItem

from binder.rendering.parts.part import RenderedPdf

SCHEME = "part:"
"""Scheme of an address that leads to a part by its name: private, it never leaves the file."""


class JoinedPart(NamedTuple):
    """A part laid out: the name that links lead to, the bookmark of each page that has one, its pages.

    A bar stands beside each of the ``new_lines``.
    """

    name: str
    bookmarks: tuple[str, ...]
    pdf: RenderedPdf
    new_lines: frozenset[int] = frozenset()


def joined(title: str, parts: Sequence[JoinedPart]) -> RenderedPdf:
    """Put parts together in order; language, date and the claim of the standard are those of the first."""
    with pikepdf.new() as whole:
        document = whole.make_indirect(Dictionary(Type=Name.StructElem, S=Name.Document, K=Array()))
        tree = whole.make_indirect(
            Dictionary(Type=Name.StructTreeRoot, K=Array([document]), ParentTree=Dictionary(Nums=Array()))
        )
        document.P = tree
        first_pages: dict[str, int] = {}
        for part in parts:
            first_pages[part.name] = len(whole.pages)
            with pikepdf.open(io.BytesIO(part.pdf.content)) as source:
                _append(whole, source, document, tree)
                _draw_bars(whole, first_pages[part.name], part)
                if len(first_pages) == 1:
                    _take_over(whole, source, title)
        whole.Root.StructTreeRoot = tree
        _link(whole, first_pages)
        _keep_fonts_once(whole)
        _bookmark(whole, parts)
        file = io.BytesIO()
        whole.save(file, deterministic_id=True, min_version="1.7", object_stream_mode=_STREAMS)
        return RenderedPdf(file.getvalue(), len(whole.pages))


_STREAMS = pikepdf.ObjectStreamMode.generate


def _append(whole: pikepdf.Pdf, source: pikepdf.Pdf, document: pikepdf.Object, tree: pikepdf.Object) -> None:
    """Append pages, then their tags: pages first, so that the tags lead to the appended ones."""
    numbers = tree.ParentTree.Nums
    moved_by = _next_number(numbers)
    before = len(whole.pages)
    whole.pages.extend(source.pages)
    for page in list(whole.pages)[before:]:
        page.StructParents = int(page.StructParents) + moved_by
        for annotation in page.get("/Annots", ()):
            annotation.StructParent = int(annotation.StructParent) + moved_by
    copied = whole.copy_foreign(source.Root.StructTreeRoot)
    for child in copied.K[0].K:
        child.P = document
        document.K.append(child)
    nums = copied.ParentTree.Nums
    for at in range(0, len(nums), 2):
        numbers.append(int(nums[at]) + moved_by)
        numbers.append(nums[at + 1])


def _draw_bars(whole: pikepdf.Pdf, first_page: int, part: JoinedPart) -> None:
    """Draw the bars over finished pages: with them and without, a part is laid out once."""
    drawn: dict[int, list[str]] = {}
    for bar in part.pdf.bars:
        if bar.line in part.new_lines:
            size = (bar.left, bar.bottom, bar.right - bar.left, bar.top - bar.bottom)
            drawn.setdefault(bar.page, []).append(f"{' '.join(f'{edge:.3f}' for edge in size)} re")
    for page, bars in drawn.items():
        # Whatever the page set for itself ends before them; no reader reads them out.
        whole.pages[first_page + page].contents_add(b"q", prepend=True)
        text = " ".join(["Q /Artifact BMC 0 g", *bars, "f EMC"])
        whole.pages[first_page + page].contents_add(text.encode("ascii"))


def _next_number(numbers: pikepdf.Object) -> int:
    return int(numbers[len(numbers) - 2]) + 1 if len(numbers) else 0


def _take_over(whole: pikepdf.Pdf, source: pikepdf.Pdf, title: str) -> None:
    for name in (Name.Lang, Name.MarkInfo, Name.ViewerPreferences, Name.Metadata):
        whole.Root[name] = whole.copy_foreign(source.make_indirect(source.Root[name]))
    for key, value in source.docinfo.items():
        whole.docinfo[key] = value
    whole.docinfo[Name.Title] = title


def _link(whole: pikepdf.Pdf, first_pages: dict[str, int]) -> None:
    for page in whole.pages:
        for annotation in page.get("/Annots", ()):
            address = str(annotation.A.get("/URI", "")) if "/A" in annotation else ""
            if address.startswith(SCHEME):
                place = whole.pages[first_pages[address.removeprefix(SCHEME)]]
                annotation.Dest = Array([place.obj, Name.Fit])
                del annotation.A


def _keep_fonts_once(whole: pikepdf.Pdf) -> None:
    kept: dict[bytes, pikepdf.Object] = {}
    for item in whole.objects:
        if isinstance(item, Dictionary) and item.get("/Type") == Name.FontDescriptor:
            digest = hashlib.sha256(item.FontFile2.read_raw_bytes()).digest()
            item.FontFile2 = kept.setdefault(digest, item.FontFile2)


def _bookmark(whole: pikepdf.Pdf, parts: Sequence[JoinedPart]) -> None:
    labels, page = Array(), 0
    with whole.open_outline() as outline:
        for part in parts:
            outline.root += [OutlineItem(text, page + at) for at, text in enumerate(part.bookmarks)]
            labels.append(page)
            labels.append(Dictionary(P=f"{part.bookmarks[0]}, ", S=Name.D))
            page += part.pdf.page_count
    whole.Root.PageLabels = Dictionary(Nums=labels)
    whole.Root.PageMode = Name.UseOutlines
