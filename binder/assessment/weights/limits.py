"""What the label and the law allow, beside what the rig weighs."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.coupling.kinds import DOWN_LOAD
from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase, Place, all_known
from binder.assessment.weights import kinds
from binder.assessment.weights.kinds import GroupKinds
from binder.assessment.weights.loads import StateLoads
from binder.assessment.weights.resting import CARRIED
from binder.assessment.weights.states import full_volume
from binder.calculations.weights.labels_and_law import (
    CapacityUse,
    cargo_carrying_capacity_left,
    federal_group_limit,
    federal_license_group,
    occupant_and_cargo_capacity_left,
)
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity, number_in, registry
from binder.reference.constants import HEAVY_RATING, LABEL_PERSON, PROCEDURE_CONSTANTS, TOWED_RATING


def assess_label_use(profile: Profile, ledger: Ledger) -> None:
    """Enter what is used of, and left of, the capacity each label states."""
    for name, vehicle in profile.rig.vehicles.items():
        label, water = vehicle.label, _fresh_water(vehicle)
        capacity, cargo = label.occupant_and_cargo_carrying_capacity, label.cargo_carrying_capacity
        water_input = Input(kinds.FRESH_WATER, water, Place("rig.yaml", ("vehicles", name, "tanks")))
        use, people = None, _people(profile, name)
        ledger.find(*_seat_findings(name, vehicle, people))
        if capacity is not None:
            tongue = _tongue_load(profile, name, ledger)
            if people is not None and water is not None and tongue is not None:
                use = occupant_and_cargo_capacity_left(capacity, people, water, tongue)
            inputs = [Input(kinds.PEOPLE, people)]
            if water is None or water.magnitude:
                inputs.append(water_input)
            if tongue is None or tongue.magnitude:
                resting = {"resting": tuple(_resting(profile, name))}
                inputs.append(Input(kinds.RESTING, tongue, facts=resting))
            _enter(name, use, tuple(inputs), ledger)
        elif cargo is not None:
            use = None if water is None else cargo_carrying_capacity_left(cargo, water)
            _enter(name, use, (water_input,), ledger)
        elif any(label.is_blank(f"{name}cargo_carrying_capacity") for name in ("", "occupant_and_")):
            _enter(name, None, (), ledger)


def _seat_findings(name: str, vehicle: Vehicle, people: int | None) -> Iterator[Finding]:
    """A label must leave the weight of a person for each belted seat (49 CFR 571.120)."""
    seats, capacity = vehicle.label.seats, vehicle.label.occupant_and_cargo_carrying_capacity
    if seats is None:
        return
    person = PROCEDURE_CONSTANTS["label person"]
    needed = seats * LABEL_PERSON.quantity
    if capacity is not None and capacity < needed:
        facts: dict[str, Fact] = {"what": kinds.SEATS_WEIGHT, "capacity": capacity, "person": person}
        facts |= {"seats": seats, "needed": needed}
        yield Finding(kinds.SEATS_OVER_LABEL, kinds.SEATS_OVER_LABEL.of(name), facts)
    if people is not None and people > seats:
        about = kinds.MORE_PEOPLE_THAN_SEATS.of(name)
        yield Finding(kinds.MORE_PEOPLE_THAN_SEATS, about, {"people": people, "seats": seats})


def _fresh_water(vehicle: Vehicle) -> Quantity | None:
    volumes = all_known(full_volume(tank) for tank in vehicle.tanks.values() if tank.holds == "fresh water")
    return None if volumes is None else sum(volumes, start=registry.Quantity(0.0, "gallon"))


def _people(profile: Profile, vehicle: str) -> int | None:
    if profile.trip and profile.trip.crew:
        return sum(person.vehicle == vehicle for person in profile.trip.crew)
    return profile.rig.people if vehicle == next(iter(profile.rig.vehicles)) else 0


def _tongue_load(profile: Profile, vehicle: str, ledger: Ledger) -> Quantity | None:
    """All that rests on a vehicle from what is joined to it: tongues, pins, a camper, a car."""
    resting = [item for item in profile.rig.couplings if item.ahead == vehicle and item.how != "tow bar"]
    loads = all_known(ledger.quantity(DOWN_LOAD.of(item.ahead, item.behind)) for item in resting)
    return None if loads is None else sum(loads, start=registry.Quantity(0.0, "pound"))


def _resting(profile: Profile, vehicle: str) -> Iterator[str | Phrase]:
    joined = [item for item in profile.rig.couplings if item.ahead == vehicle]
    carried = [item.behind for item in joined if item.how == CARRIED]
    for name in carried:
        yield Phrase(kinds.CARRIED_ON_IT, {"carried": name})
    if len(carried) < len(joined) or not carried:
        yield kinds.ON_THE_COUPLING


def _enter(vehicle: str, use: CapacityUse | None, inputs: tuple[Input, ...], ledger: Ledger) -> None:
    counted = {what: PROCEDURE_CONSTANTS[f"label {what}"] for what in ("person", "water")}
    used, left = (use.used, use.left) if use else (None, None)
    ledger.enter(Figure(kinds.LABEL_USED.of(vehicle), used, inputs, facts=counted))
    slack = None if left is None else Phrase(kinds.LEFT_FOR_CARGO, {"left": left})
    key = kinds.LABEL_LEFT.of(vehicle)
    ledger.enter(Figure(key, left, inputs, slack=slack))
    if left is not None and left.magnitude < 0:
        ledger.find(Finding(kinds.OVER_LABEL, key, {"over": left * -1}))


class AxleGroup(NamedTuple):
    """Consecutive axles of the rig: each by vehicle and name, and how far the outer ones are apart."""

    axles: tuple[tuple[str, str], ...]
    apart: Quantity

    @property
    def kinds(self) -> GroupKinds:
        """Kinds of its figures."""
        return kinds.ONE_AXLE if len(self.axles) == 1 else kinds.AXLE_GROUP

    @property
    def subject(self) -> tuple[str, ...]:
        """Its first axle and, of several, its last: each by vehicle and name."""
        return self.axles[0] if len(self.axles) == 1 else (*self.axles[0], *self.axles[-1])

    @property
    def limit(self) -> Quantity:
        """What the federal rule allows it."""
        return federal_group_limit(self.apart, len(self.axles))

    @property
    def name(self) -> Phrase:
        """Its name on paper."""
        (vehicle, axle), (other, last) = self.axles[0], self.axles[-1]
        facts = {"vehicle": vehicle, "axle": axle, "other": other, "last": last}
        if len(self.axles) == 1:
            return Phrase(kinds.AXLE_NAME, facts)
        return Phrase(kinds.AXLES_NAME if vehicle == other else kinds.AXLES_OF_TWO_NAME, facts)


_FIRST = registry.Quantity(0.0, "inch")


def axle_groups(rig: Rig) -> tuple[AxleGroup, ...]:
    """Every group of consecutive axles whose places along the rig are known."""
    return tuple(
        AxleGroup(tuple(name for name, _ in run), run[-1][1] - run[0][1])
        for chain in _chains(rig)
        for size in range(1, len(chain) + 1)
        for run in (chain[start : start + size] for start in range(len(chain) - size + 1))
    )


def _chains(rig: Rig) -> Iterator[list[tuple[tuple[str, str], Quantity]]]:
    """Axles with their places from the first axle of the rig; a gap that is not known begins anew."""
    chain: list[tuple[tuple[str, str], Quantity]] = []
    start: Quantity | None = _FIRST
    for name, vehicle in rig.vehicles.items():
        if start is None:
            yield chain
            chain, start = [], _FIRST
        places = vehicle.axle_places
        if vehicle.axles and not places:
            yield from ([((name, axle), _FIRST)] for axle in vehicle.axles)
            start = None
            continue
        chain += [((name, axle), start + at) for axle, at in zip(vehicle.axles, places, strict=True)]
        start = _next_start(rig, name, start)
    yield chain


def _next_start(rig: Rig, ahead: str, start: Quantity) -> Quantity | None:
    coupling = next((one for one in rig.couplings if one.ahead == ahead), None)
    if coupling is None or coupling.at is None or coupling.at_behind is None or coupling.how == "dolly":
        return None
    bar = coupling.length if coupling.how == "tow bar" else _FIRST
    return None if bar is None else start + coupling.at + bar - coupling.at_behind


def assess_weight_law(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter the federal limit of each axle group, and the federal license group of the ratings."""
    for group, load in _told(profile.rig, states):
        _enter_group(group, load, ledger)
    _enter_license(profile, ledger)


