"""How a command ends: with one code and one sentence, whatever happened."""

import contextlib
import errno
import io
import os
import re
import signal
import sys
from collections.abc import Iterator, Sequence
from threading import current_thread, main_thread
from typing import Any, NoReturn

import click

PROBLEMS = 2
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


def heed() -> None:
    """Stop if it was asked for: an exception that falls into a library calling back is lost there."""
    if _heard:
        raise KeyboardInterrupt


@contextlib.contextmanager
def _interrupts_noted() -> Iterator[None]:
    _heard.clear()

    def note(number: int, _: object) -> None:
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


class Ending(click.Group):
    """Ends with one code and one sentence, whatever happened: no traceback reaches a terminal."""

    def main(self, args: Sequence[str] | None = None, prog_name: str | None = None, **extra: Any) -> NoReturn:  # type: ignore[override]  # noqa: ANN401 - as click has it.
        """Run a command and exit."""
        extra.pop("standalone_mode", None)
        given = list(sys.argv[1:] if args is None else args)
        try:
            sys.exit(self._ended(given, prog_name or "binder", extra))
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
                    click.echo(_fault_told(fault), err=True)
                    return FAULT_OF_OURS
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


def _fault_told(fault: Exception) -> str:
    from binder.build import kept_fault  # noqa: PLC0415 - keeps --help fast.

    return f"binder has a fault of its own; please report what is saved in {kept_fault(fault)}."


def _tell_cannot_write(error: OSError) -> None:
    where = f" {error.filename}" if error.filename else ""
    text = f"Cannot read or write{where}: {error.strerror or error}."
    if error.errno == errno.EPIPE:
        text = "Nobody reads what binder says any more; it stopped."
    with contextlib.suppress(OSError):
        click.echo(shown(text), err=True)
    # What is still waiting to be said has nowhere to go: the interpreter is not to try again.
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
