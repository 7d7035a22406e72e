"""What the labels leave for people and cargo, by the arithmetic the labels themselves use."""

from typing import NamedTuple

from binder.quantities import Mass, Quantity, Volume, checks_dimensions
from binder.reference.constants import LABEL_PERSON, LABEL_WATER_DENSITY


class CapacityUse(NamedTuple):
    """What is taken out of a label's capacity, and what is left of it (negative when over)."""

    used: Mass
    left: Mass


@checks_dimensions
def occupant_and_cargo_capacity_left(
    capacity: Mass, people: int, fresh_water: Volume, tongue_load: Mass
) -> CapacityUse:
    """Occupant and cargo carrying capacity left after people, fresh water and a trailer's tongue.

    Args:
        capacity: occupant and cargo carrying capacity on the label [mass].
        people: aboard, each counted as the label counts a person [count].
        fresh_water: aboard [volume].
        tongue_load: of a towed trailer, none where nothing rests on the rig [mass].

    Returns:
        What is used and what is left [mass]; full propane is inside the unloaded weight already.

    Raises:
        ValueError: fewer than no people.

    Sources:
        49 CFR 571.120 (S10.4.2, S10.4.4); 49 CFR 567.4 ((g)(3), 150 lb a person).

    Example:
        >>> from binder.quantities import registry
        >>> use = occupant_and_cargo_capacity_left(
        ...     registry.Quantity(2500, "pound"),
        ...     4,
        ...     registry.Quantity(60, "gallon"),
        ...     registry.Quantity(350, "pound"),
        ... )
        >>> f"{use.used:.0f}, {use.left:.0f}"
        '1448 pound, 1052 pound'
    """
    if people < 0:
        raise ValueError(f"there cannot be {people} people")
    water = fresh_water * LABEL_WATER_DENSITY.quantity
    used: Quantity = (people * LABEL_PERSON.quantity + water + tongue_load).to("pound")
    return CapacityUse(used, capacity - used)


@checks_dimensions
def cargo_carrying_capacity_left(capacity: Mass, fresh_water: Volume) -> CapacityUse:
    """Cargo carrying capacity left after fresh water.

    Args:
        capacity: cargo carrying capacity [mass].
        fresh_water: aboard [volume].

    Returns:
        What is used and what is left [mass].

    Sources:
        49 CFR 571.120 (S10.4.2).

    Example:
        >>> from binder.quantities import registry
        >>> capacity = registry.Quantity(1700, "pound")
        >>> use = cargo_carrying_capacity_left(capacity, registry.Quantity(50, "gallon"))
        >>> f"{use.left:.0f}"
        '1285 pound'
    """
    water: Quantity = (fresh_water * LABEL_WATER_DENSITY.quantity).to("pound")
    return CapacityUse(water, capacity - water)
