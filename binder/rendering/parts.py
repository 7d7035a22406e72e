"""Parts laid out side by side: as many processes as there are processors, none knowing of another part."""

import os
import signal
from collections.abc import Iterable
from concurrent.futures import Executor, ProcessPoolExecutor
from multiprocessing import get_context
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


def rendered(parts: Iterable[PartHtml], executor: Executor) -> list[RenderedPdf]:
    """Lay out each part by itself, in their order; the longest begin first, so that all end together."""
    listed = list(parts)
    longest_first = sorted(range(len(listed)), key=lambda at: -len(listed[at].html))
    begun = {at: executor.submit(_rendered, listed[at].html, listed[at].pages) for at in longest_first}
    return [begun[at].result() for at in range(len(listed))]


def _rendered(html: str, pages: int | None) -> RenderedPdf:
    from binder.rendering.pdf import render  # noqa: PLC0415 - the typesetter, which the parent has no need of.

    return render(html, pages)


def processes() -> ProcessPoolExecutor:
    """One process for each processor, each with the typesetter loaded; an interrupt ends them in silence."""
    count = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return ProcessPoolExecutor(count, get_context("spawn"), _begin)


def _begin() -> None:
    # An interrupt is for the process a person started: it ends the others.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    import binder.rendering.pdf  # noqa: F401, PLC0415 - loaded before there is work.
