"""The commands of the log: arguments, questions in the terminal, one function below each, printing."""

import sys
from collections.abc import Callable
from datetime import datetime, timedelta, tzinfo
from functools import wraps
from pathlib import Path
from typing import IO, Any, NoReturn, ParamSpec
from zoneinfo import ZoneInfo

import click

from binder.log.asking import asked
from binder.log.csv_rows import as_rows
from binder.log.identity import new_id
from binder.log.importing import Endings, ids_shown, import_file, settled
from binder.log.in_force import in_force
from binder.log.json_lines import as_json_lines
from binder.log.reading import Reader, WrongField, card_and_code, read_entry, read_moment
from binder.log.rig_names import names_of
from binder.log.short_form import read_short
from binder.log.store import add, entries_in
from binder.log.table import Filter, as_table, shown
from binder.log.ticket import ticket_yaml
from binder.models.load import LOG, load_rig, refuse_no_folder
from binder.models.log_entries import KINDS, Entry, Written
from binder.problems import InputProblems, Position, Problem

_Parameters = ParamSpec("_Parameters")
_rig = click.argument("rig", type=click.Path(path_type=Path))


class _Here(tzinfo):
    """The zone of this computer, whatever the season."""

    def utcoffset(self, moment: datetime | None, /) -> timedelta | None:
        return moment.replace(tzinfo=None).astimezone().utcoffset() if moment else None

    def dst(self, _: datetime | None, /) -> timedelta | None:
        return None

    def tzname(self, _: datetime | None, /) -> str | None:
        return None


class _Refused(click.ClickException):
    """Input that is wrong, told as it stands."""

    exit_code = 2

    def show(self, file: IO[Any] | None = None) -> None:
        click.echo(self.message, file=file, err=True)


def _refuses(command: Callable[_Parameters, None]) -> Callable[_Parameters, None]:
    @wraps(command)
    def told(*args: _Parameters.args, **kwargs: _Parameters.kwargs) -> None:
        try:
            command(*args, **kwargs)
        except InputProblems as problems:
            raise _Refused(str(problems)) from problems

    return told


