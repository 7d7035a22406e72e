"""How far the rear corners of the rig swing out, of the vehicle that drives and of a trailer on it."""

from collections.abc import Iterator
from math import degrees as degrees_of
from typing import NamedTuple

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.weights.supports import CARRYING
from binder.assessment.wording import Wording
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

KEY = "rig.tail_swing"
_RULE = (
    "pulling away with the wheel hard over, the rear corner swings out by sqrt(r^2 + O^2) - r, where "
    "r = wheelbase / tan(wheel cut) + half the width, and O is the overhang behind the drive axle"
)
_TRAILER_RULE = (
    "; a trailer's, whose wheels roll only along it, is followed in small steps until the rig stands at a "
    "right angle; the larger of those that are known"
)
_CAUTION = "What sticks out behind the body, such as a ladder or a bar, swings farther."


class _Swing(NamedTuple):
    """The swing of one vehicle, None where something is missing, and what decided it."""

    vehicle: str
    swing: Quantity | None
    inputs: tuple[Input, ...]
    needs: str


def assess_tail_swing(profile: Profile, ledger: Ledger) -> None:
    """Enter the largest tail swing of the rig."""
    swings = tuple(_swings(profile.rig))
    for one in swings:
        if one.swing is None:
            text = f"The tail swing of the {one.vehicle} needs its {one.needs}."
            helps = "Enter what is missing under size, axles and couplings."
            ledger.find(Finding("missing", 10, KEY, text, helps))
    known = [one.swing for one in swings if one.swing is not None]
    inputs = tuple(entry for one in swings for entry in one.inputs)
    rule = _RULE + (_TRAILER_RULE if len(swings) > 1 else "")
    value = max(known, default=None)
    ledger.add(Figure(KEY, value, "calculated", rule, "geometry; profile", inputs, (_CAUTION,)))


def _swings(rig: Rig) -> Iterator[_Swing]:
    name, vehicle = next(iter(rig.vehicles.items()))
    yield _own_swing(rig, name, vehicle)
    coupling = next((one for one in rig.couplings if one.ahead == name and one.how in CARRYING), None)
    if coupling is not None:
        yield _trailer_swing(rig, vehicle, coupling)


def _own_swing(rig: Rig, name: str, vehicle: Vehicle) -> _Swing:
    needs = "wheelbase, rear overhang, width and wheel cut"
    body = _turning_body(vehicle)
    if body is None:
        return _Swing(name, None, (), needs)
    wording, origin = Wording(rig.units), f"rig.yaml vehicles.{name}"
    told: tuple[tuple[str, Quantity, str], ...] = (
        ("wheelbase", body.wheelbase, "axles"),
        ("overhang behind the drive axle", body.rear_overhang, "size.rear_overhang"),
        ("overall width", body.width, "size.overall_width"),
    )
    inputs = [Input(what, wording.length(value, "up"), f"{origin}.{field}") for what, value, field in told]
    degrees = f"{degrees_of(float(body.wheel_cut.to('').magnitude)):.0f}°"
    inputs.append(Input("wheel cut", degrees, f"{origin}.size.wheel_cut"))
    swing = tail_swing(body)
    inputs.append(Input(f"swing of the {name}", wording.length(swing, "up"), KEY))
    return _Swing(name, swing, tuple(inputs), needs)


def _turning_body(vehicle: Vehicle) -> TurningBody | None:
    size, places = vehicle.size, [axle.at for axle in vehicle.axles.values()]
    overhang, width, cut = size.rear_overhang, size.overall_width, size.wheel_cut
    if len(places) < 2 or overhang is None or width is None or cut is None:  # noqa: PLR2004 - a wheelbase.
        return None
    # It turns about the drive axle or behind it, where a tag follows: the drive axle swings more.
    return TurningBody(places[1] - places[0], overhang + (places[-1] - places[1]), width, cut)


def _trailer_swing(rig: Rig, towing: Vehicle, coupling: Coupling) -> _Swing:
    trailer, name = rig.vehicles[coupling.behind], coupling.behind
    needs = "coupling's places, the towing vehicle's wheel cut, its axles, width and rear overhang"
    ahead, behind = _towing_body(towing, coupling), _trailer_body(trailer, coupling)
    if ahead is None or behind is None:
        return _Swing(name, None, (), needs)
    wording, origin = Wording(rig.units), f"rig.yaml vehicles.{name}"
    swing = trailer_tail_swing(ahead, behind)
    told = (
        ("coupling to the middle of its axles", behind.coupling_to_axles, "rig.yaml couplings, at_behind"),
        ("overhang behind the middle of its axles", behind.rear_overhang, f"{origin}.size.rear_overhang"),
        ("its width", behind.width, f"{origin}.size.overall_width"),
        (f"swing of the {name}", swing, KEY),
    )
    inputs = tuple(Input(what, wording.length(value, "up"), field) for what, value, field in told)
    return _Swing(name, swing, inputs, needs)


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
