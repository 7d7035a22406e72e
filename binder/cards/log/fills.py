"""Fuel and exhaust fluid over time, from one full tank to the next, beside what the plan says."""

from collections.abc import Iterator
from datetime import datetime
from itertools import groupby

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure, Subject
from binder.assessment.supplies import rate_kinds as kinds
from binder.cards.blocks import Block, Heading, Picture, small_table
from binder.cards.drawings import Readings, ReadLine, ReadPoint
from binder.cards.log.axes import day_number, days_marked, moment_in, values_marked
from binder.cards.rig_words import words_of
from binder.quantities import is_quantity
from binder.wording.sentences import as_sentence

_HIGH = 43.5
"""Millimeters of a chart."""
_LISTED = 24
"""The newest are listed, with those that the rate rests on: the chart has the others."""
_RATES = (
    (kinds.FULL_TO_FULL, kinds.USE, kinds.PLANNED),
    (kinds.FULL_TO_FULL_SHARE, kinds.SHARE, kinds.PLANNED_SHARE),
)


def fill_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make a chart and a table of each tank; nothing where none was full twice."""
    for of_interval, *_ in _RATES:
        every = assessment.ledger.of_kind(of_interval)
        for tank, found in groupby(every, key=lambda one: one.key.subject[:2]):
            yield from _blocks(assessment, tank, list(found))


def _blocks(assessment: Assessment, tank: Subject, found: list[Figure]) -> Iterator[Block]:
    words = words_of(assessment)
    heading = kinds.OF_TANK if found[0].kind is kinds.FULL_TO_FULL else kinds.OF_FLUID
    yield Heading(words.said(heading, {"tank": tank[1]}))
    if len(found) > 1:
        yield Picture(_chart(assessment, tank, found))
    rate = next(one for _, kind, _ in _RATES if (one := assessment.known(kind.of(*tank))))
    rests_on = {given.facts.get("at") for given in rate.inputs}
    older, newest = found[:-_LISTED], found[-_LISTED:]
    listed = [one for one in older if one.facts["at"] in rests_on] + newest
    rows = (
        (
            _moment(one).date().isoformat(),
            words.said(kinds.FROM_TO, one.facts),
            words.said(kinds.ROW_AMOUNT, one.facts),
            words.value(one),
            kinds.WHY_LEFT_OUT[one.case],
        )
        for one in listed
    )
    said = [as_sentence(f"{words.value(rate)}, {words.slack(rate)}: {words.rule(rate)}")]
    if len(listed) < len(found):
        said.append(words.said(kinds.NEWEST_LISTED, {"listed": len(listed), "drawn": len(found)}))
    yield from small_table("", kinds.HEADERS, rows, " ".join((*said, *words.cautions(rate))))


def _chart(assessment: Assessment, tank: Subject, found: list[Figure]) -> Readings:
    words, measure = words_of(assessment), found[0].kind.measure
    lines = tuple(
        ReadLine(name, points)
        for name, is_sure in ((kinds.FULL_LINE, True), (kinds.LEFT_OUT_LINE, False))
        if (points := tuple(_points(assessment, found, is_sure=is_sure)))
    )
    level = None
    for _, kind, of_plan in _RATES:
        given = words.given(rate, of_plan) if (rate := assessment.known(kind.of(*tank))) else None
        planned = rate.given(of_plan) if rate else None
        if given and planned and is_quantity(planned.value):
            level = words.drawn(planned.value, measure), words.said(kinds.PLAN_LINE, {"planned": given.text})
    values = [point.value for one in lines for point in one.points] + ([level[0]] if level else [])
    days = tuple(days_marked(sorted(map(_moment, found))))
    uses = tuple(words.value(one) for one in found)
    alternative = words.said(kinds.CHART_SHOWS, {"tank": tank[1], "uses": uses})
    return Readings(lines, tuple(values_marked(values, words.unit(measure))), days, level, alternative, _HIGH)


def _points(assessment: Assessment, found: list[Figure], *, is_sure: bool) -> Iterator[ReadPoint]:
    """Marks of what counts, joined, or of what was left out, each alone."""
    words, is_first = words_of(assessment), True
    for one in found:
        if (one.case == "") is is_sure and one.quantity is not None:
            value = words.drawn(one.quantity, one.kind.measure)
            yield ReadPoint(day_number(_moment(one)), value, begins=is_first or not is_sure)
            is_first = False


def _moment(figure: Figure) -> datetime:
    return moment_in(figure.facts, "at")
