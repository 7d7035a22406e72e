"""Tires that share an axle or a pair: matching, tread, spacing, readings; and age by the date code."""

from datetime import date
from enum import Enum
from functools import cache
from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.bounds import is_at_least
from binder.quantities import Length, Pressure, Time, checks_dimensions, registry
from binder.reference.constants import COLD_MATES, HOT_MATES_SHARE
from binder.reference.sources import rows_of_table

Mismatch: TypeAlias = Literal["diameter", "circumference", "tread", "pressure"]

_DIAMETER = registry.Quantity(0.25, "inch")  # S45, S48.
_CIRCUMFERENCE = registry.Quantity(0.75, "inch")  # S45.
_TREAD = registry.Quantity(4 / 32, "inch")  # S48.
_STEER_TREAD = registry.Quantity(4 / 32, "inch")  # 49 CFR 393.75.
_OTHER_TREAD = registry.Quantity(2 / 32, "inch")  # 49 CFR 393.75.


class PairedTire(NamedTuple):
    """What was measured on one tire of a dual pair; None where it was not."""

    diameter: Length | None = None
    circumference: Length | None = None
    tread: Length | None = None
    cold_pressure: Pressure | None = None


def dual_mismatches(one: PairedTire, mate: PairedTire) -> tuple[Mismatch, ...]:
    """In what two tires of a pair differ too much to run together.

    Args:
        one: of the pair.
        mate: of the pair.
    Returns: The measures that differ by more than the limit; a measure not taken on both is not judged.
    Sources: S45; S48.

    >>> deep, worn = (PairedTire(tread=q(n / 32, "inch")) for n in (11, 6))
    >>> dual_mismatches(deep, worn)
    ('tread',)
    """
    measures: tuple[tuple[Mismatch, Length | None, Length | None, Length], ...] = (
        ("diameter", one.diameter, mate.diameter, _DIAMETER),
        ("circumference", one.circumference, mate.circumference, _CIRCUMFERENCE),
        ("tread", one.tread, mate.tread, _TREAD),
        ("pressure", one.cold_pressure, mate.cold_pressure, COLD_MATES.quantity),
    )
    return tuple(
        name
        for name, first, second, limit in measures
        if first is not None and second is not None and not is_at_least(limit, abs(first - second))
    )


def tread_floor(*, is_steering: bool) -> Length:
    """Least depth of tread.

    Args:
        is_steering: on a steering axle of a motor vehicle.
    Returns: 4/32 in on a steering axle, 2/32 in elsewhere [length].
    Sources: 49 CFR 393.75; S53.

    >>> f"{tread_floor(is_steering=True):.3f}"
    '0.125 inch'
    """
    return _STEER_TREAD if is_steering else _OTHER_TREAD


@checks_dimensions
def is_worn_out(tread: Length, floor: Length) -> bool:
    """Tell whether a tread is under its floor; equal is still allowed.

    Args:
        tread: measured, at its shallowest [length].
        floor: least depth [length].
    Returns: True where the tire must not be driven on.
    Sources: 49 CFR 393.75.

    >>> is_worn_out(q(4 / 32, "inch"), tread_floor(is_steering=True))
    False
    """
    return not is_at_least(tread, floor)


@cache
def _spacings() -> dict[str, float]:
    rows = rows_of_table("rim_and_dual_spacing")
    return {row["size"]: float(row["min_dual_spacing_in"]) for row in rows}


def minimum_dual_spacing(size: str) -> Length | None:
    """Least distance between the centers of two tires of a pair.

    Args:
        size: as in the table, such as ``295/75R22.5``.
    Returns: The distance [length]; None where the size is not in the table.
    Sources: S45.

    >>> f"{minimum_dual_spacing('295/75R22.5'):.1f}"
    '13.2 inch'
    """
    value = _spacings().get(size)
    return None if value is None else registry.Quantity(value, "inch")


@checks_dimensions
def hot_mates_apart(set_point: Pressure) -> Pressure:
    """How far apart two hot tires of one axle may read: from there on one leaks or a brake drags.

    Args:
        set_point: cold, of the axle; a hot reading is higher, so that this tells early [pressure].
    Returns: A tenth of it [pressure].
    Sources: practice.

    >>> f"{hot_mates_apart(q(105, 'psi')):.1f}"
    '10.5 psi'
    """
    apart: Pressure = set_point * HOT_MATES_SHARE.quantity.to("").m
    return apart


AgeVerdict: TypeAlias = Literal["fit", "inspect yearly", "past its practice age", "out"]

