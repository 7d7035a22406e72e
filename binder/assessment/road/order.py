"""What is met on a day's road, in driving order: breaks, posted heights and limits, grades, tunnels."""

from collections.abc import Iterator
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment.ledger import Ledger
from binder.assessment.route import kinds
from binder.assessment.route.days import TripDay
from binder.models.trip import Leg
from binder.quantities import Quantity, number_in, registry

What: TypeAlias = Literal["break", "clearance", "limit", "grade", "tunnel"]


class Met(NamedTuple):
    """One thing on a leg: what it is, and its place among those of its kind there.

    ``along`` is how far it is from the day's start, None where the plan does not say it. A grade has its
    ends.
    """

    what: What
    number: int
    along: Quantity | None
    end: Quantity | None = None


class LegInOrder(NamedTuple):
    """A leg, how far its ends lie from the day's start, and what is met on it: first what has no place."""

    number: int
    leg: Leg
    start: Quantity | None
    end: Quantity | None
    met: tuple[Met, ...]


def legs_in_order(day: TripDay, ledger: Ledger) -> Iterator[LegInOrder]:
    """Set out each leg of a day in driving order."""
    start: Quantity | None = registry.Quantity(0.0, "mile")
    for number, leg, _ in day.legs():
        end = None if start is None or leg.distance is None else start + leg.distance.to("mile")
        found = sorted(_met(day.number, number, leg, start, ledger), key=_miles)
        yield LegInOrder(number, leg, start, end, tuple(found))
        start = end


def _miles(met: Met) -> float:
    return -1.0 if met.along is None else number_in(met.along, "mile")


def _met(day: int, number: int, leg: Leg, start: Quantity | None, ledger: Ledger) -> Iterator[Met]:
    """Everything on a leg; what would lie beyond its end has no place."""

    def placed(after: Quantity | None, length: Quantity | None = None) -> Quantity | None:
        last = after if after is None or length is None else after + length
        is_beyond = last is not None and leg.distance is not None and last > leg.distance
        return None if after is None or start is None or is_beyond else start + after.to("mile")

    for count, one in enumerate(ledger.of_kind(kinds.BREAK_AT, day, number), start=1):
        yield Met("break", count, placed(one.quantity))
    for count, under in enumerate(leg.clearances, start=1):
        yield Met("clearance", count, placed(under.after))
    for count, limit in enumerate(leg.limits, start=1):
        yield Met("limit", count, placed(limit.after))
    for count, grade in enumerate(leg.grades, start=1):
        along = placed(grade.begins_after, grade.length)
        end = None if along is None or grade.length is None else along + grade.length.to("mile")
        yield Met("grade", count, along, end)
    for count, tunnel in enumerate(leg.tunnels, start=1):
        yield Met("tunnel", count, placed(tunnel.after))
