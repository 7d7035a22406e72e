"""Sets hold what their table says, nothing private that they do not ask for, and cards keep their codes."""

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import click
import pypdfium2 as pdfium
import pytest

from binder.cards.order import binder_document
from binder.cards.ring.order import RING
from binder.cards.sets import PRIVATE, longest_title, printed_in, sets
from binder.cli import main
from binder.printing.build import BuildOptions, build, printable_cards, read_and_assess
from binder.problems import InputProblems
from binder.rendering.html import ring_html
from binder.rendering.pdf import render
from tests.assessment.log.logs import assessed_with, walks
from tests.cards.binder_rigs import demo
from tests.demos import PROFILES

ON = date(2026, 6, 1)
_FILE = """contacts:
  - {who: Aunt Petunia, phone: 555 0123}
medical: [Grandfather takes warfarin]
policies: [Policy QX-77]
nights:
  - {place: "Ontario, Oregon", gate: "4711#", booking: B-9}
"""
WORDS = ("Petunia", "warfarin", "QX-77", "4711#", "B-9")


def printed(out: Path) -> dict[str, str]:
    """Text of each file."""
    texts = {"numbers.json": (out / "numbers.json").read_text("utf-8")}
    for file in out.glob("*.pdf"):
        pdf = pdfium.PdfDocument(file)
        pages = "".join(page.get_textpage().get_text_range() for page in pdf)
        texts[file.name] = pages + str(pdf.get_metadata_dict())
    return texts


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, str]]:
    """Each set of a rig with a private file, printed."""
    folder = tmp_path_factory.mktemp("sets")
    rig = folder / "larkspur"
    (rig / "trips").mkdir(parents=True)
    for name in ("rig.yaml", "trips/high-country.yaml"):
        (rig / name).write_text((PROFILES / "larkspur" / name).read_text("utf-8"), "utf-8")
    (rig / "private.yaml").write_text(_FILE, "utf-8")
    texts = {}
    for name in sets():
        build(rig, BuildOptions(ON, out=folder / name, private=True, set=name))
        texts[name] = printed(folder / name)
    build(rig, BuildOptions(ON, out=folder / "public"))
    texts["public"] = printed(folder / "public")
    return texts


def test_a_set_names_only_cards_and_pages_that_there_are() -> None:
    assessment = assessed_with(*walks())
    pages = {part.name for part in binder_document(assessment, ()).parts}

    for one in sets().values():
        assert set(one.cards or ()) <= set(RING)
        assert set(one.pages or ()) <= pages


def test_readme_shows_the_table(root: Path) -> None:
    text = (root / "README.md").read_text(encoding="utf-8")

    assert all(f"| `{name}` | {one.for_whom} |" in text for name, one in sets().items())


@pytest.mark.parametrize(
    ("name", "kept"),
    [
        ("everything", set(WORDS)),
        ("codriver", {"Petunia", "warfarin", "4711#", "B-9"}),
        ("mechanic", set()),
        ("public", set()),
    ],
)
def test_a_set_has_what_it_asks_for_of_the_private_file_and_no_more(
    made: dict[str, dict[str, str]], name: str, kept: set[str]
) -> None:
    whole = "".join(made[name].values())

    assert {word for word in WORDS if word in whole} == kept
    assert not [word for word in WORDS if word in made[name]["numbers.json"]]


def test_the_name_of_the_set_is_on_the_cover_and_in_each_foot(made: dict[str, dict[str, str]]) -> None:
    assert "set: mechanic" in made["mechanic"]["binder.pdf"]
    cards = made["mechanic"]["cards.pdf"]
    assert cards.count("Larkspur \u00b7 mechanic") == len(re.findall(r"side \d+ of \d", cards)) > 10
    assert "desk.pdf" not in made["mechanic"]
    assert "desk.pdf" in made["everything"]


def test_a_card_has_one_code_in_every_set_unless_it_says_something_private() -> None:
    assessment = demo("larkspur")
    document = binder_document(assessment, ())
    other = [part for part in document.parts if part.name != "contacts"]

    codriver = printed_in("codriver", document, other)
    mechanic = printed_in("mechanic", document, document.parts)

    codes = {part.name: part.code for part in document.parts}
    assert all(part.code == codes[part.name] for part in (*codriver.parts, *mechanic.parts))
    private = [part.name for part in codriver.parts if PRIVATE in part.set_title]
    assert private == ["contacts"]
    assert {part.set_title for part in mechanic.parts} == {"mechanic"}


def test_the_printing_of_another_rig_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "numbers.json").write_text('{"rig": "Bluebell", "files": {}}', "utf-8")

    with pytest.raises(InputProblems, match="the printing of Bluebell is there"):
        build(PROFILES / "kestrel", BuildOptions(ON, out=tmp_path))

    assert [file.name for file in tmp_path.iterdir()] == ["numbers.json"]


def test_the_command_offers_the_sets_of_the_table() -> None:
    (option,) = (one for one in main.commands["build"].params if one.name == "chosen")

    assert isinstance(option.type, click.Choice)
    assert list(option.type.choices) == list(sets())


@pytest.mark.parametrize("letters", [12, 30, 38, 44, 50])
def test_a_card_fits_in_every_set_as_it_was_laid_out(letters: int, tmp_path: Path) -> None:
    """The foot is longer where the set and a private mark stand in it."""
    text = (PROFILES / "kestrel" / "rig.yaml").read_text("utf-8")
    rig = tmp_path / "rig"
    rig.mkdir()
    name = ("Long name of a rig " * 4)[:letters].strip()
    (rig / "rig.yaml").write_text(text.replace("name: Kestrel", f"name: {name}", 1), "utf-8")
    cards = printable_cards(read_and_assess(rig, BuildOptions(ON)))
    marked = [replace(card, set_title=longest_title()) for card in cards]

    sides = sum(len(card.sides) for card in cards)
    assert render(ring_html(marked, "letter"), sides).page_count == sides
