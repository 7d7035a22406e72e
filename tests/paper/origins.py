"""Where a printed number may come from, and which printed strings say what it measures."""

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property
from itertools import pairwise
from math import degrees

import pint

from binder.assessment.route.kinds import BREAK_AT
from binder.assessment.supplies.kinds import level_of
from binder.cards.blocks import Bands, Block, Card, Page, Picture, Step, Table, ValueTable
from binder.cards.drawings import LoadChart, PlanView
from binder.quantities import LENGTH, Quantity, registry
from binder.reference.constants import PROCEDURE_CONSTANTS, PROFILE_BARS
from binder.reference.sources import bibliography
from tests.by_key import ByKey, ReadFigure
from tests.paper.number_words import Number, numbers_of, unit_said
from tests.paper.printings import Printing, strings

SOURCES = bibliography()

WALK = "walk"
"""Heading of the column that numbers the walk."""

_STEPS = {"kPa": 5.0, "days": 0.5}
"""Steps that are coarser than the last digit: kilopascals to 5, days to half ones."""

_LEAST = 1e-6

_FIXED = {
    "1st": "order in which warning devices are set out",
    "2nd": "order in which warning devices are set out",
    "3rd": "order in which warning devices are set out",
    "911": "the emergency number of the United States, W34, also within a sentence",
    "112": "the emergency number of the European Union, W35, also within a sentence",
    "2015": "year of the copy in which federal texts were read, said among the cautions",
}
"""The only numbers that stand in no record, input or table of constants, each with its reason."""


@dataclass(frozen=True)
class Said:
    """A printed string with the unit that its table's heading gives to numbers without one."""

    text: str
    unit: str = ""


def said_by(value: object) -> Iterator[Said]:
    """Every printed string of a view model, each with the unit its table's heading gives it."""
    if isinstance(value, Page | Card):
        blocks = value.blocks if isinstance(value, Page) else ()
        sides = value.sides if isinstance(value, Card) else ()
        yield from (one for block in blocks for one in _said_by_block(block))
        yield from (Said(text) for side in sides for text in (side.use, side.goes_on))
        yield from (one for side in sides for block in side.blocks for one in _said_by_block(block))
        yield Said(value.title)
        if isinstance(value, Page):
            yield Said(value.intro)
        else:
            yield Said(value.wrong_as_soon_as)
            yield from map(Said, strings(value.reasons))
    else:
        yield from map(Said, strings(value))


def _said_by_block(block: Block) -> Iterator[Said]:
    if isinstance(block, Bands):
        # The second band lies between the first and the value: a test of its own holds that.
        unit = unit_said(block.actions[2])
        yield from map(Said, block.actions)
        for row in block.rows:
            yield from map(Said, (row.name, row.detail))
            yield from (Said(text, unit) for text in (row.value, row.others[0], *row.others[2:]))
    elif isinstance(block, ValueTable):
        unit = unit_said(block.headers[0])
        yield from map(Said, (block.caption, *block.headers))
        for row in block.rows:
            yield from map(Said, (row.name, row.detail))
            yield from (Said(text, unit) for text in (row.value, *row.others))
    elif isinstance(block, Table):
        yield from map(Said, (block.caption, *block.headers))
        yield from _cells(block)
    elif isinstance(block, Step):
        yield from map(Said, (block.text, block.detail))
    elif isinstance(block, Picture) and isinstance(block.view, PlanView):
        view = block.view
        yield from map(Said, (view.overall, view.scale_label, *(thing.label for thing in view.things)))
        yield from map(Said, (vehicle.name for vehicle in view.vehicles))
        axles = [axle for vehicle in view.vehicles for axle in vehicle.axles]
        yield from (Said(axle.set_point, axle.unit) for axle in axles)
    elif isinstance(block, Picture) and isinstance(block.view, LoadChart):
        chart = block.view
        yield from map(Said, (chart.load_words, *(mark.words for mark in chart.marks)))
        yield from (Said(row.pressure_text, unit_said(chart.axis_words[0])) for row in chart.rows)
        yield from (Said(row.load_text, chart.axis_words[1]) for row in chart.rows)
    else:
        yield from map(Said, strings(block))


