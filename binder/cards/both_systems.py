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
    """Write a quantity in the system the rig is not printed in."""
    if quantity is None:
        return ""
    other = _OTHER[system]
    printed = _FINE[other].get(measure, MEASURES[other][measure])
    return f"{number_text(quantity, printed, rounding)} {printed.word}"


def length_beside(quantity: Quantity | None, rounding: Rounding, system: System) -> str:
    """Write a length of the rig in the system the rig is not printed in."""
    return "" if quantity is None else length_text(quantity, _OTHER[system], rounding)


def both_lengths(quantity: Quantity | None, own: str, system: System) -> str:
    """Set the other system in parentheses after a length that is written already."""
    other = length_beside(quantity, "up", system)
    return f"{own} ({other})" if other else own


def both_as_written(quantity: Quantity | None) -> str:
    """Write a limit as its owner wrote it, and the other system in parentheses."""
    written = as_written(quantity)
    if quantity is None:
        return written
    system: System = "us" if str(quantity.units) in _US_UNITS else "metric"
    for dimension, measure, rounding in _MEASURES:
        if dimension.measures(quantity):
            return f"{written} ({beside(quantity, measure, rounding, system)})"
    return written
