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


@pytest.mark.parametrize("name", ["binder.pdf", "cards.pdf", "desk.pdf", "test_sheet.pdf"])
def test_a_file_states_that_it_is_tagged(printing: Printing, name: str) -> None:
    with pikepdf.open(io.BytesIO(printing.files[name])) as document:
        assert b'pdfuaid:part="1"' in document.Root.Metadata.read_bytes()
        assert bool(document.Root.MarkInfo.Marked)
        assert "/StructTreeRoot" in document.Root
        assert str(document.docinfo["/CreationDate"]) == f"D:{EFFECTIVE.replace('-', '')}000000Z"
        assert str(document.docinfo["/ModDate"]) == f"D:{EFFECTIVE.replace('-', '')}000000Z"


def test_sheets_have_no_date(printing: Printing) -> None:
    assert b"D:20" not in printing.files["sheets.pdf"]


@pytest.mark.parametrize("name", ["binder.pdf", "cards.pdf", "desk.pdf", "test_sheet.pdf"])
def test_a_checker_for_readers_aloud_finds_no_error(printing: Printing, name: str, tmp_path: Path) -> None:
    file = tmp_path / name
    file.write_bytes(printing.files[name])

    result = outloud.check(str(file))

    assert result.error is None
    assert [item.message for item in result.findings if item.severity == "error"] == []


@pytest.mark.parametrize("name", ["binder.pdf", "cards.pdf", "desk.pdf", "test_sheet.pdf"])
def test_each_tag_is_tied_to_what_it_marks_on_its_page(printing: Printing, name: str) -> None:
    with pikepdf.open(io.BytesIO(printing.files[name])) as pdf:
        nums = pdf.Root.StructTreeRoot.ParentTree.Nums
        numbers = [int(nums[at]) for at in range(0, len(nums), 2)]
        owners = {int(nums[at]): nums[at + 1] for at in range(0, len(nums), 2)}
        assert numbers == sorted(set(numbers))
        for page in pdf.pages:
            of_page = owners[int(page.StructParents)]
            assert {one.Pg.objgen for one in of_page} == {page.obj.objgen}
            for annotation in page.get("/Annots", ()):
                assert pikepdf.Name.Link == owners[int(annotation.StructParent)].S


def test_a_font_is_kept_once(printing: Printing) -> None:
    for name in ("binder.pdf", "cards.pdf", "desk.pdf"):
        with pikepdf.open(io.BytesIO(printing.files[name])) as pdf:
            fonts = [
                item.FontFile2.objgen
                for item in pdf.objects
                if isinstance(item, pikepdf.Dictionary) and item.get("/Type") == "/FontDescriptor"
            ]
        assert len(fonts) > len(set(fonts)) == 2
