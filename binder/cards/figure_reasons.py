"""Why a card's number is so: its figure's rule and inputs as a reason."""

from binder.assessment.figures import Figure
from binder.cards.blocks import Reason


def reason_of(name: str, figure: Figure) -> Reason:
    """Tell a figure's rule, what decided it, and its cautions."""
    inputs = "; ".join(f"{item.name} {item.text}" for item in figure.inputs)
    sentences = [figure.rule, inputs, *figure.cautions]
    text = " ".join(_sentence(words) for words in sentences if words)
    return Reason(name, text, figure.source)


def _sentence(words: str) -> str:
    whole = words[:1].upper() + words[1:]
    return whole if whole.endswith((".", "!", "?")) else f"{whole}."