def _told(rig: Rig, states: tuple[StateLoads, ...]) -> Iterator[tuple[AxleGroup, Quantity | None]]:
    """Groups worth a line: each vehicle whole, the rig whole, the one with the least room, those over."""
    loads = {group: _heaviest(group, states) for group in axle_groups(rig)}
    room = {group: group.limit - load for group, load in loads.items() if load is not None}
    several = [group for group in room if len(group.axles) > 1]
    least = min(several, key=lambda group: room[group], default=None)
    longest = max((len(group.axles) for group in loads), default=0)
    whole = [tuple((name, axle) for axle in vehicle.axles) for name, vehicle in rig.vehicles.items()]
    for group, load in loads.items():
        count = len(group.axles)
        is_whole = count > 1 and (group.axles in whole or count == longest)
        if is_whole or group == least or (load is not None and room[group].m < 0):
            yield group, load


def _enter_group(group: AxleGroup, load: Quantity | None, ledger: Ledger) -> None:
    limit_key, margin_key = group.kinds.limit.of(*group.subject), group.kinds.margin.of(*group.subject)
    given = (Input(kinds.APART, group.apart), Input(kinds.AXLE_COUNT, len(group.axles)))
    ledger.enter(Figure(limit_key, group.limit, given))
    if load is None:
        return
    margin = group.limit - load
    heaviest = Input(kinds.HEAVIEST_TOGETHER, load)
    ledger.enter(Figure(group.kinds.load.of(*group.subject), load, (heaviest,)))
    limit = Input(kinds.FEDERAL_LIMIT, group.limit, limit_key)
    ledger.enter(Figure(margin_key, margin, (heaviest, limit)))
    if margin.m < 0:
        ledger.find(Finding(group.kinds.over, margin_key, {"group": group.name, "over": -1 * margin}))


