"""Card 3, Tires: what to fill to, when to leave it, and below what a tire is never filled on the road."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from typing import NamedTuple

from binder.assessment.assess import Assessment
from binder.assessment.conditions import is_coupled
from binder.assessment.ledger import FigureKind, Finding, Phrase
from binder.assessment.log.kinds import LOSES_MORE, LOSING
from binder.assessment.route.kinds import COLDEST_NIGHT
from binder.assessment.tires import kinds, register_kinds
from binder.assessment.weights.resting import rolling_axles
from binder.cards.blocks import Aside, Bands, Block, Box, Card, Line, Note, Reason, ValueRow
from binder.cards.fill_table import fill_table
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import AxleGroup, axle_groups, words_of
from binder.models.tires import Wheels
from binder.wording.measures import FILL, HIGH, LOAD, PRESSURE_LIMIT, RATING
from binder.wording.numbers import BLANK, beside
from binder.wording.sentences import subject_facts
from binder.wording.words import (
    Words,
    next_reading,
    procedure_constant,
    procedure_number,
    procedure_reason,
    style_of,
)

_RISE = {
    "truck": "hot rise truck",
    "light truck": "hot rise light truck",
    "passenger": "hot rise car",
    "passenger P": "hot rise car",
}


_REASONED = (
    ("Load per tire", kinds.LOAD_PER_TIRE),
    ("Row pressure", kinds.ROW_PRESSURE),
    ("Set point", kinds.SET_POINT),
    ("Run flat at or under", kinds.RUN_FLAT_BELOW),
    ("Low alarm", kinds.LOW_ALARM),
    ("Label", kinds.LABEL_PRESSURE),
)
_FORBIDDING = kinds.FORBIDDING | register_kinds.FORBIDDING


def tires(assessment: Assessment) -> Card:
    """Card 3 of the ring."""
    groups = axle_groups(assessment)
    ages = _ages(assessment)
    computed = {
        "pressures": tuple(_pressures(assessment, groups)),
        "fill table": tuple(fill_table(assessment, groups)),
        "low alarm": tuple(_low_alarm(groups)),
        "hot mates": (_hot_mates(groups),),
        "oldest tires": (*_losing(assessment), ages),
    }
    words = card_words("tires")
    said = said_card(words, assessment, computed)
    keys = [
        kind.of(group.vehicle_name, axle)
        for group in groups
        for axle in group.axle_names
        for kind in (kinds.SET_POINT, kinds.CAP)
    ]
    *front, back = said.sides
    # The register has the ages, too: they make room for what is lost.
    without_ages = tuple(block for block in back.blocks if block is not ages)
    return replace(
        said,
        sides=(*front, replace(back, shorter=(without_ages,))),
        wrong_as_soon_as=_wrong_as_soon_as(assessment, groups),
        reasons=(*said.reasons, *_reasons(assessment, groups)),
        figures=tuple(words_of(assessment).key(key) for key in keys),
    )


def _pressures(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Block]:
    """Say what to do with what the gauge reads, and with what it reads hot."""
    words = words_of(assessment)
    again = procedure_number("read again", words.style).replace(" ", "\u00a0")
    actions = (
        "add no air, call tire service",
        f"to the big number; read after {again}",
        words.unit(FILL),
        "let down cold, never warm",
    )
    rows = tuple(_row(group, words) for group in groups)
    yield Bands("", ("FLAT", "ADD", "GO", "OVER"), rows, actions=actions)
    helps = _what_helps(groups)
    if helps:
        yield Note(helps)
    yield Line("Read just driven: FLAT at", f"{_by_axle(groups, kinds.HOT_FLAT)} or less")
    yield from _hot_above_cold(assessment, groups)
    yield Box("FLAT, and it was driven?", _run_flat_lines(groups))
    if not helps:
        yield Aside(_limits(assessment, groups, words))


def _by_axle(groups: tuple[AxleGroup, ...], *found: FigureKind) -> str:
    """Give one figure of each row of the bands, in their order: the first of these kinds that an axle has."""
    words = words_of(groups[0].assessment)
    known = ([kind for kind in found if group.value(kind) is not None] or found for group in groups)
    values = (
        words.number(group.value(kind), kind.measure) for group, (kind, *_) in zip(groups, known, strict=True)
    )
    return f"{' / '.join(values)} {words.unit(found[0].measure)}"


def _if_marked(group: AxleGroup, words: Words) -> str:
    """Up to which pressure a tire is left where its own limit is known, but a part's was never read."""
    limit, unknown = group.known_limit, group.unread_parts
    if not unknown or "tire" in unknown or limit is None:
        return ""
    return f"to {words.text(limit, PRESSURE_LIMIT)} if {' and '.join(unknown)} so marked"


