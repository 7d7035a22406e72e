"""How far the rear corners of the rig swing out, of the vehicle that drives and of a trailer on it."""

from collections.abc import Iterator
from math import degrees
from typing import NamedTuple

from binder.assessment.body import kinds
from binder.assessment.ledger import Figure, Finding, Input, Ledger, Place
from binder.assessment.weights.supports import CARRYING
from binder.calculations.route.swing import (
    TowingBody,
    TrailerBody,
    TurningBody,
    tail_swing,
    trailer_tail_swing,
)
from binder.models.load import Profile
from binder.models.rig import Coupling, Rig
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity

_KEY = kinds.TAIL_SWING.of()


class _Swing(NamedTuple):
    """The swing of one vehicle, None where something is missing, and what decided it."""

    vehicle: str
    swing: Quantity | None = None
    inputs: tuple[Input, ...] = ()


def assess_tail_swing(profile: Profile, ledger: Ledger) -> None:
    """Enter the largest tail swing of the rig."""
    swings = tuple(_swings(profile.rig))
    for case, one in zip(("", "trailer"), swings, strict=False):
        if one.swing is None:
            ledger.find(Finding(kinds.NO_SWING, _KEY, {"vehicle": one.vehicle}, case))
    value = max((one.swing for one in swings if one.swing is not None), default=None)
    inputs = tuple(entry for one in swings for entry in one.inputs)
    ledger.enter(Figure(_KEY, value, inputs, "trailer" if len(swings) > 1 else ""))


def _swings(rig: Rig) -> Iterator[_Swing]:
    name, vehicle = next(iter(rig.vehicles.items()))
    yield _own_swing(name, vehicle)
    coupling = next((one for one in rig.couplings if one.ahead == name and one.how in CARRYING), None)
    if coupling is not None:
        yield _trailer_swing(rig, vehicle, coupling)


def _own_swing(name: str, vehicle: Vehicle) -> _Swing:
    body = _turning_body(vehicle)
    if body is None:
        return _Swing(name)
    swing, size = tail_swing(body), ("vehicles", name, "size")
    inputs = (
        Input(kinds.WHEELBASE, body.wheelbase, Place("rig.yaml", ("vehicles", name, "axles"))),
        Input(kinds.OVERHANG, body.rear_overhang, Place("rig.yaml", (*size, "rear_overhang"))),
        Input(kinds.BODY_WIDTH, body.width, Place("rig.yaml", (*size, "overall_width"))),
        Input(
            kinds.WHEEL_CUT,
            degrees(float(body.wheel_cut.to("").magnitude)),
            Place("rig.yaml", (*size, "wheel_cut")),
        ),
        Input(kinds.SWING_OF, swing, _KEY, {"vehicle": name}),
    )
    return _Swing(name, swing, inputs)


def _turning_body(vehicle: Vehicle) -> TurningBody | None:
    size, places = vehicle.size, [axle.at for axle in vehicle.axles.values()]
    overhang, width, cut = size.rear_overhang, size.overall_width, size.wheel_cut
    if len(places) < 2 or overhang is None or width is None or cut is None:  # noqa: PLR2004 - a wheelbase.
        return None
    # It turns about the drive axle or behind it, where a tag follows: the drive axle swings more.
    return TurningBody(places[1] - places[0], overhang + (places[-1] - places[1]), width, cut)


def _trailer_swing(rig: Rig, towing: Vehicle, coupling: Coupling) -> _Swing:
    trailer, name = rig.vehicles[coupling.behind], coupling.behind
    ahead, behind = _towing_body(towing, coupling), _trailer_body(trailer, coupling)
    if ahead is None or behind is None:
        return _Swing(name)
    swing, size = trailer_tail_swing(ahead, behind), ("vehicles", name, "size")
    inputs = (
        Input(kinds.TO_THE_AXLES, behind.coupling_to_axles),
        Input(kinds.TRAILER_OVERHANG, behind.rear_overhang, Place("rig.yaml", (*size, "rear_overhang"))),
        Input(kinds.TRAILER_WIDTH, behind.width, Place("rig.yaml", (*size, "overall_width"))),
        Input(kinds.SWING_OF, swing, _KEY, {"vehicle": name}),
    )
    return _Swing(name, swing, inputs)


def _towing_body(vehicle: Vehicle, coupling: Coupling) -> TowingBody | None:
    places, cut = [axle.at for axle in vehicle.axles.values()], vehicle.size.wheel_cut
    if len(places) < 2 or cut is None or coupling.at is None:  # noqa: PLR2004 - a wheelbase.
        return None
    return TowingBody(places[1] - places[0], cut, coupling.at - places[1])


def _trailer_body(vehicle: Vehicle, coupling: Coupling) -> TrailerBody | None:
    places = [axle.at for axle in vehicle.axles.values()]
    overhang, width = vehicle.size.rear_overhang, vehicle.size.overall_width
    if not places or overhang is None or width is None or coupling.at_behind is None:
        return None
    middle: Quantity = sum(places[1:], start=places[0]) / len(places)
    if not middle > coupling.at_behind:
        return None
    return TrailerBody(middle - coupling.at_behind, overhang + (max(places) - middle), width)
