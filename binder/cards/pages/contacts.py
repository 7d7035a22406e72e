"""Page of contacts: ruled lines to fill in by hand, unless a private file is printed with the set."""

from binder.assessment.assess import Assessment
from binder.cards.blocks import Blank, Block, Heading, Line, Note, Page
from binder.models.trip import Private
from binder.wording.numbers import BLANK

GROUPS = (
    ("Roadside, towing", ("Company", "Phone", "Member number")),
    ("Tire service", ("Company", "Phone")),
    ("Workshop, rig's maker", ("Company", "Phone")),
    ("Insurance", ("Company", "Phone", "Policy")),
    ("Family, who to tell", ("Name", "Phone", "Name", "Phone")),
    ("Medical", ("Doctor, phone", "Medicines", "Allergies")),
)
"""What a stranger with the keys has to find; each with its ruled lines."""

_INTRO = "Fill in by hand, in pencil. What is written here stays in this binder."


def contacts(assessment: Assessment) -> Page:
    """Make the page of contacts."""
    private = assessment.profile.private
    entries = _entries(private) if private else ()
    ruled: list[Block] = []
    for heading, names in GROUPS:
        ruled += [Heading(heading), *(Blank(name) for name in names)]
    intro = "Private: not for a set that is handed on." if entries else _INTRO
    return Page("contacts", "Contacts", intro, (*entries, *ruled))


def _entries(private: Private) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if private.contacts:
        blocks.append(Heading("To call"))
        blocks += [
            Line(contact.who, contact.phone or BLANK, contact.note or "") for contact in private.contacts
        ]
    for heading, texts in (("Medical notes", private.medical), ("Policies", private.policies)):
        if texts:
            blocks.append(Heading(heading))
            blocks += [Note(text) for text in texts]
    return tuple(blocks)
