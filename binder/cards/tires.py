"""Card 3, Tires: what to fill to, when to leave it, and below what a tire is never filled on the road."""

from collections.abc import Iterator
from datetime import date

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Finding
from binder.assessment.procedure_numbers import procedure_constant, procedure_number, procedure_reason
from binder.assessment.weights.resting import rolling_axles
from binder.cards.axle_words import AxleGroup, axle_groups, display_of
from binder.cards.blocks import (
    Block,
    Box,
    Card,
    Line,
    Note,
    Reason,
    ValueRow,
    ValueTable,
)
from binder.cards.both_systems import beside
from binder.cards.display import BLANK, Display
from binder.cards.fill_table import fill_table, short_name
from binder.cards.grave_words import grave_findings
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import CardWords, card_words

_RISE = {
    "truck": "hot rise truck",
    "light truck": "hot rise light truck",
    "passenger": "hot rise car",
    "passenger P": "hot rise car",
}


_ROWS_BESIDE_LIMITS, _ROWS_BESIDE_AIR = 3, 4
"""Rows of the front that leave it room for the makers' limits, and for how air is added."""


def tires(assessment: Assessment) -> Card:
    """Card 3 of the ring."""
    groups = axle_groups(assessment)
    computed = {
        "pressures": tuple(_pressures(assessment, groups)),
        "fill table": tuple(_fill_table_and_limits(assessment, groups)),
        "alarm that is late": tuple(_late_alarm(groups)),
        "hot above cold": tuple(_hot_above_cold(assessment, groups)),
        "oldest tires": (_ages(assessment),),
    }
    words = card_words("tires")
    said = said_card(words if len(groups) <= _ROWS_BESIDE_AIR else _turned(words), assessment, computed)
    keys = [
        group.key(entry, axle)
        for group in groups
        for axle in group.axle_names
        for entry in ("set_point", "cap")
    ]
    return Card(
        id="3",
        name="tires",
        title=said.title,
        sides=said.sides,
        wrong_as_soon_as=_wrong_as_soon_as(assessment, groups),
        reasons=tuple(_reasons(assessment, groups)),
        family="drive",
        figures=tuple(keys),
    )


def _turned(words: CardWords) -> CardWords:
    """Begin the back with the group that ends the front."""
    front, back = words.sides
    *kept, last = front.groups
    sides = [
        front.model_copy(update={"groups": kept}),
        back.model_copy(update={"groups": [last, *back.groups]}),
    ]
    return words.model_copy(update={"sides": sides})


def _pressures(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Block]:
    display = display_of(assessment)
    unit = display.measure("pressure").word
    yield ValueTable(
        "",
        (f"cold fill, {unit}", "leave up to", "low alarm", "run flat below"),
        tuple(_row(group, display) for group in groups),
    )
    helps = _what_helps(groups)
    if helps:
        yield Note(helps)
    elif len(groups) <= _ROWS_BESIDE_LIMITS:
        yield Note(_limits(assessment, groups, display))
    yield Box("Below \u201crun flat\u201d, and driven like that?", _run_flat_lines(groups))


def _row(group: AxleGroup, display: Display) -> ValueRow:
    pressure = group.value("set_point")
    leave = group.value("leave_up_to")
    value = display.fill(pressure, leave) if pressure is not None else _none(group)
    is_at_cap = pressure is not None and display.fill(leave, leave) == value
    others = (
        value if is_at_cap else display.number(leave, "pressure", "down"),
        display.number(group.value("low_alarm"), "pressure", "up"),
        display.number(group.value("run_flat_below"), "pressure", "up"),
    )
    return ValueRow(group.name, _detail(group, display), value, others)


def _none(group: AxleGroup) -> str:
    grades = [
        found.grade
        for found in group.assessment.findings
        if any(found.key.startswith(group.key("", axle)) for axle in group.axle_names)
    ]
    return "NONE" if "do not drive" in grades else BLANK


