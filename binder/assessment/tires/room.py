"""What may still be added on one tire before its set-point, or its axle, no longer holds."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.figures import Figure, Input, Ledger
from binder.assessment.tires.axle import TireAxle
from binder.assessment.tires.inflation import Inflation, load_held
from binder.assessment.wording import Wording
from binder.quantities import Quantity

ROW, LABEL, RATING = "next row", "the label's limit", "half the axle's rating"


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
        yield TireLimit(held, ROW)
        return
    if held is not None:
        yield TireLimit(held, LABEL)
    if axle.axle.rating is not None:
        yield TireLimit(axle.axle.rating / (2 * axle.axle.tires_each_end), RATING)


def room_words(axle: TireAxle, inflation: Inflation) -> str:
    """Say how much more one tire may carry, and what comes then."""
    limit, load = tire_limit(axle, inflation), axle.load_per_tire
    if limit is None or load is None or (limit.name == RATING and _is_not_weighed(axle)):
        # An axle that is not weighed is taken at its rating: what is left of it says nothing.
        return ""
    room: Quantity = limit.load - load
    if room.m < 0:
        return f"{axle.wording.weight(room * -1, 'up')} over {limit.name}"
    return left_words(room, limit.name, axle.wording)


def left_words(room: Quantity, limit: str, wording: Wording) -> str:
    """Say what is left under a limit."""
    text = wording.weight(room, "down")
    return f"no room to {limit}" if text.startswith("0 ") else f"{text} to {limit}"


def _is_not_weighed(axle: TireAxle) -> bool:
    return axle.heaviest is not None and axle.heaviest[1].knowledge == "not weighed"


def enter_room(axle: TireAxle, inflation: Inflation, load_input: Input, ledger: Ledger) -> None:
    """Enter up to which load on one tire, and on one wheel end, an axle's answer holds."""
    limit, count = tire_limit(axle, inflation), axle.axle.tires_each_end
    rating = axle.axle.rating
    least = f"; here {limit.name}" if limit else ""
    ledger.add(
        Figure(
            f"{axle.key}.holds_up_to",
            limit.load if limit else None,
            "calculated",
            "Load on one tire up to which this holds: its row where that sets the pressure, else "
            f"the least of what the label carries and half the axle's rating{least}.",
            "stated; 49 CFR 571.3; practice",
            (
                load_input,
                Input(
                    "gross axle weight rating",
                    "not known" if rating is None else axle.wording.weight(rating, "down"),
                    f"{axle.origin}.rating",
                ),
            ),
        )
    )
    text = "not known" if limit is None else axle.wording.weight(limit.load, "down")
    ledger.add(
        Figure(
            f"{axle.key}.end_holds_up_to",
            None if limit is None else limit.load * count,
            "calculated",
            f"Load on one wheel end up to which this holds: what one tire holds, times its tires{least}.",
            "arithmetic; practice",
            (
                Input("holds up to", text, f"{axle.key}.holds_up_to"),
                Input("tires on that end", str(count), f"{axle.origin}.fitment"),
            ),
        )
    )
