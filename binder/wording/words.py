"""Words of one rig: its numbers, figures and findings, written in its units."""

from collections.abc import Mapping
from datetime import date, datetime, time
from decimal import Decimal, InvalidOperation
from math import floor
from typing import Literal, NamedTuple

from binder.assessment.assess import Assessment
from binder.assessment.ledger import NO_FACTS, Fact, Figure, Finding, InputKind, Key, Phrase
from binder.quantities import Quantity
from binder.reference.constants import (
    PROCEDURE_CONSTANTS,
    PROFILE_BARS,
    Constant,
    ProcedureConstant,
    emergency_number,
)
from binder.wording.measures import FILL, PRESSURE_LIMIT, Style, System
from binder.wording.numbers import BLANK, bare_number, plain_number, quantity_text, unit_word
from binder.wording.sentences import (
    Told,
    ToldFinding,
    ToldInput,
    caution_texts,
    clock_text,
    fact_text,
    figure_facts,
    key_text,
    rule_text,
    sentence,
    slack_text,
    sources_text,
    told,
    told_finding,
    told_input,
)

_FINEST = {"psi": 0.1, "kPa": 1.0, "bar": 0.01}
"""What a pressure at its cap is rounded down to: finer than a gauge shows."""

_SAME = 1e-6


class Words(NamedTuple):
    """How one rig is written about; ``style`` is what its profile asks for."""

    style: Style

    @property
    def units(self) -> System:
        """The system of its units."""
        return self.style.system

    def text(self, quantity: Quantity | None, meaning: str) -> str:
        """A quantity with its unit; a blank and the unit where it is not known."""
        return quantity_text(quantity, meaning, self.style)

    def number(self, quantity: Quantity | None, meaning: str) -> str:
        """A quantity without its unit; a blank where it is not known."""
        return bare_number(quantity, meaning, self.style)

    def unit(self, meaning: str) -> str:
        """The word of the unit."""
        return unit_word(meaning, self.style)

    def drawn(self, quantity: Quantity, meaning: str) -> float:
        """A quantity as a plain number in the unit it is printed in, for drawings."""
        return plain_number(quantity, meaning, self.style)

    def value(self, figure: Figure | None, unknown: str = BLANK) -> str:
        """The value of a figure with its unit, as its kind says."""
        if figure is None or figure.value is None:
            return unknown
        return fact_text(figure.value, figure.kind.measure, figure.facts, self.style)

    def bare(self, figure: Figure | None, unknown: str = BLANK) -> str:
        """The value of a figure without its unit, as its kind says."""
        quantity = figure.quantity if figure else None
        if figure is None or quantity is None:
            return unknown
        return bare_number(quantity, figure.kind.measure, self.style)

    def fill(self, pressure: Quantity | None, cap: Quantity | None) -> str:
        """A pressure to fill to: rounded up, but never over the cap, then as finely as that needs."""
        text = self.number(pressure, FILL)
        if pressure is None or cap is None:
            return text
        limit = self.drawn(cap, PRESSURE_LIMIT)
        if float(text.replace(",", "")) <= limit + _SAME:
            return text
        finest = _FINEST[self.unit(PRESSURE_LIMIT)]
        return f"{floor(limit / finest + _SAME) * finest:.2f}".rstrip("0").removesuffix(".")

    def told(self, figure: Figure) -> Told:
        """Every text of a figure."""
        return told(figure, self.style)

    def given(self, figure: Figure | None, kind: InputKind) -> ToldInput | None:
        """One input of a figure in words, where it has it."""
        one = figure.given(kind) if figure else None
        return told_input(one, figure_facts(figure), self.style) if figure and one else None

    def rule(self, figure: Figure | None) -> str:
        """The sentence of a figure's rule; nothing where there is no figure."""
        return rule_text(figure, self.style) if figure else ""

    def slack(self, figure: Figure | None) -> str:
        """What is left beside a figure; nothing where it says nothing."""
        return slack_text(figure, self.style) if figure else ""

    def cautions(self, figure: Figure) -> tuple[str, ...]:
        """What to mind of a figure."""
        return caution_texts(figure, self.style)

    def sources(self, figure: Figure) -> str:
        """What a figure rests on."""
        return sources_text(figure, self.style)

    def found(self, finding: Finding) -> ToldFinding:
        """What is so, and what to do."""
        return told_finding(finding, self.style)

    def said(self, phrase: Phrase | str, facts: Mapping[str, Fact] = NO_FACTS) -> str:
        """A phrase, filled."""
        return sentence(phrase, facts, self.style)

    def clock(self, moment: datetime | time | None, left: datetime | None = None) -> str:
        """A time of day with its zone's short name; the day too where it is not the day that was left on."""
        if moment is None:
            return BLANK
        is_later = isinstance(moment, datetime) and left is not None and moment.date() != left.date()
        return f"{moment:%a} {clock_text(moment, self.style)}" if is_later else clock_text(moment, self.style)

    def key(self, key: Key) -> str:
        """A key as it stands in ``numbers.json``."""
        return key_text(key)


def style_of(assessment: Assessment) -> Style:
    """What an owner chose, or what is usual with the units."""
    rig = assessment.rig
    return Style(rig.units, rig.pressure or "kPa", rig.clock or ("12 h" if rig.units == "us" else "24 h"))


def day(moment: date) -> str:
    """Write a date as it is said: with its weekday, without the year."""
    return f"{moment:%a %b} {moment.day}"


def begun(text: str) -> str:
    """Begin as a sentence begins."""
    return text[:1].upper() + text[1:]


def shortened(text: str, longest: int) -> str:
    """The beginning of a text, cut between words where it is longer."""
    return text if len(text) <= longest else f"{text[:longest].rpartition(' ')[0] or text[:longest]} ..."


def town(place: str) -> str:
    """The name of a place without the state or country its owner wrote after a comma."""
    return place.partition(",")[0]


def next_reading(text: str, steps: int) -> str:
    """Give the next reading over or under a printed pressure, in its own last digit; a blank stays one."""
    try:
        number = Decimal(text.replace(",", ""))
    except InvalidOperation:
        return BLANK
    return f"{number + steps * Decimal((0, (1,), int(number.as_tuple().exponent))):,}"


def in_days(text: str) -> str:
    """A time as a column of days has it: with its unit only where that is hours."""
    return text.removesuffix(" days").removesuffix(" day")


def procedure_constant(name: str) -> ProcedureConstant:
    """Find one fixed number of the procedures, with its reason and source."""
    return PROCEDURE_CONSTANTS[name]


def procedure_number(name: str, style: Style) -> str:
    """Give the text of one fixed number in the units a rig is printed in."""
    return style.amount(procedure_constant(name)).text


def number_called_in(zone: str, style: Style) -> str:
    """Give the emergency number where a time zone is; nothing where it is not known."""
    name = emergency_number(zone)
    return procedure_number(name, style) if name else ""


def profile_bars(style: Style) -> tuple[Constant, Constant]:
    """Give the heights and the way that the bars of a drawn road stand for."""
    return PROFILE_BARS[style.system]


def procedure_reason(name: str, units: Literal["us", "metric"]) -> str:
    """Give the reason of one fixed number, with the numbers in it in the rig's own units."""
    constant = procedure_constant(name)
    return constant.metric_reason if units == "metric" and constant.metric_reason else constant.reason


def all_procedure_constants(style: Style) -> tuple[tuple[ProcedureConstant, str], ...]:
    """Give every fixed number of the procedures, with its text in the units a rig is printed in."""
    return tuple((constant, style.amount(constant).text) for constant in PROCEDURE_CONSTANTS.values())
