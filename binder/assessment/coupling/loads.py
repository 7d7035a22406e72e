"""What each coupling may tow against what it tows, in the worst state of the trip."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from binder.assessment.coupling.equipment import CABLE_WORDS, brakes_while_towed
from binder.assessment.figures import Figure, Finding, Grade, Input, Ledger
from binder.assessment.weights.loads import StateLoads
from binder.assessment.weights.resting import CARRIED, ON_A_DOLLY
from binder.assessment.weights.supports import CARRYING
from binder.assessment.wording import Wording
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
_ROOM = "combination rating less the loaded towing vehicle"
_WITHOUT_BRAKES = "towing limit without brakes"


class _Towed(NamedTuple):
    """One coupling, what limits it, and the heaviest that hangs on it."""

    profile: Profile
    coupling: Coupling
    states: tuple[StateLoads, ...]

    @property
    def key(self) -> str:
        return coupling_key(self.coupling)

    @property
    def name(self) -> str:
        return f"{self.coupling.ahead} to {self.coupling.behind}"

    @property
    def wording(self) -> Wording:
        return Wording(self.profile.rig.units)

    @property
    def has_bars_on(self) -> bool:
        """Bars whose couple is known are always on; bars off is no state of such a rig."""
        distribution = self.coupling.distribution
        return distribution is not None and distribution.couple is not None

    def finding(self, grade: Grade, part: str, text: str, helps: str) -> Finding:
        return Finding(grade, 4, f"{self.key}.{part}", f"{self.name}: {text}", helps)


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
            yield Link("receiver, bars on", coupling.distribution.receiver_distributing.towed)
        else:
            yield Link(name, part.towed)
    label = vehicles[coupling.ahead].label
    if coupling.ahead == next(iter(vehicles)):
        # The combination is rated by the maker of what drives it.
        yield Link(_ROOM, _room(towed, label.gross_combination_weight_rating))
    works = brakes_while_towed(vehicles[coupling.behind])
    without = limit_without_brakes(label.towing_limit_without_brakes, brakes_work=works)
    if without is not None and without.limit is not None:
        yield without


def _room(towed: _Towed, rating: Quantity | None) -> Quantity | None:
    """What the combination rating leaves behind the heaviest the towing vehicle itself becomes."""
    coupling, own = towed.coupling, []
    for state in towed.states:
        total, behind = state.vehicles[coupling.ahead].total, state.vehicles[coupling.behind]
        if total is None or behind.total is None or behind.on_the_road is None:
            return None
        own.append(total - (behind.total - behind.on_the_road))
    return None if rating is None else room_in_combination_rating(rating, max(own))


def _inputs(towed: _Towed, links: Iterable[Link]) -> tuple[Input, ...]:
    return tuple(
        Input(
            link.name,
            "not known" if link.limit is None else towed.wording.weight(link.limit, "down"),
            "rig.yaml couplings",
        )
        for link in links
    )


def _slack(margin: Quantity | None, wording: Wording) -> str:
    if margin is None:
        return ""
    if margin.m < 0:
        over: Quantity = margin * -1
        return f"{wording.weight(over, 'up')} over the weakest part"
    return f"{wording.weight(margin, 'down')} under the weakest part"


def _enter_towed(towed: _Towed, links: tuple[Link, ...], weight: Quantity | None, ledger: Ledger) -> None:
    key, wording, inputs = towed.key, towed.wording, _inputs(towed, links)
    chain = coupling_limit(links)
    margin = chain.margin(weight) if weight is not None else None
    slack, weakest = _slack(margin, wording), ", ".join(chain.weakest)
    rule = "The least of every part between the two vehicles and of the combination rating."
    source = "49 CFR 571.3; 49 CFR 393.70"
    text = "not known" if weight is None else wording.weight(weight, "up")
    loaded = Input("towed, loaded", text, "weights")
    behind = "Heaviest loaded weight behind the coupling."
    left = "The limit less what is towed."
    for figure in (
        Figure(f"{key}.limit", chain.limit, "stated by a maker", rule, source, inputs, slack=slack),
        Figure(f"{key}.weakest_part", weakest or None, "stated by a maker", rule, source, inputs),
        Figure(f"{key}.towed", weight, "calculated", behind, "statics", (loaded,)),
        Figure(f"{key}.margin", margin, "calculated", left, source, (*inputs, loaded), slack=slack),
    ):
        ledger.add(figure)


def _is_told_elsewhere(towed: _Towed, link: Link) -> bool:
    """One finding for one cause: cables are judged one by one, the combination against its rating."""
    behind = towed.profile.rig.vehicles[towed.coupling.behind]
    has_no_brake = brakes_while_towed(behind) is False
    is_cable = any(word in link.name for word in CABLE_WORDS)
    return link.name == _ROOM or is_cable or (has_no_brake and link.name == _WITHOUT_BRAKES)


def _towed_findings(towed: _Towed, links: tuple[Link, ...], weight: Quantity | None) -> Iterator[Finding]:
    judged = coupling_limit([link for link in links if not _is_told_elsewhere(towed, link)])
    margin = judged.margin(weight) if weight is not None else None
    if margin is not None and margin < _ZERO:
        excess: Quantity = margin * -1
        text = f"{towed.wording.weight(excess, 'up')} over what the {', '.join(judged.weakest)} may tow"
        helps = "tow less, or have the part replaced by one rated for it"
        yield towed.finding("do not drive", "margin", text, helps)
    for part in judged.unknown:
        text = f"limit of the {part} not known"
        yield towed.finding("missing", "limit", text, "read it off the part or its manual")
    if towed.coupling.at is None:
        text = "its place is not known: what it carries counts whole on every axle ahead"
        yield towed.finding("missing", "at", text, "measure it from the first axle")
    if not towed.coupling.parts:
        yield towed.finding("missing", "limit", "no part is given with its rating", "read it off each part")
    if weight is None:
        text = "the towed weight is not known"
        yield towed.finding("missing", "towed", text, f"weigh the {towed.coupling.behind}")
    distribution = towed.coupling.distribution
    if distribution is not None and distribution.couple is None:
        text = "the couple of its bars is not known: it is judged with bars off"
        yield towed.finding("missing", "distribution", text, "weigh with bars on and off, and enter it")


def _assess_down(towed: _Towed, ledger: Ledger) -> None:
    coupling, wording = towed.coupling, towed.wording
    if coupling.how not in CARRYING and coupling.how != ON_A_DOLLY:
        return
    down = _heaviest_down(towed)
    limits = {name: part.down for name, part in coupling.parts.items() if part.down is not None}
    if towed.has_bars_on and coupling.distribution:
        # With bars on, the receiver's distributing rating stands in for its carrying one.
        limits.pop("receiver", None)
        distributing = coupling.distribution.receiver_distributing.down
        limits |= {} if distributing is None else {"receiver, bars on": distributing}
    links = [Link(name, limit) for name, limit in limits.items()]
    chain = coupling_limit(links)
    margin = None if down is None else chain.margin(down)
    rule = "Heaviest load the towed vehicle presses on the coupling."
    inputs, slack = _inputs(towed, links), _slack(margin, wording)
    ledger.add(Figure(f"{towed.key}.down_load", down, "calculated", rule, "statics", inputs, slack=slack))
    if down is None:
        text = f"what the {coupling.behind} presses on it is not known, nor what the {coupling.ahead} carries"
        helps = f"weigh the {coupling.behind}" + (", and its down load" if coupling.how in CARRYING else "")
        ledger.find(towed.finding("missing", "down_load", text, helps))
    if chain.limit is None:
        text = "what its parts may carry is not known"
        ledger.find(
            towed.finding("missing", "down_load", text, "read the down or tongue rating off each part")
        )
    elif margin is not None and margin < _ZERO:
        excess: Quantity = margin * -1
        over = wording.weight(excess, "up")
        text = f"down load {over} over what the {', '.join(chain.weakest)} may carry"
        helps = "move weight in the trailer to the rear of its axles"
        if coupling.how == ON_A_DOLLY:
            helps = f"carry the {coupling.behind} on a trailer, or take weight off its front"
        ledger.find(towed.finding("do not drive", "down_load", text, helps))


def _heaviest_down(towed: _Towed) -> Quantity | None:
    loads = [state.vehicles[towed.coupling.behind].down for state in towed.states]
    known = [load for load in loads if load is not None]
    return max(known, default=None) if len(known) == len(loads) else None


def _assess_carried(towed: _Towed, ledger: Ledger) -> None:
    """Nothing of it is towed: what it weighs is the whole of what it rests on what carries it."""
    coupling, down = towed.coupling, _heaviest_down(towed)
    rule = "Heaviest the carried vehicle becomes, all of it on the one that carries it."
    weight = "not known" if down is None else towed.wording.weight(down, "up")
    inputs = (Input(f"weight of the {coupling.behind}", weight, f"weights.{coupling.behind}.total"),)
    ledger.add(Figure(f"{towed.key}.down_load", down, "calculated", rule, "scale ticket", inputs))
    if coupling.at is None:
        text = f"where it stands is not known: it counts whole on every axle of the {coupling.ahead}"
        ledger.find(towed.finding("missing", "at", text, "measure it from the first axle"))


def coupling_key(coupling: Coupling) -> str:
    """Start of a coupling's figure keys."""
    return f"coupling.{coupling.ahead}_{coupling.behind}".replace(" ", "_")
