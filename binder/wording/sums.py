"""Terms of a sum, written so that what is printed adds up to what is printed."""

from collections.abc import Callable, Mapping, Sequence

from binder.quantities import Quantity, number_in, registry
from binder.wording.measures import PLACE, Style, days_text, number_text, rounded
from binder.wording.numbers import bare_number, named, share_text

_FINEST = 4
"""Digits after the point at which what does not add up is told as it is."""


def _finely(
    values: Sequence[float], redo: Callable[[Sequence[float]], float], says: Callable[[float], str]
) -> tuple[str, ...]:
    """Numbers to a tenth, or as finely as it takes for what is done with them to say the same."""
    texts: tuple[str, ...] = ()
    for digits in range(1, _FINEST + 1):
        texts = tuple(f"{rounded(value, 10.0**-digits, 'nearest'):,.{digits}f}" for value in values)
        told = redo([float(text.replace(",", "")) for text in texts])
        if says(round(told, _FINEST + 2)) == says(redo(values)):
            break
    return texts


def summed(
    parts: Sequence[Quantity],
    measure: str,
    style: Style,
    redo: Callable[[Sequence[float]], float] = sum,
) -> tuple[str, ...]:
    """Parts to a tenth, or as finely as it takes for a person to come to the result as it is printed.

    ``measure`` is the result's, with its direction; ``redo`` is what the person does with the numbers.
    """
    name, rounding = named(measure)
    printed = style.printed(name)

    def says(value: float) -> str:
        return number_text(registry.Quantity(value, printed.unit), printed, rounding)

    return _finely([number_in(part, printed.unit) for part in parts], redo, says)


def days_told(held: Quantity, a_day: Quantity, measure: str, style: Style) -> tuple[str, ...]:
    """What there is and what is used of it a day, for a person to come to the days as they are printed."""
    printed = style.printed(measure)
    values = [number_in(held, printed.unit), number_in(a_day, printed.unit)]
    if not values[1]:
        return (f"{values[0]:,.1f} {printed.word}", f"0 {printed.word}")
    texts = _finely(values, lambda v: v[0] / v[1], lambda days: days_text(registry.Quantity(days, "day")))
    return tuple(f"{text} {printed.word}" for text in texts)


def range_told(held: Quantity, reserve: Quantity, left: Quantity, style: Style) -> tuple[str, ...]:
    """What is held, the reserve, and how far each measure goes, to come to how far what is between goes."""
    volume, way = style.printed("volume"), style.printed("distance")
    there, kept = number_in(held, volume.unit), number_in(reserve, volume.unit)
    far = number_in(left, way.unit) / (there - kept) if there != kept else 0.0

    def says(miles: float) -> str:
        return number_text(registry.Quantity(miles, way.unit), way, "down")

    return _finely([there, kept, far], lambda v: (v[0] - v[1]) * v[2], says)


def share_told(part: Quantity, whole: Quantity, measure: str, style: Style) -> tuple[str, ...]:
    """A part and the whole, for a person to come to the share as it is printed, rounded up."""
    printed = style.printed(named(measure)[0])
    values = [number_in(one, printed.unit) for one in (part, whole)]
    texts = _finely(values, lambda v: v[0] / v[1], lambda share: share_text(share, "up"))
    return tuple(f"{text} {printed.word}" for text in texts)


def moves_told(
    before: Quantity, after: Quantity, moved: Mapping[str, Quantity], measure: str, style: Style
) -> dict[str, str]:
    """What was filled, dumped, spilled and used, for a person to come from a level as printed to the next.

    What is used takes up the rounding, or what is filled where nothing is used.
    """
    name, rounding = named(measure)
    printed = style.printed(name)
    last, now = (rounded(number_in(one, printed.unit), printed.step, rounding) for one in (before, after))
    steps = {
        what: rounded(number_in(one, printed.unit), printed.step, "nearest") for what, one in moved.items()
    }
    gone = sum(steps.get(what, 0.0) for what in ("dumped", "spilled"))
    left = last + steps.get("filled", 0.0) - gone - now
    if "used" in steps:
        steps["used"] = max(0.0, left)
    if "filled" in steps and (left < 0 or "used" not in steps):
        steps["filled"] -= left
    return {what: f"{step:,.{printed.decimals}f} {printed.word}" for what, step in steps.items() if step > 0}


def power_of_weight(style: Style) -> float:
    """By what weight times speed, as they are printed, is divided to give power as it is printed."""
    weight, speed, power = (style.printed(name).unit for name in ("weight", "speed", "power"))
    one = registry.Quantity(1.0, weight) * registry.Quantity(1.0, "standard_gravity")
    return 1 / number_in(one * registry.Quantity(1.0, speed), power)


def arm_text(place: Quantity | None, style: Style) -> str:
    """A place or a length between supports, to a tenth where it is no whole number."""
    return bare_number(place, PLACE, style).removesuffix(".0")


def signed(text: str) -> str:
    """A number with its sign, for what is added."""
    return text if text.startswith("-") else f"+{text}"


def share_number(share: float, digits: int = 4) -> str:
    """A share as a plain number, finely enough for a term to a tenth."""
    return f"{share:.{digits}f}"


def plain(count: float) -> str:
    """A factor as short as it is."""
    return f"{count:g}"
