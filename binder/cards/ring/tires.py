"""Card 3, Tires: what to fill to, when to leave it, and below what a tire is never filled on the road."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from binder.assessment.assess import Assessment
from binder.assessment.conditions import is_coupled
from binder.assessment.ledger import FigureKind, Finding
from binder.assessment.route.kinds import COLDEST_NIGHT
from binder.assessment.tires import kinds, register_kinds
from binder.assessment.weights.resting import rolling_axles
from binder.cards.blocks import Aside, Block, Box, Card, Line, Note, Reason, ValueRow, ValueTable
from binder.cards.fill_table import fill_table
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import AxleGroup, axle_groups, words_of
from binder.models.tires import Wheels
from binder.wording.measures import FILL, HIGH, LOAD, PRESSURE_LIMIT, RATING
from binder.wording.numbers import BLANK, beside
from binder.wording.words import Words, amount_of, procedure_constant, procedure_number, procedure_reason

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
    computed = {
        "pressures": tuple(_pressures(assessment, groups)),
        "fill table": tuple(fill_table(assessment, groups)),
        "alarm that is late": tuple(_late_alarm(groups)),
        "hot above cold": tuple(_hot_above_cold(assessment, groups)),
        "hot mates": (_hot_mates(groups),),
        "oldest tires": (_ages(assessment),),
    }
    words = card_words("tires")
    said = said_card(words, assessment, computed)
    keys = [
        kind.of(group.vehicle_name, axle)
        for group in groups
        for axle in group.axle_names
        for kind in (kinds.SET_POINT, kinds.CAP)
    ]
    return replace(
        said,
        wrong_as_soon_as=_wrong_as_soon_as(assessment, groups),
        reasons=tuple(_reasons(assessment, groups)),
        figures=tuple(words_of(assessment).key(key) for key in keys),
    )


def _pressures(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Block]:
    words = words_of(assessment)
    yield ValueTable(
        "",
        (f"cold fill, {words.unit(FILL)}", "leave up to", "low alarm", "run flat: or less"),
        tuple(_row(group, words) for group in groups),
    )
    helps = _what_helps(groups)
    if helps:
        yield Note(helps)
    else:
        yield Aside(_limits(assessment, groups, words))
    yield Box(f"\u201cRun flat\u201d or less (hot {_hot_flat(groups)}), driven?", _run_flat_lines(groups))


def _if_marked(group: AxleGroup, words: Words) -> str:
    """Up to which pressure a tire is left where its own limit is known, but a part's was never read."""
    limit, unknown = group.known_limit, group.unread_parts
    if not unknown or "tire" in unknown or limit is None:
        return ""
    return f", up to {words.text(limit, PRESSURE_LIMIT)} if {' and '.join(unknown)} so marked"


def _row(group: AxleGroup, words: Words) -> ValueRow:
    pressure, leave = group.value(kinds.SET_POINT), group.value(kinds.LEAVE_UP_TO)
    value = words.fill(pressure, group.known_limit) if pressure is not None else _none(group)
    is_at_cap = None not in {pressure, leave} and words.fill(leave, leave) == value
    others = (
        value if is_at_cap else words.number(leave, kinds.LEAVE_UP_TO.measure),
        words.number(group.value(kinds.LOW_ALARM), kinds.LOW_ALARM.measure),
        words.number(group.value(kinds.RUN_FLAT_BELOW), kinds.RUN_FLAT_BELOW.measure),
    )
    return ValueRow(group.name, _detail(group, words), value, others)


def _none(group: AxleGroup) -> str:
    is_forbidden = any(
        found.grade == "do not drive" and found.kind in _FORBIDDING for found in group.findings()
    )
    return "NONE" if is_forbidden else BLANK


def _grave(group: AxleGroup) -> tuple[Finding, ...]:
    """What forbids driving on these axles: their tires, or their loads."""
    return tuple(found for found in group.findings() if found.grade == "do not drive")


def _what_helps(groups: tuple[AxleGroup, ...]) -> str:
    """What helps the axle that must not be driven on; of several there is room on the cover alone."""
    told = [
        (group.name, words_of(group.assessment).found(grave[0]).helps)
        for group in groups
        if (grave := _grave(group))
    ]
    if len(told) == 1:
        name, helps = told[0]
        return f"{name}: do not drive. {helps}"
    return "Do not drive: what helps is told on the cover." if told else ""