def _grave(group: AxleGroup) -> tuple[Finding, ...]:
    """What forbids driving on these axles: their tires, or their loads."""
    keys = [group.key("", axle) for axle in group.axle_names]
    loads = [key.replace("tires.", "weights.", 1) for key in keys]
    return grave_findings(group.assessment, *keys, *loads)


def _what_helps(groups: tuple[AxleGroup, ...]) -> str:
    """What helps the axle that must not be driven on; of several there is room on the cover alone."""
    told = [(group.name, grave[0].what_helps) for group in groups if (grave := _grave(group))]
    if len(told) == 1:
        name, helps = told[0]
        return f"{name}, do not drive: {helps.rstrip('.')}."
    return "Do not drive: what helps is told on the cover." if told else ""


def _detail(group: AxleGroup, display: Display) -> str:
    found = _grave(group)
    if found:
        return found[0].text.split(": ", 1)[-1].split(" (")[0]
    # The row of the card is the axle: its name need not be said again on a line of 9 points.
    slack = group.assessment.figure(_tightest(group)).slack.replace("half the axle's", "half its")
    words = [beside(group.value("set_point"), "pressure", "up", display.system)]
    if group.value("row_pressure") is not None:
        words.append(f"{display.text(group.value('load_per_tire'), 'weight', 'up')} each")
        words += [slack] if slack else []
    if _is_by_label(group):
        words.append("placard" if group.vehicle.kind in {"car", "pickup"} else "by the label")
    attention = [found.text for found in group.assessment.findings if found.key == group.key("set_point")]
    words += ["no reserve left"] if any("no reserve" in text for text in attention) else []
    return ", ".join(word for word in words if word)


def _tightest(group: AxleGroup) -> str:
    """Key of the set-point of the axle whose heaviest tire carries most: its room is the least."""
    loads = {axle: group.assessment.quantity(group.key("load_per_tire", axle)) for axle in group.axle_names}
    known = {axle: load for axle, load in loads.items() if load is not None}
    axle = max(known, key=lambda name: known[name]) if known else group.axle_names[0]
    return group.key("set_point", axle)


def _is_by_label(group: AxleGroup) -> bool:
    """The label sets the pressure: it is the floor, and higher than the row."""
    label, row = group.value("label_pressure"), group.value("row_pressure")
    return label is not None and label == group.value("floor_pressure") == group.value("set_point") != row


def _limits(assessment: Assessment, groups: tuple[AxleGroup, ...], display: Display) -> str:
    said: dict[str, str] = {}
    for group in groups:
        wheels = assessment.rig.wheels.get(group.axle.wheels or "")
        speed = display.text(group.value("speed_limit"), "speed", "down")
        stamped = group.tires.sidewall.maximum_pressure
        tire = display.text(stamped, "pressure", "down")
        load = display.text(wheels.maximum_load if wheels else None, "weight", "down")
        wheel = display.text(wheels.maximum_pressure if wheels else None, "pressure", "down")
        valve = display.text(wheels.valve_maximum_pressure if wheels else None, "pressure", "down")
        said[group.vehicle_name] = f"tires to {speed}, {tire}; wheels {load}, {wheel}; valves {valve}"
    return ". ".join(f"{name.capitalize()}: {text}" for name, text in said.items()) + "."


def _run_flat_lines(groups: tuple[AxleGroup, ...]) -> tuple[str, ...]:
    names: dict[str, dict[str, None]] = {}
    for group in groups:
        is_truck = group.tires.family in {"truck", None}
        words = "no air. Stand clear. Tire service." if is_truck else "off, and inspected inside."
        names.setdefault(words, {})[group.vehicle_name] = None
    return tuple(f"{', '.join(held).capitalize()}: {words}" for words, held in names.items())


def _fill_table_and_limits(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Block]:
    yield from fill_table(assessment, groups)
    if len(groups) > _ROWS_BESIDE_LIMITS and not _what_helps(groups):
        yield Note(_limits(assessment, groups, display_of(assessment)))


