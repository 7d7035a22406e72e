"""The tire register: age, tread and matching of every mounted tire, and doubts about the typed table."""

from collections.abc import Iterator
from datetime import date
from typing import Literal

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.loads import StateLoads
from binder.assessment.tire_axle import TireAxle, rolling_tire_axles
from binder.assessment.trip_days import last_day
from binder.calculations.tires.load_curves import Stamp, TableDoubt, dual_doubts, table_doubts
from binder.calculations.tires.pairs_and_age import (
    DateCode,
    Made,
    PairedTire,
    age_on,
    age_verdict,
    default_out_age,
    dual_mismatches,
    is_worn_out,
    made_from_date_code,
    minimum_dual_spacing,
    tread_floor,
)
from binder.models.load import Profile
from binder.models.tires import MountedTire
from binder.quantities import Quantity

_SERVICE = "have a tire service look at it before moving"


def positions_of(axle: TireAxle) -> tuple[str, ...]:
    """Names of the tire positions of an axle, outer before inner."""
    name = axle.axle_name
    if not axle.is_dual:
        return (f"{name} left", f"{name} right")
    return (f"{name} left outer", f"{name} left inner", f"{name} right inner", f"{name} right outer")


def assess_register(profile: Profile, on: date, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter age and tread of every mounted tire, and the findings of the register."""
    day = last_day(profile, on)[0]
    for axle in rolling_tire_axles(profile.rig, states):
        for position in positions_of(axle):
            mounted = axle.tires.mounted.get(position)
            _assess_one(axle, position, mounted or MountedTire(), day, ledger)
        if axle.is_dual:
            _assess_pairs(axle, ledger)
        for finding in _table_findings(axle):
            ledger.find(finding)


def _assess_one(axle: TireAxle, position: str, tire: MountedTire, day: date, ledger: Ledger) -> None:
    key = f"{axle.key}.{position}".replace(" ", "_")
    made = made_from_date_code(tire.date_code)
    age = age_on(made.week_begins, day) if made.week_begins else None
    code = Input("date code", tire.date_code or "not found", f"rig.yaml tires, mounted, {position}")
    rule = f"First day of the week in the date code; {made.code.value}."
    ledger.add(Figure(f"{key}.made", made.week_begins, "stated by a maker", rule, "S36; S52", (code,)))
    ledger.add(
        Figure(
            f"{key}.age",
            age,
            "calculated",
            f"Age on {day}, the last day this must hold.",
            "S36; S50",
            (code,),
        )
    )
    floor = tread_floor(is_steering=axle.is_steering)
    ledger.add(
        Figure(
            f"{key}.tread",
            tire.tread,
            "measured",
            f"Groove depth; at least {axle.wording.tread(floor, 'up')} on this axle.",
            "49 CFR 393.75",
            (Input("tread", _tread(axle, tire.tread), f"rig.yaml tires, mounted, {position}"),),
        )
    )
    name = f"{axle.vehicle_name}, {position}"
    for finding in [*_age_findings(axle, name, key, made, age), *_wear_findings(axle, position, tire, floor)]:
        ledger.find(finding)


def _tread(axle: TireAxle, tread: Quantity | None) -> str:
    return "not known" if tread is None else axle.wording.tread(tread)


def _age_findings(axle: TireAxle, name: str, key: str, made: Made, age: Quantity | None) -> Iterator[Finding]:
    if made.code is DateCode.NOT_FOUND:
        yield Finding(
            "missing", 5, f"{key}.age", f"{name}: date code not found", "read the last digits on both sides"
        )
    elif made.code is DateCode.IMPOSSIBLE or (made.week_begins and age is None):
        text = f"{name}: its date code is no week and year before today"
        yield Finding("attention", 5, f"{key}.age", text, "read it again off the tire")
    elif made.code is DateCode.BEFORE_2000:
        yield Finding("do not drive", 5, f"{key}.age", f"{name}: made before 2000", "replace it")
    if age is None:
        return
    is_trailer_tire = axle.tires.family == "special trailer"
    default = default_out_age(is_special_trailer=is_trailer_tire, is_steering=axle.is_steering)
    out = axle.tires.replace_after or default
    verdict = age_verdict(age, out)
    years = f"{age.to('year').m:.1f}"
    if verdict == "out":
        text = f"{name}: {years} years old, past its age of {out.to('year').m:g}"
        yield Finding("do not drive", 5, f"{key}.age", text, "replace it")
    elif verdict == "inspect yearly":
        yield Finding(
            "attention", 5, f"{key}.age", f"{name}: {years} years old", "have it inspected every year"
        )


def _wear_findings(axle: TireAxle, position: str, tire: MountedTire, floor: Quantity) -> Iterator[Finding]:
    name, key = f"{axle.vehicle_name}, {position}", f"{axle.key}.{position}".replace(" ", "_")
    if tire.damage:
        yield Finding("do not drive", 5, f"{key}.tread", f"{name}: {tire.damage}", _SERVICE)
    if tire.tread is None:
        yield Finding(
            "missing", 5, f"{key}.tread", f"{name}: tread not known", "measure it in the shallowest groove"
        )
    elif is_worn_out(tire.tread, floor):
        text = f"{name}: tread {_tread(axle, tire.tread)} is under {axle.wording.tread(floor, 'up')}"
        yield Finding("do not drive", 5, f"{key}.tread", text, "replace it")


def _assess_pairs(axle: TireAxle, ledger: Ledger) -> None:
    sides: tuple[Literal["left", "right"], ...] = ("left", "right")
    for side in sides:
        outer, inner = (
            axle.tires.mounted.get(f"{axle.axle_name} {side} {place}", MountedTire())
            for place in ("outer", "inner")
        )
        for mismatch in dual_mismatches(_paired(outer), _paired(inner)):
            text = f"{axle.name}: the {side} pair does not match: {mismatch}"
            ledger.find(Finding("do not drive", 5, f"{axle.key}.{side}_pair", text, "have the pair matched"))
    needed = minimum_dual_spacing(axle.tires.size) if axle.tires.size else None
    spacing = axle.wheels.dual_spacing
    if needed is not None and spacing is not None and spacing < needed:
        text = f"{axle.name}: duals stand {spacing:g~P} apart, this size needs {needed:g~P}"
        ledger.find(Finding("attention", 5, f"{axle.key}.dual_spacing", text, _SERVICE))
    elif spacing is None:
        text = f"{axle.name}: spacing of the duals not known"
        ledger.find(Finding("missing", 5, f"{axle.key}.dual_spacing", text, "measure between tread centers"))


def _paired(tire: MountedTire) -> PairedTire:
    return PairedTire(tire.diameter, tire.circumference, tire.tread)


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


def _table_findings(axle: TireAxle) -> Iterator[Finding]:
    for doubt in doubts_of(axle):
        if doubt.is_problem:
            continue
        place = "" if doubt.row is None else f" at {axle.wording.pressure(doubt.row.pressure, 'nearest')}"
        yield Finding(
            "attention",
            5,
            f"{axle.key}.row_pressure",
            f"{axle.name}: the typed load table{place}: {doubt.doubt.value}",
            "read it against the maker's book; it may be a typing error",
        )
