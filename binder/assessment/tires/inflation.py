"""Which row, label and set-point one axle gets, and what room is left on it: the rule, decided once."""

from collections.abc import Iterator
from datetime import date
from typing import Literal, NamedTuple

from binder.assessment.ledger import Figure, Input, Ledger, Phrase
from binder.assessment.tires import kinds
from binder.assessment.tires.axle import TireAxle
from binder.assessment.weights.tickets import ticket_doubts
from binder.calculations.bounds import is_at_least
from binder.calculations.tires.inflation import Demand, SetPoint, over_by_assumption, set_point
from binder.calculations.tires.limits import pressure_for_rating, trailer_label_pressure
from binder.calculations.tires.load_tables import LoadRow, estimated_row, load_carried, row_for, table_step
from binder.models.load import Profile
from binder.quantities import Quantity, registry

_NO_MARGIN = registry.Quantity(0.0, "psi")
_ESTIMATE_STEP = registry.Quantity(5.0, "psi")


class Inflation(NamedTuple):
    """The answer for one axle: row, label as it binds, set-point, and why the label binds."""

    row: Quantity | None
    row_kind: str
    label: Quantity | None
    label_binds: bool
    why_label: tuple[str | Phrase, ...]
    margin: Quantity
    result: SetPoint


def inflation_of(axle: TireAxle, profile: Profile, on: date) -> Inflation:
    """Find row, label and set-point of one axle."""
    row, row_kind = _row(axle, axle.load_per_tire)
    label = _label(axle)
    doubts = ticket_doubts(profile, axle.vehicle_name, on)
    binds, why = _label_binds(axle, doubts)
    margin = _margin(axle)
    if axle.has_placard and not axle.table:
        # The placard is the answer; there is no row to add a margin to.
        demand = Demand(None, label, _NO_MARGIN)
    else:
        needed = row or _row(axle, axle.least_load_per_tire)[0]
        demand = Demand(needed, label if binds else None, margin)
    result = set_point(demand, axle.cap.limit, axle.step)
    over = axle.overload
    if cannot_carry_rating(axle) == "never" or (over and not over.is_assumed):
        result = SetPoint(None, "no floor")
    elif label is None and binds:
        result = SetPoint(None, "label not known")
    elif (
        over
        or row_kind == "over the last row"
        or _rests_on_label(axle, row_kind)
        or result.bound_by == "floor over cap"
    ):
        result = (
            SetPoint(None, "floor over cap")
            if _is_over_at_least(axle)
            else over_by_assumption(label if binds else None, axle.cap.limit)
        )
    return Inflation(row, row_kind, label, binds, why, margin, result)


def _rests_on_label(axle: TireAxle, row_kind: str) -> bool:
    """No row is known, and the label's pressure is for other tires, perhaps, or for less than this load."""
    if row_kind != "no table":
        return False
    rating, load = axle.axle.rating, axle.load_per_tire
    is_within = rating is not None and load is not None and load * 2 * axle.axle.tires_each_end <= rating
    return axle.label_match != "same" or not is_within


def _is_over_at_least(axle: TireAxle) -> bool:
    """Even the row of what the tires carry at the least is over the cap."""
    least, kind = _row(axle, axle.least_heaviest[2] if axle.least_heaviest else None)
    is_over_cap = least is not None and axle.cap.limit is not None and not is_at_least(axle.cap.limit, least)
    return is_over_cap or kind == "over the last row"


def _row(axle: TireAxle, load: Quantity | None) -> tuple[Quantity | None, str]:
    if load is None:
        return None, "load not known"
    if axle.table:
        row = row_for(axle.table, load)
        return (row.pressure, "table") if row else (None, "over the last row")
    return (None, "placard") if axle.has_placard else _estimated(axle, load)


def _estimated(axle: TireAxle, load: Quantity) -> tuple[Quantity | None, str]:
    stamped, pressure = axle.stamped_load, axle.tires.sidewall.maximum_pressure
    if stamped is None or pressure is None:
        return None, "no table"
    estimate = estimated_row(load, LoadRow(pressure, stamped), axle.tires.family)
    return (estimate, "estimate") if estimate is not None else (None, "over the last row")


