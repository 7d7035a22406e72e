"""Format strings filled with facts: the one way in which a value becomes a word.

A field of a format string names a fact and, after a colon, how it is written: ``{margin:weight down}``. A
fact that is not known is written as such.
"""

from collections.abc import Callable, Iterator, Mapping
from datetime import date, datetime, time
from types import MappingProxyType
from typing import get_args

from binder.assessment.ledger import Fact, Key, Phrase, Place
from binder.assessment.measures import (
    MEASURES,
    Measure,
    Rounding,
    System,
    days_text,
    duration_text,
    hours_text,
    length_text,
    number_text,
    rounded,
    whole_days_text,
)
from binder.quantities import Quantity, is_quantity, number_in
from binder.reference.procedure_constant import ProcedureConstant

NOT_KNOWN = "not known"
_SHORT = 12  # Inches: a length under a foot is told in the small unit alone.
_SECONDS = 120
"""Durations under so many seconds are told in seconds: a following gap, not a drive."""


def sentence(phrase: Phrase | str, facts: Mapping[str, Fact], units: System) -> str:
    """Fill a format string; a phrase brings facts of its own beside those of what it stands in."""
    if isinstance(phrase, Phrase):
        return phrase.text.format_map(_Words({**facts, **phrase.facts}, units))
    return phrase.format_map(_Words(facts, units))


def key_text(key: Key) -> str:
    """Write a key: the form of its kind with the subject's names, blanks and points taken out of them."""
    names = iter(key.subject)
    return key.kind.key.format_map(_KeyParts(names))


def place_text(place: Place) -> str:
    """Write a place in the owner's files: ``rig.yaml vehicles.coach.axles.steer.rating``."""
    path = ".".join(str(part) for part in place.path)
    joint = ", " if place.file == "trip plan" else " "
    return f"{place.file}{joint}{path}" if path else place.file


def quantity_text(quantity: Quantity, measure: str, units: System) -> str:
    """Write a quantity by the name of a measure and a direction, such as ``pressure up``."""
    name, rounding = _named(measure)
    if name in MEASURES[units]:
        printed = MEASURES[units][name]  # type: ignore[index] # It is one of them.
        space = "" if printed.word.startswith("/") else " "
        return f"{number_text(quantity, printed, rounding)}{space}{printed.word}"
    return _OTHERS[name](quantity, units, rounding)


def known_measures() -> frozenset[str]:
    """Names that may stand after the colon of a field, without their direction."""
    return frozenset([*get_args(Measure), *_OTHERS, *_PLAIN])


class _KeyParts(Mapping[str, str]):
    """Parts of a subject in the order they stand in the form of a key."""

    def __init__(self, names: Iterator[str | int]) -> None:
        self._names = names

    def __getitem__(self, _: str) -> str:
        name = next(self._names)
        if isinstance(name, int):
            return str(name) if name >= 0 else f"minus_{-name}"
        return name.replace(" ", "_").replace(".", "")

    def __iter__(self) -> Iterator[str]:
        return iter(())

    def __len__(self) -> int:
        return 0


class _Words(Mapping[str, "_Word"]):
    def __init__(self, facts: Mapping[str, Fact], units: System) -> None:
        self._facts, self._units = facts, units

    def __getitem__(self, name: str) -> "_Word":
        return _Word(self._facts[name], self._facts, self._units)

    def __iter__(self) -> Iterator[str]:
        return iter(self._facts)

    def __len__(self) -> int:
        return len(self._facts)


class _Word:
    """One fact, written as the field that names it asks for."""

    def __init__(self, fact: Fact, facts: Mapping[str, Fact], units: System) -> None:
        self._fact, self._facts, self._units = fact, facts, units

    def __format__(self, measure: str) -> str:
        return _fact_text(self._fact, measure, self._facts, self._units)


def _fact_text(fact: Fact, measure: str, facts: Mapping[str, Fact], units: System) -> str:  # noqa: PLR0911 - a kind of fact each.
    if fact is None:
        return NOT_KNOWN
    if is_quantity(fact):
        return quantity_text(fact, measure, units)
    if isinstance(fact, Phrase):
        return _PLAIN[measure or "text"](sentence(fact, facts, units))
    if isinstance(fact, Key):
        return key_text(fact)
    if isinstance(fact, Place):
        return place_text(fact)
    if isinstance(fact, ProcedureConstant):
        return (fact.us if units == "us" else fact.metric).text
    if isinstance(fact, tuple):
        return _JOINED[measure or "list"]([_fact_text(one, "", facts, units) for one in fact])  # type: ignore[arg-type]
    if isinstance(fact, date | time):
        return _MOMENTS[measure or "date"](fact)  # type: ignore[arg-type] # Each is asked for by its own kind.
    if isinstance(fact, int | float) and measure:
        name, rounding = _named(measure)
        return _NUMBERS[name](fact, rounding)
    return _PLAIN[measure or "text"](f"{fact:g}" if isinstance(fact, float) else str(fact))