def _detail(group: AxleGroup, words: Words) -> str:
    grave = _grave(group)
    if grave:
        return words.found(grave[0]).brief
    # The row of the card is the axle: its name need not be said again on a line of 9 points.
    said = [beside(group.value(kinds.SET_POINT), FILL, words.style)]
    load = group.value(kinds.LOAD_PER_TIRE)
    if load is not None and group.value(kinds.ROW_PRESSURE) is not None:
        said += [f"{words.text(load, LOAD)} each{_assumed(group)}", _room(group, words)]
    elif group.value(kinds.ROW_PRESSURE) is not None:
        said.append("not weighed: for half its rating")
    if _is_by_label(group):
        said.append("placard" if group.vehicle.kind in {"car", "pickup"} else "by the label")
    if any(found.kind is kinds.NO_RESERVE for found in group.findings()):
        said.append("no reserve left")
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
    is_half = figure.slack.facts.get("limit") == kinds.HALF_RATING
    brief = figure.slack._replace(facts={**figure.slack.facts, "limit": kinds.HALF_RATING_BRIEF})
    return words.said(brief if is_half else figure.slack)


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
        said[group.vehicle_name] += _if_marked(group, words)
    return ". ".join(f"{name.capitalize()}: {text}" for name, text in said.items()) + "."


def _hot_flat(groups: tuple[AxleGroup, ...]) -> str:
    words, measure = words_of(groups[0].assessment), kinds.HOT_FLAT.measure
    values = " / ".join(words.number(group.value(kinds.HOT_FLAT), measure) for group in groups)
    return f"{values} {words.unit(measure)}"


def _run_flat_lines(groups: tuple[AxleGroup, ...]) -> tuple[str, ...]:
    names: dict[str, dict[str, None]] = {}
    for group in groups:
        is_truck = group.tires.family in {"truck", None}
        words = "no air. Stand clear. Tire service." if is_truck else "off, and inspected inside."
        names.setdefault(words, {})[group.vehicle_name] = None
    return tuple(f"{', '.join(held).capitalize()}: {words}" for words, held in names.items())


def _late_alarm(groups: tuple[AxleGroup, ...]) -> Iterator[Line]:
    if any(_is_late(group) for group in groups):
        words, measure = words_of(groups[0].assessment), kinds.MONITOR_SETTING.measure
        names = ", ".join(group.short_name for group in groups)
        values = " / ".join(words.number(group.value(kinds.MONITOR_SETTING), measure) for group in groups)
        is_flat = any(
            found.kind is kinds.MONITOR_MEANS_FLAT for group in groups for found in group.findings()
        )
        detail = f"{names}; while driving it means FLAT: stop, add no air" if is_flat else f"{names}; late"
        yield Line("Low alarm, closest it can be set", f"{values} {words.unit(measure)}", detail=detail)


def _is_late(group: AxleGroup) -> bool:
    setting, alarm = group.value(kinds.MONITOR_SETTING), group.value(kinds.LOW_ALARM)
    return setting is not None and alarm is not None and setting < alarm


def _hot_above_cold(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Line]:
    units = assessment.rig.units
    families = {group.vehicle_name: group.tires.family or "" for group in groups}
    rises = [amount_of(_RISE[family], units) if family in _RISE else None for family in families.values()]
    values = " / ".join(rise.value if rise else BLANK for rise in rises)
    unit = amount_of(_RISE["truck"], units).unit
    yield Line(f"Hot above cold, {' / '.join(families)}", f"{values} {unit}")


def _hot_mates(groups: tuple[AxleGroup, ...]) -> Line:
    words, measure = words_of(groups[0].assessment), kinds.HOT_MATES_APART.measure
    values = " / ".join(words.number(group.value(kinds.HOT_MATES_APART), measure) for group in groups)
    return Line("Hot mates of one axle", f"WITHIN {values} {words.unit(measure)}")


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
    return ", ".join(said) + ". Vehicle labels and the maker's table come first."


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
    hotter = f"Nor {procedure_number(warmth.name, words.units)} hotter than its mate."
    yield Reason("Hot mates", f"{apart} {hotter}", warmth.source)
    if any(group.tires.family == "truck" for group in groups):
        heavy = procedure_constant("law build-up heavy")
        amount = procedure_number(heavy.name, assessment.rig.units)
        why = procedure_reason(heavy.name, assessment.rig.units)
        text = f"{why} At least {amount}: an estimate, never fill to it."
        yield Reason("Hot truck tires", text, heavy.source)
