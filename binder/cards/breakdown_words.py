"""What a caller says of the rig: height, length, weight, fuel, brakes, tires, what is towed, propane."""

from collections.abc import Iterator

import pint

from binder.assessment.assessment import Assessment
from binder.cards.blocks import Line
from binder.cards.conditions import driven, tanks, towed
from binder.cards.display import BLANK, Display
from binder.cards.rig_words import overall_height
from binder.models.rig import Rig
from binder.quantities import Quantity

LENGTH_KEY = "rig.combination_length"
WEIGHT_KEYS = ("weights.combination.departure.load", "weights.combination.as_weighed.load")


def what_we_are(assessment: Assessment) -> tuple[tuple[Line, ...], tuple[str, ...]]:
    """List what whoever comes to help needs to know of this rig.

    Args:
        assessment: this rig on this trip [assessment].

    Returns:
        The lines, blanks where nothing is known, and the keys of the figures they print.

    Sources:
        The figures and the profile name their own.

    Example:
        >>> what_we_are.__name__
        'what_we_are'
    """
    rig = assessment.rig
    shown = Display(rig.units)
    keys = tuple(key for key in (LENGTH_KEY, _weight_key(assessment)) if assessment.known(key))
    lines = (
        Line("Height", shown.length(overall_height(assessment))),
        Line("Length, coupled" if rig.couplings else "Length", shown.length(_length(assessment))),
        Line("Weight", shown.text(_figure(assessment, _weight_key(assessment)), "weight", "up")),
        Line("Fuel, brakes", f"{_fuel(rig)}, {_brakes(rig)}"),
        *_tires(rig),
        *(Line("Towed", f"{name.upper()} ATTACHED") for name, _ in towed(rig)[-1:]),
        *_propane(rig, shown),
    )
    return lines, keys


def _weight_key(assessment: Assessment) -> str:
    alone = tuple(
        f"weights.{driven(assessment.rig)[0]}.total.{state}.load" for state in ("departure", "as_weighed")
    )
    keys = WEIGHT_KEYS if assessment.rig.couplings else alone
    return next((key for key in keys if assessment.known(key)), keys[0])


def _figure(assessment: Assessment, key: str) -> Quantity | None:
    figure = assessment.known(key)
    return figure.value if figure is not None and isinstance(figure.value, pint.Quantity) else None


def _length(assessment: Assessment) -> Quantity | None:
    length = _figure(assessment, LENGTH_KEY)
    alone = driven(assessment.rig)[1].size.overall_length
    return length if length is not None or assessment.rig.couplings else alone


def _fuel(rig: Rig) -> str:
    held = (tank.holds for tank in driven(rig)[1].tanks.values())
    return next((fuel.upper() for fuel in held if fuel in {"diesel", "gasoline"}), BLANK)


def _brakes(rig: Rig) -> str:
    brakes = driven(rig)[1].brakes
    return (brakes.service or BLANK).upper() if brakes else BLANK


def _tires(rig: Rig) -> Iterator[Line]:
    for name, vehicle in rig.vehicles.items():
        mounted = dict.fromkeys(axle.tires for axle in vehicle.axles.values() if axle.tires)
        sizes = dict.fromkeys(rig.tires[tires].size or BLANK for tires in mounted if tires in rig.tires)
        yield Line(f"Tires, {name}", ", ".join(sizes) or BLANK)


def _propane(rig: Rig, shown: Display) -> Iterator[Line]:
    held = [tank for tank in tanks(rig) if tank.holds == "propane"]
    if held:
        volumes = [shown.number(tank.capacity, "volume", "up") for tank in held]
        word = shown.measure("volume").word
        yield Line("Propane aboard", f"{' + '.join(volumes)} {word}")