def _refuse(text: str) -> NoReturn:
    raise _Refused(f"{text}; nothing was written.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
def log() -> None:
    """Keep the rig's log: readings, fills, faults, service."""


@log.command("add")
@_rig
@click.argument("words", nargs=-1, metavar="[ENTRY]...")
@click.option("--at", metavar="TIME", help="When it was, like '2026-06-01 07:10'; now if not given.")
@click.option("--who", default="", metavar="NAME", help="Who says it.")
@click.option("--card", default="", metavar="MARK", help="Card and code it was read on, like 3.dx2vy.")
@click.option("--corrects", default="", metavar="ID", help="Entry that this one corrects, by its end.")
@_refuses
def add_entry(rig: Path, words: tuple[str, ...], at: str | None, who: str, card: str, corrects: str) -> None:  # noqa: PLR0913, PLR0917 - click hands options over like this.
    """Add an entry, like 'tire steer left 104 psi cold'; without ENTRY it asks."""
    now = datetime.now().astimezone()
    reader = Reader(names_of(load_rig(rig)), now, _Here())
    number, code = card_and_code(card)
    given = {"who": who, "card": number, "code": code, "corrects": corrects}
    shared: dict[str, Written] = {name: told.strip() for name, told in given.items() if told.strip()}
    shared["at"] = at or now.isoformat(timespec="seconds")
    if words:
        fields, wrong = read_short(" ".join(words), reader.names)
        drafts = [fields]
    else:
        wrong, drafts = [], asked(reader.names)
    entries: list[Entry] = []
    for fields in drafts if not wrong else ():
        entry, faults = read_entry({**shared, **fields, "id": new_id(now)}, reader)
        wrong += faults
        entries += [entry] if entry else []
    if not wrong:
        entries, faults_by_id = settled(entries, entries_in(rig))
        wrong += [one for _, one in faults_by_id]
    if wrong:
        raise InputProblems(_as_problem(" ".join(words), one) for one in wrong)
    add(rig, entries)
    ends = ids_shown(entries_in(rig))
    for one in entries:
        click.echo(f"added {ends[one.id]}")
    _tell_unsure(entries)


def _as_problem(line: str, wrong: WrongField) -> Problem:
    return Problem("the entry", Position(1, 1) if line else None, wrong.field, wrong.text, wrong.hint)


@log.command("show")
@_rig
@click.option("--kind", type=click.Choice(list(KINDS)), default=None, help="Only entries of this kind.")
@click.option("--vehicle", default="", metavar="NAME", help="Only of this vehicle.")
@click.option("--position", default="", metavar="NAME", help="Only of this tire, like 'steer left'.")
@click.option("--card", default="", metavar="CARD", help="Only what was read on this card, like 3.")
@click.option("--since", metavar="DAY", help="Only from this day on, like 2026-06-01.")
@click.option("--until", metavar="DAY", help="Only before this day.")
@click.option(
    "--last", default=100, metavar="COUNT", show_default=True, help="Only so many, the latest; 0: all."
)
@click.option("--all", "with_corrected", is_flag=True, help="Also what was corrected or withdrawn.")
@_refuses
def show(  # noqa: PLR0913, PLR0917 - click hands options over like this.
    rig: Path,
    kind: str | None,
    vehicle: str,
    position: str,
    card: str,
    since: str | None,
    until: str | None,
    last: int,
    with_corrected: bool,  # noqa: FBT001 - a flag.
) -> None:
    """Show the entries in force as a table, by time."""
    refuse_no_folder(rig)
    wanted = Filter(kind or "", vehicle, position, card, _day(since), _day(until))
    every = entries_in(rig)
    known = every if with_corrected else in_force(every)
    found = [one for one in known if wanted.lets(one)]
    if not found:
        click.echo("No such entry." if every else f"The log is empty; add to it with 'binder log add {rig}'.")
        return
    if 0 < last < len(found):
        click.echo(f"{_count(len(found) - last)} before these; --last 0 shows all.")
        found = found[-last:]
    click.echo(as_table(found, every))
    if any(one.is_clock_unsure for one in found):
        click.echo("?: by a clock that was over a day ahead, or years behind, when the entry was taken.")


def _day(text: str | None) -> datetime | None:
    try:
        return read_moment(f"{text} 00:00", _Here()) if text else None
    except ValueError:
        _refuse(f"'{shown(text or '')}' is not a day; write it like '2026-06-01'")


@log.command("import")
@_rig
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--zone", metavar="NAME", help="Zone of times written without one, like America/Boise.")
@click.option(
    "--with", "constant", multiple=True, metavar="FIELD=VALUE", help="What holds for every row of a table."
)
@_refuses
def import_into(rig: Path, file: Path, zone: str | None, constant: tuple[str, ...]) -> None:
    """Take FILE into the log, whole or not at all: JSON Lines, a table with named columns, a mail."""
    pairs = {field.strip(): value.strip() for field, _, value in (one.partition("=") for one in constant)}
    if "" in pairs or "" in pairs.values():
        _refuse("--with is like 'by=sensor'")
    reader = Reader(names_of(load_rig(rig)), datetime.now().astimezone(), _zone(zone))
    done = import_file(rig, file, reader, pairs)
    there = f", {done.known} were there already" if done.known else ""
    click.echo(f"{_count(done.added)} added to {rig / LOG}{there}.")
    _tell_unsure(done.unsure)


def _zone(name: str | None) -> tzinfo | None:
    try:
        return ZoneInfo(name) if name else None
    except (KeyError, ValueError, OSError):
        _refuse(f"'{shown(name or '')}' is no zone; write it like 'America/Boise'")


def _count(number: int) -> str:
    return f"{number:,} {'entry' if number == 1 else 'entries'}"


def _tell_unsure(entries: "tuple[Entry, ...] | list[Entry]") -> None:
    unsure = [one for one in entries if one.is_clock_unsure]
    if unsure:
        first = min(one.at for one in unsure).date()
        text = "over a day ahead of this computer's clock, or years behind it"
        click.echo(f"{_count(len(unsure))}, from {first} on, by a clock {text}: taken, and marked unsure.")


@log.command("export")
@_rig
@click.option("--csv", "as_table_of_columns", is_flag=True, help="Rows of named columns; else JSON Lines.")
@_refuses
def export(rig: Path, as_table_of_columns: bool) -> None:  # noqa: FBT001 - a flag.
    """Write the whole log out, to be kept or read elsewhere; 'log import' reads it again."""
    name = load_rig(rig).name
    entries = entries_in(rig)
    lines = as_rows(entries) if as_table_of_columns else as_json_lines(name, entries)
    sys.stdout.flush()
    click.echo(("\n".join(lines) + "\n").encode(), nl=False)


@log.command("ticket")
@_rig
@click.argument("entry", metavar="ID")
@_refuses
def ticket(rig: Path, entry: str) -> None:
    """Offer the weighing ID as a scale ticket for rig.yaml; that file is yours, and stays as it is."""
    refuse_no_folder(rig)
    every = {one.id: one for one in entries_in(rig)}
    try:
        found = every[Endings(every).full(entry)]
    except ValueError as error:
        _refuse(str(error))
    if found.kind != "weight":
        _refuse(f"'{entry}' is of the kind '{found.kind}', no weighing")
    click.echo(f"# For scale_tickets: in {rig / 'rig.yaml'}; read it against the ticket.")
    click.echo(ticket_yaml(found))
