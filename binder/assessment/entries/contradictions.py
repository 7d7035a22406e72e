"""What the input says that cannot be: names that lead nowhere, sums that do not add up, tables that fall.

These are problems, not findings: nothing is computed from them and nothing is written.
"""

from collections.abc import Iterator
from itertools import pairwise

from binder.assessment.entries import kinds
from binder.assessment.entries.body import body_problems
from binder.assessment.entries.joined import joined_problems
from binder.assessment.entries.names import name_problems, stop_levels
from binder.assessment.tires.axle import tire_axles
from binder.assessment.tires.register import doubts_of
from binder.assessment.weights.states import volume_of
from binder.calculations.tires.load_curves import Doubt
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import AxleWeights, VehicleWeights
from binder.problems import InputProblems, Path, Problem
from binder.quantities import Quantity, registry

_DIVISION = registry.Quantity(20.0, "pound")


def refuse_contradictions(profile: Profile) -> None:
    """Raise every contradiction of a profile at once."""
    problems = [*name_problems(profile), *joined_problems(profile), *_empty_rows(profile)]
    if not problems:
        problems = [
            *_axle_places(profile),
            *_levels(profile),
            *_tickets(profile),
            *_tables(profile),
            *_times(profile),
            *body_problems(profile),
        ]
    if problems:
        raise InputProblems(problems, profile.sources)


def _axle_places(profile: Profile) -> Iterator[Problem]:
    for name, vehicle in profile.rig.vehicles.items():
        for (ahead_name, ahead), (axle_name, axle) in pairwise(vehicle.axles.items()):
            if axle.at <= ahead.at:
                path: Path = ("vehicles", name, "axles", axle_name, "at")
                text = kinds.NOT_BEHIND.format(ahead=ahead_name)
                yield profile.rig_places.problem(path, text)
        first_name, first = next(iter(vehicle.axles.items()), (None, None))
        if first is not None and first.at.m != 0:
            path = ("vehicles", name, "axles", str(first_name), "at")
            yield profile.rig_places.problem(path, kinds.FIRST_AXLE)


def _levels(profile: Profile) -> Iterator[Problem]:
    rig = profile.rig
    stated: list[tuple[Located, Path, object]] = [
        (profile.rig_places, ("scale_tickets", number, "levels"), ticket.levels)
        for number, ticket in enumerate(rig.scale_tickets)
    ]
    if profile.trip and profile.trip_places:
        stated.append((profile.trip_places, ("levels_at_start",), profile.trip.levels_at_start))
        stated += [(profile.trip_places, path, levels) for path, levels in stop_levels(profile)]
    for places, base, levels in stated:
        if not isinstance(levels, dict):
            continue
        for vehicle, tanks in levels.items():
            for name, level in tanks.items():
                tank = rig.vehicles[vehicle].tanks[name]
                volume = volume_of(tank, level)
                if volume is not None and tank.capacity is not None and volume > tank.capacity:
                    text = kinds.OVER_CAPACITY.format(level=level.written, capacity=f"{tank.capacity:g~P}")
                    yield places.problem((*base, vehicle, name), text)


def _tickets(profile: Profile) -> Iterator[Problem]:
    for number, ticket in enumerate(profile.rig.scale_tickets):
        division = ticket.division or _DIVISION
        for vehicle, weights in ticket.weights.items():
            base: Path = ("scale_tickets", number, "weights", vehicle)
            for axle_name, reading in weights.axles.items():
                yield from _ends(profile, (*base, axle_name), reading, division)
            yield from _sum(profile, base, weights, division)


def _ends(profile: Profile, path: Path, reading: AxleWeights, division: Quantity) -> Iterator[Problem]:
    for side, end in (("left", reading.left), ("right", reading.right)):
        if end is not None and reading.axle is not None and end > reading.axle:
            text = kinds.END_OVER_AXLE.format(axle=f"{reading.axle:,.0f~P}")
            yield profile.rig_places.problem((*path, side), text)
            return
    if reading.left is None or reading.right is None or reading.axle is None:
        return
    both = reading.left + reading.right
    if abs(both - reading.axle) > division:
        text = kinds.ENDS_APART.format(both=f"{both:,.0f~P}", axle=f"{reading.axle:,.0f~P}")
        yield profile.rig_places.problem((*path, "axle"), text)


def _sum(profile: Profile, path: Path, weights: VehicleWeights, division: Quantity) -> Iterator[Problem]:
    vehicle = profile.rig.vehicles[str(path[-1])]
    if weights.total is None or not vehicle.axles:
        return
    read = [axle for reading in weights.axles.values() if (axle := _axle(reading)) is not None]
    total = sum(read, start=weights.total * 0)
    # Each axle and the total are read to one division.
    apart, allowed = total - weights.total, division * max(len(read) - 1, 1)
    if len(read) == len(vehicle.axles) and abs(apart) > allowed:
        text = kinds.AXLES_APART.format(axles=f"{total:,.0f~P}", total=f"{weights.total:,.0f~P}")
        yield profile.rig_places.problem((*path, "total"), text)
    elif apart > allowed:
        text = kinds.SOME_AXLES_OVER.format(count=len(read), axles=f"{total:,.0f~P}")
        yield profile.rig_places.problem((*path, "total"), text)


def _axle(reading: AxleWeights) -> Quantity | None:
    if reading.axle is None and reading.left is not None and reading.right is not None:
        both: Quantity = reading.left + reading.right
        return both
    return reading.axle


def _empty_rows(profile: Profile) -> Iterator[Problem]:
    """A row of no pressure or no load, which no later check could divide by."""
    for name, tires in profile.rig.tires.items():
        for fitment in ("single", "dual"):
            rows = getattr(tires.table, fitment, None) or {}
            if any(pressure.m <= 0 or load.m <= 0 for pressure, load in rows.items()):
                path: Path = ("tires", name, "table", fitment)
                yield profile.rig_places.problem(path, kinds.EMPTY_ROW, at_key=True)


def _tables(profile: Profile) -> Iterator[Problem]:
    seen: set[Path] = set()
    for axle in tire_axles(profile.rig, ()):
        for doubt in doubts_of(axle):
            path: Path = ("tires", str(axle.axle.tires), "table", axle.axle.fitment)
            if not doubt.is_problem or path in seen:
                continue
            seen.add(path)
            text = kinds.DUAL_SHARE if doubt.doubt is Doubt.DUAL_SHARE else kinds.FALLS
            at = "" if doubt.row is None else kinds.AT_ROW.format(pressure=f"{doubt.row.pressure:g~P}")
            yield profile.rig_places.problem(path, text.format(at=at), at_key=True)


def _times(profile: Profile) -> Iterator[Problem]:
    if profile.trip is None or profile.trip_places is None:
        return
    for number, (before, after) in enumerate(pairwise(profile.trip.days), start=1):
        driving = sum(
            (leg.driving for leg in before.legs if leg.driving is not None),
            start=registry.Quantity(0.0, "hour"),
        )
        hours = (after.leave - before.leave).total_seconds() / 3600
        if hours <= driving.to("hour").m:
            text = kinds.NOT_ENDED.format(began=f"{before.leave:%Y-%m-%d %H:%M}", driving=f"{driving:g~P}")
            yield profile.trip_places.problem(("days", number, "leave"), text)