def _late_alarm(groups: tuple[AxleGroup, ...]) -> Iterator[Line]:
    if any(_is_late(group) for group in groups):
        display = display_of(groups[0].assessment)
        names = ", ".join(short_name(group) for group in groups)
        values = _each(groups, "monitor_setting", display, up=False)
        detail = f"{names}; later than the front asks for"
        answer = f"{values} {display.measure('pressure').word}"
        yield Line("Low alarm, closest it can be set", answer, detail=detail)


def _is_late(group: AxleGroup) -> bool:
    setting, alarm = group.value("monitor_setting"), group.value("low_alarm")
    return setting is not None and alarm is not None and setting < alarm


def _each(groups: tuple[AxleGroup, ...], entry: str, display: Display, *, up: bool = True) -> str:
    texts = [display.number(group.value(entry), "pressure", "up" if up else "down") for group in groups]
    return " / ".join(texts)


def _hot_above_cold(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Line]:
    units = assessment.rig.units
    families = {group.vehicle_name: group.tires.family or "" for group in groups}
    rises = {name: _RISE[family] for name, family in families.items() if family in _RISE}
    if rises:
        texts = [procedure_number(constant, units) for constant in rises.values()]
        unit = texts[0].rsplit(" ", 1)[-1]
        values = " / ".join(text.removesuffix(f" {unit}") for text in texts)
        yield Line(f"Hot above cold, {' / '.join(rises)}", f"{values} {unit}")


def _ages(assessment: Assessment) -> Line:
    rolling = dict.fromkeys(vehicle for vehicle, *_ in rolling_axles(assessment.rig))
    oldest = {vehicle: _oldest(assessment, vehicle) for vehicle in rolling}
    return Line(f"Oldest tire made, {' / '.join(oldest)}", " / ".join(oldest.values()))


def _oldest(assessment: Assessment, vehicle: str) -> str:
    start = f"tires.{vehicle}.".replace(" ", "_")
    figures = assessment.ledger.figures.items()
    made = [figure.value for key, figure in figures if key.startswith(start) and key.endswith(".made")]
    known = [value for value in made if isinstance(value, date)]
    # A tire whose date code is not found may be older than any that is.
    return f"{min(known):%Y-%m}" if known and len(known) == len(made) else BLANK


def _wrong_as_soon_as(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> str:
    display = display_of(assessment)
    words = []
    for group in groups:
        limit = group.value("end_holds_up_to")
        if limit is not None:
            words.append(f"{short_name(group)} end over {display.text(limit, 'weight', 'down')}")
    coldest = assessment.quantity("route.coldest_night")
    if coldest is not None:
        words.append(f"a night colder than {display.text(coldest, 'temperature', 'up')}")
    words.append("any tire, wheel, valve or towed vehicle changed")
    return ", ".join(words) + ". Vehicle labels and the tire maker's table come first."


def _reasons(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Reason]:
    for group in groups:
        label = assessment.figure(group.key("label_pressure"))
        for entry in ("load_per_tire", "row_pressure", "set_point", "run_flat_below", "low_alarm"):
            figure = assessment.figure(group.key(entry))
            name = f"{group.name}: {entry.replace('_', ' ')}"
            given = "; ".join(f"{one.name} {one.text}" for one in figure.inputs)
            yield Reason(name, f"{figure.rule} {given}.", figure.source)
        yield Reason(f"{group.name}: label", label.rule, label.source)
    if any(group.tires.family == "truck" for group in groups):
        heavy = procedure_constant("law build-up heavy")
        amount = procedure_number(heavy.name, assessment.rig.units)
        why = procedure_reason(heavy.name, assessment.rig.units)
        text = f"{why} At least {amount}: an estimate, never fill to it."
        yield Reason("Hot truck tires", text, heavy.source)
