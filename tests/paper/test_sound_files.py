"""The files themselves: sound PDF, tagged for people who listen, with the date of the printing only."""

import io
from pathlib import Path

import outloud
import pikepdf
import pytest

from tests.paper.printings import EFFECTIVE, PDFS, Printing


@pytest.mark.parametrize("name", PDFS)
def test_a_file_has_no_fault_of_syntax(printing: Printing, name: str) -> None:
    with pikepdf.open(io.BytesIO(printing.files[name])) as document:
        assert document.check_pdf_syntax() == []
        assert not document.is_encrypted
        assert str(document.Root.Lang) == "en-US"
        assert bool(document.Root.ViewerPreferences.DisplayDocTitle)
        assert str(document.docinfo["/Title"])


@pytest.mark.parametrize("name", ["binder.pdf", "cards.pdf"])
def test_a_file_states_that_it_is_tagged(printing: Printing, name: str) -> None:
    with pikepdf.open(io.BytesIO(printing.files[name])) as document:
        assert b'pdfuaid:part="1"' in document.Root.Metadata.read_bytes()
        assert bool(document.Root.MarkInfo.Marked)
        assert "/StructTreeRoot" in document.Root
        assert str(document.docinfo["/CreationDate"]) == f"D:{EFFECTIVE.replace('-', '')}"
        assert str(document.docinfo["/ModDate"]) == f"D:{EFFECTIVE.replace('-', '')}"


def test_sheets_have_no_date(printing: Printing) -> None:
    assert b"D:20" not in printing.files["sheets.pdf"]


def test_a_checker_for_readers_aloud_finds_no_error_in_the_binder(printing: Printing, tmp_path: Path) -> None:
    file = tmp_path / "binder.pdf"
    file.write_bytes(printing.files["binder.pdf"])

    result = outloud.check(str(file))

    assert result.error is None
    assert [item.message for item in result.findings if item.severity == "error"] == []