def _cells(table: Table) -> Iterator[Said]:
    whole = unit_said(table.caption) or unit_said(table.headers[0])
    # A header that is a number itself is that by which its cells are found, and not their unit.
    heads = ["" if re.match(r"-?\d", header) else header for header in table.headers[1:]]
    units = ["", *(unit_said(head) or whole for head in heads)]
    for row in table.rows:
        cells = [Said(cell, unit) for cell, unit in zip(row, units, strict=True)]
        yield from cells[1:] if table.headers[0] == WALK else cells


class Origins:
    """Every number a printing may show, from its record, its profile, its plan, and cited constants."""

    def __init__(self, printing: Printing) -> None:
        self._printing = printing
        self._assessment = printing.assessment
        self._by_key = ByKey(printing.assessment)

    def explain(self, number: Number) -> str:
        """Name where a number comes from; empty where nothing has it."""
        if number.words in _FIXED:
            return _FIXED[number.words]
        if number.unit == "°" and self._is_angle(number.value):
            return "angle of an overhang"
        if isinstance(number.value, str):
            return "word of the record or input" if self._has_word(number.words) else ""
        if number.quantity is None:
            return "bare in the record or input" if self._has_bare(number) else ""
        for place, pool in self._pools.items():
            if _is_printed_from(number, pool):
                return place
        return ""

    def _is_angle(self, value: float | str) -> bool:
        """An angle is printed in whole degrees, rounded down; the registry knows no degree."""
        angles = [one.value for one in self._figures if "overhang_angle" in one.key]
        return value in {int(degrees(one.m)) for one in angles if isinstance(one, pint.Quantity)}

    def _has_word(self, words: str) -> bool:
        return words in self._words or any(f".{words.strip('.')}." in f".{key}." for key in self._keys)

    def _has_bare(self, number: Number) -> bool:
        """A number without a unit counts only beside the same word, or where it is all that is said."""
        named = self._counts.get(number.before, set()) | self._plain_by_word.get(number.before, set())
        if number.value in named:
            return True
        alike = [one for one in self._numbers if one.value == number.value and one.unit == number.unit]
        if number.unit:
            return bool(alike)
        if not number.before and number.after in {"", "ahead", "stowed", "under"}:
            return number.value in self._plain
        beside = {number.before, number.after} - {""}
        return any(beside & {one.before, one.after} for one in alike)

    @cached_property
    def _counts(self) -> dict[str, set[float]]:
        """What is counted with a word before it: cards, days, legs, axles, places that are posted."""
        days = self._assessment.trip.days if self._assessment.trip else []
        legs = [leg for day in days for leg in day.legs]
        axles = [len(vehicle.axles) for vehicle in self._assessment.rig.vehicles.values()]
        return {
            "card": {float(number) for number in range(1, 13)},
            "day": set(map(float, range(1, len(days) + 1))),
            "leg": set(map(float, range(1, 1 + max((len(day.legs) for day in days), default=0)))),
            "axle": set(map(float, range(1, 1 + max(axles)))),
            "of": {float(len(leg.clearances)) for leg in legs},
        }

    @cached_property
    def _keys(self) -> list[str]:
        return self._by_key.keys

    @cached_property
    def _plain(self) -> set[float]:
        """Figures that have no unit, and entries of the files that are a number alone."""
        written = {
            float(match[1])
            for text in self._written
            for match in re.finditer(r": (\d+(?:\.\d+)?)(?=[,}]|$)", text)
        }
        return written | {value for values in self._plain_by_word.values() for value in values}

    @cached_property
    def _plain_by_word(self) -> dict[str, set[float]]:
        """Figures that have no unit, by each word of their keys."""
        found: dict[str, set[float]] = {}
        for figure in self._figures:
            value = figure.value
            if isinstance(value, pint.Quantity) and str(value.units) == "dimensionless":
                value = float(value.magnitude)
            if isinstance(value, float):
                for word in re.split(r"[._]", figure.key):
                    found.setdefault(word, set()).add(value)
        return found

    @cached_property
    def _figures(self) -> list[ReadFigure]:
        return list(self._by_key.figures.values())

    @cached_property
    def _texts(self) -> list[str]:
        """Texts of the record, and of the files a person wrote."""
        figures = [
            text
            for figure in self._figures
            for text in (
                figure.rule,
                figure.slack,
                *figure.cautions,
                *(f"{item.name} {item.text}" for item in figure.inputs),
                *(item.text for item in figure.inputs),
                *([figure.value] if isinstance(figure.value, str) else []),
            )
        ]
        findings = [text for one in self._by_key.findings for text in (one.text, one.what_helps)]
        constants = [
            text
            for one in PROCEDURE_CONSTANTS.values()
            for text in (one.us.text, one.metric.text, one.reason)
        ]
        return [*figures, *findings, *constants, *self._written]

    @cached_property
    def _written(self) -> list[str]:
        """Lines of the profile and the plan, without remarks."""
        return [
            re.sub(r"\s#.*", "", line).strip(" -{}[]")
            for text in self._assessment.profile.sources.values()
            for line in text.splitlines()
            if not line.lstrip().startswith("#")
        ]

    @cached_property
    def _numbers(self) -> list[Number]:
        return [number for text in self._texts for number in numbers_of(text)]

    @cached_property
    def _pools(self) -> dict[str, dict[str, list[float]]]:
        figures = [figure.value for figure in self._figures if isinstance(figure.value, pint.Quantity)]
        cells = [match[1] for key in self._keys if (match := re.search(r"fill_at[._](-?\d+)", key))]
        unit = "degree_Fahrenheit" if self._assessment.rig.units == "us" else "degree_Celsius"
        told = [quantity for number in self._numbers if (quantity := number.quantity) is not None]
        # A place ahead or on the right is below zero where it is typed, and told by a word on paper.
        told += [quantity * -1 for quantity in told if LENGTH.measures(quantity) and quantity.m < 0]
        return {
            "figure": _by_dimension(figures),
            "row of the fill table": _by_dimension(registry.Quantity(float(cell), unit) for cell in cells),
            "record, profile, plan or constant": _by_dimension(told),
            "difference to a ticket": _by_dimension(self._differences),
            "place on a day's road": _by_dimension(self._places),
            "used or filled from one moment to the next": _by_dimension(self._moved),
            "bar of a drawing": _by_dimension(
                bar.quantity for bar in PROFILE_BARS[self._assessment.rig.units]
            ),
        }

    @property
    def _places(self) -> Iterator[Quantity]:
        """Miles of a day: where its legs begin, and what the plan or a figure says lies after that."""
        for number, day in enumerate(self._assessment.trip.days if self._assessment.trip else [], start=1):
            start = registry.Quantity(0.0, "mile")
            for count, leg in enumerate(day.legs, start=1):
                afters = [
                    *(one.after for one in leg.clearances),
                    *(one.after for one in leg.limits),
                    *(one.after for one in leg.tunnels),
                ]
                afters += [one.begins_after for one in leg.grades]
                afters += [
                    one.begins_after + one.length
                    for one in leg.grades
                    if one.begins_after is not None and one.length is not None
                ]
                breaks = self._assessment.ledger.of_kind(BREAK_AT, number, count)
                afters += [leg.distance, *(one.quantity for one in breaks)]
                yield from (start + after for after in afters if after is not None)
                if leg.distance is None:
                    break
                start = start + leg.distance

    @property
    def _moved(self) -> Iterator[Quantity]:
        """By how much the level of one tank differs between two moments that follow each other."""
        tanks = [
            (owner, name, tank)
            for owner, vehicle in self._assessment.rig.vehicles.items()
            for name, tank in vehicle.tanks.items()
        ]
        for owner, name, tank in tanks:
            levels = [
                figure
                for kind in level_of(tank.holds)
                for figure in self._assessment.ledger.of_kind(kind, owner, name)
            ]
            # By day, then stop: a day's start has none; arriving stands before leaving, as in the alphabet.
            levels.sort(key=lambda one: one.key.subject[2:])
            known = [figure.quantity for figure in levels if figure.quantity is not None]
            yield from (abs(after - before) for before, after in pairwise(known))

    @property
    def _differences(self) -> list[Quantity]:
        """What differs from a scale ticket in some state, and where it lies, as it was summed up."""
        states = self._assessment.states
        changes = [one for state in states for of in state.changes.values() for one in of]
        return [one for change in changes for one in (change.weight, change.at) if one is not None]

    @cached_property
    def _words(self) -> set[str]:
        written = {number.words for number in self._numbers if isinstance(number.value, str)}
        values = [figure.value for figure in self._figures]
        moments = [value for value in values if isinstance(value, date | datetime)]
        written |= {f"{moment:%Y-%m-%d}" for moment in moments} | {f"{moment:%Y-%m}" for moment in moments}
        written |= {f"{moment:%a %b} {moment.day}" for moment in moments}
        clocks = [moment for moment in moments if isinstance(moment, datetime)]
        written |= {f"{moment:%H:%M}" for moment in clocks}
        written |= {f"{moment:%I:%M %p}".lower().lstrip("0") for moment in clocks}
        return written | {self._assessment.on.isoformat()}


