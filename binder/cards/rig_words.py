"""Words and measures of a whole rig that several procedure cards print."""

import pint

from binder.assessment.assessment import Assessment
from binder.quantities import Quantity


def overall_height(assessment: Assessment) -> Quantity | None:
    """Give the height of the highest vehicle, in whatever state was the higher.

    Args:
        assessment: this rig on this trip [assessment].

    Returns:
        The height, or None where any vehicle that may be the highest has none noted [length].

    Sources:
        The owner's measuring.

    Example:
        >>> overall_height.__name__
        'overall_height'
    """
    figure = assessment.known("rig.overall_height")
    if figure is not None:
        return figure.value if isinstance(figure.value, pint.Quantity) else None
    sizes = [vehicle.size for vehicle in assessment.rig.vehicles.values()]
    heights = [
        height
        for size in sizes
        for height in (size.overall_height, size.height_measured.raised if size.height_measured else None)
        if height is not None
    ]
    return max(heights, default=None)
