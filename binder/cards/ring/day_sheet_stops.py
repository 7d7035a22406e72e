"""Stops on a day sheet: when, with what levels, and what must be filled or dumped there."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.assessment.ledger import Finding
from binder.assessment.supplies import kinds
from binder.cards.blocks import Line, Reason
from binder.cards.display import Display, clock
from binder.cards.figure_reasons import reason_of
from binder.cards.figure_values import moment_of, quantity_of
from binder.models.rig import Rig
from binder.models.trip import Stop, TravelDay
from binder.models.vehicles import Tank
from binder.wording.sentences import key_text
from binder.wording.telling import told_finding

_KINDS = {"fuel": "fuel", "rest": "rest", "site": "site for the night"}
_HOOKUPS = {"none": "no hookups", "electric": "electric hookups", "full": "full hookups"}
_WASTE = {"gray water", "black water"}


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
    arrival = assessment.known(f"route.day_{number}.leg_{count}.arrival")
    plan, where = assessment.trip.days[number - 1] if assessment.trip else None, (number, count)
    levels = tuple(_levels(assessment, where))[: 1 if is_short else None]
    must = tuple(_must(assessment, where))
    shown = [figure for _, _, figure in levels] + [figure for _, figure in must]
    detail = "; ".join(part for part in (_kind(stop, plan), _expected(levels, assessment.rig)) if part)
    acted_on = (*_lacking(assessment, where), *_served(stop, must))
    lines = (
        Line(stop.place, clock(moment_of(arrival)), detail),
        *(replace(line, detail="") if is_short else line for line in acted_on),
    )
    keys = (*((arrival.key,) if arrival else ()), *(figure.key for figure in shown))
    return StopLines(lines, keys, tuple(reason_of(f"{name}: must", figure) for name, figure in must[:1]))


def _kind(stop: Stop, plan: TravelDay | None) -> str:
    stay = f"stay {Display.duration(stop.stay)}" if stop.stay is not None else ""
    night = plan.night if plan and stop is plan.legs[-1].to else None
    hookups = _HOOKUPS.get(night.hookups or "", "hookups ______") if night else ""
    return ", ".join(part for part in (_KINDS.get(stop.kind or "", ""), stay, hookups) if part)


_Level = tuple[str, Tank, Figure]
_Where = tuple[int, int]


def _levels(assessment: Assessment, where: _Where) -> Iterator[_Level]:
    """Each tank whose level on reaching a stop is known, with the words it is told by."""
    every = [
        (owner, words, tank)
        for owner, vehicle in assessment.rig.vehicles.items()
        for words, tank in vehicle.tanks.items()
    ]
    names = [words for _, words, _ in every]
    for owner, words, tank in every:
        level = kinds.level_of(tank.holds).of((owner, words), *where, "arriving")
        figure = assessment.known(key_text(level))
        if figure is not None and quantity_of(figure) is not None:
            yield (words if names.count(words) == 1 else f"{owner} {words}"), tank, figure


def _expected(levels: tuple[_Level, ...], rig: Rig) -> str:
    display = Display(rig.units)
    told = ", ".join(f"{words} {_volume(tank, figure, display)}" for words, tank, figure in levels)
    return f"expect {told}" if told else ""


def _volume(tank: Tank, figure: Figure, display: Display) -> str:
    return display.text(quantity_of(figure), "volume", "up" if tank.holds in _WASTE else "down")


def _must(assessment: Assessment, where: _Where) -> Iterator[tuple[str, Figure]]:
    """What cannot be left out at a stop: the tank's words, and the figure that says so."""
    for kind in (kinds.WITHOUT_FILLING, kinds.WITHOUT_DUMPING):
        for figure in assessment.ledger.of_kind(kind):
            margin = figure.quantity
            if figure.key.subject[2:] == where and margin is not None and margin.magnitude < 0:
                yield str(figure.key.subject[1]), assessment.figure(key_text(figure.key))


def _lacking(assessment: Assessment, where: _Where) -> Iterator[Line]:
    """What the plan does not bring as far as here, or what a tank has no room for."""
    told: dict[str, list[tuple[str, Finding]]] = {}
    for found in assessment.ledger.reported:
        kind, subject = found.about
        if found.kind in kinds.AT_A_STOP and subject[2:4] == where:
            name = f"{subject[1]} battery" if kind is kinds.CHARGE.at_stop else f"{subject[1]}"
            challenge = "TOO FULL" if kind is kinds.WASTE_LEVEL.at_stop else "NOT ENOUGH"
            told.setdefault(challenge, []).append((name.upper(), found))
    for challenge, each in told.items():
        # The day's number and place stand on the card already.
        said = [told_finding(found, assessment.rig.units) for _, found in each]
        detail = " ".join([*(f"{one.brief[:1].upper()}{one.brief[1:]}" for one in said), said[0].helps])
        yield Line(challenge, ", ".join(words for words, _ in each), detail, "", killer=True)


def _served(stop: Stop, must: tuple[tuple[str, Figure], ...]) -> Iterator[Line]:
    """What is filled and dumped; a bar and the words where the next leg does not work without."""
    fills = {words: figure for words, figure in must if figure.key.endswith(".without_filling_margin")}
    if fills:
        whose = {words: f"{words} " if len(fills) > 1 else "" for words in fills}
        why = "; ".join(f"{whose[words]}{figure.slack}" for words, figure in fills.items())
        yield Line("MUST FILL", ", ".join(fills).upper(), why, "", killer=True)
    others = [words for words in stop.fill if words not in fills]
    if others:
        yield Line("Fill", ", ".join(others).upper())
    dumps = [figure for _, figure in must if figure.key.endswith(".without_dumping_margin")]
    if dumps:
        yield Line("MUST DUMP", "BLACK, THEN GRAY", dumps[0].slack, "", killer=True)
    elif stop.dump:
        yield Line("Dump", "BLACK, THEN GRAY")
