"""How a command ends: with one code and one sentence, whatever happened."""

import contextlib
import errno
import io
import os
import re
import signal
import sys
from collections.abc import Container, Iterable, Iterator, Sequence
from threading import current_thread, main_thread
from typing import TYPE_CHECKING, Any, NoReturn

import click

if TYPE_CHECKING:
    from binder.printing.many import Outcome

DO_NOT_DRIVE, PROBLEMS, NOT_CLEARED = 1, 2, 3
FAULT_OF_OURS, CANNOT_WRITE = 70, 74
"""EX_SOFTWARE and EX_IOERR of sysexits.h."""
SIGNALED = 128
"""What a shell calls a command that was ended by a signal: this and the number of it."""
_COMMANDING = re.compile("[\\x00-\\x08\\x0b-\\x1f\\x7f-\\x9f]")


_ENDING_SIGNALS: dict[str, Any] = {
    "SIGINT": signal.default_int_handler,
    "SIGTERM": signal.SIG_DFL,
    "SIGHUP": signal.SIG_DFL,
}
"""Signals that end a command, where nobody before us said otherwise."""


_heard: list[int] = []
"""Signals that were to end this command."""


_done: list[str] = []
"""What is done, so that it is too late to end this command."""


def heed(step: str = "") -> None:
    """Stop if it was asked for: an exception that falls into a library calling back is lost there."""
    if _heard:
        raise KeyboardInterrupt
    if step == "done":
        _done.append(step)


@contextlib.contextmanager
def _interrupts_noted() -> Iterator[None]:
    _heard.clear()
    _done.clear()

    def note(number: int, _: object) -> None:
        if not _done:
            _heard.append(number)
            raise KeyboardInterrupt

    known = {getattr(signal, name): usual for name, usual in _ENDING_SIGNALS.items() if hasattr(signal, name)}
    is_main = current_thread() is main_thread()
    ours = [number for number, usual in known.items() if is_main and signal.getsignal(number) == usual]
    for number in ours:
        signal.signal(number, note)
    try:
        yield
    finally:
        for number in ours:
            signal.signal(number, known[number])


class _Refused(click.ClickException):
    exit_code = PROBLEMS


def refused(text: str) -> click.ClickException:
    """Make the error of a command that was typed wrongly."""
    return _Refused(text)


class Ending(click.Group):
    """Ends with one code and one sentence, whatever happened: no traceback reaches a terminal."""

    def main(self, args: Sequence[str] | None = None, prog_name: str | None = None, **extra: Any) -> NoReturn:  # type: ignore[override]  # noqa: ANN401 - as click has it.
        """Run a command and exit."""
        extra.pop("standalone_mode", None)
        given = list(sys.argv[1:] if args is None else args)
        try:
            code = self._ended(given, prog_name or "binder", extra)
            if args is None and current_thread() is main_thread():
                signal.signal(signal.SIGINT, signal.SIG_IGN)  # While Python itself ends it comes too late.
            sys.exit(code)
        except KeyboardInterrupt:
            sys.exit(SIGNALED + signal.SIGINT)

    def _ended(self, given: list[str], name: str, extra: dict[str, Any]) -> int:
        try:
            with _interrupts_noted():
                try:
                    return self._invoked(given, name, extra)
                except (KeyboardInterrupt, SystemExit):
                    raise
                except Exception as fault:
                    if _heard:
                        raise KeyboardInterrupt from fault
                    if isinstance(fault, OSError):
                        raise
                    code, text = told(fault)
                    click.echo(text, err=True)
                    return code
        except KeyboardInterrupt:
            with contextlib.suppress(OSError):  # The terminal may be what went away.
                click.echo("Stopped; a printing that was there before is as it was.", err=True)
            return SIGNALED + (_heard[0] if _heard else signal.SIGINT)
        except OSError as error:
            _tell_cannot_write(error)
            return CANNOT_WRITE

    def _invoked(self, given: list[str], name: str, extra: dict[str, Any]) -> int:
        try:
            with self.make_context(name, given, **extra) as context:
                self.invoke(context)
            sys.stdout.flush()
        except click.exceptions.Exit as ended:
            return ended.exit_code
        except click.Abort as stopped:
            raise KeyboardInterrupt from stopped
        except click.ClickException as refused:
            click.echo(shown(_whole(refused)), err=True)
            return refused.exit_code
        return 0