def _heaviest(group: AxleGroup, states: tuple[StateLoads, ...]) -> Quantity | None:
    """None where one of its loads is not known in some state: that may be the heaviest."""
    sums = []
    for state in states:
        loads = all_known(state.vehicles[vehicle].axles[axle].load for vehicle, axle in group.axles)
        if loads is None:
            return None
        sums.append(sum(number_in(load, "pound") for load in loads))
    return registry.Quantity(max(sums), "pound") if sums else None


def _enter_license(profile: Profile, ledger: Ledger) -> None:
    first, *towed = profile.rig.vehicles.values()
    ratings = {
        name: vehicle.label.gross_vehicle_weight_rating for name, vehicle in profile.rig.vehicles.items()
    }
    known, stated = all_known(ratings.values()), first.label.gross_combination_weight_rating
    group = None
    if known:
        behind = sum(known[1:], start=known[0] * 0) if towed else None
        whole = known[0] if behind is None else known[0] + behind
        if behind is not None and stated is not None:
            whole = max(stated, whole)
        group = federal_license_group(whole, known[0], behind)
    law = {"heavy": HEAVY_RATING.quantity, "light": TOWED_RATING.quantity}
    given = tuple(Input(kinds.RATING_OF, rating, facts={"name": name}) for name, rating in ratings.items())
    ledger.enter(Figure(kinds.LICENSE_GROUP.of(), group, given, facts=law))
