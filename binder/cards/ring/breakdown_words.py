"""What a caller says of the rig: height, length, weight, fuel, brakes, tires, what is towed, propane."""

from collections.abc import Iterator, Mapping

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import driven, tanks, towed
from binder.assessment.figures import Figure
from binder.assessment.weights.resting import rolling_axles
from binder.cards.blocks import Line
from binder.cards.display import BLANK, Display
from binder.cards.figure_values import quantity_of
from binder.cards.rig_words import overall_height
from binder.models.rig import Rig
from binder.quantities import Quantity

HEIGHT_KEY, LENGTH_KEY = "rig.overall_height", "rig.combination_length"
WEIGHT_KEY = "weights.combination.heaviest.load"


def what_we_are(assessment: Assessment) -> tuple[tuple[Line, ...], Mapping[str, Figure]]:
    """List what whoever comes to help needs to know of this rig."""
    rig = assessment.rig
    shown = Display(rig.units)
    height, length, weight = overall_height(assessment), length_of_all(assessment), weight_of_all(assessment)
    length_name = "Length, coupled" if towed(rig) else "Length"
    keys = {"Height": HEIGHT_KEY, length_name: LENGTH_KEY, "Weight": WEIGHT_KEY}
    lines = (
        Line("Height", shown.length(height)),
        Line(length_name, shown.length(length)),
        Line("Weight", shown.text(weight, "weight", "up")),
        Line("Fuel, brakes", f"{_fuel(rig)}, {_brakes(rig)}"),
        *_tires(rig),
        *(Line("Towed", f"{name.upper()} ATTACHED") for name, _ in towed(rig)[-1:]),
        *_propane(rig, shown),
    )
    return lines, {name: figure for name, key in keys.items() if (figure := assessment.known(key))}


def length_of_all(assessment: Assessment) -> Quantity | None:
    """Give the length of all vehicles, coupled."""
    figure = assessment.known(LENGTH_KEY)
    if figure is not None or assessment.rig.couplings:
        return quantity_of(figure)
    return driven(assessment.rig)[1].size.overall_length


def weight_of_all(assessment: Assessment) -> Quantity | None:
    """Give the weight of all vehicles at its heaviest."""
    return quantity_of(assessment.known(WEIGHT_KEY))


def _fuel(rig: Rig) -> str:
    held = (tank.holds for tank in driven(rig)[1].tanks.values())
    return next((fuel.upper() for fuel in held if fuel in {"diesel", "gasoline"}), BLANK)


def _brakes(rig: Rig) -> str:
    brakes = driven(rig)[1].brakes
    return (brakes.service or BLANK).upper() if brakes else BLANK


def _tires(rig: Rig) -> Iterator[Line]:
    mounted: dict[str, dict[str, None]] = {}
    for name, _, _, axle in rolling_axles(rig):
        size = rig.tires[axle.tires].size if axle.tires in rig.tires else None
        mounted.setdefault(name, {})[size or BLANK] = None
    said = {name: ", ".join(sizes) for name, sizes in mounted.items()}
    first, *others = said
    yield Line(f"Tires, {first}", said[first])
    # Two that are towed, a dolly and its car, share a line: there is room for one.
    if others:
        yield Line(f"Tires, {', '.join(others)}", ", ".join(said[name] for name in others))


def _propane(rig: Rig, shown: Display) -> Iterator[Line]:
    held = [tank for tank in tanks(rig) if tank.holds == "propane"]
    if held:
        # A full propane tank holds its usable volume: the rest is kept free for the liquid to expand.
        volumes = [shown.number(tank.usable or tank.capacity, "volume", "up") for tank in held]
        word = shown.measure("volume").word
        yield Line("Propane aboard", f"{' + '.join(volumes)} {word}")
