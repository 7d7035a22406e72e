"""Posted clearances of a trip against the rig's height, and legs on which none is posted."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.body.kinds import OVERALL_HEIGHT
from binder.assessment.ledger import Fact, Figure, FigureKind, Finding, Input, Key, Ledger, Phrase
from binder.assessment.road import kinds
from binder.assessment.route.days import TripDay, trip_days
from binder.calculations.route.distances import room_under
from binder.models.load import Profile
from binder.quantities import Quantity, registry

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
    every = list[Posted]()
    for day in days:
        posted = list(_posted(day))
        for finding in [*_legs_without_figure(day), *(_too_low(posted, rule) if rule else ())]:
            ledger.find(finding)
        _enter((kinds.LOWEST_OF_DAY, kinds.MARGIN_OF_DAY), (day.number,), _lowest(posted), rule, ledger)
        every += posted
    _enter((kinds.LOWEST_OF_TRIP, kinds.MARGIN_OF_TRIP), (), _lowest(every), rule, ledger)


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
    lowest: Posted | None,
    rule: _Rule | None,
    ledger: Ledger,
) -> None:
    height_key, margin_key = (kind.of(*subject) for kind in of)
    if lowest is None:
        ledger.enter(Figure(height_key, None, case="none"))
        ledger.enter(Figure(margin_key, None, case="none"))
        return
    kind = kinds.POSTED if rule else kinds.AS_POSTED
    told = Input(kind, lowest.height, lowest.origin, {"what": lowest.what})
    ledger.enter(Figure(height_key, lowest.height, (told,)))
    ledger.enter(_margin(margin_key, lowest, told, rule))


def _margin(key: Key, lowest: Posted, told: Input, rule: _Rule | None) -> Figure:
    if rule is None:
        return Figure(key, None, (told,), "unmeasured")
    room = room_under(lowest.height, rule.height, rule.margin).room
    facts: dict[str, Fact] = {"margin": rule.margin}
    height = Input(kinds.HEIGHT_INPUT, rule.height, HEIGHT)
    return Figure(key, room, (told, height), facts=facts, slack=room_phrase(room, lowest.what))
