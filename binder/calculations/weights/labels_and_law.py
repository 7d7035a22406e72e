"""What the labels leave for people and cargo, by their own arithmetic, and what federal law says of weights.

The bridge formula and the groups of licenses are for comparison only: local law differs.
"""

import math
from typing import Literal, NamedTuple, TypeAlias

from binder.quantities import Length, Mass, Quantity, Volume, checks_dimensions, number_in, registry
from binder.reference.constants import (
    BRIDGE_STEP,
    GROSS_LIMIT,
    HEAVY_RATING,
    LABEL_PERSON,
    LABEL_WATER_DENSITY,
    SINGLE_AXLE_LIMIT,
    SINGLE_AXLE_SPREAD,
    TANDEM_LIMIT,
    TANDEM_SPREAD,
    TOWED_RATING,
)


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
    Returns: What is used and what is left [mass]; full propane is inside the unloaded weight already.
    Raises: ValueError: fewer than no people.
    Sources: 49 CFR 571.120 (S10.4.2, S10.4.4); 49 CFR 567.4 ((g)(3), 150 lb a person).

    >>> use = occupant_and_cargo_capacity_left(q(2500, "pound"), 4, q(60, "gallon"), q(350, "pound"))
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
    Returns: What is used and what is left [mass].
    Sources: 49 CFR 571.120 (S10.4.2).

    >>> f"{cargo_carrying_capacity_left(q(1700, 'pound'), q(50, 'gallon')).left:.0f}"
    '1285 pound'
    """
    water: Quantity = (fresh_water * LABEL_WATER_DENSITY.quantity).to("pound")
    return CapacityUse(water, capacity - water)


LicenseGroup: TypeAlias = Literal["A", "B", "neither A nor B"]


@checks_dimensions
def bridge_formula(apart: Length, axles: int) -> Mass:
    """Weight the bridge formula gives a group of axles, before it is rounded.

    Args:
        apart: middle of the first axle to middle of the last [length].
        axles: of the group, two or more [count].
    Returns: 500 (L N / (N - 1) + 12 N + 36) pounds, L in feet [mass].
    Raises: ValueError: fewer than two axles.
    Sources: 23 CFR 658.17.

    >>> f"{bridge_formula(q(35, 'foot'), 4):.1f}"
    '65333.3 pound'
    """
    if axles <= 1:
        raise ValueError("the bridge formula is for two axles or more")
    feet = number_in(apart, "foot")
    return registry.Quantity(500 * (feet * axles / (axles - 1) + 12 * axles + 36), "pound")


@checks_dimensions
def federal_group_limit(apart: Length, axles: int) -> Mass:
    """Weight that the federal rule allows a group of consecutive axles.

    Why: the distance counts in whole feet, rounded down: never more than the rule allows.

    Args:
        apart: middle of the first axle to middle of the last [length].
        axles: of the group [count].
    Returns: The least of the single-axle, tandem and gross limits and the formula to the nearest 500 lb
        [mass].
    Sources: 23 CFR 658.17; W10 (spacing of a tandem).

    >>> f"{federal_group_limit(q(425, 'inch'), 4):.0f}"
    '65500 pound'
    """
    if axles == 1 or apart <= SINGLE_AXLE_SPREAD.quantity:
        return SINGLE_AXLE_LIMIT.quantity
    if apart <= TANDEM_SPREAD.quantity:
        return TANDEM_LIMIT.quantity
    whole_feet = registry.Quantity(float(math.floor(number_in(apart, "foot") + 1e-9)), "foot")
    step = BRIDGE_STEP.quantity
    steps = math.ceil(float((bridge_formula(whole_feet, axles) / step).to("").m) - 0.5 - 1e-9)
    limits: list[Quantity] = [steps * step, SINGLE_AXLE_LIMIT.quantity * axles, GROSS_LIMIT.quantity]
    return min(limits)


@checks_dimensions
def federal_license_group(
    combination_rating: Mass, vehicle_rating: Mass, towed_rating: Mass | None
) -> LicenseGroup:
    """Federal group a rig's ratings fall in, were it driven in commerce.

    Args:
        combination_rating: of the combination, or of the vehicle where it tows nothing [mass].
        vehicle_rating: gross vehicle weight rating of the vehicle that drives [mass].
        towed_rating: gross vehicle weight ratings of all that is towed; None where nothing is [mass].
    Returns: The group by weight; passengers and dangerous goods, group C, are not looked at.
    Sources: 49 CFR 383.5; 49 CFR 383.91.

    >>> federal_license_group(q(30000, "pound"), q(25500, "pound"), q(4600, "pound"))
    'neither A nor B'
    """
    is_heavy_tow = towed_rating is not None and towed_rating > TOWED_RATING.quantity
    if is_heavy_tow and combination_rating >= HEAVY_RATING.quantity:
        return "A"
    if vehicle_rating >= HEAVY_RATING.quantity:
        return "B"
    return "neither A nor B"
