"""Posted clearances, weights, tunnels and rules of the road against this rig."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.body.kinds import OVERALL_HEIGHT, OVERALL_WIDTH, WIDTH_OF, WIDTH_WITH_MIRRORS
from binder.assessment.conditions import holds
from binder.assessment.coupling.kinds import COMBINATION_LENGTH
from binder.assessment.ledger import (
    OF_THOSE_KNOWN,
    Fact,
    Figure,
    FigureKind,
    Finding,
    Input,
    Key,
    Ledger,
    Phrase,
    Place,
)
from binder.assessment.road import kinds
from binder.assessment.route.days import TripDay, trip_days
from binder.assessment.weights.kinds import COMBINATION
from binder.calculations.route.distances import room_under
from binder.calculations.supplies.propane import propane_held
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.trip import Tunnel
from binder.quantities import Quantity, is_quantity, registry

_GROUND = kinds.GROUND_CLEARANCE.of()
_OF_RIG = {
    "weight": COMBINATION.heaviest.of(),
    "width": WIDTH_WITH_MIRRORS.of(),
    "length": COMBINATION_LENGTH.of(),
    "ground_clearance": _GROUND,
}
"""What of the rig is held against each kind of limit."""


class _Held(NamedTuple):
    """One posted figure against the rig; its subject is the day, the leg and its place among the leg's."""

    subject: tuple[int, int, int]
    what: str
    limit: str
    posted: Quantity
    origin: Phrase


def assess_limits(profile: Profile, days: tuple[TripDay, ...], ledger: Ledger) -> None:
    """Enter the rig's ground clearance, and what each posted limit leaves it; find what it exceeds."""
    limits = [(day, list(_limits(day))) for day in days]
    is_asked = any(held.limit == "ground_clearance" for _, of_day in limits for held in of_day)
    _enter_ground_clearance(profile, ledger, is_asked=is_asked)
    for day, of_day in limits:
        ledger.find(*_without_figure(day))
        for held in of_day:
            _judge(held, ledger)


def _enter_ground_clearance(profile: Profile, ledger: Ledger, *, is_asked: bool) -> None:
    sizes = {name: vehicle.size.ground_clearance for name, vehicle in profile.rig.vehicles.items()}
    known = {name: value for name, value in sizes.items() if value is not None}
    if not known and not is_asked:
        return
    inputs = tuple(
        Input(kinds.GROUND_OF, value, Place("rig.yaml", ("vehicles", name, "size")), {"vehicle": name})
        for name, value in known.items()
    )
    lowest = min(known.values()) if len(known) == len(sizes) else None
    ledger.enter(Figure(_GROUND, lowest, inputs, "unknown" if lowest is None else ""))


def _without_figure(day: TripDay) -> Iterator[Finding]:
    for number, leg, _ in day.legs():
        for count, limit in enumerate(leg.limits, start=1):
            is_empty = all(getattr(limit, kind) is None for kind in kinds.LIMITS)
            if is_empty or any(limit.is_blank(kind) for kind in kinds.LIMITS):
                about = kinds.LIMIT_NOT_POSTED.of(day.number, number)
                yield Finding(kinds.LIMIT_NOT_POSTED, about, {"limit": count, "what": limit.what})


def _limits(day: TripDay) -> Iterator[_Held]:
    for number, leg, origin in day.legs():
        for count, limit in enumerate(leg.limits, start=1):
            for kind in kinds.LIMITS:
                posted = getattr(limit, kind)
                if posted is not None:
                    yield _Held((day.number, number, count), limit.what, kind, posted, origin)


def _judge(held: _Held, ledger: Ledger) -> None:
    kind, own_key = kinds.LIMITS[held.limit], _OF_RIG[held.limit]
    own = ledger.quantity(own_key)
    facts: dict[str, Fact] = {"what": held.what, "sign": Phrase(kind.sign, {"value": held.posted})}
    inputs = [Input(kind.posted, held.posted, held.origin, {"what": held.what})]
    margin = slack = None
    if own is not None:
        margin = own - held.posted if held.limit == "ground_clearance" else held.posted - own
        inputs.append(Input(kind.own, own, own_key))
        slack = Phrase(kind.over, {"over": -1 * margin}) if margin.magnitude < 0 else Phrase(kind.spare)
    key = kind.margin.of(*held.subject)
    ledger.enter(Figure(key, margin, tuple(inputs), slack=slack))
    body = _widest_body(ledger) if held.limit == "width" and own is None else None
    if body is not None and body > held.posted:
        # Whatever the mirrors add, the body alone does not pass.
        over_by = Phrase(kind.over, {"over": body - held.posted})
        ledger.find(Finding(kinds.LIMIT_EXCEEDED, key, {**facts, "over_by": over_by}))
    elif margin is None:
        ledger.find(Finding(kinds.LIMIT_NOT_JUDGED, key, {**facts, "own": kind.name}, held.limit))
    elif margin.magnitude < 0:
        case = _weight_case(held, ledger) if held.limit == "weight" else ""
        ledger.find(Finding(kinds.LIMIT_EXCEEDED, key, {**facts, "over_by": slack}, case))


