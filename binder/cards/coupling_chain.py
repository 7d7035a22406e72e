"""The coupling chain: each part with its rating, the weakest named, and what is left."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.coupling.loads import coupling_key
from binder.assessment.weights.resting import CARRIED
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Note, Table
from binder.cards.display import BLANK
from binder.models.rig import Coupling


def coupling_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make a table for each coupling of the rig."""
    # What is carried hangs on no part that tows: its weight stands with the vehicle that carries it.
    for coupling in (one for one in assessment.rig.couplings if one.how != CARRIED):
        yield from _chain(assessment, coupling)


def _chain(assessment: Assessment, coupling: Coupling) -> Iterator[Block]:
    key, display = coupling_key(coupling), display_of(assessment)
    limit, down = assessment.known(f"{key}.limit"), assessment.known(f"{key}.down_load")
    weakest_figure = assessment.known(f"{key}.weakest_part")
    weakest = weakest_figure.value if weakest_figure and isinstance(weakest_figure.value, str) else ""
    margin, towed = assessment.known(f"{key}.margin"), assessment.known(f"{key}.towed")
    names = weakest.split(", ")
    rows = [
        (item.name, _blank(item.text), "weakest part" if item.name in names else "")
        for item in (limit.inputs if limit else ())
    ]
    rows.append(
        ("towed, at its heaviest", display.text(towed.quantity if towed else None, "weight", "up"), "")
    )
    left = display.text(margin.quantity if margin else None, "weight", "down")
    rows.append(("left under the weakest part", left, weakest))
    if down:
        text = display.text(down.quantity, "weight", "up")
        rows.append(("down load on the coupling", text, down.slack))
        rows += [(f"{item.name}, may carry down", _blank(item.text), "") for item in down.inputs]
    share = assessment.known(f"{key}.down_share")
    if share:
        text, _, usual = share.slack.partition("; ")
        rows.append(("share of the trailer on the coupling", text or f"{BLANK} %", usual))
    caption = f"{coupling.ahead.capitalize()} to {coupling.behind}, by {coupling.how}: what each part may tow"
    yield Table(("part", "may tow", "which"), tuple(rows), small=True, caption=caption)
    yield Note(
        "The combination rating counts as a part: what it leaves for the towed vehicle behind the loaded "
        "towing one. Repairs and welds of a coupling belong to qualified people."
    )

    for caution in share.cautions if share else ():
        yield Note(caution)


def _blank(text: str) -> str:
    return BLANK if text == "not known" else text
