from binder.cards.blocks import Blank, Line, Note
from binder.cards.pages.worksheets import contacts
from binder.models.trip import Private
from tests.cards.procedure_rigs import assessed, text_of

PRIVATE = Private.model_validate(
    {
        "contacts": [{"who": "Sister", "phone": "555-0100", "note": "has keys"}, {"who": "Dealer"}],
        "medical": ["Driver: penicillin allergy"],
        "policies": ["Coach: 12-345"],
    }
)


def test_without_a_private_file_every_line_is_ruled() -> None:
    page = contacts(assessed())

    assert {block.kind for block in page.blocks} == {"heading", "blank"}
    assert "Medical" in text_of(page)


def test_a_private_file_is_printed_before_the_ruled_lines() -> None:
    page = contacts(assessed(private=PRIVATE))
    kinds = [block.kind for block in page.blocks]

    assert [(b.challenge, b.answer, b.detail) for b in page.blocks if isinstance(b, Line)] == [
        ("Sister", "555-0100", "has keys"),
        ("Dealer", "______", ""),
    ]
    assert [block.text for block in page.blocks if isinstance(block, Note)] == [
        "Driver: penicillin allergy",
        "Coach: 12-345",
    ]
    assert kinds.index("line") < kinds.index("blank")
    assert page.intro.startswith("Private")


def test_the_ruled_lines_stay_with_a_private_file() -> None:
    ruled = [block for block in contacts(assessed()).blocks if isinstance(block, Blank)]

    assert [
        block for block in contacts(assessed(private=PRIVATE)).blocks if isinstance(block, Blank)
    ] == ruled