class Limits(NamedTuple):
    """Between what the bands of one axle lie, as printed: a blank where it is not known."""

    fill: str
    flat: str
    leave: str
    is_at_cap: bool


def limits(group: AxleGroup, words: Words) -> Limits:
    """Give the bands of one axle: what is not known of their ends never lets more pass as good."""
    pressure, leave = group.value(kinds.SET_POINT), group.value(kinds.LEAVE_UP_TO)
    value = words.fill(pressure, group.known_limit) if pressure is not None else _none(group)
    flat = words.number(group.value(kinds.RUN_FLAT_BELOW), kinds.RUN_FLAT_BELOW.measure)
    is_at_cap = None not in {pressure, leave} and words.fill(leave, leave) == value
    most = value if is_at_cap else words.number(leave, kinds.LEAVE_UP_TO.measure)
    return Limits(value, flat, most, is_at_cap)


def _row(group: AxleGroup, words: Words) -> ValueRow:
    value, flat, most, is_at_cap = limits(group, words)
    others = (
        f"{flat} or\u00a0less",
        f"{next_reading(flat, 1)} to\u00a0{next_reading(value, -1)}",
        "no\u00a0more" if is_at_cap else f"to\u00a0{most}",
        f"over {most}",
    )
    return ValueRow(group.name, _detail(group, words), value, others)


def _none(group: AxleGroup) -> str:
    is_forbidden = any(
        found.grade == "do not drive" and found.kind in _FORBIDDING for found in group.findings()
    )
    return "NONE" if is_forbidden else BLANK


def grave(group: AxleGroup) -> tuple[Finding, ...]:
    """What forbids driving on these axles: their tires, or their loads."""
    return tuple(found for found in group.findings() if found.grade == "do not drive")


def _what_helps(groups: tuple[AxleGroup, ...]) -> str:
    """What helps the axle that must not be driven on; of several there is room on the cover alone."""
    told = [
        (group.name, words_of(group.assessment).found(found[0]).helps)
        for group in groups
        if (found := grave(group))
    ]
    if len(told) == 1:
        name, helps = told[0]
        return f"{name}: do not drive. {helps}"
    return "Do not drive: what helps is told on the cover." if told else ""


def _detail(group: AxleGroup, words: Words) -> str:
    if found := grave(group):
        return words.found(found[0]).brief
    said = []
    load = group.value(kinds.LOAD_PER_TIRE)
    if load is not None and group.value(kinds.ROW_PRESSURE) is not None:
        said += [f"{words.text(load, LOAD)} each{_assumed(group)}", _room(group, words)]
    elif group.value(kinds.ROW_PRESSURE) is not None:
        said.append("not weighed: for half its rating")
    if _is_by_label(group):
        said.append("placard" if group.vehicle.kind in {"car", "pickup"} else "by the label")
    if any(found.kind is kinds.NO_RESERVE for found in group.findings()):
        said.append("no reserve left")
    said.append(_if_marked(group, words))
    return ", ".join(text for text in said if text)


