"""Why a card's number is so: its figure's rule and inputs as a reason."""

from binder.assessment.figures import Figure
from binder.cards.blocks import Reason
from binder.wording.sentences import as_sentence
from binder.wording.telling import Told


def reason_of(name: str, figure: Told | Figure) -> Reason:
    """Tell a figure's rule, what decided it, and its cautions."""
    inputs = "; ".join(f"{item.name} {item.text}" for item in figure.inputs)
    parts = [figure.rule, inputs, *figure.cautions]
    sources = figure.sources if isinstance(figure, Told) else figure.source
    return Reason(name, " ".join(as_sentence(part) for part in parts if part), sources)
