"""Height, width, length and tail swing of the rig as it travels."""

from collections.abc import Iterator
from datetime import date
from math import degrees
from typing import NamedTuple

from binder.assessment.body import kinds
from binder.assessment.coupling.kinds import COMBINATION_LENGTH
from binder.assessment.coupling.loads import assess_combination_length
from binder.assessment.ledger import Fact, Figure, Finding, Input, Key, Ledger, Phrase, Place, all_known
from binder.assessment.road.clearances import lowest_posted, room_phrase
from binder.assessment.weights.resting import CARRYING, carrier_of
from binder.calculations.route.distances import (
    FASTER_SPEED,
    PACE,
    Road,
    WarningDevice,
    following_gap,
    height_under_way,
    paces,
    warning_devices,
)
from binder.calculations.route.swing import (
    TowingBody,
    TrailerBody,
    TurningBody,
    tail_swing,
    trailer_tail_swing,
)
from binder.models.load import Profile
from binder.models.rig import Coupling, Rig
from binder.models.vehicles import Size, Vehicle
from binder.quantities import Quantity, registry

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
    # The largest of those that are known may not be the largest of all.
    known = all_known(one.swing for one in swings)
    value = max(known) if known else None
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
    size, places = vehicle.size, vehicle.axle_places
    overhang, width, cut = size.rear_overhang, size.overall_width, size.wheel_cut
    if len(places) < 2 or overhang is None or width is None or cut is None:  # noqa: PLR2004 - one axle has no wheelbase.
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
    places, cut = vehicle.axle_places, vehicle.size.wheel_cut
    if len(places) < 2 or cut is None or coupling.at is None:  # noqa: PLR2004 - one axle has no wheelbase.
        return None
    return TowingBody(places[1] - places[0], cut, coupling.at - places[1])


def _trailer_body(vehicle: Vehicle, coupling: Coupling) -> TrailerBody | None:
    places = vehicle.axle_places
    overhang, width = vehicle.size.rear_overhang, vehicle.size.overall_width
    if not places or overhang is None or width is None or coupling.at_behind is None:
        return None
    middle: Quantity = sum(places[1:], start=places[0]) / len(places)
    if not middle > coupling.at_behind:
        return None
    return TrailerBody(middle - coupling.at_behind, overhang + (max(places) - middle), width)


_HEIGHT, _LENGTH = kinds.OVERALL_HEIGHT.of(), COMBINATION_LENGTH.of()
_SLOWER = registry.Quantity(39.0, "mile_per_hour")  # Any speed under the manual's 40 mph.
_ROADS: tuple[Road, ...] = ("two-way", "divided")
_NEAR = registry.Quantity(10.0, "foot")  # 49 CFR 392.22(b)(1).
_MIDDLE = registry.Quantity(100.0, "foot")  # 49 CFR 392.22(b)(1).
_FACTS: dict[str, Fact] = {**kinds.DEVICE_FACTS, "pace": PACE}


