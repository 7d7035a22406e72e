"""Each coupling against its weakest part, what rests on it, and how long the combination is."""

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from binder.assessment.coupling import kinds
from binder.assessment.coupling.equipment import brakes_while_towed, is_cable
from binder.assessment.ledger import (
    OF_THOSE_KNOWN,
    Fact,
    Figure,
    FigureKind,
    Finding,
    FindingKind,
    Input,
    Ledger,
    Phrase,
    Place,
    all_known,
    room_or_over,
)
from binder.assessment.weights.loads import StateLoads, VehicleLoad
from binder.assessment.weights.resting import (
    CARRIED,
    CARRYING,
    ON_A_DOLLY,
    carrier_of,
    lever_arms,
    supports_of,
)
from binder.assessment.weights.states import TripState
from binder.calculations.coupling import (
    Link,
    coupling_limit,
    limit_without_brakes,
    room_in_combination_rating,
)
from binder.calculations.weights.axle_loads import couple_arm
from binder.models.load import Profile
from binder.models.rig import Coupling
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity, is_quantity, registry

BANDS = {"ball": (10, 15), "fifth wheel": (15, 25), "gooseneck": (15, 25)}
"""Percent of the loaded trailer (practice, from memory; the trailer's manual overrides)."""


class _Share(NamedTuple):
    """Percent of the loaded trailer, and the title of the state."""

    percent: float
    moment: Phrase

    @property
    def facts(self) -> dict[str, Fact]:
        return {"share": self.percent, "moment": self.moment}


