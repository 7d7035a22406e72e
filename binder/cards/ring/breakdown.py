"""Card 6, Breakdown, first minutes: read, then done; what to say to whom stands on the back.

The steps keep the order in which they save lives: out of the lane, seen, out of the way. Devices come
after people, and are counted in steps, since nobody carries a tape on a shoulder.
"""

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import carried, holds, towed
from binder.cards.blocks import Blank, Block, Card, Line, Table
from binder.cards.display import Display
from binder.cards.figure_reasons import reason_of
from binder.cards.procedures.facts import listed, steps_to
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import overall_height
from binder.cards.ring.breakdown_words import length_of_all, weight_of_all, what_we_are

AHEAD_FROM_REAR = "rig.warning_devices.two_way.ahead.paces_from_rear"

CONTACT_LINES = 3
"""Contacts on the card; the binder's page has room for all."""


def breakdown(assessment: Assessment) -> Card:
    """Make the card for the first minutes of a breakdown."""
    rig = assessment.rig
    told, figures = what_we_are(assessment)
    computed = {
        "table of steps": (_table_of_steps(assessment),),
        "contacts": _contacts(assessment),
        "what the rig is": told,
    }
    said = said_card(card_words("breakdown"), assessment, computed)
    return Card(
        id="6",
        name="breakdown",
        title=said.title,
        sides=said.sides,
        wrong_as_soon_as=_wrong(assessment),
        reasons=(*said.reasons, *(reason_of(name, figure) for name, figure in figures.items())),
        family="help",
        rig=rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(figure.key for figure in figures.values()),
    )


def _table_of_steps(assessment: Assessment) -> Table:
    near, far, farthest = (steps_to(name, assessment.rig) for name in ("near", "far", "farthest"))
    from_rear = assessment.known(AHEAD_FROM_REAR)
    ahead = f"{from_rear.value:.0f} ahead" if from_rear else f"{far} past front"
    return Table(
        ("Road", "1st, traffic side", "2nd", "3rd"),
        (("Two-way", near, far, ahead), ("Divided, one-way", near, far, farthest)),
    )


def _contacts(assessment: Assessment) -> tuple[Block, ...]:
    private = assessment.profile.private
    known = [contact for contact in private.contacts if contact.phone] if private else []
    lines = tuple(Line(contact.who, contact.phone or "") for contact in known[:CONTACT_LINES])
    return (
        lines
        + tuple(Blank(name) for name in ("Roadside, towing", "Tire service", "Who to tell"))[len(lines) :]
    )


def _wrong(assessment: Assessment) -> str:
    rig, shown = assessment.rig, Display(assessment.rig.units)
    over = {
        "higher than": shown.length(height) if (height := overall_height(assessment)) is not None else "",
        "longer than": shown.length(length) if (length := length_of_all(assessment)) is not None else "",
        "heavier than": (
            shown.text(weight, "weight", "up") if (weight := weight_of_all(assessment)) is not None else ""
        ),
    }
    parts = [
        *(f"{words} {limit}" for words, limit in over.items() if limit),
        "tires",
        *(["propane"] if holds("propane")(rig) else []),
        *[f"the {name}" for name, _ in (*towed(rig), *carried(rig))],
    ]
    return f"{listed([*parts, 'a number to call'])} changed."