def _assumed(group: AxleGroup) -> str:
    """Say that a load rests on an assumed share, where the number is: its ends were not weighed."""
    loads = [group.assessment.known(key) for key in group.keys(kinds.LOAD_PER_TIRE)]
    return ", assumed half and more" if any(one and one.case == "assumed" for one in loads) else ""


def _room(group: AxleGroup, words: Words) -> str:
    """Room on the axle whose heaviest tire carries most: it is the least."""
    loads = dict(zip(group.keys(kinds.SET_POINT), group.keys(kinds.LOAD_PER_TIRE), strict=True))
    known = {
        point: load for point, key in loads.items() if (load := group.assessment.quantity(key)) is not None
    }
    tightest = max(known, key=lambda point: known[point]) if known else next(iter(loads))
    figure = group.assessment.known(tightest)
    if figure is None or figure.slack is None:
        return ""
    room = figure.slack.facts.get("room")
    return words.said(figure.slack if room is None else Phrase(kinds.ROOM_TO_SPARE, {"room": room}))


def _is_by_label(group: AxleGroup) -> bool:
    """The label sets the pressure: it is the floor, and higher than the row."""
    named = (kinds.LABEL_PRESSURE, kinds.ROW_PRESSURE, kinds.FLOOR_PRESSURE, kinds.SET_POINT)
    label, row, floor, point = (group.value(kind) for kind in named)
    return label is not None and label == point != row and floor in {None, label}


def _limits(assessment: Assessment, groups: tuple[AxleGroup, ...], words: Words) -> str:
    said: dict[str, str] = {}
    for group in groups:
        wheels = assessment.rig.wheels.get(group.axle.wheels or "") or Wheels.blank()
        speed = words.text(group.value(kinds.SPEED_LIMIT), kinds.SPEED_LIMIT.measure)
        tire = words.text(group.tires.sidewall.maximum_pressure, PRESSURE_LIMIT)
        load = words.text(wheels.maximum_load, RATING)
        wheel = words.text(wheels.maximum_pressure, PRESSURE_LIMIT)
        valve = words.text(wheels.valve_maximum_pressure, PRESSURE_LIMIT)
        said[group.vehicle_name] = f"tires to {speed}, {tire}; wheels {load}, {wheel}; valves {valve}"
    told = [f"{name.capitalize()}: {text}" for name, text in said.items()]
    points = [beside(group.value(kinds.SET_POINT), FILL, words.style) for group in groups]
    return ". ".join([*told, *([f"Big numbers: {' / '.join(points)}"] if all(points) else [])]) + "."


def _run_flat_lines(groups: tuple[AxleGroup, ...]) -> tuple[str, ...]:
    names: dict[str, dict[str, None]] = {}
    for group in groups:
        is_truck = group.tires.family in {"truck", None}
        words = "no air. Stand clear. Tire service." if is_truck else "take it off, inspect inside."
        names.setdefault(words, {})[group.vehicle_name] = None
    return tuple(f"{', '.join(held).capitalize()}: {words}" for words, held in names.items())


def _low_alarm(groups: tuple[AxleGroup, ...]) -> Iterator[Line]:
    """The one alarm that can be set: the closest of the monitor, where that is under what is wanted."""
    found = [finding.kind for group in groups for finding in group.findings()]
    said = {
        kinds.MONITOR_MEANS_FLAT: "while driving it means FLAT: stop, add no air",
        kinds.MONITOR_LATE: "the closest it can be set: it warns late",
        kinds.CLOSEST_ALARM_UNKNOWN: "or the closest its manual lets you",
    }
    told = next((text for kind, text in said.items() if kind in found), "")
    names = ", ".join(group.short_name for group in groups)
    answer = _by_axle(groups, kinds.MONITOR_SETTING, kinds.LOW_ALARM)
    yield Line(f"Low alarm: {names}", answer, told)


