"""What may still be added on one tire before its set-point, or its axle, no longer holds."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.ledger import Figure, Input, Ledger, Phrase
from binder.assessment.tires import kinds
from binder.assessment.tires.axle import TireAxle
from binder.assessment.tires.inflation import Inflation, load_held
from binder.quantities import Quantity


class TireLimit(NamedTuple):
    """Load up to which one tire may go, and the name of what comes then."""

    load: Quantity
    name: str


def tire_limit(axle: TireAxle, inflation: Inflation) -> TireLimit | None:
    """Give the least load on one tire at which the set-point or the axle no longer holds.

    Why: a label far over its row leaves room in the tire that the axle does not have; who loads by the
    one overloads the other.
    """
    if inflation.result.pressure is None:
        return None
    return min(_limits(axle, inflation), key=lambda limit: limit.load, default=None)


def _limits(axle: TireAxle, inflation: Inflation) -> Iterator[TireLimit]:
    held = load_held(axle, inflation)
    if held is not None and held == axle.row_load:
        # Where the row sets the pressure, its own end is what a person wants to know beside it.
        yield TireLimit(held, kinds.NEXT_ROW)
        return
    if held is not None:
        yield TireLimit(held, kinds.LABEL_LIMIT)
    if axle.axle.rating is not None:
        yield TireLimit(axle.axle.rating / (2 * axle.axle.tires_each_end), kinds.HALF_RATING)


def room_phrase(axle: TireAxle, inflation: Inflation) -> Phrase | None:
    """Say how much more one tire may carry and what comes then, or by how much it is over."""
    limit, load = tire_limit(axle, inflation), axle.load_per_tire
    if limit is None or load is None or (limit.name == kinds.HALF_RATING and _is_not_weighed(axle)):
        # An axle that is not weighed is taken at its rating: what is left of it says nothing.
        return None
    room: Quantity = limit.load - load
    if room.m < 0:
        return Phrase(kinds.ROOM_OVER, {"over": room * -1, "limit": limit.name})
    return room_left(room, limit.name)


def room_left(room: Quantity, limit: str) -> Phrase:
    """Say what is left under a limit."""
    return Phrase(kinds.ROOM_LEFT, {"room": room, "limit": limit})


def _is_not_weighed(axle: TireAxle) -> bool:
    return axle.heaviest is not None and axle.heaviest[1].weighed == "nothing"


def enter_room(axle: TireAxle, inflation: Inflation, ledger: Ledger) -> None:
    """Enter up to which load on one tire, and on one wheel end, an axle's answer holds."""
    limit, count, subject = tire_limit(axle, inflation), axle.axle.tires_each_end, axle.subject
    case, least = ("known", {"least": limit.name}) if limit else ("", {})
    held, key = limit.load if limit else None, kinds.HOLDS_UP_TO.of(*subject)
    load = Input(kinds.LOAD_PER_TIRE_INPUT, axle.load_per_tire, kinds.LOAD_PER_TIRE.of(*subject))
    rating = Input(kinds.RATING, axle.axle.rating, axle.place("rating"))
    ledger.enter(Figure(key, held, (load, rating), case, least))
    inputs = (
        Input(kinds.HOLDS_UP_TO_INPUT, held, key),
        Input(kinds.TIRES_ON_END, count, axle.place("fitment")),
    )
    end = None if held is None else held * count
    ledger.enter(Figure(kinds.END_HOLDS_UP_TO.of(*subject), end, inputs, case, least))
