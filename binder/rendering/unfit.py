"""What no side of a card can hold, word by word."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from binder.cards.blocks import Card
from binder.rendering.heights import Text, height_of
from binder.rendering.layout import NUMBER, TITLE, Ruler, foot_of
from binder.rendering.paper import Paper
from binder.rendering.placing import SMALL, placed_on_card
from binder.rendering.typeface import pieces, text_width


@dataclass(frozen=True)
class Unfit:
    """What no side can hold: a word wider than its row, and how many characters it must lose."""

    card: Card
    side: int
    word: str
    over: int


def unfit(cards: Sequence[Card], paper: Paper) -> Iterator[Unfit]:
    """Tell each word that is wider than its row, and each text that is longer than a side."""
    for card in cards:
        ruler = Ruler(card, paper)
        for number, side in enumerate(card.sides, 1):
            foot = foot_of(card, number, ruler.width, ruler.size, has_killers=False)
            blocks = placed_on_card(side.blocks, ruler.width, ruler.size)
            placed = [height_of(one, ruler.width) for one in blocks]
            said = Text(side.use, SMALL, ruler.width)
            title = Text(card.title, TITLE, ruler.width - NUMBER, "Bold")
            texts = [title, said, *foot.texts, *(text for one in placed for text in one.texts)]
            for text in texts:
                for word in pieces(text.text):
                    if over := _over(word, text):
                        yield Unfit(card, number, word, over)
            excess = ruler.excess(side.blocks, side, number)
            if excess > 0:
                longest = max(texts, key=lambda text: text.rows * text.points)
                row = longest.points * 4 / 3
                letters = len(longest.text) / max(1, longest.rows)
                yield Unfit(card, number, longest.text, ceil(ceil(excess / row) * letters))


def _over(word: str, text: Text) -> int:
    """Count the characters a word must lose to stand on its row."""
    return next(
        lost for lost in range(len(word) + 1)
        if text_width(word[: len(word) - lost], text.points, text.weight) <= max(text.width, 0)
    )  # fmt: skip
