"""Age of a tire from the date code of its tire identification number."""

from datetime import date
from enum import Enum
from typing import Literal, NamedTuple, TypeAlias

from binder.quantities import Time, checks_dimensions, registry

AgeVerdict: TypeAlias = Literal["fit", "inspect yearly", "out"]

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

    Returns:
        How it reads, and the Monday of the week for a four-digit code.

    Sources:
        S36; S52; 49 CFR 574.5.

    Example:
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

    Returns:
        The age [time]; None where the tire is not made yet, so that one of the two is wrong.

    Sources:
        arithmetic.

    Example:
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

    Returns:
        6 years for ST, 7 in steering, else 10 [time].

    Sources:
        practice (6 and 7); S50 (10 at the latest).

    Example:
        >>> f"{default_out_age(is_special_trailer=False, is_steering=True):.0f}"
        '7 year'
    """
    if is_special_trailer:
        return _SPECIAL_TRAILER_OUT
    return _STEER_OUT if is_steering else _OUT_AT_LATEST


@checks_dimensions
def age_verdict(age: Time, out: Time) -> AgeVerdict:
    """What a tire's age asks for.

    Args:
        age: on the day [time].
        out: the owner's age for replacing, or the default; 10 years holds where it is later [time].

    Returns:
        Fit, inspect yearly from 5 years, or out.

    Sources:
        S50; practice (an earlier age).

    Example:
        >>> age_verdict(registry.Quantity(6, "year"), registry.Quantity(7, "year"))
        'inspect yearly'
    """
    if age >= min(out, _OUT_AT_LATEST):
        return "out"
    return "inspect yearly" if age >= _INSPECT_FROM else "fit"
