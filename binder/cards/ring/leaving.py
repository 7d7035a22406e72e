"""Card 1, Leaving: done from memory, then confirmed line by line before the wheels turn."""

from binder.assessment.assess import Assessment
from binder.assessment.conditions import driven, equipped, holds, towed
from binder.cards.blocks import Card
from binder.cards.procedures.facts import listed
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.models.rig import Rig

_CHANGES = {"slide": "slides", "awning": "awning", "leveling_jacks": "jacks"}


def leaving(assessment: Assessment) -> Card:
    """Make the card that is confirmed before the rig moves."""
    said = said_card(card_words("leaving"), assessment)
    return Card(
        id="1",
        name="leaving",
        title=said.title,
        sides=said.sides,
        wrong_as_soon_as=_wrong(assessment.rig),
        reasons=said.reasons,
        family="drive",
        rig=assessment.rig.name,
        effective=assessment.on.isoformat(),
    )


def _wrong(rig: Rig) -> str:
    _, vehicle = driven(rig)
    parts = [
        *[word for name, word in _CHANGES.items() if equipped(name)(rig)],
        *(["propane rule"] if holds("propane")(rig) else []),
        *([f"{vehicle.brakes.service} brakes"] if vehicle.brakes and vehicle.brakes.service else []),
        *[f"the {name} behind" for name, _ in towed(rig)],
    ]
    return f"{listed(parts or ['anything that opens'])} changed."
