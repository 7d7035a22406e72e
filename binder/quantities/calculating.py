"""What calculations do with quantities: check their dimensions, take plain numbers of them, round those.

Plain numbers are for loops that ask thousands of times.
"""

import math
from collections.abc import Callable, Iterable
from functools import cache, wraps
from inspect import signature
from typing import ParamSpec, TypeVar, get_type_hints

from binder.quantities.dimensions import Dimension, Quantity, is_quantity, registry

_Parameters = ParamSpec("_Parameters")
_Result = TypeVar("_Result")


def _dimension_of(annotation: object) -> Dimension | None:
    return next(
        (item for item in getattr(annotation, "__metadata__", ()) if isinstance(item, Dimension)), None
    )


def checks_dimensions(function: Callable[_Parameters, _Result]) -> Callable[_Parameters, _Result]:
    """Refuse a call whose arguments do not have the dimensions the annotations state.

    Args:
        function: the calculation to guard.
    Returns: The same calculation; a wrong dimension raises ``TypeError``, since it is a bug of ours.

    >>> from binder.quantities import Mass, registry
    >>> @checks_dimensions
    ... def half(load: Mass) -> Mass:
    ...     return load / 2
    >>> half(q(2, 'psi'))
    Traceback (most recent call last):
    ...
    TypeError: half: load must be a weight, not 2 psi
    """

    @cache
    def expected() -> tuple[tuple[str, ...], dict[str, Dimension]]:
        # Read at the first call: most calculations are not called in a run, and hints are slow to read.
        hints = get_type_hints(function, include_extras=True)
        needed = {name: dimension for name, hint in hints.items() if (dimension := _dimension_of(hint))}
        return tuple(signature(function).parameters), needed

    @wraps(function)
    def guarded(*args: _Parameters.args, **kwargs: _Parameters.kwargs) -> _Result:
        names, needed = expected()
        for name, value in (*zip(names, args, strict=False), *kwargs.items()):
            if name in needed and not (is_quantity(value) and needed[name].measures(value)):
                raise TypeError(f"{function.__name__}: {name} must be {needed[name].words}, not {value}")
        return function(*args, **kwargs)

    return guarded


@cache
def _factor(unit_items: Iterable[tuple[str, float]], wanted: str) -> float:
    # The items of a unit are quicker to look up than the unit.
    unit = registry.Unit(registry.UnitsContainer(dict(unit_items)))
    if registry.Quantity(0.0, unit).m_as(wanted) != 0.0:
        raise ValueError(f"{unit} to {wanted} is no mere factor")
    return float(registry.Quantity(1.0, unit).m_as(wanted))


def number_in(quantity: Quantity, unit: str) -> float:
    """Number of units in a quantity: ``m_as``, with the factor between two units worked out once.

    Args:
        quantity: of any dimension but temperature, whose scales differ by more than a factor [any].
        unit: the unit wanted, as pint names it [name].
    Returns: The number.
    Raises: ValueError: the two scales differ by more than a factor.
    Sources: arithmetic.

    >>> number_in(q(2.0, "foot"), "inch")
    24.0
    """
    return float(quantity.m) * _factor(tuple(quantity.unit_items()), unit)


def round_up(value: float, step: float = 1.0) -> float:
    """Round up to a multiple of a step.

    Args:
        value: the number to round [any].
        step: the step, more than zero [same as value].
    Returns: The smallest multiple of the step that is not below the value.
    Sources: Arithmetic; a billionth of a step is forgiven so that 95.0000000001 stays 95.

    >>> round_up(95.2), round_up(96.1, 5.0)
    (96.0, 100.0)
    """
    return math.ceil(value / step - 1e-9) * step


def round_down(value: float, step: float = 1.0) -> float:
    """Round down to a multiple of a step.

    Args:
        value: the number to round [any].
        step: the step, more than zero [same as value].
    Returns: The largest multiple of the step that is not above the value.
    Sources: Arithmetic; a billionth of a step is forgiven so that 94.9999999999 is 95.

    >>> round_down(95.8), round_down(99.0, 5.0)
    (95.0, 95.0)
    """
    return math.floor(value / step + 1e-9) * step
