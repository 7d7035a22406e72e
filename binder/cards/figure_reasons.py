"""Why a card's number is so: its figure's rule and inputs as a reason."""

from binder.cards.blocks import Reason
from binder.wording.sentences import as_sentence
from binder.wording.telling import Told


def reason_of(name: str, figure: Told) -> Reason:
    """Tell a figure's rule, what decided it, and its cautions."""
    inputs = "; ".join(f"{item.name} {item.text}" for item in figure.inputs)
    parts = [figure.rule, inputs, *figure.cautions]
    return Reason(name, " ".join(as_sentence(part) for part in parts if part), figure.sources)
