"""What federal law would say of this rig's axle groups and ratings: a comparison on the page of weights."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.weights.kinds import LICENSE_GROUP
from binder.assessment.weights.weight_law import axle_groups
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Note, Table
from binder.wording.sentences import sentence

_HEADERS = ("axle group", "first to last", "heaviest together", "federal limit", "left")


def weight_law_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the table of axle groups and the line of the license groups."""
    display, ledger, rows = display_of(assessment), assessment.ledger, []
    for group in axle_groups(assessment.rig):
        limit = ledger.known(group.kinds.limit.of(*group.subject))
        if limit is None:
            continue
        load, margin = (
            ledger.quantity(kind.of(*group.subject)) for kind in (group.kinds.load, group.kinds.margin)
        )
        rows.append(
            (
                sentence(group.name, {}, assessment.rig.units),
                display.length(group.apart, "down"),
                display.text(load, "weight", "up"),
                display.text(limit.quantity, "weight", "down"),
                display.text(margin, "weight", "down"),
            )
        )
    if rows:
        caption = "Axle groups and the federal bridge formula, information only"
        yield Table(_HEADERS, tuple(rows), small=True, caption=caption)
        yield Note(
            "A federal rule for freight on Interstate highways, shown for comparison. Local law differs; a "
            "bridge's own sign decides."
        )
    license_group = assessment.known(LICENSE_GROUP.key)
    if license_group is not None:
        value = license_group.value or "not known, a rating is missing"
        yield Note(
            f"License, federal groups, comparison only: {value}. {license_group.rule} Local law differs, "
            "also for recreational vehicles; ask your licensing office."
        )