def assess_dimensions(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter the dimensions of the rig and the distances that follow from its length."""
    _assess_height(profile, on, ledger)
    _assess_widths(profile, ledger)
    assess_combination_length(profile, ledger)
    assess_tail_swing(profile, ledger)
    _assess_following_gap(ledger)
    _assess_warning_devices(ledger)


def _heights(profile: Profile) -> dict[str, Quantity]:
    found = {}
    for name, vehicle in profile.rig.vehicles.items():
        if vehicle.size.overall_height is not None:
            measured = vehicle.size.height_measured
            raised = measured.raised if measured else None
            found[name] = height_under_way(vehicle.size.overall_height, raised)
    return found


def _assess_height(profile: Profile, on: date, ledger: Ledger) -> None:
    heights, vehicles = _heights(profile), profile.rig.vehicles
    for name in vehicles:
        if name not in heights:
            coupling = carrier_of(profile.rig, name)
            facts: dict[str, Fact] = {"vehicle": name, "carrier": coupling.ahead if coupling else None}
            ledger.find(Finding(kinds.NO_HEIGHT, _HEIGHT, facts, "carried" if coupling else ""))
    inputs = tuple(_height_inputs(profile, heights))
    if len(heights) < len(vehicles):
        ledger.enter(Figure(_HEIGHT, None, inputs, "unknown"))
        return
    highest = max(heights, key=lambda name: heights[name])
    _find_height_undated(highest, vehicles[highest].size, on, ledger)
    slack = _height_slack(profile, heights[highest])
    ledger.enter(Figure(_HEIGHT, heights[highest], inputs, slack=slack))


def _height_inputs(profile: Profile, heights: dict[str, Quantity]) -> Iterator[Input]:
    for name, height in sorted(heights.items(), key=lambda item: item[1], reverse=True):
        size = ("vehicles", name, "size")
        yield Input(kinds.HEIGHT_OF, height, Place("rig.yaml", (*size, "overall_height")), {"vehicle": name})
        measured = profile.rig.vehicles[name].size.height_measured
        for kind, entry in (
            (kinds.MEASURED_ON, "on"),
            (kinds.STATE, "state"),
            (kinds.HIGHEST_THING, "highest"),
        ):
            stated = getattr(measured, entry, None)
            if stated:
                yield Input(kind, stated, Place("rig.yaml", (*size, "height_measured", entry)))


def _height_slack(profile: Profile, height: Quantity) -> Phrase | None:
    lowest = lowest_posted(profile)
    return None if lowest is None else room_phrase(lowest.height - height, lowest.what)


def _find_height_undated(name: str, size: Size, on: date, ledger: Ledger) -> None:
    measured = size.height_measured
    parts = ((kinds.ITS_DATE, "on"), (kinds.ITS_STATE, "state"), (kinds.ITS_HIGHEST, "highest"))
    lacking = tuple(words for words, entry in parts if getattr(measured, entry, None) is None)
    if lacking:
        ledger.find(Finding(kinds.HEIGHT_UNDATED, _HEIGHT, {"vehicle": name, "lacking": lacking}))
    if measured and measured.on and measured.on > on:
        facts: dict[str, Fact] = {"vehicle": name, "dated": measured.on, "today": on}
        ledger.find(Finding(kinds.HEIGHT_OF_LATER, _HEIGHT, facts))


def _assess_widths(profile: Profile, ledger: Ledger) -> None:
    vehicles = profile.rig.vehicles
    body = {name: vehicle.size.overall_width for name, vehicle in vehicles.items()}
    _enter_widest(kinds.OVERALL_WIDTH.of(), kinds.BODY, body, ledger)
    # Mirrors are asked of the vehicle that is driven; any other counts by its body.
    first = next(iter(vehicles))
    mirrors = body | {first: vehicles[first].size.width_with_mirrors}
    _enter_widest(kinds.WIDTH_WITH_MIRRORS.of(), kinds.MIRRORS, mirrors, ledger)


def _enter_widest(key: Key, words: str, widths: dict[str, Quantity | None], ledger: Ledger) -> None:
    known = {name: width for name, width in widths.items() if width is not None}
    inputs = tuple(
        Input(
            kinds.WIDTH_OF,
            width,
            Place("rig.yaml", ("vehicles", name, "size")),
            {"width": words, "vehicle": name},
        )
        for name, width in known.items()
    )
    for name in widths:
        if name not in known:
            case = "mirrors" if words == kinds.MIRRORS else ""
            ledger.find(Finding(kinds.NO_WIDTH, key, {"width": words, "vehicle": name}, case))
    is_whole = len(known) == len(widths)
    value = max(known.values()) if is_whole else None
    ledger.enter(Figure(key, value, inputs, "" if is_whole else "unknown"))


def _assess_following_gap(ledger: Ledger) -> None:
    """Enter the gap to the vehicle ahead, under and from 40 mph."""
    length = ledger.quantity(_LENGTH)
    inputs = (Input(kinds.LENGTH_COUPLED, length, _LENGTH),)
    for kind, speed in ((kinds.GAP_BELOW_40, _SLOWER), (kinds.GAP_FROM_40, FASTER_SPEED)):
        gap = None if length is None else following_gap(length, speed)
        ledger.enter(Figure(kind.of(), gap, inputs, facts=kinds.GAP_FACTS))


def _assess_warning_devices(ledger: Ledger) -> None:
    """Enter where the three warning devices go on each kind of road, as distance and in paces."""
    for road in _ROADS:
        for device in warning_devices(road):
            _enter_device(road, device, ledger)
    length = ledger.quantity(_LENGTH)
    if length is not None:
        inputs = (Input(kinds.LENGTH_COUPLED, length, _LENGTH),)
        key = kinds.PACES_FROM_REAR.of("two_way", "ahead")
        ledger.enter(Figure(key, float(paces(length + _MIDDLE, PACE)), inputs, facts=_FACTS))


def _name(device: WarningDevice) -> str:
    if device.side == "ahead":
        return "ahead"
    if device.distance <= _NEAR:
        return "near_behind"
    return "behind" if device.distance <= _MIDDLE else "far_behind"


def _enter_device(road: Road, device: WarningDevice, ledger: Ledger) -> None:
    subject = (road.replace("-", "_"), _name(device))
    facts = {**_FACTS, "traffic": kinds.TRAFFIC[road], "counted_from": kinds.COUNTED_FROM[device.side]}
    ledger.enter(Figure(kinds.DEVICE_DISTANCE.of(*subject), device.distance, facts=facts))
    count = float(paces(device.distance, PACE))
    ledger.enter(Figure(kinds.DEVICE_PACES.of(*subject), count, facts=facts))
