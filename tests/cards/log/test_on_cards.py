"""What the log found stands on the card it is of, in its finder's words, and never in the way of paper."""

import pytest

from binder.assessment.assess import Assessment
from binder.cards.blocks import BinderDocument, Card, End, Heading, Line, Note, Step
from binder.cards.order import binder_document
from binder.cards.pages.tire_register import tire_register
from binder.cards.ring.order import ring
from binder.models.log_entries import Entry
from binder.printing.build import printable_cards
from binder.printing.log_texts import printable
from tests.assessment.log.logs import assessed_with, entry, tire, walks


def fault(what: str = "lamp dark", card: str = "", day: float = 3, **said: str) -> Entry:
    return entry("fault", day, {"what": what, **said}, f"fault {what[:9]} {day}")._replace(card=card)


def told(assessment: Assessment) -> dict[str, list[str]]:
    """Open faults, by the card's number: as steps under a heading, or as a note where room is spare."""
    found: dict[str, list[str]] = {}
    for card in ring(assessment):
        blocks = [block for side in card.sides for block in side.blocks]
        for number, block in enumerate(blocks):
            if isinstance(block, Heading) and block.text == "Open faults":
                steps = blocks[number + 1 :]
                found[card.id] = [one.text for one in steps if isinstance(one, Step)]
            if isinstance(block, Note) and block.text.startswith("Open faults: "):
                found[card.id] = block.text.removeprefix("Open faults: ").removesuffix(".").split("; ")
    return found


@pytest.mark.parametrize(
    ("one", "card"),
    [
        (fault(card="6"), "6"),
        (fault(position="steer left", vehicle="coach"), "3"),
        (fault(vehicle="coach"), "1"),
        (fault(card="5.1"), "1"),
        (fault(card="77"), "1"),
    ],
)
def test_a_fault_stands_on_its_card(one: Entry, card: str) -> None:
    """A day sheet's day may be over, and a card may be gone: then it is told before leaving."""
    assert told(assessed_with(one))[card][-1] in {"Lamp dark.", "lamp dark"}


def test_a_losing_tire_stands_on_the_tires_card_and_no_side_is_added_for_it() -> None:
    sound, losing = (
        next(card for card in printable_cards(assessed_with(*log)) if card.id == "3") for log in ([], walks())
    )
    lines = [block for side in losing.sides for block in side.blocks if isinstance(block, Line)]

    assert [one.answer for one in lines if one.challenge == "Losing air: drive left inner"] == [
        "3 psi A MONTH"
    ]
    assert len(losing.sides) == len(sound.sides)


def test_one_open_fault_needs_no_further_side() -> None:
    (card,) = [one for one in printable_cards(assessed_with(fault())) if one.id == "1"]

    assert len(card.sides) == 2


def test_the_end_of_a_card_stays_its_end() -> None:
    (card,) = [one for one in ring(assessed_with(fault())) if one.id == "1"]

    assert isinstance(card.sides[-1].blocks[-1], End)


def test_of_many_faults_a_card_tells_the_newest_and_the_cover_all() -> None:
    assessment = assessed_with(*(fault(f"fault {day}", day=day) for day in range(20)))
    document = binder_document(assessment, ring(assessment))

    assert told(assessment)["1"][:5] == [f"fault {day}" for day in range(19, 14, -1)]
    assert sum("Open fault" in one for one in document.attention) == 20


@pytest.mark.parametrize(
    "what",
    [
        "\U0001f4a1 dark \U0001f4a1\U0001f4a1",
        "x" * 4000,
        "word " * 800,
        "a\nb\tc\x07\u202egnol",
        "<script>alert(1)</script> {braces} %s \\",
        "https://example.org/" + "path/" * 200,
    ],
)
def test_no_text_of_a_log_keeps_the_cards_from_paper(what: str) -> None:
    log = printable([fault(what)._replace(who="Ann \U0001f642" * 9)])
    cards = printable_cards(assessed_with(*log))

    assert {card.id for card in cards} == {card.id for card in printable_cards(assessed_with())}
    printable_cards(assessed_with(*log), "large")


def test_letters_that_cannot_be_printed_are_told() -> None:
    (one,) = printable([fault("lamp \U0001f4a1 dark")])

    assert one.written["what"] == "lamp [not printable] dark"


def contents(assessment: Assessment) -> tuple[tuple[Card, ...], BinderDocument]:
    cards = ring(assessment)
    return cards, binder_document(assessment, cards)


def test_a_log_that_says_nothing_of_what_is_printed_changes_no_part() -> None:
    note = entry("note", 3, {"text": "water tastes of iron"})
    gone = tire("tag left", 4, pressure="90 psi", tread="1/32 in")

    assert contents(assessed_with(note, gone)) == contents(assessed_with())


def test_the_page_of_tires_tells_what_was_read_last_beside_the_profile() -> None:
    page = tire_register(
        assessed_with(tire("steer left", 100, pressure="104 psi", by="gauge", tread="9/32 in"))
    )
    rows = [row for block in page.blocks for row in getattr(block, "rows", ()) if "104 psi" in row]

    assert rows == [
        (
            "coach, steer left",
            "104 psi",
            "gauge",
            "2026-04-15",
            "105 psi",
            "9/32 in",
            "2026-04-15",
            "13/32 in",
        )
    ]