def _hot_above_cold(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Line]:
    style = style_of(assessment)
    families = {group.vehicle_name: group.tires.family or "" for group in groups}
    rises = [
        style.amount(procedure_constant(_RISE[family])) if family in _RISE else None
        for family in families.values()
    ]
    values = " / ".join(rise.value if rise else BLANK for rise in rises)
    unit = style.amount(procedure_constant(_RISE["truck"])).unit
    yield Line(f"Normal rise, {' / '.join(families)}", f"{values} {unit}")


def _hot_mates(groups: tuple[AxleGroup, ...]) -> Line:
    return Line("Hot tires of one axle", f"WITHIN {_by_axle(groups, kinds.HOT_MATES_APART)}")


def _losing(assessment: Assessment) -> Iterator[Line]:
    """Tires that the log finds to lose more than their mates."""
    words = words_of(assessment)
    for found in assessment.findings:
        if found.kind is LOSES_MORE:
            facts = {**subject_facts(found.about), **found.facts}
            what, lost = (words.said(phrase, facts) for phrase in LOSING)
            yield Line(what, lost)


def _ages(assessment: Assessment) -> Line:
    rolling = dict.fromkeys(vehicle for vehicle, *_ in rolling_axles(assessment.rig))
    oldest = {vehicle: _oldest(assessment, vehicle) for vehicle in rolling}
    return Line(f"Oldest tire made, {' / '.join(oldest)}", " / ".join(oldest.values()))


def _oldest(assessment: Assessment, vehicle: str) -> str:
    figures = assessment.ledger.of_kind(register_kinds.MADE, vehicle)
    made = [figure.value for figure in figures]
    known = [value for value in made if isinstance(value, date)]
    # A tire whose date code is not found may be older than any that is.
    return f"{min(known):%Y-%m}" if known and len(known) == len(made) else BLANK


def _wrong_as_soon_as(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> str:
    words, said = words_of(assessment), []
    for group in groups:
        limit = group.least(kinds.END_HOLDS_UP_TO)
        if limit is not None:
            said.append(f"{group.short_name} end over {words.text(limit, kinds.END_HOLDS_UP_TO.measure)}")
    coldest = assessment.quantity(COLDEST_NIGHT.of())
    if coldest is not None:
        said.append(f"a night under {words.text(coldest, HIGH)} or not in the plan")
    behind = ", valve or towed vehicle" if is_coupled(assessment.rig) else " or valve"
    said.append(f"a tire, wheel{behind} changed")
    return ", ".join(dict.fromkeys(said)) + ". Vehicle labels and the maker's table come first."


def _by_rule(
    assessment: Assessment, groups: tuple[AxleGroup, ...], name: str, kind: FigureKind
) -> Iterator[Reason]:
    """Say one rule once, and under it what each axle puts in."""
    words = words_of(assessment)
    found: dict[tuple[str, str], list[str]] = {}
    for group in groups:
        told = words.told(assessment.ledger.figure(group.keys(kind)[0]))
        given = "; ".join(f"{one.name} {one.text}" for one in told.inputs)
        found.setdefault((told.rule, told.sources), []).append(
            f"{group.name}: {given}" if given else group.name
        )
    for (rule, sources), given_by_group in found.items():
        yield Reason(name, f"{rule} {'. '.join(given_by_group)}.", sources)


def _reasons(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Reason]:
    words = words_of(assessment)
    for name, kind in _REASONED:
        yield from _by_rule(assessment, groups, name, kind)
    warmth = procedure_constant("hot mates warmth")
    apart = words.rule(assessment.known(groups[0].keys(kinds.HOT_MATES_APART)[0])) if groups else ""
    hotter = f"Nor {procedure_number(warmth.name, words.style)} hotter than its mate."
    yield Reason("Hot mates", f"{apart} {hotter}", warmth.source)
    if any(group.tires.family == "truck" for group in groups):
        heavy = procedure_constant("law build-up heavy")
        amount = procedure_number(heavy.name, style_of(assessment))
        why = procedure_reason(heavy.name, assessment.rig.units)
        text = f"{why} At least {amount}: an estimate, never fill to it."
        yield Reason("Hot truck tires", text, heavy.source)
