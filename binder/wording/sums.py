"""Terms of a sum, written so that what is printed adds up to what is printed."""

from collections.abc import Callable, Sequence

from binder.quantities import Quantity, registry
from binder.wording.measures import Style, number_text
from binder.wording.numbers import bare_number, named

_FINEST = 4
"""Digits after the point at which what does not add up is told as it is."""


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
    exact = redo([float(part.to(printed.unit).magnitude) for part in parts])
    texts: tuple[str, ...] = ()
    for digits in range(1, _FINEST + 1):
        fine = printed._replace(step=10.0**-digits, decimals=digits)
        texts = tuple(number_text(part, fine, "nearest") for part in parts)
        told = round(redo([float(text.replace(",", "")) for text in texts]), _FINEST + 2)
        results = [
            number_text(registry.Quantity(one, printed.unit), printed, rounding) for one in (told, exact)
        ]
        if results[0] == results[1]:
            break
    return texts


ARM_OF_SUM = "arm nearest"


def arm_text(place: Quantity | None, style: Style) -> str:
    """A place or a length between supports, to a tenth where it is no whole number."""
    return bare_number(place, ARM_OF_SUM, style).removesuffix(".0")


def signed(text: str) -> str:
    """A number with its sign, for what is added."""
    return text if text.startswith("-") else f"+{text}"


def share_number(share: float) -> str:
    """A share as a plain number, finely enough for a term to a tenth."""
    return f"{share:.4f}"


def plain(count: float) -> str:
    """A factor as short as it is."""
    return f"{count:g}"