def _named(measure: str) -> tuple[str, Rounding]:
    name, _, last = measure.rpartition(" ")
    if last in get_args(Rounding):
        return name, last  # type: ignore[return-value] # It is one of them.
    return measure, "nearest"


def _size(quantity: Quantity, units: System, rounding: Rounding) -> str:
    is_short = abs(number_in(quantity, "inch")) < _SHORT
    return (
        quantity_text(quantity, f"inches {rounding}", units)
        if is_short
        else length_text(quantity, units, rounding)
    )


def _room(quantity: Quantity, units: System) -> str:
    """Room for more weight; less than one pound or kilogram is none."""
    text = quantity_text(quantity, "weight down", units)
    return "no room" if text.startswith("0 ") else text


def _percent(share: Quantity | float, rounding: Rounding) -> str:
    number = share if isinstance(share, int | float) else float(share.to("").magnitude)
    return f"{rounded(number * 100, 1, rounding):.0f} %"


def _time(quantity: Quantity, rounding: Rounding) -> str:
    seconds = float(quantity.to("second").magnitude)
    if abs(seconds) < _SECONDS:
        return f"{rounded(seconds, 1, rounding):.0f} s"
    return duration_text(quantity, rounding)


def _years(quantity: Quantity) -> str:
    """Nobody is told that a tire is younger than it is."""
    return f"{rounded(float(quantity.to('year').magnitude), 0.1, 'up'):.1f} years"


def _clock(moment: datetime | time) -> str:
    zone = moment.tzname()
    return f"{moment:%H:%M}" + (f" {zone}" if zone else "")


_OTHERS: Mapping[str, Callable[[Quantity, System, Rounding], str]] = MappingProxyType(
    {
        "length": length_text,
        "size": _size,
        "room": lambda quantity, units, _: _room(quantity, units),
        "percent": lambda quantity, _, rounding: _percent(quantity, rounding),
        "share": lambda quantity, _, __: f"{number_in(quantity, 'percent'):g} %",
        "charge": lambda quantity, _, rounding: (
            f"{rounded(number_in(quantity, 'ampere_hour'), 1, rounding):.0f} Ah"
        ),
        "volume as written": lambda quantity, _, __: (
            f"{quantity.m:g} {'L' if str(quantity.units) == 'liter' else 'gal'}"
        ),
        "months": lambda quantity, _, rounding: (
            f"{rounded(number_in(quantity, 'month'), 1, rounding):.0f} months"
        ),
        "duration": lambda quantity, _, rounding: duration_text(quantity, rounding),
        "time": lambda quantity, _, rounding: _time(quantity, rounding),
        "hours": lambda quantity, _, rounding: hours_text(quantity, rounding),
        "days": lambda quantity, _, __: days_text(quantity),
        "whole days": lambda quantity, _, __: whole_days_text(quantity),
        "years": lambda quantity, _, __: _years(quantity),
    }
)
_NUMBERS: Mapping[str, Callable[[float, Rounding], str]] = MappingProxyType(
    {
        "count": lambda number, _: f"{number:,.0f}",
        "number": lambda number, _: f"{number:g}",
        "percent": _percent,
    }
)
_MOMENTS: Mapping[str, Callable[[datetime], str]] = MappingProxyType(
    {
        "date": lambda moment: moment.isoformat(),
        "day": lambda moment: f"{moment:%a %Y-%m-%d}",
        "clock": _clock,
        "moment": lambda moment: f"{moment:%a %Y-%m-%d} {_clock(moment)}",
    }
)
_PLAIN: Mapping[str, Callable[[str], str]] = MappingProxyType(
    {
        "text": str,
        "capital": lambda text: text[:1].upper() + text[1:],
        "small": lambda text: text[:1].lower() + text[1:],
    }
)
_JOINED: Mapping[str, Callable[[list[str]], str]] = MappingProxyType(
    {
        "list": ", ".join,
        "and": " and ".join,
        "parts": "; ".join,
        "sum": "".join,
        "sentences": " ".join,
    }
)
