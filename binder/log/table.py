"""The log as a table in the terminal: what stands in it is shown as text, whatever it holds."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from typing import NamedTuple

from binder.log.importing import ids_shown
from binder.models.log_entries import Entry, Written

_ITSELF = frozenset(
    {"what", "text", "why", "tank", "amount", "pressure", "state", "by", "change", "quantity"}
)
"""Fields whose value says by itself what it is."""


class Filter(NamedTuple):
    """Which entries are shown; what is empty leaves out none."""

    kind: str = ""
    vehicle: str = ""
    position: str = ""
    card: str = ""
    since: datetime | None = None
    until: datetime | None = None

    def lets(self, entry: Entry) -> bool:
        """Tell whether an entry is to be shown."""
        return (
            self.kind in {"", entry.kind}
            and self.vehicle in {"", entry.written.get("vehicle")}
            and self.position in {"", entry.written.get("position")}
            and self.card in {"", entry.card}
            and (self.since is None or entry.at >= self.since)
            and (self.until is None or entry.at < self.until)
        )


def as_table(entries: Iterable[Entry], every: Iterable[Entry]) -> str:
    """Write entries as rows under a heading; ids are cut to the end that names them among all."""
    ends = ids_shown(every)
    rows = [_row(one, ends) for one in entries]
    heading = ("entry", "time", "kind", "who", "says")
    widths = [max(map(len, column)) for column in zip(heading, *rows, strict=True)][:-1]
    lines = ("  ".join((*map(str.ljust, row, widths), row[-1])).rstrip() for row in (heading, *rows))
    return "\n".join(lines)


def _row(entry: Entry, ends: Mapping[str, str]) -> tuple[str, ...]:
    at = entry.at.isoformat(" ", "minutes")
    time = f"{at[:16]} {at[16:]}{' ?' if entry.is_clock_unsure else ''}"
    card = f"card {entry.card}.{entry.code}".rstrip(".") if entry.card else ""
    corrects = f"corrects {ends.get(entry.corrects, entry.corrects)}" if entry.corrects else ""
    says = ", ".join(part for part in (*_parts(entry.written), card, corrects) if part)
    return ends[entry.id], time, entry.kind, shown(entry.who), shown(says)


def _parts(written: Mapping[str, Written]) -> Iterator[str]:
    where = " ".join(str(written[name]) for name in ("vehicle", "position") if name in written)
    if where:
        yield where
    for name, value in written.items():
        if name == "full":
            yield "full" if value in {"true", "yes"} else "not full"
        elif name not in {"vehicle", "position"}:
            told = _told(value)
            yield told if name in _ITSELF else f"{name} {told}"


def _told(value: Written) -> str:
    if isinstance(value, dict):
        return f"({', '.join(f'{name} {_told(one)}' for name, one in value.items())})"
    return f"({', '.join(map(_told, value))})" if isinstance(value, list) else value


def shown(text: str) -> str:
    """A text as it stands in one cell: what has no ink, or commands a terminal, is told by its number."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(one if one.isprintable() else f"\\u{{{ord(one):x}}}" for one in text)
