"""Which size or kind to buy of what is wanted, from what else the profile says."""

from binder.assessment.conditions import driven
from binder.assessment.figures import Ledger
from binder.assessment.measures import MEASURES, number_text
from binder.assessment.spares.wanted import Want
from binder.assessment.wording import Wording
from binder.models.rig import Rig
from binder.models.tires import Wheels
from binder.quantities import Quantity


def size_of(want: Want, rig: Rig, ledger: Ledger) -> str:
    """Say which size or kind is wanted."""
    kind = want.rule.size
    if kind == "cap":
        return _cap(rig, ledger)
    if kind == "torque":
        return _torque(rig)
    if kind == "socket":
        found = [wheels.socket for wheels in _wheels(rig, want.vehicle) if wheels.socket]
        return " and ".join(dict.fromkeys(found))
    return _specification(rig, kind) if kind else ""


def _cap(rig: Rig, ledger: Ledger) -> str:
    caps = [figure.quantity for figure in ledger.starting_with("tires.") if figure.key.endswith(".cap")]
    known = [cap for cap in caps if cap is not None]
    return f"reads to {Wording(rig.units).pressure(max(known), 'up')} or more" if known else ""


def _torque(rig: Rig) -> str:
    torques = [wheels.nut_torque for wheels in rig.wheels.values() if wheels.nut_torque is not None]
    if not torques:
        return ""
    printed = MEASURES[rig.units]["torque"]
    highest: Quantity = max(torques)
    return f"to {number_text(highest, printed, 'up')} {printed.word} or more"


def _wheels(rig: Rig, vehicle: str) -> list[Wheels]:
    chosen = [rig.vehicles[vehicle]] if vehicle else list(rig.vehicles.values())
    names = [axle.wheels for entry in chosen for axle in entry.axles.values()]
    return [rig.wheels[name] for name in names if name in rig.wheels]


def _specification(rig: Rig, fluid: str) -> str:
    for vehicle in (driven(rig)[1], *rig.vehicles.values()):
        found = vehicle.fluids.get(fluid)
        if found and found.specification:
            return found.specification
    return ""
