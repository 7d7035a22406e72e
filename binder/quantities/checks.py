"""The check that a calculation gets the dimensions its annotations state."""

from collections.abc import Callable
from functools import cache, wraps
from inspect import signature
from typing import ParamSpec, TypeVar, get_type_hints

from binder.quantities.dimensions import Dimension, is_quantity

_Parameters = ParamSpec("_Parameters")
_Result = TypeVar("_Result")


def _dimension_of(annotation: object) -> Dimension | None:
    return next(
        (item for item in getattr(annotation, "__metadata__", ()) if isinstance(item, Dimension)),
        None,
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
