"""The gap to the vehicle ahead, in seconds."""

from binder.quantities import Length, Quantity, Speed, Time, checks_dimensions, registry

LENGTH_OF_A_SECOND = registry.Quantity(10.0, "foot")  # W38, section 2.7.1.
FASTER_SPEED = registry.Quantity(40.0, "mile_per_hour")  # W38, section 2.7.1.
ADDED_WHEN_FASTER = registry.Quantity(1.0, "second")  # W38, section 2.7.1.


@checks_dimensions
def following_gap(combination_length: Length, speed: Speed) -> Time:
    """Least gap to the vehicle ahead: a second for each 10 ft, and one more at 40 mph and over.

    Args:
        combination_length: of all vehicles coupled [length].
        speed: of the combination [speed].

    Returns:
        The gap [time], not rounded; good road and clear weather only.

    Sources:
        W38 (commercial driver's manual, section 2.7.1).

    Example:
        >>> f"{following_gap(registry.Quantity(40, 'foot'), registry.Quantity(55, 'mph')):.0f}"
        '5 second'
    """
    seconds: Quantity = (combination_length / LENGTH_OF_A_SECOND).to("") * registry.Quantity(1.0, "second")
    return seconds + ADDED_WHEN_FASTER if speed >= FASTER_SPEED else seconds
