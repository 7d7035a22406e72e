"""Figures and findings as plain data, for numbers.json and for other programs."""

from datetime import date, datetime
from typing import TypeAlias

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure, Value
from binder.assessment.measures import System
from binder.quantities import (
    LENGTH,
    MASS,
    PRESSURE,
    SPEED,
    TEMPERATURE,
    TORQUE,
    VOLUME,
    Dimension,
    Quantity,
    is_quantity,
)

Plain: TypeAlias = "dict[str, Plain] | list[Plain] | str | float | None"

# Short names of units, as people write them in the profile.
_UNITS = {
    "pound": "lb",
    "kilogram": "kg",
    "psi": "psi",
    "kilopascal": "kPa",
    "bar": "bar",
    "inch": "in",
    "foot": "ft",
    "meter": "m",
    "mile": "mi",
    "kilometer": "km",
    "degree_Fahrenheit": "degF",
    "degree_Celsius": "degC",
    "hour": "h",
    "minute": "min",
    "day": "day",
    "year": "year",
    "gallon": "gal",
    "liter": "L",
    "percent": "%",
    "ampere_hour": "Ah",
    "kilowatt": "kW",
    "kilowatt_hour": "kWh",
    "mile_per_hour": "mph",
    "kilometer_per_hour": "km/h",
    "": "",
}
_UNITS |= {
    "millimeter": "mm",
    "delta_degree_Fahrenheit": "delta_degF",
    "kelvin": "delta_degC",
    "foot * pound_force": "ft*lb",
    "newton * meter": "N*m",
}
# Of each dimension: the unit of a US rig and of a metric one.
_BY_DIMENSION: tuple[tuple[Dimension, str, str], ...] = (
    (MASS, "pound", "kilogram"),
    (PRESSURE, "psi", "kilopascal"),
    (VOLUME, "gallon", "liter"),
    (SPEED, "mile_per_hour", "kilometer_per_hour"),
    (TORQUE, "foot * pound_force", "newton * meter"),
)
_BY_LENGTH = {
    "mile": ("mile", "kilometer"),
    "kilometer": ("mile", "kilometer"),
    "foot": ("foot", "meter"),
    "meter": ("foot", "meter"),
    "inch": ("inch", "meter"),
    "centimeter": ("inch", "meter"),
    "millimeter": ("inch", "millimeter"),
}
_DIGITS = 10  # Far beyond any measurement, short of the noise of binary arithmetic.


def assessment_record(assessment: Assessment) -> dict[str, Plain]:
    """Every figure and finding of an assessment as plain data."""
    return {
        "rig": assessment.rig.name,
        "trip": assessment.trip.name if assessment.trip else "",
        "date": assessment.on.isoformat(),
        "figures": {
            key: _figure(figure, assessment.rig.units)
            for key, figure in sorted(assessment.ledger.figures.items())
        },
        "findings": [
            {"grade": found.grade, "key": found.key, "text": found.text, "what_helps": found.what_helps}
            for found in assessment.findings
        ],
    }


def _figure(figure: Figure, units: System) -> dict[str, Plain]:
    value, unit = plain_value(figure.value, units)
    return {
        "value": value,
        "unit": unit,
        "kind": figure.kind,
        "inputs": [{"name": one.name, "text": one.text, "origin": one.origin} for one in figure.inputs],
        "rule": figure.rule,
        "source": figure.source,
        "cautions": list(figure.cautions),
        "slack": figure.slack,
    }


def in_rig_units(value: Quantity, units: System) -> Quantity:
    """Convert a quantity to the unit a rig is recorded in, by what it measures."""
    chosen = 0 if units == "us" else 1
    if str(value.units) == "kilowatt_hour":
        return value  # A torque to the dimension, and no torque.
    if LENGTH.measures(value):
        pair = _BY_LENGTH.get(str(value.units))
        return value if pair is None else value.to(pair[chosen])
    if TEMPERATURE.measures(value):
        # A difference has no zero to shift.
        pair = (
            ("delta_degree_Fahrenheit", "kelvin")
            if str(value.units).startswith("delta_")
            else ("degree_Fahrenheit", "degree_Celsius")
        )
        return value.to(pair[chosen])
    for dimension, *both in _BY_DIMENSION:
        if dimension.measures(value):
            return value.to(both[chosen])
    return value


def plain_value(value: Value, units: System) -> tuple[float | str | None, str]:
    """Value of a figure as a number or text, and its unit."""
    if is_quantity(value):
        value = in_rig_units(value, units)
        unit = str(value.units)
        unit = "" if unit == "dimensionless" else unit
        magnitude = float(value.magnitude)
        if unit not in _UNITS:
            unit = unit.replace(" ", "")
        return round(magnitude, _DIGITS), _UNITS.get(unit, unit)
    if isinstance(value, datetime):
        return value.isoformat(timespec="minutes"), ""
    if isinstance(value, date):
        return value.isoformat(), ""
    return value, ""
