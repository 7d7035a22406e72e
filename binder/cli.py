"""The command line: arguments, one function below, printing, exit codes."""

import atexit
import contextlib
import gc
import re
import sys
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime
from importlib.util import find_spec
from math import inf
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

import click

from binder.terminal.ending import PROBLEMS, Ending, code_of, shown, tell_many
from binder.terminal.ending import refused as _refused

if TYPE_CHECKING:
    from binder.assessment.assess import Assessment
    from binder.printing.build import BuildOptions
    from binder.rendering.parts.processes import LayOut

_MOST = 10.0
"""Millimeters at which the scales of a test sheet end."""

_rig = click.argument("rig", type=click.Path(path_type=Path))
_SETS = click.Choice(["everything", "codriver", "mechanic"])
_set = click.option(
    "--set",
    "chosen",
    type=_SETS,
    default="everything",
    show_default=True,
    help="Which cards and pages, for whom.",
)
_trip = click.option(
    "--trip", metavar="NAME", help="Plan in the folder's trips/; needed where there are several."
)


@click.group(cls=Ending, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="road-binder")
def main() -> None:
    """Print a glovebox binder and field cards from one description of a rig and one of its trip.

    RIG is a folder that holds rig.yaml and trips/. Exit code 0; 1 if something says do not drive;
    3 if something must be known first, so that it is not cleared; 2 if the input has problems, and then
    nothing is written; 70 for a fault of binder itself; 74 if a file, the disk or the output cannot be
    read or written, or another process prints there; 130 if interrupted, 143 and 129 if ended by others.
    """
    # One short run makes many objects and lets go of few: seldom looking for rings saves a fifth of it,
    # and not looking at all that is left at its end another tenth.
    gc.set_threshold(1_000_000, 50, 50)
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
    from binder.printing.starter import write_starter

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
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="Where a printing is that is to be looked at; all of out/RIG/TRIP if not given.",
)
def check(rig: Path, trip: str | None, type_size: Literal["normal", "large"], out: Path | None) -> None:
    """Say what must not drive, what asks for attention and what is missing; write nothing."""
    from binder.printed import FILE
    from binder.printing.build import printable_cards, read_and_assess, trip_out
    from binder.publishing.printing import mixed_files

    # What a private set would refuse is told here too.
    options = _options(trip, None, private=True)
    with _problems_told():
        assessment = read_and_assess(rig, options)
        printable_cards(assessment, type_size)
    _tell(assessment)
    for folder in [out] if out else sorted(trip_out(assessment.profile).glob("*/")):
        mixed = mixed_files(folder)
        if mixed:
            text = f"The printing in {folder} is mixed: {', '.join(mixed)} is not of it; build it again."
            click.echo(shown(text))
    if (rig / FILE).exists():
        from binder.printing.in_hand import voids

        with _problems_told():
            for line in voids(rig, assessment):
                click.echo(shown(line))
    sys.exit(code_of({one.grade for one in assessment.findings}))


