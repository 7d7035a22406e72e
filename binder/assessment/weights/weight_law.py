"""Federal bridge formula and license groups for this rig: information, never more than attention."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.weights.loads import StateLoads
from binder.assessment.wording import Wording
from binder.calculations.weights.labels_and_law import federal_group_limit, federal_license_group
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.quantities import Quantity, number_in, registry
from binder.reference.constants import HEAVY_RATING, TOWED_RATING

LICENSE_KEY = "rig.federal_license_group"
_LAW = "For comparison only: a federal rule for freight on Interstate highways; local law differs."
_LICENSE_LAW = "Federal groups, comparison only: local law differs, ask your licensing office."


class AxleGroup(NamedTuple):
    """Consecutive axles of the rig: each by vehicle and name, and how far the outer ones are apart."""

    axles: tuple[tuple[str, str], ...]
    apart: Quantity

    @property
    def key(self) -> str:
        """Start of the keys of its figures."""
        first, last = (f"{vehicle}_{axle}".replace(" ", "_") for vehicle, axle in self._outer)
        return f"weights.bridge.{first}" + (f"_to_{last}" if len(self.axles) > 1 else "")

    @property
    def limit(self) -> Quantity:
        """What the federal rule allows it."""
        return federal_group_limit(self.apart, len(self.axles))

    @property
    def name(self) -> str:
        """Its name on paper."""
        (vehicle, axle), (other, last) = self._outer
        if len(self.axles) == 1:
            return f"{vehicle}, {axle}"
        return f"{vehicle}, {axle} to {last}" if vehicle == other else f"{vehicle}, {axle} to {other}, {last}"

    @property
    def _outer(self) -> tuple[tuple[str, str], tuple[str, str]]:
        return self.axles[0], self.axles[-1]


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
    wording = Wording(profile.rig.units)
    for group, load in _told(profile.rig, states):
        _enter_group(group, load, wording, ledger)
    _enter_license(profile, wording, ledger)


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


def _enter_group(group: AxleGroup, load: Quantity | None, wording: Wording, ledger: Ledger) -> None:
    source = "23 CFR 658.17"
    apart = Input("apart, first to last", wording.length(group.apart, "down"), "rig.yaml axles, couplings")
    count = Input("axles", str(len(group.axles)), "rig.yaml axles")
    rule = "The least of the federal axle, tandem and gross limits and the bridge formula, in whole feet."
    ledger.add(Figure(f"{group.key}.limit", group.limit, "calculated", rule, source, (apart, count), (_LAW,)))
    if load is None:
        return
    margin = group.limit - load
    heaviest = Input("heaviest together", wording.weight(load, "up"), "weights, all states")
    limit = Input("limit", wording.weight(group.limit, "down"), f"{group.key}.limit")
    rule = "The federal limit less its axles together, in their heaviest state."
    ledger.add(Figure(f"{group.key}.load", load, "calculated", "Its axles together.", "statics", (heaviest,)))
    ledger.add(Figure(f"{group.key}.margin", margin, "calculated", rule, source, (heaviest, limit), (_LAW,)))
    if margin.m < 0:
        over = wording.weight(-1 * margin, "up")
        text = f"{group.name}: {over} over the federal limit of axle groups, which is information only"
        helps = "local law differs: ask the road authority before a bridge posted for weight"
        ledger.find(Finding("attention", 10, f"{group.key}.margin", text, helps))


def _heaviest(group: AxleGroup, states: tuple[StateLoads, ...]) -> Quantity | None:
    sums = []
    for state in states:
        loads = [state.vehicles[vehicle].axles[axle].load for vehicle, axle in group.axles]
        known = [number_in(load, "pound") for load in loads if load is not None]
        if len(known) == len(loads):
            sums.append(sum(known))
    return registry.Quantity(max(sums), "pound") if sums else None


def _enter_license(profile: Profile, wording: Wording, ledger: Ledger) -> None:
    first, *towed = profile.rig.vehicles.values()
    ratings = [one.label.gross_vehicle_weight_rating for one in (first, *towed)]
    known = [rating for rating in ratings if rating is not None]
    stated = first.label.gross_combination_weight_rating
    group = None
    if len(known) == len(ratings):
        behind = sum(known[1:], start=known[0] * 0) if towed else None
        whole = known[0] if behind is None else known[0] + behind
        if behind is not None and stated is not None:
            whole = max(stated, whole)
        group = federal_license_group(whole, known[0], behind)
    heavy, light = (wording.weight(one.quantity, "nearest") for one in (HEAVY_RATING, TOWED_RATING))
    rule = (
        f"A: a combination rated {heavy} or more that tows more than {light}; B: one vehicle rated {heavy} "
        "or more. The larger of the stated combination rating and the sum of the ratings counts."
    )
    names = list(profile.rig.vehicles)
    inputs = tuple(
        Input(
            f"rating of the {name}",
            "not known" if rating is None else wording.weight(rating, "nearest"),
            "label",
        )
        for name, rating in zip(names, ratings, strict=True)
    )
    source = "49 CFR 383.5; 49 CFR 383.91"
    ledger.add(Figure(LICENSE_KEY, group, "calculated", rule, source, inputs, (_LICENSE_LAW,)))