_FIRST_YEAR = 2000  # Four digits since 2000: S36, S52.
_INSPECT_FROM = registry.Quantity(5.0, "year")  # S50.
_OUT_AT_LATEST = registry.Quantity(10.0, "year")  # S50.
_SPECIAL_TRAILER_OUT = registry.Quantity(6.0, "year")  # Practice.
_STEER_OUT = registry.Quantity(7.0, "year")  # Practice.
_OLD_LENGTH, _NEW_LENGTH = 3, 4  # Digits of the code before and since 2000: S36, S52.


class DateCode(Enum):
    """How a date code reads."""

    DATED = "week and year"
    BEFORE_2000 = "three digits: made before 2000, replace"
    NOT_FOUND = "no code"
    IMPOSSIBLE = "not a week and year"


class Made(NamedTuple):
    """When a tire was made: the first day of its week, where the code gives one."""

    code: DateCode
    week_begins: date | None = None


def made_from_date_code(code: str | None) -> Made:
    """Read a date code.

    Args:
        code: the last digits of the tire identification number; None or empty where not found.
    Returns: How it reads, and the Monday of the week for a four-digit code.
    Sources: S36; S52; 49 CFR 574.5.

    >>> made_from_date_code("2800").week_begins, made_from_date_code("031").code.name
    (datetime.date(2000, 7, 10), 'BEFORE_2000')
    """
    if code is None or not code.strip():
        return Made(DateCode.NOT_FOUND)
    digits = code.strip()
    if not (digits.isascii() and digits.isdigit()) or len(digits) not in (_OLD_LENGTH, _NEW_LENGTH):
        return Made(DateCode.IMPOSSIBLE)
    week = int(digits[:2])
    try:
        begins = date.fromisocalendar(_FIRST_YEAR + int(digits[2:]), week, 1)
    except ValueError:
        # A week 53 is stamped in years whose calendar has 52; it is the last week all the same.
        return _last_week(digits)
    return Made(DateCode.BEFORE_2000) if len(digits) == _OLD_LENGTH else Made(DateCode.DATED, begins)


def _last_week(digits: str) -> Made:
    if digits[:2] != "53":
        return Made(DateCode.IMPOSSIBLE)
    if len(digits) == _OLD_LENGTH:
        return Made(DateCode.BEFORE_2000)
    return Made(DateCode.DATED, date.fromisocalendar(_FIRST_YEAR + int(digits[2:]), 52, 1))


def age_on(made: date, day: date) -> Time | None:
    """Age of a tire on a day, from the first day of the week it was made in.

    Args:
        made: first day of the week.
        day: on which the age is wanted.
    Returns: The age [time]; None where the tire is not made yet, so that one of the two is wrong.
    Sources: arithmetic.

    >>> f"{age_on(date(2020, 1, 6), date(2026, 1, 6)).to('year'):.1f}"
    '6.0 year'
    """
    days = (day - made).days
    return None if days < 0 else registry.Quantity(float(days), "day")


def default_out_age(*, is_special_trailer: bool, is_steering: bool) -> Time:
    """Age at which a tire is replaced where the owner named none.

    Args:
        is_special_trailer: an ST tire.
        is_steering: on a steering axle.
    Returns: 6 years for ST, 7 in steering, else 10 [time].
    Sources: practice (6 and 7); S50 (10 at the latest).

    >>> f"{default_out_age(is_special_trailer=False, is_steering=True):.0f}"
    '7 year'
    """
    if is_special_trailer:
        return _SPECIAL_TRAILER_OUT
    return _STEER_OUT if is_steering else _OUT_AT_LATEST


def latest_age(own: Time | None) -> Time:
    """Age at which a tire must be out.

    Args:
        own: the maker's or the owner's; None where they named none [time].
    Returns: Theirs, and 10 years at the latest [time].
    Sources: S50.

    >>> f"{latest_age(None):.0f}"
    '10 year'
    """
    return min(own or _OUT_AT_LATEST, _OUT_AT_LATEST)


@checks_dimensions
def age_verdict(age: Time, own: Time | None, practice: Time) -> AgeVerdict:
    """What a tire's age asks for.

    Args:
        age: on the day [time].
        own: the maker's or the owner's age for replacing; 10 years holds where it is later [time].
        practice: the age of practice, which only asks for attention, where they named none [time].
    Returns: Fit, inspect yearly from 5 years, past its practice age, or out.
    Sources: S50; practice (an earlier age).

    >>> age_verdict(q(6, "year"), q(7, "year"), q(7, "year"))
    'inspect yearly'
    """
    if age >= latest_age(own):
        return "out"
    if own is None and age >= practice:
        return "past its practice age"
    return "inspect yearly" if age >= _INSPECT_FROM else "fit"
