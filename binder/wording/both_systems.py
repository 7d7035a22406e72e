"""The other system of units, small beside a value: for a gauge, a sign or a helper that reads that one."""

from collections.abc import Mapping

from binder.quantities import MASS, PRESSURE, SPEED, TORQUE, VOLUME, Dimension, Quantity
from binder.wording import meanings
from binder.wording.as_written import as_written
from binder.wording.meanings import CAPACITY, PRESSURE_LIMIT, RATING, SIZE, SPEED_LIMIT
from binder.wording.measures import Printed, System, number_text
from binder.wording.numbers import named, quantity_text

_OTHER: Mapping[System, System] = {"us": "metric", "metric": "us"}
# Beside another value a coarse step would show a difference that is none: 105 psi are 724 and not 725 kPa.
_FINE: Mapping[System, Mapping[str, Printed]] = {
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
_LIMITS: tuple[tuple[Dimension, str], ...] = (
    (MASS, RATING),
    (PRESSURE, PRESSURE_LIMIT),
    (VOLUME, CAPACITY),
    (SPEED, SPEED_LIMIT),
    (TORQUE, meanings.TORQUE),
)


def beside(quantity: Quantity | None, meaning: str, system: System) -> str:
    """Write a quantity in the system the rig is not printed in."""
    if quantity is None:
        return ""
    other, (name, rounding) = _OTHER[system], named(meaning)
    fine = _FINE[other].get(name)
    if fine is None:
        return quantity_text(quantity, meaning, other)
    return f"{number_text(quantity, fine, rounding)} {fine.word}"


def both_lengths(quantity: Quantity | None, own: str, system: System) -> str:
    """Set the other system in parentheses after a length that is written already."""
    other = beside(quantity, SIZE, system)
    return f"{own} ({other})" if other else own


def both_as_written(quantity: Quantity | None) -> str:
    """Write a limit as its owner wrote it, and the other system in parentheses."""
    written = as_written(quantity)
    if quantity is None:
        return written
    system: System = "us" if str(quantity.units) in _US_UNITS else "metric"
    for dimension, meaning in _LIMITS:
        if dimension.measures(quantity):
            return f"{written} ({beside(quantity, meaning, system)})"
    return written
