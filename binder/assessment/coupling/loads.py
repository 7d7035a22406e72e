"""What each coupling may tow against what it tows, in the worst state of the trip."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from binder.assessment.coupling import kinds
from binder.assessment.coupling.equipment import brakes_while_towed, is_cable
from binder.assessment.ledger import Fact, Figure, FigureKind, Finding, FindingKind, Input, Ledger, Phrase
from binder.assessment.weights.loads import StateLoads
from binder.assessment.weights.resting import CARRIED, ON_A_DOLLY
from binder.assessment.weights.supports import CARRYING
from binder.calculations.coupling import (
    Link,
    coupling_limit,
    limit_without_brakes,
    room_in_combination_rating,
)
from binder.models.load import Profile
from binder.models.rig import Coupling
from binder.quantities import Quantity, registry

_ZERO = registry.Quantity(0.0, "pound")


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
        for finding in _towed_findings(towed, links, weight):
            ledger.find(finding)
        _assess_down(towed, ledger)


def _towed_load(towed: _Towed) -> Quantity | None:
    """Heaviest loaded weight of all that hangs behind the coupling."""
    names = list(towed.profile.rig.vehicles)
    behind = names[names.index(towed.coupling.behind) :]
    loads = []
    for state in towed.states:
        # What one of them presses on another behind the coupling is counted once.
        parts = [state.vehicles[behind[0]].total, *(state.vehicles[name].on_the_road for name in behind[1:])]
        known = [part for part in parts if part is not None]
        if len(known) < len(parts):
            return None
        loads.append(sum(known, start=_ZERO))
    return max(loads, default=None)


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
    if margin is None:
        return None
    if margin.m < 0:
        return Phrase(kinds.OVER_WEAKEST, {"over": margin * -1})
    return Phrase(kinds.UNDER_WEAKEST, {"room": margin})


def _enter_towed(towed: _Towed, links: tuple[Link, ...], weight: Quantity | None, ledger: Ledger) -> None:
    subject, inputs, chain = towed.subject, _inputs(links), coupling_limit(links)
    margin = chain.margin(weight) if weight is not None else None
    slack = _slack(margin)
    weakest = Phrase(kinds.PARTS, {"parts": chain.weakest}) if chain.weakest else None
    loaded = Input(kinds.TOWED_LOADED, weight)
    ledger.enter(Figure(kinds.LIMIT.of(*subject), chain.limit, inputs, slack=slack))
    ledger.enter(Figure(kinds.WEAKEST_PART.of(*subject), weakest, inputs))
    ledger.enter(Figure(kinds.TOWED.of(*subject), weight, (loaded,)))
    ledger.enter(Figure(kinds.MARGIN.of(*subject), margin, (*inputs, loaded), slack=slack))


def _is_told_elsewhere(towed: _Towed, link: Link) -> bool:
    """One finding for one cause: cables are judged one by one, the combination against its rating."""
    behind = towed.profile.rig.vehicles[towed.coupling.behind]
    has_no_brake = brakes_while_towed(behind) is False
    return (
        link.name == kinds.ROOM or is_cable(link.name) or (has_no_brake and link.name == kinds.WITHOUT_BRAKES)
    )


def _towed_findings(towed: _Towed, links: tuple[Link, ...], weight: Quantity | None) -> Iterator[Finding]:
    judged = coupling_limit([link for link in links if not _is_told_elsewhere(towed, link)])
    margin = judged.margin(weight) if weight is not None else None
    if margin is not None and margin < _ZERO:
        yield towed.finding(kinds.TOWED_OVER, kinds.MARGIN, over=margin * -1, parts=judged.weakest)
    for part in judged.unknown:
        yield towed.finding(kinds.PART_UNRATED, kinds.LIMIT, part=part)
    if towed.coupling.at is None:
        yield towed.finding(kinds.PLACE_UNKNOWN)
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
    limits = {name: part.down for name, part in coupling.parts.items() if part.down is not None}
    if towed.has_bars_on and coupling.distribution:
        # With bars on, the receiver's distributing rating stands in for its carrying one.
        limits.pop("receiver", None)
        distributing = coupling.distribution.receiver_distributing.down
        limits |= {} if distributing is None else {kinds.RECEIVER_BARS_ON: distributing}
    links = [Link(name, limit) for name, limit in limits.items()]
    chain = coupling_limit(links)
    margin = None if down is None else chain.margin(down)
    figure = Figure(kinds.DOWN_LOAD.of(*towed.subject), down, _inputs(links), slack=_slack(margin))
    ledger.enter(figure)
    if down is None:
        case = "carrying" if coupling.how in CARRYING else ""
        ledger.find(Finding(kinds.DOWN_LOAD_UNKNOWN, figure.key, case=case))
    if chain.limit is None:
        ledger.find(Finding(kinds.DOWN_UNRATED, figure.key))
    elif margin is not None and margin < _ZERO:
        facts: dict[str, Fact] = {"over": margin * -1, "parts": chain.weakest}
        ledger.find(Finding(kinds.DOWN_OVER, figure.key, facts, coupling.how))


def _heaviest_down(towed: _Towed) -> Quantity | None:
    loads = [state.vehicles[towed.coupling.behind].down for state in towed.states]
    known = [load for load in loads if load is not None]
    return max(known, default=None) if len(known) == len(loads) else None


def _assess_carried(towed: _Towed, ledger: Ledger) -> None:
    """Nothing of it is towed: what it weighs is the whole of what it rests on what carries it."""
    coupling, down = towed.coupling, _heaviest_down(towed)
    given = (Input(kinds.CARRIED_WEIGHT, down),)
    ledger.enter(Figure(kinds.DOWN_LOAD.of(*towed.subject), down, given, "carried"))
    if coupling.at is None:
        ledger.find(towed.finding(kinds.CARRIED_PLACE_UNKNOWN))
