"""Stops on a day sheet: when, with what levels, and what must be filled or dumped there."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from binder.assessment.assessment import Assessment
from binder.assessment.ledger import Figure, Finding
from binder.assessment.route.kinds import LEG_ARRIVAL
from binder.assessment.supplies import kinds
from binder.cards.axle_words import words_of
from binder.cards.blocks import Line, Reason
from binder.cards.figure_reasons import reason_of
from binder.models.trip import Stop, TravelDay
from binder.wording.meanings import TIME_NEEDED
from binder.wording.numbers import BLANK
from binder.wording.words import Words, begun, clock

_KINDS = {"fuel": "fuel", "rest": "rest", "site": "site for the night"}
_HOOKUPS = {"none": "no hookups", "electric": "electric hookups", "full": "full hookups"}


@dataclass(frozen=True)
class StopLines:
    """Lines of one stop, the keys of their figures, and why a stop must be used."""

    lines: tuple[Line, ...]
    figures: tuple[str, ...]
    reasons: tuple[Reason, ...]


def stop_lines(
    assessment: Assessment, number: int, count: int, stop: Stop, *, is_short: bool = False
) -> StopLines:
    """Word one stop."""
    arrival, words = assessment.known(LEG_ARRIVAL.of(number, count)), words_of(assessment)
    due = arrival.value if arrival and isinstance(arrival.value, datetime) else None
    plan, where = assessment.trip.days[number - 1] if assessment.trip else None, (number, count)
    levels = tuple(_levels(assessment, where))[: 1 if is_short else None]
    must = tuple(_must(assessment, where))
    shown = (*([arrival] if arrival else []), *(figure for _, figure in (*levels, *must)))
    detail = "; ".join(part for part in (_kind(stop, plan, words), _expected(levels, words)) if part)
    acted_on = (*_lacking(assessment, where), *_served(stop, must, words))
    lines = (
        Line(stop.place, clock(due), detail),
        *(replace(line, detail="") if is_short else line for line in acted_on),
    )
    reasons = tuple(reason_of(f"{name}: must", words.told(figure)) for name, figure in must[:1])
    return StopLines(lines, tuple(words.key(figure.key) for figure in shown), reasons)


def _kind(stop: Stop, plan: TravelDay | None, words: Words) -> str:
    stay = f"stay {words.text(stop.stay, TIME_NEEDED)}" if stop.stay is not None else ""
    night = plan.night if plan and stop is plan.legs[-1].to else None
    hookups = _HOOKUPS.get(night.hookups or "", f"hookups {BLANK}") if night else ""
    return ", ".join(part for part in (_KINDS.get(stop.kind or "", ""), stay, hookups) if part)


_Named = tuple[str, Figure]
"""A figure with the words its tank is told by."""
_Where = tuple[int, int]


def _levels(assessment: Assessment, where: _Where) -> Iterator[_Named]:
    """Each tank whose level on reaching a stop is known."""
    every = [
        (owner, words, tank)
        for owner, vehicle in assessment.rig.vehicles.items()
        for words, tank in vehicle.tanks.items()
    ]
    names = [words for _, words, _ in every]
    for owner, words, tank in every:
        figure = assessment.known(kinds.level_of(tank.holds).of((owner, words), *where, "arriving"))
        if figure is not None and figure.quantity is not None:
            yield (words if names.count(words) == 1 else f"{owner} {words}"), figure


def _expected(levels: tuple[_Named, ...], words: Words) -> str:
    told = ", ".join(f"{name} {words.value(figure)}" for name, figure in levels)
    return f"expect {told}" if told else ""


def _must(assessment: Assessment, where: _Where) -> Iterator[_Named]:
    """What cannot be left out at a stop: the tank's words, and the figure that says so."""
    for kind in (kinds.WITHOUT_FILLING, kinds.WITHOUT_DUMPING):
        for figure in assessment.ledger.of_kind(kind):
            margin = figure.quantity
            if figure.key.subject[2:] == where and margin is not None and margin.magnitude < 0:
                yield str(figure.key.subject[1]), figure


def _lacking(assessment: Assessment, where: _Where) -> Iterator[Line]:
    """What the plan does not bring as far as here, or what a tank has no room for."""
    told: dict[str, list[tuple[str, Finding]]] = {}
    words = words_of(assessment)
    for found in assessment.ledger.findings:
        kind, subject = found.about
        if found.kind in kinds.AT_A_STOP and subject[2:4] == where:
            name = f"{subject[1]} battery" if kind is kinds.CHARGE.at_stop else f"{subject[1]}"
            challenge = "TOO FULL" if kind is kinds.WASTE_LEVEL.at_stop else "NOT ENOUGH"
            told.setdefault(challenge, []).append((name.upper(), found))
    for challenge, each in told.items():
        # The day's number and place stand on the card already.
        said = [words.found(found) for _, found in each]
        detail = " ".join([*(begun(one.brief) for one in said), said[0].helps])
        yield Line(challenge, ", ".join(name for name, _ in each), detail, "", killer=True)


def _served(stop: Stop, must: tuple[_Named, ...], words: Words) -> Iterator[Line]:
    """What is filled and dumped; a bar and the words where the next leg does not work without."""
    fills = {name: figure for name, figure in must if figure.kind is kinds.WITHOUT_FILLING}
    if fills:
        whose = {name: f"{name} " if len(fills) > 1 else "" for name in fills}
        why = "; ".join(f"{whose[name]}{words.slack(figure)}" for name, figure in fills.items())
        yield Line("MUST FILL", ", ".join(fills).upper(), why, "", killer=True)
    others = [name for name in stop.fill if name not in fills]
    if others:
        yield Line("Fill", ", ".join(others).upper())
    dumps = [figure for _, figure in must if figure.kind is kinds.WITHOUT_DUMPING]
    if dumps:
        yield Line("MUST DUMP", "BLACK, THEN GRAY", words.slack(dumps[0]), "", killer=True)
    elif stop.dump:
        yield Line("Dump", "BLACK, THEN GRAY")