def assess_down_share(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter the share of each trailer that stands on its coupling, and find what is outside its band."""
    for coupling in profile.rig.couplings:
        # A dolly is no trailer: how far its axle stands from what it carries is its maker's matter.
        if coupling.how in CARRYING and profile.rig.vehicles[coupling.behind].kind != "dolly":
            _assess_share(coupling, states, ledger)


def _assess_share(coupling: Coupling, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    key = kinds.DOWN_SHARE.of(coupling.ahead, coupling.behind)
    least, most = BANDS[coupling.how]
    band: dict[str, Fact] = {"least": least, "most": most}
    case = "bars" if coupling.distribution is not None and coupling.distribution.couple is not None else ""
    shares = _shares(coupling, states)
    if not shares:
        ledger.enter(Figure(key, None, case=case, facts=band))
        ledger.find(Finding(kinds.SHARE_UNKNOWN, key))
        return
    low, high = (chosen(shares, key=lambda share: share.percent) for chosen in (min, max))
    # The end that is nearer to leaving its band is the one to know; too little is the worse of the two.
    worst = low if low.percent - least <= most - high.percent else high
    inputs = (
        Input(kinds.LEAST_SHARE, low.percent, low.moment),
        Input(kinds.GREATEST_SHARE, high.percent, high.moment),
    )
    ends = tuple(Phrase(kinds.SHARE, {"share": share.percent}) for share in (low, high))
    slack = Phrase(kinds.SHARES, {"shares": ends, **band})
    value = registry.Quantity(worst.percent, "percent")
    ledger.enter(Figure(key, value, inputs, case, band, slack))
    if low.percent < least:
        ledger.find(Finding(kinds.SHARE_LOW, key, {**band, **low.facts}))
    if high.percent > most:
        ledger.find(Finding(kinds.SHARE_HIGH, key, {**band, **high.facts}))


def _shares(coupling: Coupling, states: tuple[StateLoads, ...]) -> list[_Share]:
    shares = []
    for state in states:
        load = state.vehicles[coupling.behind]
        if load.total is None or load.total.m <= 0 or load.down is None or load.down.m <= 0:
            continue
        for down in {load.down, load.down_least or load.down}:
            ratio: Quantity = down / load.total
            shares.append(_Share(float(ratio.to("percent").m), state.state.title))
    return shares


def assess_couple_arms(profile: Profile, ledger: Ledger) -> None:
    """Enter the arm that turns two weighings, bars on and bars off, into the couple of the bars."""
    for coupling in profile.rig.couplings:
        if coupling.distribution is None:
            continue
        rig = profile.rig
        lengths = lever_arms(coupling, supports_of(rig, coupling.ahead), supports_of(rig, coupling.behind))
        of = (kinds.BALL_TO_AXLES, kinds.REAR_AXLE_TO_BALL, kinds.WHEELBASE)
        inputs = tuple(Input(kind, length) for kind, length in zip(of, lengths or (), strict=False))
        key = kinds.COUPLE_ARM.of(coupling.ahead, coupling.behind)
        arm, case = (couple_arm(*lengths), "") if lengths else (None, "unknown")
        ledger.enter(Figure(key, arm, inputs, case))


_OVER_THE_BED = frozenset({"fifth wheel", "gooseneck", ON_A_DOLLY})


def assess_combination_length(profile: Profile, ledger: Ledger) -> None:
    """Enter the length of the combination, and find what is missing for it."""
    key, parts = kinds.COMBINATION_LENGTH.of(), tuple(_parts(profile))
    for part in parts:
        if part.value is None:
            facts = {**part.facts, "origin": part.origin}
            told = {"what": Phrase(part.kind.name, facts), "origin": Phrase(part.kind.origin, facts)}
            ledger.find(Finding(kinds.LENGTH_MISSING, key, told))
    known = tuple(part for part in parts if part.value is not None)
    lengths = [part.value for part in known if is_quantity(part.value)]
    length = sum(lengths[1:], start=lengths[0]) if len(known) == len(parts) else None
    *_, last = profile.rig.vehicles
    hows: list[str] = [item.how for item in profile.rig.couplings] or ["alone"]
    ledger.enter(Figure(key, length, known, hows[0] if len(hows) == 1 else "", {"behind": last}))


def _parts(profile: Profile) -> Iterator[Input]:
    vehicles, couplings = profile.rig.vehicles, profile.rig.couplings
    over_bed = {item.behind: item for item in couplings if item.how in _OVER_THE_BED}
    shortened = {item.ahead: item for item in over_bed.values()}
    for name, vehicle in vehicles.items():
        if carrier_of(profile.rig, name):
            continue  # What carries it is measured with it on.
        if name in shortened:
            yield from _front_to_pin(name, vehicle, shortened[name])
        elif name in over_bed:
            yield from _pin_to_rear(name, vehicle, over_bed[name])
        else:
            length, facts = vehicle.size.overall_length, {"vehicle": name}
            yield Input(kinds.VEHICLE_LENGTH, length, _place(name, "size", "overall_length"), facts)
    for number, item in enumerate(couplings, start=1):
        if item.how not in {*_OVER_THE_BED, CARRIED} and (
            item.length is not None or item.how != "ball" or item.is_blank("length")
        ):
            yield Input(kinds.COUPLING_LENGTH, item.length, facts={"how": item.how, "number": number})


def _front_to_pin(name: str, vehicle: Vehicle, coupling: Coupling) -> Iterator[Input]:
    facts, place = {"vehicle": name}, _place(name, "size", "front_overhang")
    yield Input(kinds.FRONT_OVERHANG, vehicle.size.front_overhang, place, facts)
    joint = kinds.FIRST_AXLE_PLACE if coupling.how == ON_A_DOLLY else kinds.PIN_PLACE
    yield Input(joint, coupling.at, facts=facts)


def _pin_to_rear(name: str, vehicle: Vehicle, coupling: Coupling) -> Iterator[Input]:
    facts, behind = {"vehicle": name}, coupling.at_behind
    ahead: Quantity | None = None if behind is None else -1 * behind
    if coupling.how != ON_A_DOLLY:
        yield Input(kinds.PIN_TO_FIRST_AXLE, ahead, facts=facts)
    last = max(vehicle.axle_places, default=None)
    yield Input(kinds.FIRST_TO_LAST_AXLE, last, _place(name, "axles"), facts)
    place = _place(name, "size", "rear_overhang")
    yield Input(kinds.REAR_OVERHANG, vehicle.size.rear_overhang, place, facts)


def _place(vehicle: str, *path: str) -> Place:
    return Place("rig.yaml", ("vehicles", vehicle, *path))


_ZERO = registry.Quantity(0.0, "pound")


class _Load(NamedTuple):
    """A load in one state, at the most and at the least."""

    most: Quantity | None
    least: Quantity | None


class _Towed(NamedTuple):
    """One coupling, what limits it, and the heaviest that hangs on it."""

    profile: Profile
    coupling: Coupling
    states: tuple[StateLoads, ...]

    @property
    def subject(self) -> tuple[str, str]:
        return self.coupling.ahead, self.coupling.behind

    @property
    def has_bars_on(self) -> bool:
        """Bars whose couple is known are always on; bars off is no state of such a rig."""
        distribution = self.coupling.distribution
        return distribution is not None and distribution.couple is not None

    def finding(self, kind: FindingKind, about: FigureKind | None = None, **facts: Fact) -> Finding:
        return Finding(kind, (about or kind).of(*self.subject), facts)


def assess_coupling_loads(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter limit, weakest part, margin and down load of every coupling."""
    for coupling in profile.rig.couplings:
        towed = _Towed(profile, coupling, states)
        if coupling.how == CARRIED:
            _assess_carried(towed, ledger)
            continue
        links, weight = tuple(_links(towed)), _towed_load(towed)
        _enter_towed(towed, links, weight, ledger)
        ledger.find(*_towed_findings(towed, links, weight))
        _assess_down(towed, ledger)


def _towed_load(towed: _Towed) -> Quantity | None:
    """Heaviest loaded weight of all that hangs behind the coupling."""
    loads = all_known(_hangs_behind(towed, state).most for state in towed.states)
    return max(loads, default=None) if loads else None


def _hangs_behind(towed: _Towed, state: StateLoads) -> _Load:
    names = list(towed.profile.rig.vehicles)
    behind = names[names.index(towed.coupling.behind) :]
    # What one of them presses on another behind the coupling is counted once.
    parts = [state.vehicles[behind[0]].total, *(state.vehicles[name].on_the_road for name in behind[1:])]
    known = all_known(parts)
    most = None if known is None else sum(known, start=_ZERO)
    spread = sum((state.vehicles[name].spread for name in behind), start=_ZERO)
    return _Load(most, None if most is None else most - spread)


class _Over(NamedTuple):
    """By how much a limit is passed at the worst, in which state, and the case of its finding."""

    more: Quantity
    state: TripState
    case: str

    @property
    def facts(self) -> dict[str, Fact]:
        return {"over": self.more, "moment": self.state.title}


def _over(towed: _Towed, limit: Quantity | None, load: Callable[[StateLoads], _Load]) -> _Over | None:
    """Where a limit is passed: for sure in a state that is reached, else perhaps, else only on paper."""
    if limit is None:
        return None
    loads = [(state.state, load(state)) for state in towed.states]
    reached = [(state, held) for state, held in loads if state.is_reached]
    cases = (
        ("", [(state, held.least) for state, held in reached]),
        (kinds.ASSUMED, [(state, held.most) for state, held in reached]),
        (kinds.NOT_REACHED, [(state, held.most) for state, held in loads]),
    )
    for case, found in cases:
        over = [_Over(value - limit, state, case) for state, value in found if value and value > limit]
        if over:
            return max(over, key=lambda one: one.more)
    return None


def _links(towed: _Towed) -> Iterator[Link]:
    coupling, vehicles = towed.coupling, towed.profile.rig.vehicles
    for name, part in coupling.parts.items():
        if name == "receiver" and towed.has_bars_on and coupling.distribution:
            yield Link(kinds.RECEIVER_BARS_ON, coupling.distribution.receiver_distributing.towed)
        else:
            yield Link(name, part.towed)
    label = vehicles[coupling.ahead].label
    if coupling.ahead == next(iter(vehicles)):
        # The combination is rated by the maker of what drives it.
        yield Link(kinds.ROOM, _room(towed, label.gross_combination_weight_rating))
    works = brakes_while_towed(vehicles[coupling.behind])
    without = limit_without_brakes(label.towing_limit_without_brakes, brakes_work=works)
    if without is not None and without.limit is not None:
        yield without._replace(name=kinds.WITHOUT_BRAKES)


def _room(towed: _Towed, rating: Quantity | None) -> Quantity | None:
    """What the combination rating leaves behind the heaviest the towing vehicle itself becomes."""
    coupling, own = towed.coupling, []
    for state in towed.states:
        total, behind = state.vehicles[coupling.ahead].total, state.vehicles[coupling.behind]
        if total is None or behind.total is None or behind.on_the_road is None:
            return None
        own.append(total - (behind.total - behind.on_the_road))
    return None if rating is None else room_in_combination_rating(rating, max(own))


def _inputs(links: Iterable[Link]) -> tuple[Input, ...]:
    return tuple(Input(kinds.LINK, link.limit, facts={"part": link.name}) for link in links)


def _slack(margin: Quantity | None) -> Phrase | None:
    return room_or_over(margin, kinds.UNDER_WEAKEST, kinds.OVER_WEAKEST)


def _enter_towed(towed: _Towed, links: tuple[Link, ...], weight: Quantity | None, ledger: Ledger) -> None:
    subject, inputs, chain = towed.subject, _inputs(links), coupling_limit(links)
    margin = chain.margin(weight) if weight is not None else None
    slack, case = _slack(margin), OF_THOSE_KNOWN if chain.unknown else ""
    weakest = Phrase(kinds.PARTS, {"parts": chain.weakest}) if chain.weakest else None
    loaded = Input(kinds.TOWED_LOADED, weight)
    ledger.enter(Figure(kinds.LIMIT.of(*subject), chain.limit, inputs, case, slack=slack))
    ledger.enter(Figure(kinds.WEAKEST_PART.of(*subject), weakest, inputs))
    ledger.enter(Figure(kinds.TOWED.of(*subject), weight, (loaded,)))
    ledger.enter(Figure(kinds.MARGIN.of(*subject), margin, (*inputs, loaded), case, slack=slack))


def _is_told_elsewhere(towed: _Towed, link: Link) -> bool:
    """One finding for one cause: cables are judged one by one, the combination against its rating."""
    behind = towed.profile.rig.vehicles[towed.coupling.behind]
    # No brake is told as such, and one that is not known as not cleared: neither is told twice.
    is_unbraked = brakes_while_towed(behind) is not True and link.name == kinds.WITHOUT_BRAKES
    return link.name == kinds.ROOM or is_cable(link.name) or is_unbraked


def _towed_findings(towed: _Towed, links: tuple[Link, ...], weight: Quantity | None) -> Iterator[Finding]:
    judged = coupling_limit([link for link in links if not _is_told_elsewhere(towed, link)])
    over = _over(towed, judged.limit, lambda state: _hangs_behind(towed, state))
    if over is not None:
        found = towed.finding(kinds.TOWED_OVER, kinds.MARGIN, parts=judged.weakest, **over.facts)
        yield found._replace(case=over.case)
    for part in judged.unknown:
        yield towed.finding(kinds.PART_UNRATED, kinds.LIMIT, part=part)
    if towed.coupling.at is None:
        yield towed.finding(kinds.PLACE_UNKNOWN)
    if towed.coupling.at_behind is None and towed.coupling.how != ON_A_DOLLY:
        yield towed.finding(kinds.PLACE_UNKNOWN)._replace(case="behind")
    if not towed.coupling.parts:
        yield towed.finding(kinds.NO_PARTS, kinds.LIMIT)
    if weight is None:
        yield towed.finding(kinds.TOWED_UNKNOWN, kinds.TOWED)
    distribution = towed.coupling.distribution
    if distribution is not None and distribution.couple is None:
        yield towed.finding(kinds.COUPLE_UNKNOWN)


def _assess_down(towed: _Towed, ledger: Ledger) -> None:
    coupling = towed.coupling
    if coupling.how not in CARRYING and coupling.how != ON_A_DOLLY:
        return
    down = _heaviest_down(towed)
    # Not every part carries: one whose rating is left out has none, one that is blank may be the weakest.
    limits = {name: part.down for name, part in coupling.parts.items() if "down" in part.model_fields_set}
    if towed.has_bars_on and coupling.distribution:
        # With bars on, the receiver's distributing rating stands in for its carrying one.
        limits.pop("receiver", None)
        limits[kinds.RECEIVER_BARS_ON] = coupling.distribution.receiver_distributing.down
    links = [Link(name, limit) for name, limit in limits.items()]
    chain = coupling_limit(links)
    margin = None if down is None or chain.unknown else chain.margin(down)
    figure = Figure(kinds.DOWN_LOAD.of(*towed.subject), down, _inputs(links), slack=_slack(margin))
    ledger.enter(figure)
    if down is None:
        case = "carrying" if coupling.how in CARRYING else ""
        ledger.find(Finding(kinds.DOWN_LOAD_UNKNOWN, figure.key, case=case))
    if chain.limit is None or chain.unknown:
        case, facts = ("", {}) if chain.limit is None else ("some", {"parts": chain.unknown})
        ledger.find(Finding(kinds.DOWN_UNRATED, figure.key, facts, case))
    over = _over(towed, chain.limit, lambda state: _pressed(state.vehicles[coupling.behind]))
    if over is not None:
        case = over.case or coupling.how
        ledger.find(Finding(kinds.DOWN_OVER, figure.key, {**over.facts, "parts": chain.weakest}, case))


def _pressed(load: VehicleLoad) -> _Load:
    return _Load(load.down, load.down_least)


def _heaviest_down(towed: _Towed) -> Quantity | None:
    loads = all_known(state.vehicles[towed.coupling.behind].down for state in towed.states)
    return max(loads) if loads else None


def _assess_carried(towed: _Towed, ledger: Ledger) -> None:
    """Nothing of it is towed: what it weighs is the whole of what it rests on what carries it."""
    coupling, down = towed.coupling, _heaviest_down(towed)
    given = (Input(kinds.CARRIED_WEIGHT, down),)
    ledger.enter(Figure(kinds.DOWN_LOAD.of(*towed.subject), down, given, "carried"))
    if coupling.at is None:
        ledger.find(towed.finding(kinds.CARRIED_PLACE_UNKNOWN))
