"""A part of a printing, as HTML and laid out; none knows of another."""

from typing import NamedTuple


class RenderedPdf(NamedTuple):
    """A finished PDF."""

    content: bytes
    page_count: int


class PartHtml(NamedTuple):
    """A part to be laid out by itself; ``pages`` is how many it has to take, None as many as it needs."""

    name: str
    bookmarks: tuple[str, ...]
    html: str
    pages: int | None = None
