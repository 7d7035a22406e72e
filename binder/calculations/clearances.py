"""Height against what is posted over the road."""

from typing import NamedTuple

from binder.quantities import Length, Quantity, checks_dimensions

# What is written in feet and compared in meters never comes back to the last binary digit.
_NOTHING = 1e-9


class ClearanceRoom(NamedTuple):
    """Room under a posted figure, negative when there is too little; ``passes``: the margin is kept."""

    room: Length
    passes: bool


@checks_dimensions
def height_under_way(at_ride_height: Length, raised: Length | None) -> Length:
    """Height that counts: the higher of ride height and raised.

    Args:
        at_ride_height: overall height at ride height [length].
        raised: overall height with the suspension raised, None where there is none [length].

    Returns:
        The higher of the two [length].

    Sources:
        practice (a bag may stand raised at a low bridge).

    Example:
        >>> from binder.quantities import registry
        >>> f"{height_under_way(registry.Quantity(152, 'inch'), registry.Quantity(155, 'inch')):.0f}"
        '155 inch'
    """
    return at_ride_height if raised is None else max(at_ride_height, raised)


@checks_dimensions
def room_under(posted: Length, height: Length, margin: Length) -> ClearanceRoom:
    """Room of the rig under a posted clearance.

    Args:
        posted: the posted figure [length].
        height: overall height of the rig [length].
        margin: the owner's margin [length].

    Returns:
        The room [length], and whether it is enough.

    Sources:
        arithmetic; practice (the margin).

    Example:
        >>> from binder.quantities import registry
        >>> room = room_under(
        ...     registry.Quantity(163, "inch"), registry.Quantity(152, "inch"), registry.Quantity(6, "inch")
        ... )
        >>> f"{room.room:.0f} {room.passes}"
        '11 inch True'
    """
    room: Quantity = (posted - height).to("inch")
    return ClearanceRoom(room, bool((room - margin).to("meter").magnitude >= -_NOTHING))
