"""Pressures over time, an axle a chart, as the log has them; and what each tire loses a month."""

from collections.abc import Iterator
from datetime import datetime
from itertools import groupby

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure, Input, Phrase
from binder.assessment.log import kinds
from binder.assessment.tires.kinds import SET_POINT
from binder.cards.blocks import Block, Heading, Note, Picture, small_table
from binder.cards.drawings import Readings, ReadLine, ReadPoint
from binder.cards.log.axes import day_number, days_marked, moment_in, values_marked
from binder.cards.rig_words import words_of
from binder.quantities import Quantity, is_quantity
from binder.wording.measures import PRESSURE
from binder.wording.words import Words, begun

_HIGH, _LOW, _HIGH_ONES = 58.0, 43.5, 3
"""Millimeters of a chart: so many high ones have room on a page, or one more of the low."""

_HEADERS = ("tire", "readings", "loses a month", "over its mates", "")


def pressure_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the charts and the table; nothing where no tire was read cold."""
    every = list(assessment.ledger.of_kind(kinds.LOSS))
    losses = [one for one in every if one.inputs]
    axles = [list(tires) for _, tires in groupby(losses, key=lambda one: one.key.subject[:2])]
    charted = [tires for tires in axles if _days_read(tires) > 1]
    words = words_of(assessment)
    for tires in charted:
        vehicle, axle, _ = tires[0].key.subject
        facts = {"vehicle": vehicle, "axle": axle, **tires[0].facts}
        yield Heading(begun(words.said(kinds.PRESSURES_OF, facts)))
        yield Picture(_chart(assessment, tires, words, _HIGH if len(charted) <= _HIGH_ONES else _LOW))
    if charted:
        yield Note(kinds.CHART_NOTE)
    yield from small_table(
        kinds.LOSSES, _HEADERS, (_row(assessment, one, words) for one in losses), *_notes(every, words)
    )


def _days_read(tires: list[Figure]) -> int:
    return len({_moment(given).date() for one in tires for given in one.inputs})


def _chart(assessment: Assessment, tires: list[Figure], words: Words, height_mm: float) -> Readings:
    over = [assessment.ledger.figure(kinds.LOSS_OVER_MATES.of(*one.key.subject)) for one in tires]
    lines = tuple(
        _line(one, words, is_heavy=_verdict(mates) == "losing")
        for one, mates in zip(tires, over, strict=True)
    )
    subject = tires[0].key.subject
    fill = assessment.quantity(SET_POINT.of(*subject[:2]))
    level = None
    if fill is not None:
        told = words.said(kinds.COLD_FILL, {"fill": fill})
        level = (words.drawn(fill, PRESSURE), told)
    values = [point.value for one in lines for point in one.points] + ([level[0]] if level else [])
    days = sorted(_moment(given) for one in tires for given in one.inputs)
    alternative = words.said(
        kinds.CHART_SHOWS, {"axle": subject[1], "tires": tuple(_shown(one) for one in tires)}
    )
    marked = tuple(values_marked(values, words.unit(PRESSURE)))
    return Readings(lines, marked, tuple(days_marked(days)), level, alternative, height_mm)


def _line(figure: Figure, words: Words, *, is_heavy: bool) -> ReadLine:
    """Readings of a tire, level after level."""
    *_, axle, position = figure.key.subject
    levels: dict[object, list[ReadPoint]] = {}
    for given in figure.inputs:
        held = levels.setdefault(given.facts["level"], [])
        value, is_after_air = words.drawn(_reference(given), PRESSURE), bool(given.facts["is_after_air"])
        held.append(ReadPoint(_day(given), value, not held, is_after_air))
    name = str(position)[len(str(axle)) :].strip()
    return ReadLine(name, tuple(point for held in levels.values() for point in held), is_heavy)


def _day(given: Input) -> float:
    return day_number(_moment(given))


def _moment(given: Input) -> datetime:
    return moment_in(given.facts, "moment")


def _reference(given: Input) -> Quantity:
    pressure = given.facts["reference"]
    if not is_quantity(pressure):
        raise TypeError(f"a reading at the reference is no pressure: {pressure}")
    return pressure


def _shown(figure: Figure) -> Phrase:
    first, *_, last = (_reference(one) for one in (*figure.inputs, figure.inputs[-1]))
    return Phrase(kinds.FROM_TO, {"position": figure.key.subject[2], "first": first, "last": last})


def _row(assessment: Assessment, loss: Figure, words: Words) -> tuple[str, ...]:
    vehicle, _, position = loss.key.subject
    over = assessment.ledger.figure(kinds.LOSS_OVER_MATES.of(*loss.key.subject))
    spreads = (_spread(one, words) for one in (loss, over))
    return (f"{vehicle}, {position}", str(len(loss.inputs)), *spreads, kinds.VERDICT[_verdict(over)])


def _verdict(over: Figure) -> str:
    return str(over.facts["verdict"])


def _spread(figure: Figure, words: Words) -> str:
    if figure.quantity is None:
        return "-"
    return words.said(kinds.WITH_ITS_ERROR, {"value": figure.quantity, **figure.facts})


def _notes(losses: list[Figure], words: Words) -> Iterator[str]:
    """How it is told, and what was left out of which tires."""
    yield words.said(kinds.LOSSES_NOTE, losses[0].facts) if losses else ""
    for name, why in kinds.WHY_LEFT_OUT.items():
        tires = tuple(
            Phrase(kinds.OF_TIRE, {"vehicle": vehicle, "position": position, "count": one.facts[name]})
            for one in losses
            for vehicle, _, position in [one.key.subject]
            if name in one.facts
        )
        if tires:
            yield words.said(kinds.LEFT_OUT_OF_TIRES, {"why": why, "tires": tires})
    said: dict[str, list[str]] = {}
    for one in losses:
        for caution in one.cautions:
            if not isinstance(caution, Phrase) or caution.text != kinds.LEFT_OUT:
                said.setdefault(words.said(caution), []).append(f"{one.key.subject[0]}, {one.key.subject[2]}")
    yield from (f"{'; '.join(names)}: {caution}" for caution, names in said.items())
