"""A binder set in this process: its HTML, part after part, and its file."""

from binder.cards.blocks import BinderDocument
from binder.rendering.html import CONTENTS, binder_parts, contents_part, desk_parts
from binder.rendering.paper import PaperName
from binder.rendering.parts.joining import JoinedPart, joined
from binder.rendering.pdf import render


def binder_html(document: BinderDocument, paper: PaperName) -> str:
    """Every part of the binder and of the desk, one after the other."""
    parts = [*binder_parts(document, paper), *desk_parts(document, paper)]
    return "".join(part.html for part in parts)


def binder_pdf(document: BinderDocument, paper: PaperName) -> bytes:
    """The binder put together, with its list."""
    parts = binder_parts(document, paper)
    made = [JoinedPart(part.name, part.bookmarks, render(part.html)) for part in parts]
    counts = [one.pdf.page_count for one in made[1:]]
    listed = contents_part(document, paper, CONTENTS, zip(document.parts, counts, strict=True))
    made.insert(1, JoinedPart(listed.name, listed.bookmarks, render(listed.html)))
    return joined(document.title, made).content
