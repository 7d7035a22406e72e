"""What differs from the paper in hand, in words: for the terminal, and for the slip beside new parts."""

from collections.abc import Iterator
from datetime import date

from binder.cards.blocks import Form, Note, Page
from binder.printed.differences import Difference, Differences
from binder.printed.touched import LOG, TRIP, Touched

_MOST_LINES = 4
"""New lines of a part that are told; the bars on its paper show all."""


def told(found: Differences, lines: dict[str, dict[str, str]]) -> Iterator[str]:
    """Every part that differs, what moved on it and why; ``lines`` are those of each part by their codes."""
    trip = f", trip {found.trip}" if found.trip else ""
    count = f"{len(found.every)} of {found.count} parts" if found.every else "no part"
    yield f"Set {found.set}{trip}: {count} differ{'' if len(found.every) > 1 else 's'} from what is in hand."
    for one in found.every:
        yield ""
        yield from _part(one, found, lines.get(one.name, {}))
    if found.idle:
        yield ""
        yield "Changed, and on no card or page of this set:"
        yield from (f"  {_entry(one, found.trip)}" for one in found.idle)


def _part(one: Difference, found: Differences, lines: dict[str, str]) -> Iterator[str]:
    if one.was is None:
        yield f"{one.title}: new, code {one.now}"
        return
    if not one.now:
        yield f"{one.title}: gone; destroy it, code {one.was.code}"
    else:
        state = "void" if one.is_void else "as of its date"
        yield f"{one.title}: {one.was.code} of {one.printed} -> {one.now}; the old one is {state}"
    for moved in one.moved:
        safe = "; what is printed is on the safe side" if moved.is_safe else ""
        yield f"  {moved.name}, {moved.was or 'blank'} -> {moved.now or 'blank'}{safe}"
    new = [text for code, text in lines.items() if code not in one.was.line_codes] if one.now else []
    yield from (f"  now: {text}" for text in new[:_MOST_LINES])
    if len(new) > _MOST_LINES:
        yield f"  and {len(new) - _MOST_LINES} more lines"
    yield from (f"  because of {_entry(cause, found.trip)}" for cause in one.because)
    if one.by_date:
        yield f"  {'and' if one.because else 'because'} of the day"
    if one.by_program:
        yield f"  {'and' if one.because else 'because'} a newer binder says it otherwise"
    if one.was.says_private:
        yield "  what is private on it is not compared"


def _entry(one: Touched, trip: str) -> str:
    if one.file == LOG:
        return f"the log: its entries since {one.since}" if one.since else "the log: what it says no more"
    file = f"trips/{trip}.yaml" if one.file == TRIP and trip else one.file
    line = f" line {one.line}" if one.line else ""
    path = ".".join(str(part) for part in one.path)
    return f"{file}{line}: {path}" if path else f"{file}, all of it"


def void_told(one: Difference, since: date | None, name: str) -> str:
    """Say that a part in hand is not to be used any more."""
    when = f"since {since}" if since else "now"
    what = f"{one.title}, code {one.was.code}" if one.was else one.title
    return f"Void {when}: {what}, of the set {name}; 'binder changes' says why."


def exchange_slip(found: Differences) -> Page:
    """What is taken out and destroyed, and what is put in, each with a box to tick."""
    rows = [
        (one.title, one.was.code if one.was else _NONE, "" if one.was else _NONE, one.now or _NONE)
        for one in found.due
    ]
    stay = found.count - sum(bool(one.now) for one in found.due)
    return Page(
        "exchange_slip",
        "Exchange slip",
        "Destroy the old, insert the new, tick each box. Nothing else of the set changed.",
        (
            Form(
                ("", "destroy code", "done", "insert code", "done"),
                tuple((*row, "" if row[-1] != _NONE else _NONE) for row in rows),
                small=True,
            ),
            Note("The page In force takes the place of the old one: it is printed anew with every change."),
            Note(f"A bar at the right edge stands beside each new line. {stay} parts stay as they are."),
            Note("When it is done, type on the computer: binder printed RIG --changed"),
        ),
    )


_NONE = "\u2013"
