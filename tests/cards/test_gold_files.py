"""Each card of the ring says today what it said when somebody last looked at it."""

from datetime import date
from pathlib import Path

import pytest

from binder.assessment.assess import assess
from binder.cards.blocks import Card
from binder.cards.ring.order import RING, ring
from binder.models.load import load_profile
from binder.rendering.html import ring_html
from binder.rendering.layout import laid_out
from binder.rendering.paper import PAPERS
from tests.demos import PROFILES


@pytest.fixture(scope="module")
def cards() -> tuple[Card, ...]:
    handed_over = ring(assess(load_profile(PROFILES / "larkspur"), date(2026, 5, 25)))
    return tuple(laid_out(card, PAPERS["letter"]) for card in handed_over)


def differs(said: str, gold: Path) -> str:
    """Compare a text with its gold file; where they differ keep it, and say how to accept it."""
    if gold.is_file() and gold.read_text(encoding="utf-8") == said:
        return ""
    actual = gold.parents[1] / "actual" / gold.name
    actual.parent.mkdir(parents=True, exist_ok=True)
    actual.write_text(said, encoding="utf-8")
    return (
        f"{gold.name} is not what it was. Look: diff {gold} {actual} ; build the demo and look at the card. "
        f"If it is right: cp {actual} {gold}"
    )


@pytest.mark.parametrize("name", RING)
def test_a_card_is_what_somebody_looked_at(name: str, cards: tuple[Card, ...], root: Path) -> None:
    of_name = [card for card in cards if card.name == name]
    written = ring_html(of_name, "letter")
    body = written[written.index("<body>") :].removesuffix("</html>\n").removesuffix("</html>")

    assert of_name
    assert differs(body.rstrip() + "\n", root / "tests" / "gold" / "cards" / f"{name}.html") == ""


def test_a_changed_card_is_kept_and_said(tmp_path: Path) -> None:
    gold = tmp_path / "cards" / "tires.html"
    gold.parent.mkdir()
    gold.write_text("95 psi\n", encoding="utf-8")

    said = differs("105 psi\n", gold)

    assert differs("95 psi\n", gold) == ""
    assert (tmp_path / "actual" / "tires.html").read_text(encoding="utf-8") == "105 psi\n"
    assert said.endswith(f"cp {tmp_path / 'actual' / 'tires.html'} {gold}")
