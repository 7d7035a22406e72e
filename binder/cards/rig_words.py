"""Words and measures of a whole rig that several procedure cards print."""

from binder.assessment.assessment import Assessment
from binder.cards.figure_values import quantity_of
from binder.quantities import Quantity


def overall_height(assessment: Assessment) -> Quantity | None:
    """Give the height of the highest vehicle, in whatever state was the higher."""
    figure = assessment.known("rig.overall_height")
    if figure is not None:
        return quantity_of(figure)
    sizes = [vehicle.size for vehicle in assessment.rig.vehicles.values()]
    heights = [
        height
        for size in sizes
        for height in (size.overall_height, size.height_measured.raised if size.height_measured else None)
        if height is not None
    ]
    return max(heights, default=None)
