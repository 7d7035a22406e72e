"""A part of a printing, as HTML and laid out; none knows of another."""

from collections.abc import Callable
from concurrent.futures import Future
from typing import NamedTuple, TypeAlias


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


Submit: TypeAlias = Callable[[PartHtml], "Future[RenderedPdf]"]
"""Has a part laid out, wherever that is done."""
