"""Federal bridge formula and license groups for this rig: information, never more than attention."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.ledger import Figure, Finding, Input, Ledger, Phrase
from binder.assessment.weights import kinds
from binder.assessment.weights.kinds import GroupKinds
from binder.assessment.weights.loads import StateLoads
from binder.calculations.weights.labels_and_law import federal_group_limit, federal_license_group
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.quantities import Quantity, number_in, registry
from binder.reference.constants import HEAVY_RATING, TOWED_RATING


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
    start: Quantity | None = registry.Quantity(0.0, "inch")
    for name, vehicle in rig.vehicles.items():
        if start is None:
            yield chain
            chain, start = [], registry.Quantity(0.0, "inch")
        chain += [((name, axle), start + entry.at) for axle, entry in vehicle.axles.items()]
        start = _next_start(rig, name, start)
    yield chain


def _next_start(rig: Rig, ahead: str, start: Quantity) -> Quantity | None:
    coupling = next((one for one in rig.couplings if one.ahead == ahead), None)
    if coupling is None or coupling.at is None or coupling.at_behind is None or coupling.how == "dolly":
        return None
    bar = coupling.length if coupling.how == "tow bar" else registry.Quantity(0.0, "inch")
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
    sums = []
    for state in states:
        loads = [state.vehicles[vehicle].axles[axle].load for vehicle, axle in group.axles]
        known = [number_in(load, "pound") for load in loads if load is not None]
        if len(known) == len(loads):
            sums.append(sum(known))
    return registry.Quantity(max(sums), "pound") if sums else None


def _enter_license(profile: Profile, ledger: Ledger) -> None:
    first, *towed = profile.rig.vehicles.values()
    ratings = {
        name: vehicle.label.gross_vehicle_weight_rating for name, vehicle in profile.rig.vehicles.items()
    }
    known = [rating for rating in ratings.values() if rating is not None]
    stated = first.label.gross_combination_weight_rating
    group = None
    if len(known) == len(ratings):
        behind = sum(known[1:], start=known[0] * 0) if towed else None
        whole = known[0] if behind is None else known[0] + behind
        if behind is not None and stated is not None:
            whole = max(stated, whole)
        group = federal_license_group(whole, known[0], behind)
    law = {"heavy": HEAVY_RATING.quantity, "light": TOWED_RATING.quantity}
    given = tuple(Input(kinds.RATING_OF, rating, facts={"name": name}) for name, rating in ratings.items())
    ledger.enter(Figure(kinds.LICENSE_GROUP.of(), group, given, facts=law))