def _weight_case(held: _Held, ledger: Ledger) -> str:
    """What is known in a state of the trip forbids, what is assumed does not clear; else it is on paper."""
    figure = ledger.figure(_OF_RIG["weight"])
    least, most = (figure.facts.get(name) for name in ("least", "reached"))
    if is_quantity(least) and least > held.posted:
        return ""
    return "assumed" if not is_quantity(most) or most > held.posted else "not reached"


def _widest_body(ledger: Ledger) -> Quantity | None:
    """The widest body of those that are known."""
    figure = ledger.known(OVERALL_WIDTH.of())
    widths = [one.value for one in figure.inputs if one.kind is WIDTH_OF] if figure else []
    return max((width for width in widths if is_quantity(width)), default=None)


def find_tunnels(profile: Profile, day: TripDay, ledger: Ledger) -> None:
    """Find the tunnels that no cylinder of the rig may pass, and those of which the plan does not say it."""
    if not holds("propane")(profile.rig):
        return
    for number, leg, _ in day.legs():
        for count, tunnel in enumerate(leg.tunnels, start=1):
            ledger.find(*_cylinders(profile.rig, (day.number, number), tunnel))
            if tunnel.propane is None and tunnel.largest_cylinder is None:
                about = kinds.PROPANE_UNKNOWN.of(day.number, number)
                ledger.find(Finding(kinds.PROPANE_UNKNOWN, about, {"tunnel": count, "what": tunnel.what}))


def _cylinders(rig: Rig, leg: tuple[int, int], tunnel: Tunnel) -> Iterator[Finding]:
    """Each cylinder against the largest that its operator lets pass."""
    most = tunnel.largest_cylinder
    tanks = [(vehicle, *tank) for vehicle, entry in rig.vehicles.items() for tank in entry.tanks.items()]
    for vehicle, name, tank in tanks:
        if most is None or tank.holds != "propane":
            continue
        held = propane_held(tank.capacity, tank.usable)
        facts: dict[str, Fact] = {"what": tunnel.what, "most": most, "vehicle": vehicle, "tank": name}
        if held is None:
            yield Finding(kinds.CYLINDER_UNKNOWN, kinds.CYLINDER_UNKNOWN.of(*leg), facts)
        elif held > most:
            about = kinds.CYLINDER_TOO_LARGE.of(*leg)
            yield Finding(kinds.CYLINDER_TOO_LARGE, about, {**facts, "held": held})


HEIGHT = OVERALL_HEIGHT.of()
DEFAULT_MARGIN = registry.Quantity(6.0, "inch")  # practice.


class Posted(NamedTuple):
    """One posted figure and where it stands in the plan: by day, leg and its place among the leg's."""

    what: str
    height: Quantity
    day: int
    leg: int
    clearance: int
    origin: Phrase


class _Rule(NamedTuple):
    """What every posted figure is judged by."""

    height: Quantity
    margin: Quantity


def wanted_margin(profile: Profile) -> Quantity:
    """Margin the owner wants under a posted clearance."""
    own = profile.trip.rules.clearance if profile.trip else None
    return DEFAULT_MARGIN if own is None else own


def assess_clearance_needed(profile: Profile, ledger: Ledger) -> None:
    """Enter the clearance this rig asks for: its height and the margin the owner wants over it."""
    height, margin = ledger.quantity(HEIGHT), wanted_margin(profile)
    needed = None if height is None else height + margin
    ledger.enter(Figure(kinds.CLEARANCE_NEEDED.of(), needed, (Input(kinds.MARGIN_WANTED, margin),)))


