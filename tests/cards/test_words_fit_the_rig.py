"""A rig's cards and their reasons name nothing that its kind has not."""

import re
from datetime import date
from pathlib import Path

import pytest

from binder.printing.build import BuildOptions, printable_cards, read_and_assess
from binder.printing.starter import write_starter
from tests.paper.printings import strings

FOREIGN = {
    "motorhome": r"trailer|tow(ed|ing) (vehicle|car)|camper|pickup|generator|the car\b|tow bar|fifth wheel",
    "pickup-with-trailer": r"motorhome|coach|camper|generator|the car\b|tow bar|fifth wheel|dolly",
    "fifth-wheel": r"motorhome|coach|camper|generator|the car\b|tow bar|dolly",
    "camper": r"motorhome|coach|trailer|tow(ed|ing) vehicle|generator|the car\b|tow bar|fifth wheel|dolly",
}


@pytest.mark.parametrize("kind", FOREIGN)
def test_the_cards_of_a_starter_name_nothing_its_kind_has_not(kind: str, tmp_path: Path) -> None:
    write_starter(tmp_path / "rig", kind)
    file = tmp_path / "rig" / "rig.yaml"
    file.write_text(re.sub(r"(?m)^( +at:) +# \* ", r"\1 120 in # ", file.read_text("utf-8")), "utf-8")

    cards = printable_cards(read_and_assess(tmp_path / "rig", BuildOptions(date(2026, 6, 1))))

    said = [f"{card.id}: {text}" for card in cards for text in strings(card)]
    assert len(said) > 200
    assert [text for text in said if re.search(FOREIGN[kind], text, re.IGNORECASE)] == []
