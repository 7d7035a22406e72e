"""Where the three warning devices go behind, and ahead of, a rig that cannot move."""

import math
from typing import Literal, NamedTuple, TypeAlias

from binder.quantities import Length, checks_dimensions, registry

Road: TypeAlias = Literal["two-way", "divided"]

PACE = registry.Quantity(2.5, "foot")  # practice: an ordinary step.


class WarningDevice(NamedTuple):
    """One device: how far off, and whether ahead of the first vehicle or behind the last one."""

    distance: Length
    side: Literal["ahead", "behind"]


# 49 CFR 392.22(b)(1) for a two-way road, (b)(2)(v) for a divided or one-way road, in feet.
_PLACES: dict[Road, tuple[tuple[float, Literal["ahead", "behind"]], ...]] = {
    "two-way": ((10.0, "behind"), (100.0, "behind"), (100.0, "ahead")),
    "divided": ((10.0, "behind"), (100.0, "behind"), (200.0, "behind")),
}


def warning_devices(road: Road) -> tuple[WarningDevice, ...]:
    """Places of the three warning devices.

    Args:
        road: with traffic both ways, or divided or one-way [name].

    Returns:
        The devices; those behind are counted from the rear of the last vehicle [length].

    Sources:
        49 CFR 392.22 ((b)(1), (b)(2)(v)).

    Example:
        >>> [f"{device.distance:.0f} {device.side}" for device in warning_devices("divided")]
        ['10 foot behind', '100 foot behind', '200 foot behind']
    """
    return tuple(WarningDevice(registry.Quantity(feet, "foot"), side) for feet, side in _PLACES[road])


@checks_dimensions
def paces(distance: Length, pace: Length) -> int:
    """Steps that cover at least a distance.

    Args:
        distance: to walk [length].
        pace: one step, more than zero [length].

    Returns:
        The whole number of steps.

    Raises:
        ValueError: the pace is not more than zero.

    Sources:
        arithmetic.

    Example:
        >>> paces(registry.Quantity(100, "foot"), PACE)
        40
    """
    if pace.magnitude <= 0:
        raise ValueError("a pace must be longer than nothing")
    return math.ceil(float((distance / pace).to("").magnitude) - 1e-9)