def _label(axle: TireAxle) -> Quantity | None:
    """Pressure the label asks for; for tires of another size, what carries the axle's rating."""
    label = axle.axle.label_pressure
    if axle.is_trailer:
        label = trailer_label_pressure(label, axle.tires.sidewall.maximum_pressure)
    if axle.label_match == "same":
        return label
    needed, cap = _pressure_for_rating(axle), axle.cap.limit
    if axle.label_match == "not known":
        # Unknown is not "another": the label stays, and what other tires would need raises it up to the cap.
        if label is None or cap is None:
            return None if needed is None else label
        return max(label, cap if needed is None else min(needed, cap))
    if (axle.is_trailer or axle.is_of_placards_size) and label is not None and needed is not None:
        # A trailer's label is never left, whatever is mounted, nor a placard by tires of its own size.
        return max(label, needed)
    return needed


def _pressure_for_rating(axle: TireAxle) -> Quantity | None:
    rating, tires = axle.axle.rating, 2 * axle.axle.tires_each_end
    if rating is None:
        return None
    if axle.table is not None:
        return pressure_for_rating(axle.table, rating, tires)
    return _estimated(axle, rating / tires)[0]


def cannot_carry_rating(axle: TireAxle) -> Literal["", "never", "if another size"]:
    """Tell whether tires of another size than the label's cannot carry the axle's rating at any pressure."""
    rating = axle.axle.rating
    strongest = axle.table.rows[-1].load if axle.table else axle.stamped_load
    if axle.label_match == "same" or rating is None or strongest is None:
        return ""
    if is_at_least(strongest * 2 * axle.axle.tires_each_end, rating):
        return ""
    return "never" if axle.label_match == "another" else "if another size"


def _label_binds(axle: TireAxle, doubts: tuple[Phrase, ...]) -> tuple[bool, tuple[str | Phrase, ...]]:
    loads = [load for _, load in axle.loads()]
    is_weighed = bool(loads) and all(load.weighed == "ends" for load in loads)
    reasons: list[tuple[bool, tuple[str | Phrase, ...]]] = [
        (axle.is_trailer, (kinds.WHY_LABEL["trailer"],)),
        (axle.has_placard, (kinds.WHY_LABEL["placard"],)),
        (axle.rig.basis == "label", (kinds.WHY_LABEL["by the label"],)),
        (not is_weighed, (kinds.WHY_LABEL["not weighed"],)),
        (bool(doubts), doubts),
        (axle.label_match == "another", (kinds.WHY_LABEL["other size"],)),
        (axle.label_match == "not known", (kinds.WHY_LABEL["size not known"],)),
    ]
    why = next((words for holds, words in reasons if holds), ())
    return bool(why), why or (kinds.WHY_LABEL["weighed"],)


def _margin(axle: TireAxle) -> Quantity:
    if axle.is_towed:
        return _NO_MARGIN
    if axle.tires.margin is not None:
        return axle.tires.margin
    step = table_step(axle.table) if axle.table else None
    return step or _ESTIMATE_STEP


def load_held(axle: TireAxle, inflation: Inflation) -> Quantity | None:
    """Load on one tire up to which an axle's set-point stays what it is."""
    pressure, own = inflation.result.pressure, axle.row_load
    if axle.table is None or pressure is None or own is None:
        return None
    under = load_carried(axle.table, pressure - inflation.margin)
    # What is taken where nothing was weighed is no load that a cut margin could be accepted for.
    held = own if under is None else max(own, under) if axle.is_weighed else under
    # At a cap under the row it holds no more than the tire carries there.
    carried = load_carried(axle.table, pressure)
    return None if carried is None else min(held, carried)


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
    held, rating = load_held(axle, inflation), axle.axle.rating
    if rating is None:
        # The least of those known may not be the least.
        return
    if held is not None:
        yield TireLimit(held, kinds.NEXT_ROW if held == axle.row_load else kinds.LABEL_LIMIT)
    yield TireLimit(rating / (2 * axle.axle.tires_each_end), kinds.HALF_RATING)


def room_phrase(axle: TireAxle, inflation: Inflation) -> Phrase | None:
    """Say how much more one tire may carry and what comes then, or by how much it is over."""
    limit, load = tire_limit(axle, inflation), axle.load_per_tire
    if limit is None or load is None or not axle.is_weighed:
        # An axle that is not weighed is taken at its rating: what is left of it says nothing.
        return None
    room: Quantity = limit.load - load
    if room.m < 0:
        return Phrase(kinds.ROOM_OVER, {"over": room * -1, "limit": limit.name})
    return room_left(room, limit.name)


def room_left(room: Quantity, limit: str) -> Phrase:
    """Say what is left under a limit."""
    return Phrase(kinds.ROOM_LEFT, {"room": room, "limit": limit})


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
