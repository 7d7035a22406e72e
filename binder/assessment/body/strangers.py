"""What strangers must know of a rig that stands broken or burns: the wrecker's driver, the fire crew."""

from collections.abc import Iterator

from binder.assessment.body import kinds
from binder.assessment.body.equipment import is_lived_in
from binder.assessment.conditions import driven
from binder.assessment.ledger import Figure, Finding, Input, Ledger, Phrase, Place
from binder.calculations.route.distances import overhang_angle
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.vehicles import Size, Vehicle
from binder.quantities import Quantity

_ENDS = ("front", "rear")


def winched(rig: Rig) -> Iterator[tuple[str, Vehicle, tuple[str, ...]]]:
    """Vehicles that a wrecker takes, each with its free ends: what drives, and trailers; a car drives off."""
    first, _ = driven(rig)
    for name, vehicle in rig.vehicles.items():
        if name == first:
            yield name, vehicle, _ENDS
        elif vehicle.kind == "trailer":
            yield name, vehicle, _ENDS[1:]


def assess_for_strangers(profile: Profile, ledger: Ledger) -> None:
    """Enter the angles of the overhangs, and find what a wrecker or a fire crew would ask in vain."""
    for name, vehicle, ends in winched(profile.rig):
        for end in ends:
            _enter_angle(name, vehicle, end, ledger)
        lacking = tuple(_lacking(vehicle, ends))
        if lacking:
            key = kinds.FOR_A_WRECKER.of(name)
            ledger.find(Finding(kinds.FOR_A_WRECKER, key, {"vehicle": name, "lacking": lacking}))
    for name, vehicle in profile.rig.vehicles.items():
        unsaid = tuple(_unsaid(vehicle)) if is_lived_in(vehicle) else ()
        if unsaid:
            ledger.find(
                Finding(kinds.FOR_A_FIRE, kinds.FOR_A_FIRE.of(name), {"vehicle": name, "lacking": unsaid})
            )


def _enter_angle(name: str, vehicle: Vehicle, end: str, ledger: Ledger) -> None:
    clearance, overhang = _measured(vehicle.size, end)
    place = ("vehicles", name, "size")
    given = (
        Input(kinds.CLEARANCE_UNDER, clearance, Place("rig.yaml", (*place, f"{end}_clearance"))),
        Input(kinds.OVERHANG_OF_END, overhang, Place("rig.yaml", (*place, f"{end}_overhang"))),
    )
    angle = None
    if clearance is not None and overhang is not None and overhang.magnitude > 0:
        angle = overhang_angle(clearance, overhang)
    ledger.enter(Figure(kinds.OVERHANG_ANGLE.of(name, end), angle, given, facts={"end": end}))


def _measured(size: Size, end: str) -> tuple[Quantity | None, Quantity | None]:
    """What was measured at an end: how high its lowest thing is, and how far it hangs over."""
    if end == "front":
        return size.front_clearance, size.front_overhang
    return size.rear_clearance, size.rear_overhang


def _lacking(vehicle: Vehicle, ends: tuple[str, ...]) -> Iterator[str]:
    """What is asked of each; air and a drive shaft only where there are any."""
    has = vehicle.equipment
    if not has.jacking_points:
        yield kinds.JACKING
    if any(_measured(vehicle.size, end)[0] is None for end in ends):
        yield kinds.CLEARANCES
    if vehicle.kind == "trailer":
        return
    if not has.lift_points:
        yield kinds.LIFTING
    if not has.tow_eyes:
        yield kinds.EYES
    if vehicle.brakes and vehicle.brakes.service == "air" and not has.air_port:
        yield kinds.AIR_FITTING
    if not (vehicle.transmission and vehicle.transmission.tow_with_wheels_down):
        yield kinds.WHEELS_DOWN


def _unsaid(vehicle: Vehicle) -> Iterator[Phrase]:
    for one in vehicle.equipment.extinguishers or []:
        if not one.type:
            yield Phrase(kinds.TYPE_OF, {"place": one.place})
    for way in vehicle.equipment.exits or []:
        if not way.opens:
            yield Phrase(kinds.OPENING_OF, {"place": way.place})
