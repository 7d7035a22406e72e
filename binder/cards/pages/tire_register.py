"""Page of tires: the answer for each axle, every mounted tire, its limits, and the typed load table."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Key
from binder.assessment.tires import kinds, register_kinds
from binder.assessment.tires.axle import is_spare, positions_of, rolling_tire_axles
from binder.assessment.weights.resting import rolling_axles
from binder.cards.blocks import Block, Note, Page, small_table
from binder.cards.log.newest import newest_blocks
from binder.cards.pages.tire_drawings import load_chart_blocks, tire_map_blocks
from binder.cards.rig_words import known_limit, words_of
from binder.models.tires import LoadTableText, MountedTire, Tires, Wheels
from binder.quantities import Quantity
from binder.wording.measures import AGE, TREAD, MetricPressure
from binder.wording.numbers import BLANK, as_written, both_as_written, number_as_written, unit_as_written
from binder.wording.words import procedure_number, style_of

_SAME = 1e-6
"""Share by which two pressures may differ and be one: the noise of binary arithmetic."""


def load_table_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make each typed load table, with the rows that were used."""
    without = [name for name, tires in assessment.rig.tires.items() if tires.table is None]
    if without:
        yield Note(f"No load table is given: {', '.join(without)}.")
    for name, tires in assessment.rig.tires.items():
        if tires.table is None:
            continue
        table = tires.table
        size = " ".join(part for part in (tires.size, tires.load_range) if part)
        yield from small_table(
            ", ".join(part for part in (f"Load table of the {name}", size, "as typed") if part),
            ("cold pressure", *_headers(table), "row used for", "read"),
            _rows(assessment, name, table),
            f"From: {table.origin}. Loads are {table.basis}, as typed. Read every row against the maker's "
            'book for this size and load range, and mark it under "read": a wrong digit here is a wrong '
            "pressure in the tire.",
        )


def _headers(table: LoadTableText) -> tuple[str, ...]:
    sides = (("single", table.single), ("dual", table.dual))
    return tuple(f"{side}, {_unit(rows)}" for side, rows in sides if rows)


def _unit(rows: dict[Quantity, Quantity]) -> str:
    return unit_as_written(next(iter(rows.values())))


def _rows(assessment: Assessment, name: str, table: LoadTableText) -> Iterator[tuple[str, ...]]:
    sides = [rows for rows in (table.single, table.dual) if rows]
    pressures = sorted({pressure for rows in sides for pressure in rows})
    used = tuple(_used(assessment, name))
    for pressure in pressures:
        loads = (number_as_written(rows[pressure]) if pressure in rows else "-" for rows in sides)
        axles = "; ".join(
            f"{axle} ({fitment})"
            for axle, fitment, row in used
            if abs(float((row / pressure).to("").m) - 1) < _SAME
        )
        yield (as_written(pressure), *loads, f"ROW USED: {axles}" if axles else "", "____")


def _used(assessment: Assessment, name: str) -> Iterator[tuple[str, str, Quantity]]:
    """Axles on these tires, with the pressure of the row chosen for each."""
    for vehicle, _, axle_name, axle in rolling_axles(assessment.rig):
        row = assessment.quantity(kinds.ROW_PRESSURE.of(vehicle, axle_name))
        if axle.tires == name and row is not None:
            yield f"{vehicle}, {axle_name}", axle.fitment, row


_MOUNTED = (register_kinds.MADE, register_kinds.AGE, register_kinds.TREAD)
_SPARE = (register_kinds.SPARE_MADE, register_kinds.SPARE_AGE, register_kinds.SPARE_TREAD)
_HEADERS = ("position", "size, load range", "date code", "made, week of", "age", "tread", "around", "mounted")


def register_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the table of mounted tires, the spare last."""
    ages = (register_kinds.AGE, register_kinds.SPARE_AGE)
    aged = (figure for kind in ages for figure in assessment.ledger.of_kind(kind))
    rule = words_of(assessment).rule(next(aged, None))
    steering, elsewhere, diameter, around, tread = (
        procedure_number(name, style_of(assessment))
        for name in ("tread steering", "tread elsewhere", "pair diameter", "pair around", "pair tread")
    )
    rows = (*_mounted(assessment), *_spares(assessment))
    yield from small_table(
        "Every tire",
        _HEADERS,
        rows,
        f"{rule} Date code: week and year, the last figures of the number that starts with DOT. Least tread: "
        f"{steering} on a steering axle, {elsewhere} elsewhere (49 CFR 393.75). Pairs match within "
        f"{diameter} of diameter, {around} around and {tread} of tread (S45; S48).",
    )


def _mounted(assessment: Assessment) -> Iterator[tuple[str, ...]]:
    for axle in rolling_tire_axles(assessment.rig, ()):
        for position in positions_of(axle):
            mounted = axle.tires.mounted.get(position.name) or MountedTire()
            keys = tuple(kind.of(*axle.subject, position.name) for kind in _MOUNTED)
            yield _tire(assessment, f"{axle.vehicle_name}, {position.name}", axle.tires, mounted, keys)


def _spares(assessment: Assessment) -> Iterator[tuple[str, ...]]:
    rows = [
        _tire(
            assessment,
            f"{position}, {name}",
            tires,
            mounted,
            tuple(kind.of(name, position) for kind in _SPARE),
        )
        for name, tires in assessment.rig.tires.items()
        for position, mounted in tires.mounted.items()
        if is_spare(position)
    ]
    yield from rows or [("spare", "none noted", *("-" for _ in _HEADERS[2:]))]


def _tire(
    assessment: Assessment, name: str, tires: Tires, mounted: MountedTire, keys: tuple[Key, ...]
) -> tuple[str, ...]:
    words, (made, age, tread) = words_of(assessment), keys
    week = assessment.known(made)
    return (
        name,
        f"{tires.size or BLANK}, {tires.load_range or BLANK}",
        mounted.date_code or BLANK,
        str(week.value) if week and week.value else BLANK,
        words.text(assessment.quantity(age), AGE),
        words.text(assessment.quantity(tread), TREAD),
        as_written(mounted.circumference) if mounted.circumference is not None else "-",
        mounted.mounted_on.isoformat() if mounted.mounted_on else BLANK,
    )


def limit_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the tables of limits of tires and of wheels."""
    rig, pressure = assessment.rig, style_of(assessment).pressure
    yield from small_table(
        "Limits on the sidewall",
        ("tires", "size, load range", "single", "one of a pair", "pressure", "speed", "replace after"),
        (_tires(name, tires, pressure) for name, tires in rig.tires.items()),
    )
    yield from small_table(
        "Limits of wheels and valves, and their nuts",
        ("wheels", "load", "pressure", "valve", "nuts, torque", "socket", "thread", "dual spacing"),
        (_wheels(name, wheels, pressure) for name, wheels in rig.wheels.items()),
        "The cap is the least of tire, wheel and valve. A blank valve: read it off the valve or ask the "
        "tire shop. Nuts: the maker's manual comes first; heavy wheels are work for a tire service.",
    )


