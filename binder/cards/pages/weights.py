"""Page of weights: the heaviest moment of everything, what limits it, every state of the trip."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Phrase
from binder.assessment.weights import kinds
from binder.assessment.weights.kinds import RatedKinds
from binder.assessment.weights.resting import is_combination
from binder.assessment.weights.states import TripState, ticket_of, trip_states
from binder.cards.blocks import Block, Heading, Line, Note, Page, Picture, small_table
from binder.cards.drawings import MarginBar, MarginBars
from binder.cards.pages.water_question import water_blocks
from binder.cards.pages.weight_limits import (
    coupling_blocks,
    label_blocks,
    weight_law_blocks,
    wheel_end_blocks,
)
from binder.cards.rig_words import words_of
from binder.models.rig import AxleWeights
from binder.quantities import Quantity, number_in
from binder.wording.measures import LOAD, RATING
from binder.wording.numbers import BLANK
from binder.wording.words import Words, town


@dataclass(frozen=True)
class WeighedThing:
    """One axle, vehicle or combination; ``states`` are keys and titles in the order of the trip.

    ``vehicle`` is what it belongs to, empty for the whole rig; ``short_name`` its name where that is said.
    """

    assessment: Assessment
    kinds: RatedKinds
    subject: tuple[str, ...]
    vehicle: str
    short_name: str
    rating: Quantity | None
    states: tuple[tuple[str, str], ...]

    @property
    def name(self) -> str:
        """Its name on paper."""
        return f"{self.vehicle}, {self.short_name}" if self.vehicle else self.short_name

    @property
    def words(self) -> Words:
        """How the rig is written about."""
        return words_of(self.assessment)

    def load_in(self, state: str) -> Quantity | None:
        """Load in a state."""
        return self.assessment.quantity(self.kinds.load.of(*self.subject, state))

    def margin_in(self, state: str) -> Quantity | None:
        """Margin in a state."""
        return self.assessment.quantity(self.kinds.margin.of(*self.subject, state))

    @cached_property
    def _loads(self) -> tuple[tuple[str, str, Quantity], ...]:
        return tuple(
            (key, title, load) for key, title in self.states if (load := self.load_in(key)) is not None
        )

    @property
    def _heaviest(self) -> tuple[str, str, Quantity] | None:
        found = max(self._loads, key=lambda entry: number_in(entry[2], "pound"), default=None)
        # The heaviest of the states that are known may not be the heaviest of all, unless it is over already.
        margin = self.margin_in(found[0]) if found else None
        is_over = margin is not None and bool(margin.m < 0)
        return found if is_over or len(self._loads) == len(self.states) else None

    @property
    def heaviest_state(self) -> str:
        """Title of the state it is heaviest in, empty where no load is known."""
        return self._heaviest[1] if self._heaviest else ""

    @property
    def is_known(self) -> bool:
        """Load and rating are both known, so that they can be drawn against one another."""
        return self._heaviest is not None and self.rating is not None

    @property
    def changes(self) -> bool:
        """It is not printed with the same load in every state."""
        return len({self.words.number(load, LOAD) for _, _, load in self._loads}) > 1

    @property
    def share_used(self) -> float:
        """Share of its rating that the heaviest load uses, for the length of a bar."""
        if self._heaviest is None or self.rating is None:
            return 0.0
        if not self.rating.magnitude:
            return 2.0  # Nothing has a share of zero: the bar is drawn as one far over its mark.
        return float((self._heaviest[2] / self.rating).to("").magnitude)

    @property
    def margin(self) -> Quantity | None:
        """Margin in the heaviest state."""
        return self.margin_in(self._heaviest[0] if self._heaviest else "")

    @property
    def is_over(self) -> bool:
        """The heaviest load is over the rating."""
        return self.margin is not None and bool(self.margin.m < 0)

    @property
    def heaviest_text(self) -> str:
        """The heaviest load as printed."""
        return self.words.text(self._heaviest[2] if self._heaviest else None, LOAD)

    @property
    def rating_text(self) -> str:
        """The rating as printed."""
        return self.words.text(self.rating, RATING)

    @property
    def margin_text(self) -> str:
        """The margin as printed, below zero where it is over."""
        return self.words.text(self.margin, self.kinds.margin.measure)

    @property
    def margin_words(self) -> str:
        """The margin in words: what is left or what it is over."""
        if self.margin is not None and self.is_over:
            return f"{self.words.text(self.margin * -1, LOAD)} OVER"
        return f"{self.margin_text} left"


def weighed_things(assessment: Assessment) -> tuple[WeighedThing, ...]:
    """All that has a load and a rating: axles and total of each vehicle, then the combination."""
    return tuple(_things(assessment))


def _title(state: TripState, words: Words) -> str:
    """Title of a state with its town alone: the day tells two towns of one name apart."""
    return words.said(Phrase(state.title.text, {**state.title.facts, "place": town(state.place)}))


def _things(assessment: Assessment) -> Iterator[WeighedThing]:
    words = words_of(assessment)
    states = tuple((state.key, _title(state, words)) for state in trip_states(assessment.profile))
    vehicles = assessment.rig.vehicles
    for name, vehicle in vehicles.items():
        for axle_name, axle in vehicle.axles.items():
            subject = name, axle_name
            yield WeighedThing(assessment, kinds.AXLE, subject, name, axle_name, axle.rating, states)
        rating = vehicle.label.gross_vehicle_weight_rating
        yield WeighedThing(assessment, kinds.TOTAL, (name,), name, "total", rating, states)
    if is_combination(assessment.rig):
        rating = next(iter(vehicles.values())).label.gross_combination_weight_rating
        yield WeighedThing(assessment, kinds.COMBINATION, (), "", "whole rig", rating, states)


_COLUMNS = 4
"""Things in one table of states: each takes two columns, and more would not be read at 9 points."""

_BARS_WIDTH = 177.0
"""Millimeters of the bars: the text of an A4 page is 177.8 wide, of a letter page 183.4."""

_INTRO = (
    "Loads are rounded up, margins down. Bold upright mark: the rating. Weigh again after a change; labels "
    "on the vehicles, makers' manuals and local law come first."
)


def weights(assessment: Assessment) -> Page:
    """Make the page of weights."""
    things = weighed_things(assessment)
    blocks: tuple[Block, ...] = (
        *_bars(things),
        *wheel_end_blocks(assessment),
        *coupling_blocks(assessment),
        *label_blocks(assessment),
        *water_blocks(assessment),
    )
    return Page("weights", "Weights, water", _INTRO, blocks)


def weights_by_state(assessment: Assessment) -> Page:
    """Make the page of loads in every state of the trip, of what the scale said, and of the law of axles."""
    blocks: tuple[Block, ...] = (
        *_state_tables(weighed_things(assessment), words_of(assessment)),
        *_known_blocks(assessment),
        *weight_law_blocks(assessment),
    )
    return Page("weights_by_state", "Weights in every state", _INTRO, blocks)


def _bars(things: tuple[WeighedThing, ...]) -> Iterator[Block]:
    yield Heading("Heaviest moment of each")
    known = [thing for thing in things if thing.is_known]
    unknown = [thing for thing in things if not thing.is_known]
    rows = tuple(
        MarginBar(
            thing.name,
            thing.share_used,
            f"{thing.heaviest_text}, {thing.heaviest_state}",
            f"rating {thing.rating_text}",
            thing.margin_words,
            thing.is_over,
        )
        for thing in known
    )
    if rows:
        told = "; ".join(f"{row.name}: {row.load}, {row.rating}, {row.margin}" for row in rows)
        yield Picture(MarginBars(rows, f"Bars of load against rating. {told}.", _BARS_WIDTH))
    for thing in unknown:
        yield Line(thing.name, f"load {thing.heaviest_text}, rating {thing.rating_text}")


def _state_tables(things: tuple[WeighedThing, ...], words: Words) -> Iterator[Block]:
    changing = [thing for thing in things if thing.changes]
    for chosen in _tables_of(changing):
        vehicles = {thing.vehicle for thing in chosen if thing.vehicle}
        # Short headers leave room for the names of places.
        names = [thing.short_name if len(vehicles) == 1 else thing.name for thing in chosen]
        headers = tuple(f"{name} {what}" for name in names for what in ("load", "margin"))
        whose = " and ".join(sorted(vehicles)) or "whole rig"
        rows = (_state_row(chosen, key, title, words) for key, title in chosen[0].states)
        caption = f"Every state of the trip: {whose}, {words.unit(LOAD)}"
        yield from small_table(caption, ("state of the trip", *headers), rows)
    if changing:
        yield Note("A margin below zero is over the rating. The bars above name the heaviest state of each.")
    steady = [thing for thing in things if not thing.changes]
    yield from small_table(
        "What stays as it is",
        ("the same in every state", "load", "rating", "margin"),
        ((thing.name, thing.heaviest_text, thing.rating_text, thing.margin_text) for thing in steady),
    )


def _tables_of(things: list[WeighedThing]) -> Iterator[list[WeighedThing]]:
    """A table for each vehicle; the whole rig stands with the last one where there is room."""
    chosen: list[WeighedThing] = []
    for thing in things:
        is_next = bool(chosen) and thing.vehicle not in {chosen[0].vehicle, ""}
        if is_next or len(chosen) == _COLUMNS:
            yield chosen
            chosen = []
        chosen.append(thing)
    if chosen:
        yield chosen


def _state_row(things: list[WeighedThing], key: str, title: str, words: Words) -> tuple[str, ...]:
    cells = []
    for thing in things:
        cells.append(words.number(thing.load_in(key), thing.kinds.load.measure))
        cells.append(words.number(thing.margin_in(key), thing.kinds.margin.measure))
    return (title, *cells)


def _known_blocks(assessment: Assessment) -> Iterator[Block]:
    words, rows = words_of(assessment), []
    for name, vehicle in assessment.rig.vehicles.items():
        ticket = ticket_of(assessment.rig, name)
        readings = ticket.weights[name].axles if ticket else {}
        for axle in vehicle.axles:
            reading = readings.get(axle)
            on = ticket.on.isoformat() if ticket else BLANK
            rows.append((f"{name}, {axle}", *_reading(reading, words), on, _how_known(reading)))
    note = (
        "Wheel ends weighed: the heavier end is measured. Axle weighed: the heavier end is assumed, half the "
        "axle and an allowance (common practice, no source). Not weighed: its rating stands in."
    )
    headers = ("axle", "left", "right", "axle", "ticket of", "known by")
    yield from small_table("On the scale", headers, rows, note)


def _reading(reading: AxleWeights | None, words: Words) -> list[str]:
    if reading is None:
        return [BLANK] * 3
    read = (reading.left, reading.right, reading.axle)
    return ["-" if value is None else words.text(value, LOAD) for value in read]


def _how_known(reading: AxleWeights | None) -> str:
    if reading is None:
        return "not weighed"
    if reading.left is not None and reading.right is not None:
        return "wheel ends weighed"
    return "axle weighed; ends assumed" if reading.axle is not None else "not weighed"