@main.command()
@click.argument("rigs", metavar="RIG...", nargs=-1, required=True, type=click.Path(path_type=Path))
@_trip
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="Where to write; else out/RIG/TRIP/SET. Of many rigs each has its RIG/TRIP/SET there.",
)
@click.option("--date", "on", metavar="DATE", help="Effective date like 2026-06-01; today if not given.")
@click.option(
    "--flip",
    type=click.Choice(["long", "short"]),
    default="long",
    show_default=True,
    help="Edge of the sheet your printer turns it on for the backs.",
)
@click.option(
    "--offset", metavar="X,Y", default="0,0", help="Millimeters a printer lays backs off: see test_sheet.pdf."
)
@click.option("--private", is_flag=True, help="Print what the set asks for of RIG/private.yaml.")
@_set
@_type
@click.option("--changed", is_flag=True, help="Print only what differs from what is in hand, with a slip.")
@click.option("--no-cache", is_flag=True, help="Lay out every part anew; keep none for the next build.")
@click.option("--scheduler", metavar="ADDRESS", help="Have the machines of a Dask cluster lay parts out.")
@click.option("--verbose", is_flag=True, help="Tell what was found wrong with kept parts.")
def build(  # noqa: PLR0913, PLR0917 - click hands options over like this.
    rigs: tuple[Path, ...],
    trip: str | None,
    out: Path | None,
    on: str | None,
    flip: str,
    offset: str,
    private: bool,  # noqa: FBT001 - a flag.
    chosen: str,
    changed: bool,  # noqa: FBT001 - a flag.
    type_size: Literal["normal", "large"],
    no_cache: bool,  # noqa: FBT001 - a flag.
    scheduler: str | None,
    verbose: bool,  # noqa: FBT001 - a flag.
) -> None:
    """Print cards.pdf, sheets.pdf, binder.pdf, desk.pdf, test_sheet.pdf and numbers.json.

    RIG may be several, or a folder of rigs; then a table tells what became of each.
    """
    from binder.rendering.parts.typesetter import NoLibrary, refuse_missing

    # A missing library is told before anything is loaded.
    try:
        refuse_missing()
    except NoLibrary as fault:
        raise _refused(str(fault)) from fault
    from binder.printing.build import build as build_printing
    from binder.printing.many import build_many, rigs_in
    from binder.terminal.progress import progress_shown

    kept = None if no_cache else _cache()
    asked = {"out": out, "private": private, "set": chosen, "type_size": type_size, "changed": changed}
    options = _options(trip, on, cache=kept, flip=flip, offset=_offset(offset), **asked)
    every = rigs_in(rigs)
    if len(every) > 1:
        options = replace(options, out=None, within=out or options.within)
        with _laid_out(scheduler) as lay_out:
            code = tell_many(build_many(every, options, lay_out))
        sys.exit(code)
    # Without a cluster a single printing has processes of its own.
    cluster = _laid_out(scheduler) if scheduler else contextlib.nullcontext()
    with _problems_told(), progress_shown() as progress, cluster as lay_out:
        report = build_printing(every[0], options, progress, lay_out)
    for said in report.told:
        click.echo(shown(said), err=True)
    _tell(report.assessment)
    if private and report.assessment.profile.private is None:
        click.echo(f"Nothing private is printed: {report.why_not_private}.")
    if report.is_unchanged:
        click.echo("Nothing is written: what is in hand is what would be printed.")
    for note in report.notes if verbose else ():
        click.echo(note)
    for name in report.files:
        pages = f", {report.pages[name]} pages" if name in report.pages else ""
        click.echo(f"wrote {report.out / name}{pages}")
    if report.log_page and report.files:
        click.echo(f"wrote {report.log_page}, the page that the codes lead to")
    sys.exit(code_of({one.grade for one in report.assessment.findings}))


@main.command()
@_rig
@_trip
@click.option("--set", "chosen", type=_SETS, help="Only this set; all that were printed if not given.")
@click.option(
    "--date", "on", metavar="DATE", help="Day to compare with, like 2026-06-01; today if not given."
)
def changes(rig: Path, trip: str | None, chosen: str | None, on: str | None) -> None:
    """Say which cards and pages in hand are not so any more, what moved and why; write nothing."""
    from binder.printing.in_hand import changes as changes_of

    with _problems_told():
        lines = list(changes_of(rig, _options(trip, on), chosen))
    click.echo(shown("\n".join(lines)))


@main.command()
@_rig
@_trip
@_set
@_type
@click.option("--changed", is_flag=True, help="What 'build --changed' printed, and what its slip took out.")
@click.option("--out", type=click.Path(path_type=Path), metavar="DIR", help="Where it was built to.")
def printed(  # noqa: PLR0913, PLR0917 - click hands options over like this.
    rig: Path,
    trip: str | None,
    chosen: str,
    type_size: Literal["normal", "large"],
    changed: bool,  # noqa: FBT001 - a flag.
    out: Path | None,
) -> None:
    """Record in RIG/printed.yaml that what was built last is printed and in hand."""
    from binder.printing.in_hand import record

    with _problems_told():
        options = _options(trip, None, out=out, set=chosen, type_size=type_size, changed=changed)
        made = record(rig, options)
    parts = f"{len(made.parts)} part{'' if len(made.parts) == 1 else 's'}"
    click.echo(f"recorded in {rig / 'printed.yaml'}: {parts} of the set {made.set}, from {made.date}")


