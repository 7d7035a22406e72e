"""Posted clearances of a trip against the rig's height, and legs on which none is posted."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.known_quantity import known_quantity
from binder.assessment.route.days import TripDay, trip_days
from binder.assessment.wording import Wording
from binder.calculations.route.distances import ClearanceRoom, room_under
from binder.models.load import Profile
from binder.quantities import Quantity, registry

HEIGHT_KEY = "rig.overall_height"
DEFAULT_MARGIN = registry.Quantity(6.0, "inch")  # practice.
_RULE = "lowest posted clearance less overall height; at least {margin} wanted"
_HELPS = "Take another road, or measure the height again as it stands and correct the profile."


class Posted(NamedTuple):
    """One posted figure and where it stands in the plan."""

    what: str
    height: Quantity
    day: int
    origin: str


class _Rule(NamedTuple):
    """What every posted figure is judged by."""

    height: Quantity
    margin: Quantity
    wording: Wording

    def room(self, posted: Posted) -> ClearanceRoom:
        return room_under(posted.height, self.height, self.margin)


def wanted_margin(profile: Profile) -> Quantity:
    """Margin the owner wants under a posted clearance."""
    own = profile.trip.rules.clearance if profile.trip else None
    return DEFAULT_MARGIN if own is None else own


def assess_clearance_needed(profile: Profile, ledger: Ledger) -> None:
    """Enter the clearance this rig asks for: its height and the margin the owner wants over it."""
    height, margin, wording = (
        known_quantity(ledger, HEIGHT_KEY),
        wanted_margin(profile),
        Wording(profile.rig.units),
    )
    inputs = (Input("margin wanted", wording.length(margin, "up"), "trip plan, rules.clearance; practice"),)
    needed = None if height is None else height + margin
    rule = "Overall height and the margin wanted over it."
    ledger.add(Figure("rig.clearance_needed", needed, "calculated", rule, "practice", inputs))


def posted_of_day(day: TripDay) -> list[Posted]:
    """Posted clearances of one day."""
    return [
        Posted(item.what, item.posted, day.number, origin)
        for _, leg, origin in day.legs()
        for item in leg.clearances
        if item.posted is not None
    ]


def lowest_posted(profile: Profile) -> Posted | None:
    """Lowest posted clearance of the whole trip."""
    every = [posted for day in trip_days(profile) for posted in posted_of_day(day)]
    return min(every, key=lambda posted: posted.height, default=None)


def words_of_room(room: Quantity, wording: Wording) -> str:
    """Say how a rig stands to a clearance."""
    if room.magnitude < 0:
        return f"{wording.length(-1 * room, 'up')} too high for"
    return f"{wording.length(room, 'down')} under"


def assess_clearances(profile: Profile, ledger: Ledger) -> None:
    """Enter the clearance figures of each day and of the trip, and their findings."""
    height = known_quantity(ledger, HEIGHT_KEY)
    wording = Wording(profile.rig.units)
    rule = _Rule(height, wanted_margin(profile), wording) if height is not None else None
    for day in trip_days(profile):
        for finding in [*_legs_without_figure(day), *(_too_low(day, rule) if rule else ())]:
            ledger.find(finding)
        _enter(f"{day.key}.", posted_of_day(day), rule, ledger)
    lowest = lowest_posted(profile)
    _enter("route.", [lowest] if lowest else [], rule, ledger)


def _legs_without_figure(day: TripDay) -> Iterator[Finding]:
    for number, leg, _ in day.legs():
        key = f"{day.key}.leg_{number}.clearances"
        helps = "Ask for the posted heights of this road, and enter them in the plan."
        if not leg.clearances:
            text = f"Day {day.number}, leg {number} to {leg.to.place}: no clearance is given."
            yield Finding("missing", 3, key, text, helps)
        for item in leg.clearances:
            if item.posted is None:
                text = f"Day {day.number}, leg {number}: {item.what}: its posted height is not given."
                yield Finding("missing", 3, key, text, helps)


def _too_low(day: TripDay, rule: _Rule) -> Iterator[Finding]:
    for posted in posted_of_day(day):
        found = rule.room(posted)
        if not found.passes:
            text = (
                f"Day {day.number}: {posted.what}, posted {rule.wording.length(posted.height, 'down')}: "
                f"this rig is {words_of_room(found.room, rule.wording)} it; "
                f"{rule.wording.length(rule.margin, 'up')} under is wanted."
            )
            yield Finding("do not drive", 3, f"{day.key}.lowest_clearance_margin", text, _HELPS)


def _enter(start: str, posted: list[Posted], rule: _Rule | None, ledger: Ledger) -> None:
    lowest = min(posted, key=lambda item: item.height, default=None)
    margin_key = f"{start}lowest_clearance_margin"
    if lowest is None:
        none = "no clearance is posted in the plan: not known"
        ledger.add(Figure(f"{start}lowest_clearance", None, "calculated", none, "trip plan"))
        ledger.add(Figure(margin_key, None, "calculated", none, "trip plan"))
        return
    wording = rule.wording if rule else None
    text = wording.length(lowest.height, "down") if wording else ""
    inputs = (Input(lowest.what, text or "as posted", lowest.origin),)
    stated = "the lowest of the clearances posted in the plan"
    ledger.add(
        Figure(
            f"{start}lowest_clearance",
            lowest.height,
            "calculated",
            stated,
            "trip plan",
            inputs,
            ("A posted height is not always that of your lane; snow and new asphalt take from it.",),
        )
    )
    if rule is None:
        unknown = "the rig's overall height is not known"
        ledger.add(Figure(margin_key, None, "calculated", unknown, "trip plan", inputs))
        return
    room = rule.room(lowest).room
    height = Input("overall height", rule.wording.length(rule.height, "up"), "figure rig.overall_height")
    ledger.add(
        Figure(
            margin_key,
            room,
            "calculated",
            _RULE.format(margin=rule.wording.length(rule.margin, "up")),
            "arithmetic; trip plan; practice",
            (*inputs, height),
            ("Margin wanted: practice.",),
            f"{words_of_room(room, rule.wording)} {lowest.what}",
        )
    )
