"""The coupling chain: each part with its rating, the weakest named, and what is left."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.coupling import kinds
from binder.assessment.figures import Figure
from binder.assessment.ledger import FigureKind
from binder.assessment.weights.resting import CARRIED
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Note, Table
from binder.cards.display import BLANK
from binder.models.rig import Coupling
from binder.wording.sentences import key_text


def coupling_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make a table for each coupling of the rig."""
    # What is carried hangs on no part that tows: its weight stands with the vehicle that carries it.
    for coupling in (one for one in assessment.rig.couplings if one.how != CARRIED):
        yield from _chain(assessment, coupling)


def _chain(assessment: Assessment, coupling: Coupling) -> Iterator[Block]:
    display, ledger, pair = display_of(assessment), assessment.ledger, (coupling.ahead, coupling.behind)
    limit, down = (_told(assessment, kind, coupling) for kind in (kinds.LIMIT, kinds.DOWN_LOAD))
    weakest_figure = _told(assessment, kinds.WEAKEST_PART, coupling)
    weakest = weakest_figure.value if weakest_figure and isinstance(weakest_figure.value, str) else ""
    margin, towed = (ledger.quantity(kind.of(*pair)) for kind in (kinds.MARGIN, kinds.TOWED))
    names = weakest.split(", ")
    rows = [
        (item.name, _blank(item.text), "weakest part" if item.name in names else "")
        for item in (limit.inputs if limit else ())
    ]
    rows.append(("towed, at its heaviest", display.text(towed, "weight", "up"), ""))
    left = display.text(margin, "weight", "down")
    rows.append(("left under the weakest part", left, weakest))
    if down:
        text = display.text(down.quantity, "weight", "up")
        rows.append(("down load on the coupling", text, down.slack))
        rows += [(f"{item.name}, may carry down", _blank(item.text), "") for item in down.inputs]
    share = _told(assessment, kinds.DOWN_SHARE, coupling)
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


def _told(assessment: Assessment, kind: FigureKind, coupling: Coupling) -> Figure | None:
    return assessment.known(key_text(kind.of(coupling.ahead, coupling.behind)))


def _blank(text: str) -> str:
    return BLANK if text == "not known" else text
