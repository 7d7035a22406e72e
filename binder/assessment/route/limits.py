"""Posted weights, widths, lengths and ground clearances of the trip against this rig."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.known_quantity import known_quantity
from binder.assessment.measures import Rounding
from binder.assessment.route.days import TripDay, trip_days
from binder.assessment.wording import Wording
from binder.models.load import Profile
from binder.models.trip import PostedLimit
from binder.quantities import MASS, Quantity

GROUND_KEY = "rig.ground_clearance"
_RIG = {
    "weight": ("weights.combination.heaviest.load", "weight, coupled, at its heaviest"),
    "width": ("rig.width_with_mirrors", "width with mirrors"),
    "length": ("rig.combination_length", "length, coupled"),
    "ground_clearance": (GROUND_KEY, "ground clearance"),
}
"""What of the rig is held against each kind of limit."""

_TOO = {"weight": "too heavy", "width": "too wide", "length": "too long", "ground_clearance": "too low"}

_HELPS = "Take another road; no vehicle of the rig passes there as it is."


class _Held(NamedTuple):
    """One posted figure against the rig."""

    key: str
    day: int
    what: str
    kind: str
    posted: Quantity
    origin: str


def assess_limits(profile: Profile, ledger: Ledger) -> None:
    """Enter the rig's ground clearance, and what each posted limit leaves it; find what it exceeds."""
    wording = Wording(profile.rig.units)
    _enter_ground_clearance(profile, wording, ledger)
    for day in trip_days(profile):
        for finding in _without_figure(day):
            ledger.find(finding)
        for held in _limits(day):
            _judge(held, wording, ledger)


def _enter_ground_clearance(profile: Profile, wording: Wording, ledger: Ledger) -> None:
    sizes = {name: vehicle.size.ground_clearance for name, vehicle in profile.rig.vehicles.items()}
    known = {name: value for name, value in sizes.items() if value is not None}
    is_asked = any(held.kind == "ground_clearance" for day in trip_days(profile) for held in _limits(day))
    if not known and not is_asked:
        return
    inputs = tuple(
        Input(f"of the {name}", wording.length(value, "down"), f"rig.yaml vehicles.{name}.size")
        for name, value in known.items()
    )
    lowest = min(known.values()) if len(known) == len(sizes) else None
    rule = "the lowest vehicle" if lowest is not None else "that of every vehicle must be known; one is not"
    ledger.add(Figure(GROUND_KEY, lowest, "measured", rule, "profile", inputs))


def _without_figure(day: TripDay) -> Iterator[Finding]:
    for number, leg, _ in day.legs():
        for limit in leg.limits:
            if all(getattr(limit, kind) is None for kind in _RIG):
                text = f"Day {day.number}, leg {number}: {limit.what}: what is posted there is not given."
                helps = "Ask for it, and enter its weight, width, length or ground_clearance."
                yield Finding("missing", 3, f"{day.key}.leg_{number}.limits", text, helps)


def _limits(day: TripDay) -> Iterator[_Held]:
    for number, leg, origin in day.legs():
        for count, limit in enumerate(leg.limits, start=1):
            key = f"{day.key}.leg_{number}.limit_{count}"
            for kind in _RIG:
                posted = getattr(limit, kind)
                if posted is not None:
                    yield _Held(f"{key}.{kind}_margin", day.number, limit.what, kind, posted, origin)


def _judge(held: _Held, wording: Wording, ledger: Ledger) -> None:
    own_key, words = _RIG[held.kind]
    own = known_quantity(ledger, own_key)
    is_needed = held.kind == "ground_clearance"
    posted = limit_words(held.posted, wording, is_own=is_needed)
    inputs = [Input(held.what, posted, held.origin)]
    margin = None
    if own is not None:
        margin = own - held.posted if is_needed else held.posted - own
        inputs.append(Input(words, limit_words(own, wording, is_own=not is_needed), f"figure {own_key}"))
    rule = f"what is posted, against the rig's {words}"
    slack = "" if margin is None else _slack(margin, held.kind, wording)
    ledger.add(
        Figure(held.key, margin, "calculated", rule, "trip plan; arithmetic", tuple(inputs), (), slack)
    )
    start = f"Day {held.day}: {held.what}, posted {held.kind.replace('_', ' ')} {posted}"
    if margin is None:
        text = f"{start}: the rig's {words} is not known."
        ledger.find(Finding("missing", 3, held.key, text, "Measure it, and enter it."))
    elif margin.magnitude < 0:
        ledger.find(Finding("do not drive", 3, held.key, f"{start}: this rig is {slack}.", _HELPS))


def limit_words(quantity: Quantity, wording: Wording, *, is_own: bool = False) -> str:
    """Write a posted limit, or what the rig has against it."""
    rounding: Rounding = "up" if is_own else "down"
    if MASS.measures(quantity):
        return wording.weight(quantity, rounding)
    return wording.length(quantity, rounding)


def _slack(margin: Quantity, kind: str, wording: Wording) -> str:
    if margin.magnitude < 0:
        return f"{limit_words(-1 * margin, wording, is_own=True)} {_TOO[kind]}"
    return f"{limit_words(margin, wording)} to spare"


def posted_words(limit: PostedLimit, wording: Wording) -> str:
    """Write everything posted at one place."""
    words = {"weight": "", "width": " wide", "length": " long", "ground_clearance": " over the ground"}
    found = ((getattr(limit, kind), word) for kind, word in words.items())
    return ", ".join(f"{limit_words(posted, wording)}{word}" for posted, word in found if posted is not None)
