"""Distances on the road that follow from the rig's length: the gap ahead, and the warning devices."""

from collections.abc import Iterator

from binder.assessment.coupling.kinds import COMBINATION_LENGTH
from binder.assessment.figures import Figure, Input, Ledger
from binder.assessment.measures import System
from binder.assessment.procedure_numbers import procedure_number, procedure_reason
from binder.assessment.wording import Wording
from binder.calculations.route.distances import (
    FASTER_SPEED,
    PACE,
    Road,
    WarningDevice,
    following_gap,
    paces,
    warning_devices,
)
from binder.models.load import Profile
from binder.quantities import Quantity, registry

_SLOWER = registry.Quantity(39.0, "mile_per_hour")  # Any speed under the manual's 40 mph.
_ROADS: tuple[Road, ...] = ("two-way", "divided")
_NEAR = registry.Quantity(10.0, "foot")  # 49 CFR 392.22(b)(1).
_MIDDLE = registry.Quantity(100.0, "foot")  # 49 CFR 392.22(b)(1).
_DEVICE_CAUTIONS = (
    "Paces {pace}: practice.",
    "Within {hidden} of a hill, curve or obstruction, that device goes out {far} to {hidden}.",
    "Vest on first, walk facing traffic; no safe way: stay behind the rail, flashers only.",
    "No flame near fuel or gas.",
    "Written for commercial vehicles; local law comes first.",
)


def _device_cautions(units: System) -> tuple[str, ...]:
    hidden, far = (procedure_number(f"device {name}", units) for name in ("out of sight", "far"))
    return tuple(text.format(pace=_pace(units), hidden=hidden, far=far) for text in _DEVICE_CAUTIONS)


def _pace(units: System) -> str:
    return procedure_reason("steps far", units).partition(",")[0]


def _length_known(ledger: Ledger) -> Quantity | None:
    return ledger.quantity(COMBINATION_LENGTH.of())


def assess_following_gap(profile: Profile, ledger: Ledger) -> None:
    """Enter the gap to the vehicle ahead, under and from 40 mph."""
    wording, length = Wording(profile.rig.units), _length_known(ledger)
    told = wording.length(length, "up") if length is not None else "not known"
    inputs = (Input("length, coupled", told, f"figure {COMBINATION_LENGTH.key}"),)
    fast, each = (procedure_number(f"gap {what}", wording.units) for what in ("speed", "length"))
    for key, speed, words in (
        ("below_40", _SLOWER, f"under {fast}"),
        ("from_40", FASTER_SPEED, f"at {fast} and over, 1 s of it for the speed"),
    ):
        ledger.add(
            Figure(
                f"rig.following_gap_{key}",
                following_gap(length, speed) if length is not None else None,
                "calculated",
                f"1 s for each {each} of length, {words}",
                "W38",
                inputs,
                ("The least gap, on a dry road in clear weather.",),
            )
        )


def assess_warning_devices(profile: Profile, ledger: Ledger) -> None:
    """Enter where the three warning devices go on each kind of road, as distance and in paces."""
    units = profile.rig.units
    for road in _ROADS:
        for device in warning_devices(road):
            for figure in _device_figures(road, device, units):
                ledger.add(figure)
    length = _length_known(ledger)
    if length is not None:
        told = Wording(profile.rig.units).length(length, "up")
        walk = length + _MIDDLE
        inputs = (Input("length, coupled", told, f"figure {COMBINATION_LENGTH.key}"),)
        ledger.add(
            Figure(
                "rig.warning_devices.two_way.ahead.paces_from_rear",
                float(paces(walk, PACE)),
                "calculated",
                f"paces {_pace(units)} from the rear of the last vehicle to the device ahead: length and "
                f"{procedure_number('device far', units)}",
                "49 CFR 392.22; practice",
                inputs,
                _device_cautions(units),
            )
        )


def _name(device: WarningDevice) -> str:
    if device.side == "ahead":
        return "ahead"
    if device.distance <= _NEAR:
        return "near_behind"
    return "behind" if device.distance <= _MIDDLE else "far_behind"


def _device_figures(road: Road, device: WarningDevice, units: System) -> Iterator[Figure]:
    key = f"rig.warning_devices.{road.replace('-', '_')}.{_name(device)}"
    kind_of_road = "with traffic both ways" if road == "two-way" else "divided or one-way"
    counted = (
        "ahead of the front of the rig" if device.side == "ahead" else "behind the rear of the last vehicle"
    )
    rule = f"on a road {kind_of_road}, {counted}"
    source = "49 CFR 392.22"
    yield Figure(
        f"{key}.distance", device.distance, "table", rule, source, cautions=_device_cautions(units)[1:]
    )
    yield Figure(
        f"{key}.paces",
        float(paces(device.distance, PACE)),
        "calculated",
        f"{rule}, in paces {_pace(units)}",
        f"{source}; practice",
        cautions=_device_cautions(units),
    )