def _tires(name: str, tires: Tires, pressure: MetricPressure) -> tuple[str, ...]:
    sidewall = tires.sidewall
    pair = "-" if sidewall.maximum_load_dual is None else both_as_written(sidewall.maximum_load_dual)
    return (
        name,
        f"{tires.size or BLANK}, {tires.load_range or BLANK}",
        both_as_written(sidewall.maximum_load_single),
        pair,
        both_as_written(sidewall.maximum_pressure, pressure),
        both_as_written(tires.maximum_speed),
        as_written(tires.replace_after),
    )


def _wheels(name: str, wheels: Wheels, pressure: MetricPressure) -> tuple[str, ...]:
    spacing = "-" if wheels.dual_spacing is None else as_written(wheels.dual_spacing)
    return (
        name,
        both_as_written(wheels.maximum_load),
        both_as_written(wheels.maximum_pressure, pressure),
        both_as_written(wheels.valve_maximum_pressure, pressure),
        both_as_written(wheels.nut_torque),
        wheels.socket or BLANK,
        wheels.thread or BLANK,
        spacing,
    )


_INTRO = (
    "Cold pressures: parked in shade three hours, or before sunrise. The vehicle's labels and the tire "
    "maker's own table come first. Over a limit, or with damage: a tire service, before moving."
)
_ENTRIES = (
    ("load on one tire", kinds.LOAD_PER_TIRE),
    ("row", kinds.ROW_PRESSURE),
    ("label", kinds.LABEL_PRESSURE),
    ("floor", kinds.FLOOR_PRESSURE),
    ("SET-POINT", kinds.SET_POINT),
    ("cap", kinds.CAP),
    ("low alarm", kinds.LOW_ALARM),
    ("run flat at or under", kinds.RUN_FLAT_BELOW),
)


def tire_register(assessment: Assessment) -> Page:
    """Make the page of tires."""
    blocks: tuple[Block, ...] = (
        *_answers(assessment),
        *tire_map_blocks(assessment),
        *register_blocks(assessment),
        *newest_blocks(assessment),
        *limit_blocks(assessment),
    )
    return Page("tire_register", "Tire register", _INTRO, blocks)


def load_tables(assessment: Assessment) -> Page | None:
    """Make the page of load tables, drawn and to be read back; none where no table is given."""
    blocks = (*load_chart_blocks(assessment), *load_table_blocks(assessment))
    intro = "Read each row back from the maker's table; the row used is marked."
    return Page("load_tables", "Load tables", intro, blocks) if blocks else None


def _answers(assessment: Assessment) -> Iterator[Block]:
    words, rows = words_of(assessment), []
    whys: dict[str, list[str]] = {}
    for vehicle, _, axle, _ in rolling_axles(assessment.rig):
        rows.append((f"{vehicle}, {axle}", *_answer(assessment, vehicle, axle)))
        rules = (
            words.rule(assessment.known(kind.of(vehicle, axle)))
            for kind in (kinds.ROW_PRESSURE, kinds.LABEL_PRESSURE)
        )
        whys.setdefault(" ".join(rule for rule in rules if rule), []).append(f"{vehicle} {axle}")
    units = (f"{name}, {words.unit(kind.measure)}" for name, kind in _ENTRIES)
    headers = ("axle", *units, "load used", "speed", "room on one tire")
    yield from small_table("The answer for each axle", headers, rows)
    for why, axles in whys.items():
        names = " and ".join(axles)
        yield Note(f"{names[:1].upper()}{names[1:]}: {why}")


def _answer(assessment: Assessment, vehicle: str, axle: str) -> Iterator[str]:
    words = words_of(assessment)
    for _, kind in _ENTRIES:
        figure = assessment.known(kind.of(vehicle, axle))
        if kind is kinds.SET_POINT and figure and figure.quantity is not None:
            yield words.fill(figure.quantity, known_limit(assessment, figure.key))
        else:
            yield words.bare(figure, BLANK if kind is kinds.CAP else "-")
    yield words.value(assessment.known(kinds.LOAD_USED.of(vehicle, axle)), "-")
    yield words.value(assessment.known(kinds.SPEED_LIMIT.of(vehicle, axle)))
    yield words.slack(assessment.known(kinds.SET_POINT.of(vehicle, axle))) or "-"
