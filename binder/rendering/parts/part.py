"""A part of a printing, as HTML and laid out; none knows of another."""

from collections.abc import Callable
from concurrent.futures import Future
from typing import NamedTuple, TypeAlias


class Bar(NamedTuple):
    """Where a bar stands, in the outer margin beside a line, if that is new; in points, from below.

    Lines are numbered through a part, as they are written, and its pages.
    """

    line: int
    page: int
    left: float
    bottom: float
    right: float
    top: float


class RenderedPdf(NamedTuple):
    """A finished PDF, and where bars would stand beside its lines."""

    content: bytes
    page_count: int
    bars: tuple[Bar, ...] = ()


class PartHtml(NamedTuple):
    """A part to be laid out by itself; ``pages`` is how many it has to take, None as many as it needs.

    ``new_lines`` are the numbers of the lines that a bar is drawn beside, when it has been laid out.
    """

    name: str
    bookmarks: tuple[str, ...]
    html: str
    pages: int | None = None
    new_lines: frozenset[int] = frozenset()


Submit: TypeAlias = Callable[[PartHtml], "Future[RenderedPdf]"]
"""Has a part laid out, wherever that is done."""
