"""How far a build is: a bar on a terminal, a line a step elsewhere."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

import click

from binder.terminal.ending import heed

if TYPE_CHECKING:
    from binder.rendering.typeset import Progress


@contextmanager
def progress_shown() -> "Iterator[Progress]":
    """A bar on a terminal, with parts done; elsewhere a line a step."""
    steps: list[str] = []

    def said(step: str, _done: int = 0, _of: int = 0) -> None:
        heed(step)
        if step not in {*steps, "done"}:
            steps.append(step)
            click.echo(f"... {step}", err=True)

    if not sys.stderr.isatty():
        yield said
        return
    from rich.console import Console  # noqa: PLC0415 - only a terminal needs it.
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn  # noqa: PLC0415 - as above.

    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("read", total=None)

        def shown_on_bar(step: str, done: int = 0, of: int = 0) -> None:
            heed(step)
            bar.update(task, description=step, completed=done, total=of or None)

        yield shown_on_bar