def assess_clearances(profile: Profile, days: tuple[TripDay, ...], ledger: Ledger) -> None:
    """Enter the clearance figures of each day and of the trip, and their findings."""
    height = ledger.quantity(HEIGHT)
    rule = None if height is None else _Rule(height, wanted_margin(profile))
    every, is_all_known = list[Posted](), True
    for day in days:
        posted, unknown = list(_posted(day)), list(_legs_without_figure(day))
        ledger.find(*unknown, *(_too_low(posted, rule) if rule else ()))
        if posted and rule is None:
            ledger.find(Finding(kinds.HEIGHT_UNKNOWN, kinds.MARGIN_OF_DAY.of(day.number)))
        lowest = _Lowest(_lowest(posted), "" if not unknown else OF_THOSE_KNOWN)
        _enter((kinds.LOWEST_OF_DAY, kinds.MARGIN_OF_DAY), (day.number,), lowest, rule, ledger)
        every, is_all_known = every + posted, is_all_known and not unknown
    lowest = _Lowest(_lowest(every), "" if is_all_known else OF_THOSE_KNOWN)
    _enter((kinds.LOWEST_OF_TRIP, kinds.MARGIN_OF_TRIP), (), lowest, rule, ledger)


class _Lowest(NamedTuple):
    """The lowest posted figure of those known, and the case that says whether all are."""

    posted: Posted | None
    case: str


def _posted(day: TripDay) -> Iterator[Posted]:
    for number, leg, origin in day.legs():
        for count, item in enumerate(leg.clearances, start=1):
            if item.posted is not None:
                yield Posted(item.what, item.posted, day.number, number, count, origin)


def _lowest(posted: list[Posted]) -> Posted | None:
    return min(posted, key=lambda item: item.height, default=None)


def lowest_posted(profile: Profile) -> Posted | None:
    """Lowest posted clearance of the whole trip."""
    return _lowest([posted for day in trip_days(profile) for posted in _posted(day)])


def room_phrase(room: Quantity, what: str) -> Phrase:
    """Say how a rig stands to a clearance."""
    if room.magnitude < 0:
        return Phrase(kinds.TOO_HIGH, {"over": -1 * room, "what": what})
    return Phrase(kinds.ROOM_UNDER, {"room": room, "what": what})


def _legs_without_figure(day: TripDay) -> Iterator[Finding]:
    for number, leg, _ in day.legs():
        if not leg.clearances:
            about = kinds.NO_CLEARANCE.of(day.number, number)
            yield Finding(kinds.NO_CLEARANCE, about, {"place": leg.to.place})
        for count, item in enumerate(leg.clearances, start=1):
            if item.posted is None:
                about = kinds.NOT_POSTED.of(day.number, number)
                yield Finding(kinds.NOT_POSTED, about, {"clearance": count, "what": item.what})


def _too_low(every: list[Posted], rule: _Rule) -> Iterator[Finding]:
    for posted in every:
        found = room_under(posted.height, rule.height, rule.margin)
        if not found.passes:
            facts: dict[str, Fact] = {"leg": posted.leg, "clearance": posted.clearance}
            facts |= {"posted": posted.height, "margin": rule.margin}
            facts |= room_phrase(found.room, posted.what).facts
            case = "over" if found.room.magnitude < 0 else ""
            yield Finding(kinds.TOO_LOW, kinds.MARGIN_OF_DAY.of(posted.day), facts, case)


def _enter(
    of: tuple[FigureKind, FigureKind],
    subject: tuple[int, ...],
    found: _Lowest,
    rule: _Rule | None,
    ledger: Ledger,
) -> None:
    height_key, margin_key = (kind.of(*subject) for kind in of)
    lowest, case = found
    if lowest is None:
        ledger.enter(Figure(height_key, None, case="none"))
        ledger.enter(Figure(margin_key, None, case="none"))
        return
    kind = kinds.POSTED if rule else kinds.AS_POSTED
    told = Input(kind, lowest.height, lowest.origin, {"what": lowest.what})
    ledger.enter(Figure(height_key, lowest.height, (told,), case))
    margin = _margin(margin_key, lowest, told, rule)
    ledger.enter(margin._replace(case=case) if rule else margin)


def _margin(key: Key, lowest: Posted, told: Input, rule: _Rule | None) -> Figure:
    if rule is None:
        return Figure(key, None, (told,), "unmeasured")
    room = room_under(lowest.height, rule.height, rule.margin).room
    facts: dict[str, Fact] = {"margin": rule.margin}
    height = Input(kinds.HEIGHT_INPUT, rule.height, HEIGHT)
    return Figure(key, room, (told, height), facts=facts, slack=room_phrase(room, lowest.what))
