"""Length of the whole combination, coupled."""

from collections.abc import Iterator

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.weights.resting import CARRIED, ON_A_DOLLY, carrier_of
from binder.assessment.wording import Wording
from binder.models.load import Profile
from binder.models.rig import Coupling
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity

LENGTH_KEY = "rig.combination_length"
_OVER_THE_BED = frozenset({"fifth wheel", "gooseneck", ON_A_DOLLY})
_JOINTS = {ON_A_DOLLY: "first axle"}
"""What of the vehicle behind stands over the one ahead, where it is not a pin."""

_RULE = (
    "lengths of the vehicles and of the bars between them; a trailer over the bed counts from its pin, a "
    "car on a dolly from its first axle, a ball's trailer from its coupler; what carries another is "
    "measured with it on"
)

Part = tuple[str, Quantity | None, str]


def assess_combination_length(profile: Profile, ledger: Ledger) -> None:
    """Enter the length of the combination, and find what is missing for it."""
    parts = list(_parts(profile))
    for what, length, origin in parts:
        if length is None:
            text = f"The {what} is not given ({origin})."
            ledger.find(Finding("missing", 3, LENGTH_KEY, text, "Measure it, and enter it."))
    known = [(what, length, origin) for what, length, origin in parts if length is not None]
    wording = Wording(profile.rig.units)
    inputs = tuple(Input(what, wording.length(length, "up"), origin) for what, length, origin in known)
    value = None
    if len(known) == len(parts):
        value = sum((length for _, length, _ in known[1:]), start=known[0][1])
    ledger.add(Figure(LENGTH_KEY, value, "calculated", _RULE, "profile; arithmetic", inputs))


def _parts(profile: Profile) -> Iterator[Part]:
    vehicles, couplings = profile.rig.vehicles, profile.rig.couplings
    over_bed = {item.behind: item for item in couplings if item.how in _OVER_THE_BED}
    shortened = {item.ahead: item for item in over_bed.values()}
    for name, vehicle in vehicles.items():
        if carrier_of(profile.rig, name):
            continue  # What carries it is measured with it on.
        if name in shortened:
            yield from _front_to_pin(name, vehicle, shortened[name])
        elif name in over_bed:
            yield from _pin_to_rear(name, vehicle, over_bed[name])
        else:
            origin = f"rig.yaml vehicles.{name}.size.overall_length"
            yield f"length of the {name}", vehicle.size.overall_length, origin
    for number, item in enumerate(couplings, start=1):
        if item.how not in {*_OVER_THE_BED, CARRIED} and (item.length is not None or item.how != "ball"):
            yield f"length of the {item.how}", item.length, f"rig.yaml couplings[{number}].length"


def _front_to_pin(name: str, vehicle: Vehicle, coupling: Coupling) -> Iterator[Part]:
    origin = f"rig.yaml vehicles.{name}.size.front_overhang"
    yield f"front overhang of the {name}", vehicle.size.front_overhang, origin
    joint = _JOINTS.get(coupling.how, "pin")
    yield f"place of the {joint} in the {name}", coupling.at, "rig.yaml couplings, at"


def _pin_to_rear(name: str, vehicle: Vehicle, coupling: Coupling) -> Iterator[Part]:
    behind = coupling.at_behind
    ahead: Quantity | None = None if behind is None else -1 * behind
    if coupling.how != ON_A_DOLLY:
        yield f"pin to first axle of the {name}", ahead, "rig.yaml couplings, at_behind"
    last = max((axle.at for axle in vehicle.axles.values()), default=None)
    yield f"first to last axle of the {name}", last, f"rig.yaml vehicles.{name}.axles"
    origin = f"rig.yaml vehicles.{name}.size.rear_overhang"
    yield f"rear overhang of the {name}", vehicle.size.rear_overhang, origin
