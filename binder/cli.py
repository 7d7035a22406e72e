"""The command line: arguments, one function below, printing, exit codes."""

import atexit
import contextlib
import ctypes
import errno
import gc
import io
import os
import re
import signal
import sys
from collections.abc import Iterator, Sequence
from datetime import date, datetime
from pathlib import Path
from threading import current_thread, main_thread
from typing import TYPE_CHECKING, Any, Literal, NoReturn

import click

if TYPE_CHECKING:
    from binder.assessment.assess import Assessment
    from binder.assessment.ledger import Finding
    from binder.build import BuildOptions

DO_NOT_DRIVE, PROBLEMS, NOT_CLEARED = 1, 2, 3
FAULT_OF_OURS, CANNOT_WRITE, INTERRUPTED = 70, 74, 130
"""EX_SOFTWARE and EX_IOERR of sysexits.h, and what a shell calls an interrupt: 128 and signal 2."""
_VERDICTS = {"do not drive": DO_NOT_DRIVE, "not cleared": NOT_CLEARED}
_LIBRARIES = (
    "libgobject-2.0.so.0",
    "libpango-1.0.so.0",
    "libpangoft2-1.0.so.0",
    "libharfbuzz.so.0",
    "libharfbuzz-subset.so.0",
    "libfontconfig.so.1",
)
_INSTALL = {
    "linux": "type: sudo apt-get install -y libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0",
    "darwin": "type: brew install pango",
    "win32": "type in the shell of MSYS2: pacman -S mingw-w64-ucrt-x86_64-pango",
}
_COMMANDING = re.compile("[\\x00-\\x08\\x0b-\\x1f\\x7f-\\x9f]")

_rig = click.argument("rig", type=click.Path(path_type=Path))
_trip = click.option(
    "--trip", metavar="NAME", help="Plan in the folder's trips/; needed where there are several."
)


@contextlib.contextmanager
def _interrupts_noted() -> Iterator[list[int]]:
    """Note each interrupt: one that falls into a library calling back is lost there, with its exception."""
    noted: list[int] = []

    def note(number: int, _: object) -> None:
        noted.append(number)
        raise KeyboardInterrupt

    before = signal.getsignal(signal.SIGINT)
    is_ours = before is signal.default_int_handler and current_thread() is main_thread()
    if is_ours:
        signal.signal(signal.SIGINT, note)
    try:
        yield noted
    finally:
        if is_ours:
            signal.signal(signal.SIGINT, before)


class _Ending(click.Group):
    """Ends with one code and one sentence, whatever happened: no traceback reaches a terminal."""

    def main(self, args: Sequence[str] | None = None, prog_name: str | None = None, **extra: Any) -> NoReturn:  # type: ignore[override]  # noqa: ANN401 - as click has it.
        """Run a command and exit."""
        extra.pop("standalone_mode", None)
        given = list(sys.argv[1:] if args is None else args)
        try:
            sys.exit(self._ended(given, prog_name or "binder", extra))
        except KeyboardInterrupt:
            sys.exit(INTERRUPTED)

    def _ended(self, given: list[str], name: str, extra: dict[str, Any]) -> int:
        try:
            with _interrupts_noted() as noted:
                try:
                    return self._invoked(given, name, extra)
                except (OSError, KeyboardInterrupt, SystemExit):
                    raise
                except Exception as fault:
                    if noted:
                        raise KeyboardInterrupt from fault
                    click.echo(_fault_told(fault), err=True)
                    return FAULT_OF_OURS
        except KeyboardInterrupt:
            click.echo("Stopped; a printing that was there before is as it was.", err=True)
            return INTERRUPTED
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


@click.group(cls=_Ending, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="road-binder")
def main() -> None:
    """Print a glovebox binder and field cards from one description of a rig and one of its trip.

    RIG is a folder that holds rig.yaml and trips/. Exit code 0; 1 if something says do not drive;
    3 if something must be known first, so that it is not cleared; 2 if the input has problems, and then
    nothing is written; 70 for a fault of binder itself; 74 if a file, the disk or the output cannot be
    read or written; 130 if interrupted.
    """
    # One short run makes many objects and lets go of few: seldom looking for rings saves a fifth of it,
    # and not looking at all that is left at its end another tenth.
    gc.set_threshold(100_000, 50, 50)
    atexit.register(gc.freeze)


