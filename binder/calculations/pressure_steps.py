"""Comparing and rounding quantities: exact at equality, and to what a gauge and a card can show."""

from binder.quantities import Pressure, Quantity, checks_dimensions, registry, round_down, round_up

# Two figures a maker means to be equal differ in the last bits after a unit conversion.
_RELATIVE_TOLERANCE = 1e-9


def is_at_least(value: Quantity, limit: Quantity) -> bool:
    """Tell whether a value reaches a limit; equal is enough, whatever the units.

    Args:
        value: the value [any].
        limit: what it is held against [same as value].

    Returns:
        True where it is equal or more, to a billionth.

    Sources:
        arithmetic.

    Example:
        >>> from binder.quantities import registry
        >>> is_at_least(registry.Quantity(1880, "pound"), registry.Quantity(1880 * 0.45359237, "kg"))
        True
    """
    if value.units == limit.units:
        here, there = float(value.m), float(limit.m)
    else:
        here, there = float(value.to_root_units().m), float(limit.to_root_units().m)
    return here >= there - abs(there) * _RELATIVE_TOLERANCE


@checks_dimensions
def rounded_up(pressure: Pressure, step: Pressure) -> Pressure:
    """Lowest pressure a card shows that is not below the given one.

    Args:
        pressure: to be shown [pressure].
        step: of the printed unit, such as 1 psi or 5 kPa [pressure].

    Returns:
        A whole number of steps, in the step's unit [pressure].

    Sources:
        arithmetic.

    Example:
        >>> from binder.quantities import registry
        >>> f"{rounded_up(registry.Quantity(80, 'psi'), registry.Quantity(5, 'kPa')):.0f}"
        '555 kilopascal'
    """
    return registry.Quantity(round_up(pressure.to(step.units).m, step.m), step.units)


@checks_dimensions
def rounded_down(pressure: Pressure, step: Pressure) -> Pressure:
    """Highest pressure a card shows that is not above the given one.

    Args:
        pressure: to be shown [pressure].
        step: of the printed unit, such as 1 psi or 5 kPa [pressure].

    Returns:
        A whole number of steps, in the step's unit [pressure].

    Sources:
        arithmetic.

    Example:
        >>> from binder.quantities import registry
        >>> f"{rounded_down(registry.Quantity(552, 'kPa'), registry.Quantity(1, 'psi')):.0f}"
        '80 psi'
    """
    return registry.Quantity(round_down(pressure.to(step.units).m, step.m), step.units)
