"""How long a long trip takes to walk: 100 days, 300 stops, every tank of the demo rig.

Run ``.venv/bin/python tests/benchmarks/trip_walk.py``. Times are without the import of the libraries and
without the reading of files; medians of five are shown, and more than half a second for the walk fails.
"""

import sys
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from statistics import median

from binder.assessment.ledger import Ledger
from binder.assessment.supplies.supplies import assess_supplies
from binder.assessment.supplies.walk import walked_trip
from binder.models.load import Profile, load_profile
from binder.models.trip import TravelDay

ROOT = Path(__file__).resolve().parents[2]
DAYS, STOPS_A_DAY, ROUNDS = 100, 3, 5
LIMIT = 0.5


def long_trip(profile: Profile) -> Profile:
    """Make the demo's plan a long one: its days over and over, three legs each, a night after every one."""
    if profile.trip is None:
        raise SystemExit("the rig has no trip")
    pattern, start = profile.trip.days, profile.trip.days[0].leave
    days: list[TravelDay] = []
    for number in range(DAYS):
        day = pattern[number % len(pattern)]
        legs = [leg.model_copy(update={"to": leg.to.model_copy(update=_UNSTATED)}) for leg in day.legs]
        more = {"leave": start + timedelta(days=number), "legs": (legs * STOPS_A_DAY)[:STOPS_A_DAY]}
        origin = day.origin if number == 0 else None
        days.append(day.model_copy(update=more | {"origin": origin, "night": pattern[1].night}))
    return replace(profile, trip=profile.trip.model_copy(update={"days": days}))


_UNSTATED: dict[str, object] = {"levels": {}, "arriving": {}}


def seconds(work: Callable[[], object]) -> float:
    """Take the median of some rounds."""
    taken = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return median(taken)


def main() -> int:
    """Measure, print, and tell whether the walk is fast enough."""
    profile = long_trip(load_profile(ROOT / "profiles" / "larkspur"))
    walk = walked_trip(profile)
    stops = sum(len(day.legs) for day in profile.trip.days) if profile.trip else 0
    walking = seconds(lambda: walked_trip(profile))
    assessing = seconds(lambda: assess_supplies(profile, walked_trip(profile), Ledger()))
    print(f"{DAYS} days, {stops} stops, {len(walk.moments)} moments, {len(walk.tanks.stores)} stores")
    print(f"the walk:                            {walking:.3f} s (limit {LIMIT} s)")
    print(f"with every figure and every finding: {assessing:.3f} s")
    return 0 if walking < LIMIT else 1


if __name__ == "__main__":
    sys.exit(main())