@main.command()
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option(
    "--rig",
    "kind",
    type=click.Choice(["motorhome", "motorhome-with-car", "pickup-with-trailer", "fifth-wheel", "camper"]),
    default="motorhome-with-car",
    show_default=True,
    help="Kind of rig the profile is for.",
)
def new(folder: Path, kind: str) -> None:
    """Write a commented profile with named blanks into a new folder DIR."""
    from binder.build import write_starter  # noqa: PLC0415 - keeps --help fast.

    try:
        written = write_starter(folder, kind)
    except FileExistsError as error:
        raise _refused(str(error)) from error
    for file in written:
        click.echo(f"wrote {file}")
    click.echo(f"Fill in the blanks, then: binder check {folder}")


_type = click.option(
    "--type",
    "type_size",
    type=click.Choice(["normal", "large"]),
    default="normal",
    show_default=True,
    help="Type of the ring: large is 16 pt, for the night and tired eyes.",
)


@main.command()
@_rig
@_trip
@_type
def check(rig: Path, trip: str | None, type_size: Literal["normal", "large"]) -> None:
    """Say what must not drive, what asks for attention and what is missing; write nothing."""
    from binder.build import default_out, mixed_files, printable_cards, read_and_assess  # noqa: PLC0415 - keeps --help fast.

    # What a private set would refuse is told here too.
    options = _options(trip, None, private=True)
    with _problems_told():
        assessment = read_and_assess(rig, options)
        printable_cards(assessment, type_size)
    _tell(assessment)
    for out in sorted(default_out(assessment.profile).glob("*/")):
        mixed = mixed_files(out)
        if mixed:
            click.echo(f"The printing in {out} is mixed: {', '.join(mixed)} is not of it; build it again.")
    sys.exit(_exit_code(assessment.findings))


@main.command()
@_rig
@_trip
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="Where to write; out/RIG/TRIP/SET if not given, SET-large with large type.",
)
@click.option("--date", "on", metavar="DATE", help="Effective date like 2026-06-01; today if not given.")
@click.option(
    "--flip",
    type=click.Choice(["long", "short"]),
    default="long",
    show_default=True,
    help="Edge of the sheet your printer turns it on for the backs.",
)
@click.option("--private", is_flag=True, help="Print what the set asks for of RIG/private.yaml.")
@click.option(
    "--set",
    "chosen",
    type=click.Choice(["everything", "codriver", "mechanic"]),
    default="everything",
    show_default=True,
    help="Which cards and pages, for whom.",
)
@_type
@click.option("--no-cache", is_flag=True, help="Lay out every part anew; keep none for the next build.")
@click.option("--verbose", is_flag=True, help="Tell what was found wrong with kept parts.")
def build(  # noqa: PLR0913, PLR0917 - click hands options over like this.
    rig: Path,
    trip: str | None,
    out: Path | None,
    on: str | None,
    flip: str,
    private: bool,  # noqa: FBT001 - a flag.
    chosen: str,
    type_size: Literal["normal", "large"],
    no_cache: bool,  # noqa: FBT001 - a flag.
    verbose: bool,  # noqa: FBT001 - a flag.
) -> None:
    """Print cards.pdf, sheets.pdf, binder.pdf, desk.pdf and numbers.json."""
    _load_typesetter()
    from binder.build import build as build_printing  # noqa: PLC0415 - keeps --help fast.

    kept = None if no_cache else _cache()
    asked = {"out": out, "flip": flip, "private": private, "set": chosen, "type_size": type_size}
    options = _options(trip, on, cache=kept, **asked)
    with _problems_told():
        report = build_printing(rig, options, lambda phase: click.echo(f"... {phase}", err=True))
    _tell(report.assessment)
    if private and report.assessment.profile.private is None:
        click.echo(f"Nothing private is printed: {report.why_not_private}.")
    for note in report.notes if verbose else ():
        click.echo(note)
    for name in report.files:
        pages = f", {report.pages[name]} pages" if name in report.pages else ""
        click.echo(f"wrote {report.out / name}{pages}")
    sys.exit(_exit_code(report.assessment.findings))


