"""The other system of units, small beside a value: for a gauge, a sign or a helper that reads that one."""

from collections.abc import Mapping

from binder.assessment.measures import MEASURES, Measure, Printed, Rounding, System, length_text, number_text
from binder.cards.as_written import as_written
from binder.quantities import MASS, PRESSURE, SPEED, TORQUE, VOLUME, Dimension, Quantity

_OTHER: Mapping[System, System] = {"us": "metric", "metric": "us"}
# Beside another value a coarse step would show a difference that is none: 105 psi are 724 and not 725 kPa.
_FINE: Mapping[System, Mapping[Measure, Printed]] = {
    "us": {"volume": Printed("gallon", "gal", 0.1, 1)},
    "metric": {"volume": Printed("liter", "L", 0.1, 1), "pressure": Printed("kilopascal", "kPa")},
}
_US_UNITS = {
    "pound",
    "psi",
    "gallon",
    "quart",
    "pint",
    "fluid_ounce",
    "mile_per_hour",
    "foot * pound_force",
    "inch * pound_force",
}
_MEASURES: tuple[tuple[Dimension, Measure, Rounding], ...] = (
    (MASS, "weight", "down"),
    (PRESSURE, "pressure", "down"),
    (VOLUME, "volume", "down"),
    (SPEED, "speed", "down"),
    (TORQUE, "torque", "nearest"),
)


def beside(quantity: Quantity | None, measure: Measure, rounding: Rounding, system: System) -> str:
    """Write a quantity in the system the rig is not printed in.

    Args:
        quantity: None where it is not known [any].
        measure: how it is printed [name].
        rounding: the safe direction [name].
        system: the rig's own [name].

    Returns:
        Number and unit of the other system; empty where it is not known.

    Sources:
        Own choice.

    Example:
        >>> from binder.quantities import registry
        >>> beside(registry.Quantity(105, "psi"), "pressure", "up", "us")
        '724 kPa'
    """
    if quantity is None:
        return ""
    other = _OTHER[system]
    printed = _FINE[other].get(measure, MEASURES[other][measure])
    return f"{number_text(quantity, printed, rounding)} {printed.word}"


def length_beside(quantity: Quantity | None, rounding: Rounding, system: System) -> str:
    """Write a length of the rig in the system the rig is not printed in.

    Args:
        quantity: None where it is not known [length].
        rounding: the safe direction [name].
        system: the rig's own [name].

    Returns:
        The length; empty where it is not known.

    Sources:
        Own choice.

    Example:
        >>> from binder.quantities import registry
        >>> length_beside(registry.Quantity(152, "inch"), "up", "us")
        '3.87 m'
    """
    return "" if quantity is None else length_text(quantity, _OTHER[system], rounding)


def both_lengths(quantity: Quantity | None, own: str, system: System) -> str:
    """Set the other system in parentheses after a length that is written already.

    Args:
        quantity: None where it is not known [length].
        own: the length in the rig's system [text].
        system: the rig's own [name].

    Returns:
        Both, or the one text where the length is not known.

    Sources:
        Own choice; rounded up, as the lengths of a rig are.

    Example:
        >>> from binder.quantities import registry
        >>> both_lengths(registry.Quantity(152, "inch"), "12 ft 8 in", "us")
        '12 ft 8 in (3.87 m)'
    """
    other = length_beside(quantity, "up", system)
    return f"{own} ({other})" if other else own


def both_as_written(quantity: Quantity | None) -> str:
    """Write a limit as its owner wrote it, and the other system in parentheses.

    Args:
        quantity: as the profile holds it, None where it is not known [any].

    Returns:
        Both; a blank where it is not known. What is converted rounds down, as limits do; torque to the
        nearest.

    Sources:
        Own choice: what is written is read against its original, what is converted is for a gauge.

    Example:
        >>> from binder.quantities import registry
        >>> both_as_written(registry.Quantity(1450, "kilogram"))
        '1,450 kg (3,196 lb)'
    """
    written = as_written(quantity)
    if quantity is None:
        return written
    system: System = "us" if str(quantity.units) in _US_UNITS else "metric"
    for dimension, measure, rounding in _MEASURES:
        if dimension.measures(quantity):
            return f"{written} ({beside(quantity, measure, rounding, system)})"
    return written
