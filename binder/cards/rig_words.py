"""Measures of a whole rig that several procedure cards print."""

from binder.assessment.assessment import Assessment
from binder.assessment.body.kinds import OVERALL_HEIGHT
from binder.assessment.conditions import driven
from binder.assessment.coupling.kinds import COMBINATION_LENGTH
from binder.assessment.weights.kinds import COMBINATION
from binder.quantities import Quantity

HEIGHT, LENGTH, WEIGHT = OVERALL_HEIGHT.of(), COMBINATION_LENGTH.of(), COMBINATION.heaviest.of()


def overall_height(assessment: Assessment) -> Quantity | None:
    """Give the height of the highest vehicle, in whatever state was the higher."""
    figure = assessment.known(HEIGHT)
    if figure is not None:
        return figure.quantity
    sizes = [vehicle.size for vehicle in assessment.rig.vehicles.values()]
    heights = [
        height
        for size in sizes
        for height in (size.overall_height, size.height_measured.raised if size.height_measured else None)
        if height is not None
    ]
    return max(heights, default=None)


def length_of_all(assessment: Assessment) -> Quantity | None:
    """Give the length of all vehicles, coupled."""
    figure = assessment.known(LENGTH)
    if figure is not None or assessment.rig.couplings:
        return figure.quantity if figure else None
    return driven(assessment.rig)[1].size.overall_length


def weight_of_all(assessment: Assessment) -> Quantity | None:
    """Give the weight of all vehicles at its heaviest."""
    return assessment.quantity(WEIGHT)