@main.command()
@_rig
@click.argument("words", nargs=-1, metavar="[KEY]...")
@_trip
def explain(rig: Path, words: tuple[str, ...], trip: str | None) -> None:
    """Say how a number was found: inputs, rule, limit, source. KEY: one, its start, or words of it."""
    from binder.build import read_and_assess  # noqa: PLC0415 - keeps --help fast.
    from binder.wording.record import explanation  # noqa: PLC0415 - keeps --help fast.

    with _problems_told():
        assessment = read_and_assess(rig, _options(trip, None))
    key = " ".join(words)
    text = explanation(assessment, key)
    if not text:
        raise _refused(f"no number starts with, or is told by, '{key}'; see 'binder explain {rig}' for all")
    click.echo(shown(text))


@main.command("fields")
@click.argument("words", nargs=-1, metavar="[WORD]...")
def list_fields(words: tuple[str, ...]) -> None:
    """List every field of the files: what it is, where to read it, an example. With WORD, those with it."""
    from binder.cards.procedures.own_words import what_may_be_named  # noqa: PLC0415 - keeps --help fast.
    from binder.models.fields import fields, told_with  # noqa: PLC0415 - keeps --help fast.

    wanted = " ".join(words)
    found = [*fields(wanted), *told_with(wanted, what_may_be_named())]
    if not found:
        raise _refused(f"no field is told with '{' '.join(words)}'; see 'binder fields' for all")
    file = ""
    for one in found:
        if one.file != file:
            file = one.file
            click.secho(f"{file}", bold=True)
        example = f", like {one.example}" if one.example else ""
        click.echo(f"  {one.path}: {one.form}{example}{' (needed)' if one.is_needed else ''}")
        click.echo(f"      {one.meaning}" + (f"; read it: {one.where}" if one.where else ""))


def _options(trip: str | None, on: str | None, **others: Any) -> "BuildOptions":  # noqa: ANN401 - as the command has them.
    from binder.build import BuildOptions  # noqa: PLC0415 - keeps --help fast.

    return BuildOptions(_effective(on), trip, **others)


def _cache() -> Path:
    from platformdirs import user_cache_path  # noqa: PLC0415 - only a build keeps anything.

    return user_cache_path("road-binder", appauthor=False) / "parts"


def _effective(on: str | None) -> date:
    if on is None:
        return datetime.now().astimezone().date()
    try:
        return date.fromisoformat(on)
    except ValueError as error:
        raise _refused(f"--date: '{on}' is not a date; write it like '2026-06-01'") from error


class _Refused(click.ClickException):
    exit_code = PROBLEMS


def _refused(text: str) -> click.ClickException:
    return _Refused(text)


@contextlib.contextmanager
def _problems_told():  # type: ignore[no-untyped-def] # noqa: ANN202 - a context manager of nothing.
    from binder.problems import InputProblems  # noqa: PLC0415 - keeps --help fast.

    try:
        yield
    except InputProblems as problems:
        click.echo(shown(str(problems)), err=True)
        sys.exit(PROBLEMS)


def _load_typesetter() -> None:
    """Load WeasyPrint; where a native library is missing say so in one sentence, before its own many."""
    if sys.platform == "linux":
        for library in _LIBRARIES:
            try:
                ctypes.CDLL(library)
            except OSError as error:
                raise _refused(_no_library(library)) from error
    said = io.StringIO()
    try:
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
            import weasyprint  # noqa: F401, PLC0415 - as above.
    except OSError as error:
        raise _refused(_no_library("Pango")) from error


def _no_library(name: str) -> str:
    how = _INSTALL.get(sys.platform, "install Pango and HarfBuzz with its subset library")
    if sys.platform == "linux" and not Path("/usr/bin/apt-get").exists():
        how = "install Pango and HarfBuzz with its subset library"
    return f"binder prints with a system library that is missing ({name}); {how}."


def _tell(assessment: "Assessment") -> None:
    from binder.assessment.ledger import GRADES  # noqa: PLC0415 - keeps --help fast.
    from binder.wording.words import Words, style_of  # noqa: PLC0415 - keeps --help fast.

    words = Words(style_of(assessment))
    for grade in GRADES:
        found = [words.found(one) for one in assessment.findings if one.grade == grade]
        click.secho(f"{grade.upper()}: {len(found) or 'none'}", bold=True)
        for one in found:
            click.echo(
                shown(f"  {one.text}\n      {one.helps}" + (f"\n      {one.path}" if one.path else ""))
            )


def _exit_code(findings: "list[Finding]") -> int:
    grades = {one.grade for one in findings}
    return next((code for grade, code in _VERDICTS.items() if grade in grades), 0)


if __name__ == "__main__":
    main()