@main.command()
@_rig
@click.argument("words", nargs=-1, metavar="[KEY]...")
@_trip
def explain(rig: Path, words: tuple[str, ...], trip: str | None) -> None:
    """Say how a number was found: inputs, rule, limit, source. KEY: one, its start, or words of it."""
    from binder.printing.build import read_and_assess
    from binder.wording.record import explanation

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
    from binder.cards.procedures.own_words import what_may_be_named
    from binder.models.fields import fields, told_with

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


@main.command("log", add_help_option=False, context_settings={"ignore_unknown_options": True})
@click.argument("words", nargs=-1, type=click.UNPROCESSED)
def run_log(words: tuple[str, ...]) -> None:
    """Keep the rig's log: readings, fills, faults, service; see 'binder log --help'."""
    from binder.log.commands import log

    with log.make_context("binder log", list(words)) as context:
        log.invoke(context)


@contextlib.contextmanager
def _laid_out(scheduler: str | None) -> "Iterator[LayOut]":
    """Lay parts out in processes here, or on a cluster's machines where its scheduler is named."""
    from binder.rendering.parts.processes import Processes, on_cluster

    if not scheduler:
        with Processes() as processes:
            yield processes.lay_out
        return
    if find_spec("distributed") is None:
        raise _refused("--scheduler needs what comes with: pip install 'road-binder[cluster]'")
    with on_cluster(scheduler) as lay_out:
        yield lay_out


def _options(trip: str | None, on: str | None, **chosen: Any) -> "BuildOptions":  # noqa: ANN401 - as there.
    from binder.printing.build import BuildOptions

    return BuildOptions(_effective(on), trip, **chosen)


def _offset(told: str) -> tuple[float, float]:
    found = re.fullmatch(r"([+-]?\d+(?:\.\d+)?), ?([+-]?\d+(?:\.\d+)?)", told)
    right, up = map(float, found.groups()) if found else (inf, inf)
    if max(abs(right), abs(up)) > _MOST:
        needed = "write X and Y in mm, each up to 10, like '1.5,-0.5'"
        raise _refused(f"--offset: '{told}' is not what a test sheet tells; {needed}")
    return right, up


def _cache() -> Path:
    from platformdirs import user_cache_path

    return user_cache_path("road-binder", appauthor=False) / "parts"


def _effective(on: str | None) -> date:
    if on is None:
        return datetime.now().astimezone().date()
    try:
        return date.fromisoformat(on)
    except ValueError as error:
        raise _refused(f"--date: '{on}' is not a date; write it like '2026-06-01'") from error


@contextlib.contextmanager
def _problems_told():  # type: ignore[no-untyped-def] # noqa: ANN202 - a context manager of nothing.
    from binder.problems import InputProblems
    from binder.rendering.parts.typesetter import NoLibrary

    try:
        yield
    except InputProblems as problems:
        click.echo(shown(str(problems)), err=True)
        sys.exit(PROBLEMS)
    except NoLibrary as fault:
        raise _refused(str(fault)) from fault


def _tell(assessment: "Assessment") -> None:
    from binder.assessment.ledger import GRADES
    from binder.wording.words import Words, style_of

    words = Words(style_of(assessment))
    for grade in GRADES:
        found = [words.found(one) for one in assessment.findings if one.grade == grade]
        click.secho(f"{grade.upper()}: {len(found) or 'none'}", bold=True)
        for one in found:
            click.echo(
                shown(f"  {one.text}\n      {one.helps}" + (f"\n      {one.path}" if one.path else ""))
            )


if __name__ == "__main__":
    main()
