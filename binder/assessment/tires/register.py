"""The tire register: age, tread and matching of every tire that may roll, and doubts about tables."""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import Literal, NamedTuple

from binder.assessment.ledger import NO_FACTS, Fact, Figure, Finding, Input, Ledger, Phrase
from binder.assessment.log.newest import Tire, TreadRead, treads_of
from binder.assessment.route.days import last_day
from binder.assessment.tires import register_kinds as kinds
from binder.assessment.tires.axle import TireAxle, is_spare, positions_of, rolling_tire_axles
from binder.assessment.tires.kinds import ROW_PRESSURE
from binder.assessment.weights.loads import StateLoads
from binder.calculations.tires.load_tables import Stamp, TableDoubt, dual_doubts, table_doubts
from binder.calculations.tires.pairs_and_age import (
    DateCode,
    Made,
    PairedTire,
    age_on,
    age_verdict,
    default_out_age,
    dual_mismatches,
    is_worn_out,
    latest_age,
    made_from_date_code,
    minimum_dual_spacing,
    tread_floor,
)
from binder.models.load import Profile
from binder.models.tires import MountedTire, Tires
from binder.quantities import Quantity


def assess_register(profile: Profile, on: date, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter age and tread of every tire, and the findings of the register."""
    day, treads = last_day(profile, on)[0], treads_of(profile)
    for axle in rolling_tire_axles(profile.rig, states):
        for position in positions_of(axle):
            _assess_mounted(axle, position.name, day, treads, ledger)
        if axle.is_dual:
            _assess_pairs(axle, treads, ledger)
        ledger.find(*_table_of_another_size(axle))
        for doubt in doubts_of(axle):
            if not doubt.is_problem:
                _find_doubt(axle, doubt, ledger)


def assess_spare_tires(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter when each spare was made, its age on the last day and its tread: one may roll tomorrow."""
    day, treads = last_day(profile, on)[0], treads_of(profile)
    for name, tires in profile.rig.tires.items():
        for position in tires.mounted:
            if is_spare(position):
                tread = _tread(tires.mounted[position], position, treads.get((name, position)))
                _assess_spare((name, position), tires, day, tread, ledger)


class _Tread(NamedTuple):
    """The tread that counts, and where it is from; ``case`` is empty where it is the profile's."""

    value: Quantity | None
    inputs: tuple[Input, ...]
    case: str = ""
    facts: Mapping[str, Fact] = NO_FACTS


def _tread(tire: MountedTire, position: str, read: TreadRead | None) -> _Tread:
    """The lesser of the profile's tread and the log's newest: no reading makes a tire better than it was."""
    written = Input(kinds.TREAD_INPUT, tire.tread, facts={"position": position})
    worse = read.worse_than(tire.tread) if read else None
    if worse is None:
        return _Tread(tire.tread, (written,))
    entry, value = worse
    who = Phrase(kinds.BY_WHOM, {"who": entry.who}) if entry.who else ""
    facts: dict[str, Fact] = {"read": entry.at.date(), "who": who}
    inputs = (written, Input(kinds.TREAD_READ, value, facts=facts))
    return _Tread(value, inputs, "unsure" if entry.is_clock_unsure else "log", facts)


def _assess_mounted(
    axle: TireAxle, position: str, day: date, treads: Mapping[Tire, TreadRead], ledger: Ledger
) -> None:
    tire, subject = axle.tires.mounted.get(position) or MountedTire(), (*axle.subject, position)
    made, age, code = _age(tire, position, day)
    ledger.enter(Figure(kinds.MADE.of(*subject), made.week_begins, (code,), facts={"code": made.code.value}))
    ledger.enter(Figure(kinds.AGE.of(*subject), age, (code,), facts={"day": day}))
    floor = tread_floor(is_steering=axle.is_steering)
    tread = _tread(tire, position, treads.get(subject))
    ledger.enter(
        Figure(
            kinds.TREAD.of(*subject), tread.value, tread.inputs, tread.case, {"floor": floor, **tread.facts}
        )
    )
    ledger.find(*_age_findings(axle, position, made, age), *_damage_findings(axle, position, tire))
    ledger.find(*_wear_findings(axle, position, tread, floor))


def _age(tire: MountedTire, position: str, day: date) -> tuple[Made, Quantity | None, Input]:
    made = made_from_date_code(tire.date_code)
    age = age_on(made.week_begins, day) if made.week_begins else None
    written = tire.date_code or kinds.DATE_CODE_NOT_FOUND
    return made, age, Input(kinds.DATE_CODE, written, facts={"position": position})


def _age_findings(axle: TireAxle, position: str, made: Made, age: Quantity | None) -> Iterator[Finding]:
    key = kinds.AGE.of(*axle.subject, position)
    if made.code is DateCode.NOT_FOUND:
        yield Finding(kinds.CODE_NOT_FOUND, key, axle.fitted)
    elif made.code is DateCode.IMPOSSIBLE or (made.week_begins and age is None):
        yield Finding(kinds.CODE_IMPOSSIBLE, key, axle.fitted)
    elif made.code is DateCode.BEFORE_2000:
        yield Finding(kinds.MADE_BEFORE_2000, key)
    if age is None:
        return
    verdict, out = _verdict(axle.tires, age, is_steering=axle.is_steering)
    facts: dict[str, Fact] = {"value": age, "out": out}
    if verdict in {"out", "past its practice age"}:
        yield Finding(kinds.PAST_ITS_AGE, key, facts, "" if verdict == "out" else "practice")
    elif verdict == "inspect yearly":
        yield Finding(kinds.INSPECT_YEARLY, key, facts)


def _verdict(tires: Tires, age: Quantity, *, is_steering: bool) -> tuple[str, Quantity]:
    is_trailer_tire = tires.family == "special trailer"
    practice = default_out_age(is_special_trailer=is_trailer_tire, is_steering=is_steering)
    verdict = age_verdict(age, tires.replace_after, practice)
    return verdict, practice if verdict == "past its practice age" else latest_age(tires.replace_after)


def _damage_findings(axle: TireAxle, position: str, tire: MountedTire) -> Iterator[Finding]:
    key = kinds.TREAD.of(*axle.subject, position)
    if tire.is_blank("damage"):
        yield Finding(kinds.DAMAGE_UNKNOWN, key, axle.fitted)
    elif tire.damage and tire.damage.casefold() != "none":
        yield Finding(kinds.DAMAGED, key, {"damage": tire.damage})


def _wear_findings(axle: TireAxle, position: str, tread: _Tread, floor: Quantity) -> Iterator[Finding]:
    key = kinds.TREAD.of(*axle.subject, position)
    if tread.value is None:
        yield Finding(kinds.TREAD_UNKNOWN, key, axle.fitted)
    elif is_worn_out(tread.value, floor):
        facts: dict[str, Fact] = {**axle.fitted, "value": tread.value, "floor": floor, **tread.facts}
        yield Finding(kinds.WORN_OUT, key, facts, tread.case)


def _assess_pairs(axle: TireAxle, treads: Mapping[Tire, TreadRead], ledger: Ledger) -> None:
    sides: tuple[Literal["left", "right"], ...] = ("left", "right")
    for side in sides:
        names = [f"{axle.axle_name} {side} {place}" for place in ("outer", "inner")]
        outer, inner = (axle.tires.mounted.get(name, MountedTire()) for name in names)
        if None in {outer.circumference, inner.circumference} and None in {outer.diameter, inner.diameter}:
            ledger.find(
                Finding(kinds.PAIR_NOT_MEASURED, kinds.PAIR_NOT_MEASURED.of(*axle.subject, side), axle.fitted)
            )
        read = [_tread(MountedTire(), name, treads.get((*axle.subject, name))).value for name in names]
        for mismatch in _mismatches((outer, inner), read):
            about = kinds.PAIR_UNLIKE.of(*axle.subject, side)
            ledger.find(Finding(kinds.PAIR_UNLIKE, about, {"mismatch": mismatch}))
    needed = minimum_dual_spacing(axle.tires.size) if axle.tires.size else None
    spacing = axle.wheels.dual_spacing
    if needed is not None and spacing is not None and spacing < needed:
        facts: dict[str, Fact] = {"spacing": spacing, "needed": needed}
        ledger.find(Finding(kinds.DUALS_TOO_CLOSE, kinds.DUALS_TOO_CLOSE.of(*axle.subject), facts))
    elif spacing is None:
        ledger.find(
            Finding(kinds.DUAL_SPACING_UNKNOWN, kinds.DUAL_SPACING_UNKNOWN.of(*axle.subject), axle.fitted)
        )


def _mismatches(pair: tuple[MountedTire, MountedTire], read: Iterable[Quantity | None]) -> tuple[str, ...]:
    """In what a pair differs: as the profile has it, and by what the log read of one or of both."""
    as_written = [PairedTire(one.diameter, one.circumference, one.tread) for one in pair]
    as_read = [one._replace(tread=tread or one.tread) for one, tread in zip(as_written, read, strict=True)]
    return tuple(dict.fromkeys((*dual_mismatches(*as_written), *dual_mismatches(*as_read))))


def doubts_of(axle: TireAxle) -> tuple[TableDoubt, ...]:
    """Doubts about the typed load table of an axle's fitment."""
    if axle.table is None:
        return ()
    stamp = Stamp(axle.tires.sidewall.maximum_pressure, axle.stamped_load)
    found = list(table_doubts(axle.table, stamp, axle.tires.family))
    single = axle.table_for("single")
    if axle.is_dual and single is not None:
        found += dual_doubts(single, axle.table)
    return tuple(found)


def _table_of_another_size(axle: TireAxle) -> Iterator[Finding]:
    table, about = axle.tires.table, ROW_PRESSURE.of(*axle.subject)
    if table is None:
        return
    if table.size is None:
        yield Finding(kinds.TABLE_SIZE_UNKNOWN, about, axle.fitted)
    elif axle.is_table_of_another_size:
        yield Finding(
            kinds.TABLE_OTHER_SIZE, about, {**axle.fitted, "table": table.size, "size": axle.tires.size}
        )


def _find_doubt(axle: TireAxle, doubt: TableDoubt, ledger: Ledger) -> None:
    row = None if doubt.row is None else doubt.row.pressure
    facts: dict[str, Fact] = {"doubt": doubt.doubt.value, "row": row}
    about = ROW_PRESSURE.of(*axle.subject)
    ledger.find(Finding(kinds.TABLE_DOUBTED, about, facts, "" if row is None else "row"))


def _assess_spare(subject: tuple[str, str], tires: Tires, day: date, tread: _Tread, ledger: Ledger) -> None:
    """A spare that is too old is no reason to stay, but none to count on it either."""
    _, position = subject
    spare = tires.mounted[position]
    made, age, code = _age(spare, position, day)
    facts: dict[str, Fact] = {"code": made.code.value}
    ledger.enter(Figure(kinds.SPARE_MADE.of(*subject), made.week_begins, (code,), facts=facts))
    key = kinds.SPARE_AGE.of(*subject)
    ledger.enter(Figure(key, age, (code,), facts={"day": day}))
    inputs = tread.inputs if tread.case else ()
    ledger.enter(Figure(kinds.SPARE_TREAD.of(*subject), tread.value, inputs, tread.case, tread.facts))
    if age is None:
        ledger.find(Finding(kinds.SPARE_AGE_UNKNOWN, key))
        return
    verdict, _ = _verdict(tires, age, is_steering=False)
    if verdict in {"out", "past its practice age"}:
        ledger.find(Finding(kinds.SPARE_PAST_ITS_AGE, key, {"value": age}))
    elif verdict == "inspect yearly":
        ledger.find(Finding(kinds.SPARE_INSPECT_YEARLY, key, {"value": age}))
