"""A rig assessed with its owner's own words: what they take away from its cards is a finding, too."""

from datetime import date

from binder.assessment.assess import Assessment, assess
from binder.assessment.entries.own_words import find_own_words
from binder.assessment.weights.loads import StateLoads
from binder.models.load import Profile


def assessed(profile: Profile, on: date, states: tuple[StateLoads, ...] | None = None) -> Assessment:
    """Assess a rig, and what its owner's own words take away from its cards."""
    assessment = assess(profile, on, states)
    if profile.own_cards:
        # Both load every card, which explain does not make, and most rigs have no words of their own.
        from binder.cards.procedures.own_changes import changes_of_weight  # noqa: PLC0415 - loads cards.
        from binder.cards.ring.order import RING  # noqa: PLC0415 - loads every card.

        named = {one.words.card for one in profile.own_cards} & set(RING)
        printed = {name for name in named if RING[name](assessment) is not None}
        find_own_words(changes_of_weight(assessment, printed), assessment.ledger)
    return assessment