def _by_dimension(quantities: Iterable[Quantity]) -> dict[str, list[float]]:
    """Values in base units, sorted, by what they measure."""
    found: dict[str, list[float]] = {}
    for quantity in quantities:
        found.setdefault(_dimension(quantity), []).append(float(quantity.to_base_units().magnitude))
    return {dimension: sorted(values) for dimension, values in found.items()}


def _dimension(quantity: Quantity) -> str:
    """What a quantity measures; a difference of temperatures is no temperature."""
    if str(quantity.units).startswith("delta_"):
        return _DIFFERENCE
    return str(sorted(quantity.dimensionality.items()))


_DIFFERENCE = "difference of temperatures"
_DEGREES = {"°F": "delta_degree_Fahrenheit", "°C": "kelvin"}


def _is_printed_from(number: Number, pool: dict[str, list[float]]) -> bool:
    """Tell whether a number is the value of one of the pool, rounded up or down to the digits printed."""
    printed = number.quantity
    if printed is None:
        return False
    step = registry.Quantity(max(number.step, _STEPS.get(number.unit, 0.0)) - _LEAST, printed.units)
    size = (step - registry.Quantity(0.0, printed.units)).to_base_units()
    value, reach = float(printed.to_base_units().magnitude), float(size.magnitude)
    if _holds(pool.get(_dimension(printed), []), value, reach):
        return True
    if number.unit not in _DEGREES or isinstance(number.value, str):
        return False
    apart = float(registry.Quantity(number.value, _DEGREES[number.unit]).to_base_units().magnitude)
    return _holds(pool.get(_DIFFERENCE, []), apart, reach)


def _holds(values: list[float], value: float, reach: float) -> bool:
    at = bisect_left(values, value - reach)
    return at < len(values) and values[at] <= value + reach


def without_sources(text: str) -> str:
    """Take the names of publications out of a text: their digits are names."""
    return _SOURCE.sub(" ", text)


_NAMES = sorted(
    {name for key, source in SOURCES.items() for name in (key, source.title)}, key=len, reverse=True
)
_SOURCE = re.compile("|".join(rf"(?<!\w){re.escape(name)}(?!\w)" for name in _NAMES))