def shown(text: str) -> str:
    """Show what would command a terminal, such as an escape in a name, instead of sending it."""
    return _COMMANDING.sub(lambda found: f"\\x{ord(found[0]):02x}", text)


def _whole(refused: click.ClickException) -> str:
    """What click says itself, so that it can be shown."""
    said = io.StringIO()
    refused.show(said)
    return said.getvalue().rstrip("\n")


def told(fault: Exception) -> tuple[int, str]:
    """Give the code and the words for what ended a build."""
    from binder.printing.build import kept_fault  # noqa: PLC0415 - keeps --help fast.
    from binder.problems import InputProblems  # noqa: PLC0415 - as above.

    if isinstance(fault, InputProblems):
        return PROBLEMS, str(fault)
    if isinstance(fault, OSError):
        where = f" {fault.filename}" if fault.filename else ""
        return CANNOT_WRITE, f"Cannot read or write{where}: {fault.strerror or fault}."
    text = f"binder has a fault of its own; please report what is saved in {kept_fault(fault)}."
    return FAULT_OF_OURS, text


def _tell_cannot_write(error: OSError) -> None:
    _, text = told(error)
    if error.errno == errno.EPIPE:
        text = "Nobody reads what binder says any more; it stopped."
    with contextlib.suppress(OSError):
        click.echo(shown(text), err=True)
    # What is still waiting to be said has nowhere to go: the interpreter is not to try again.
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def code_of(grades: Container[str]) -> int:
    """Give the code for the findings of a rig, by their grades."""
    return next((code for grade, code in _VERDICTS.items() if grade in grades), 0)


def tell_many(outcomes: "Iterable[Outcome]") -> int:
    """Tell what became of many rigs, each as it ends and all in a table; gives the code that counts."""
    rows: list[tuple[Outcome, int]] = []
    for one in outcomes:
        heed()
        code, text = told(one.fault) if one.fault else (code_of(one.grades), "\n".join(one.told))
        rows.append((one, code))
        click.echo(f"... {shown(str(one.rig))}", err=True)
        click.echo(f"{shown(text)}\n" * bool(text), err=True, nl=False)
    rows.sort(key=lambda row: row[0].rig)
    click.echo(shown(_table(rows, is_terminal=sys.stdout.isatty())), color=None)
    return next((code for code in _WORST_FIRST if code in {code for _, code in rows}), 0)


_VERDICTS = {"do not drive": DO_NOT_DRIVE, "not cleared": NOT_CLEARED}
_WORDS = {
    CANNOT_WRITE: "cannot be read or written",
    FAULT_OF_OURS: "fault of binder",
    PROBLEMS: "wrong input",
    DO_NOT_DRIVE: "do not drive",
    NOT_CLEARED: "not cleared",
    0: "printed",
}
_WORST_FIRST = tuple(_WORDS)


def _table(rows: "Sequence[tuple[Outcome, int]]", *, is_terminal: bool) -> str:
    from rich import box  # noqa: PLC0415 - only many rigs need a table.
    from rich.console import Console  # noqa: PLC0415 - as above.
    from rich.table import Table  # noqa: PLC0415 - as above.

    made = Table(
        "rig", "ends with", "", "attention", "missing", "in", box=box.SIMPLE if is_terminal else None
    )
    for one, code in rows:
        counts = [str(one.grades.get(grade, "")) for grade in ("attention", "missing")]
        made.add_row(str(one.rig), str(code), _WORDS[code], *counts, str(one.out or ""))
    said = io.StringIO()
    Console(file=said, width=_WIDE, highlight=False, markup=False).print(made)
    return "\n".join(line.rstrip() for line in said.getvalue().strip("\n").splitlines())


_WIDE = 300
"""Columns for a table: enough for no row to be broken by us."""
