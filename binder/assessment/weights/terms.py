"""What an axle and its heavier wheel end are summed up of: the reading, and what each change puts there."""

from collections.abc import Iterator
from typing import NamedTuple

from binder.assessment.ledger import Phrase
from binder.assessment.weights.resting import Bounds, Part, PlacedChange, Supports
from binder.calculations.weights.axle_loads import HeavierEnd, LoadChange, WheelEnds, heavier_end, left_share
from binder.quantities import Quantity, number_in, registry

_POUND = registry.Unit("pound")
_ONE = registry.Quantity(1.0, "inch")


class Term(NamedTuple):
    """What one change puts on an axle, and where it lies from the center line; None: not known.

    ``part`` is the weight, the place and the share by which it puts the most there; bars have none.
    """

    what: str | Phrase
    load: Bounds
    left: Quantity | None
    part: Part | None = None


class Worked(NamedTuple):
    """How an axle was found: its reading and terms, and from which ends and changes its heavier end."""

    weighed: Quantity
    terms: tuple[Term, ...]
    ends: WheelEnds
    on_end: tuple[LoadChange, ...]
    end: HeavierEnd


class EndTerm(NamedTuple):
    """What one change puts on the heavier end: all of it or nothing where its place is not known."""

    term: Term
    load: Quantity
    left: Quantity | None
    share: float


def end_terms(worked: Worked, track: Quantity | None) -> Iterator[EndTerm]:
    """What the changes put on the heavier end by lateral statics."""
    for term, change in zip(worked.terms, worked.on_end, strict=True):
        if change.place is None or track is None:
            share = 1.0 if number_in(change.load, "pound") > 0 else 0.0
        else:
            left = left_share(change.place, track)
            share = 1 - left if worked.end.side == "right" else left
        yield EndTerm(term, change.load, change.place, share)


def terms_on(supports: Supports, axle: str, differences: list[PlacedChange]) -> list[Term] | None:
    """What the differences put on one axle; None where statics cannot tell."""
    terms = []
    for difference in differences:
        parts = supports.parts_on(axle, difference) if any(one.m for one in difference.weights) else []
        if parts is None:
            return None
        pounds = [part.pounds for part in parts]
        if any(pounds):
            most = max(parts, key=lambda part: part.pounds)
            load = Bounds(min(pounds), max(pounds))
            terms.append(Term(difference.what, load, difference.left, most))
    return terms


def worst_end(weighed: Quantity, ends: WheelEnds, terms: list[Term], track: Quantity | None) -> Worked:
    """The heavier end at its worst: what may weigh less counts at its most where that end carries of it."""
    between = _ONE if track is None else track
    found = []
    for sign in (1, -1) if any(one.load.least != one.load.most for one in terms) else (1,):
        changes = tuple(_on_end(one, sign, track) for one in terms)
        found.append(Worked(weighed, tuple(terms), ends, changes, heavier_end(ends, changes, between)))
    return max(found, key=lambda one: number_in(one.end.load, "pound"))


def _on_end(term: Term, sign: int, track: Quantity | None) -> LoadChange:
    # Without the track no change has a known lateral place.
    if track is None or term.left is None:
        return LoadChange(registry.Quantity(term.load.most, _POUND), None)
    carries = 0.5 + sign * number_in(term.left, "meter") / number_in(track, "meter") >= 0
    pounds = term.load.most if carries else term.load.least
    return LoadChange(registry.Quantity(pounds, _POUND), term.left)
