"""What has a load in each state and one rating: an axle, a vehicle, the combination, read from figures."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from binder.assessment.assessment import Assessment
from binder.assessment.ledger import Phrase
from binder.assessment.weights import kinds
from binder.assessment.weights.kinds import RatedKinds
from binder.assessment.weights.resting import is_combination
from binder.assessment.weights.states import TripState, trip_states
from binder.cards.axle_words import words_of
from binder.quantities import Quantity, number_in
from binder.wording.meanings import LOAD, RATING
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
        if found is None or (len(self._loads) < len(self.states) and not self._is_over_in(found[0])):
            return None
        return found

    def _is_over_in(self, state: str) -> bool:
        margin = self.margin_in(state)
        return margin is not None and bool(margin.m < 0)

    @property
    def heaviest_key(self) -> str:
        """Key of the state it is heaviest in, empty where no load is known."""
        return self._heaviest[0] if self._heaviest else ""

    @property
    def heaviest_state(self) -> str:
        """Title of that state."""
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
        return float((self._heaviest[2] / self.rating).to("").magnitude)

    @property
    def margin(self) -> Quantity | None:
        """Margin in the heaviest state."""
        return self.margin_in(self.heaviest_key)

    @property
    def is_over(self) -> bool:
        """The heaviest load is over the rating."""
        return self._is_over_in(self.heaviest_key)

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
