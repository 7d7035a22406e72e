"""Rounding to a step in the direction asked for."""

import math


def round_up(value: float, step: float = 1.0) -> float:
    """Round up to a multiple of a step.

    Args:
        value: the number to round [any].
        step: the step, more than zero [same as value].

    Returns:
        The smallest multiple of the step that is not below the value.

    Sources:
        Arithmetic; a billionth of a step is forgiven so that 95.0000000001 stays 95.

    Example:
        >>> round_up(95.2), round_up(96.1, 5.0)
        (96.0, 100.0)
    """
    return math.ceil(value / step - 1e-9) * step


def round_down(value: float, step: float = 1.0) -> float:
    """Round down to a multiple of a step.

    Args:
        value: the number to round [any].
        step: the step, more than zero [same as value].

    Returns:
        The largest multiple of the step that is not above the value.

    Sources:
        Arithmetic; a billionth of a step is forgiven so that 94.9999999999 is 95.

    Example:
        >>> round_down(95.8), round_down(99.0, 5.0)
        (95.0, 95.0)
    """
    return math.floor(value / step + 1e-9) * step
