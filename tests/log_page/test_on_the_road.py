"""In a browser: a card is scanned, readings are judged and kept without signal, handed over and imported."""

import re
import shutil
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from binder.printing.build import BuildOptions, build
from tests.log_page.conftest import Phone, WebSpace
from tests.log_page.sites import imported
from tests.printed.folders import ON


def judged_and_kept(phone: Phone, space: WebSpace) -> None:
    """Read some tires by the scanned card, and keep them."""
    page = phone.page
    phone.opens(space.scanned("3"))
    assert page.locator("h1").inner_text() == "3 Tires"
    assert page.locator("#code").inner_text() == f"Code {space.code('3')}: in force"
    assert page.locator("#warning").inner_text() == ""

    page.get_by_label("Cold", exact=True).check()
    phone.reads(steer_left="84", steer_right="101.5", drive_left_outer="95", drive_right_outer="112")
    assert phone.verdict("Steer left") == "FLAT Add no air. Stand clear. Call tire service."
    assert phone.verdict("Steer right") == "ADD 3.5 psi, to 105. Read again after 1 h."
    assert phone.verdict("Drive left outer") == "GO Leave it."
    assert phone.verdict("Drive right outer") == "OVER Let down to 95 cold, never warm."
    page.get_by_text("More, who, when").click()
    page.get_by_label("Air temperature").fill("-4")
    page.get_by_label("Elevation").fill("6,240")
    page.get_by_label("Who").fill("Ann")
    grave = ["FLAT: coach steer left.", "OVER: coach drive right outer.", "ADD: coach steer right."]
    assert phone.keeps().splitlines() == ["Kept: 4 entries.", *grave]


def printed(rig: Path, like: Path, out: Path) -> str:
    """What a binder says that is built with the log of a rig, for the trip of another."""
    shutil.copytree(like / "trips", rig / "trips")
    build(rig, BuildOptions(ON, out=out))
    with pdfium.PdfDocument(out / "binder.pdf") as pdf:
        pages = [page.get_textpage().get_text_range() for page in pdf]
    return " ".join(" ".join(pages).split())


def filled(phone: Phone, space: WebSpace, amount: str, full: str) -> str:
    """Enter a fill by the day sheet; give what the page says."""
    page = phone.page
    page.goto(space.scanned("5.1"))
    page.get_by_label("diesel", exact=True).check()
    page.get_by_label("How much went in").fill(amount)
    page.get_by_label(full).check()
    page.get_by_label("Odometer", exact=True).fill("34,510")
    return phone.keeps()


def test_a_reading_is_judged_kept_without_signal_handed_over_and_imported(
    phone: Phone, space: WebSpace, tmp_path: Path
) -> None:
    judged_and_kept(phone, space)
    phone.page.context.set_offline(True)
    said = filled(phone, space, "62.1", "To the top")
    assert said == "Kept: coach, diesel, 62.1 gal, full, odometer 34510 mi."
    phone.page.reload()
    phone.page.get_by_text("5 entries on this phone, 5 not handed over yet.").wait_for()

    file = phone.hands_over(tmp_path)
    entries = imported(space.rig, file, tmp_path)
    phone.page.get_by_text("5 entries on this phone, none not handed over yet.").wait_for()
    assert file.name.startswith("larkspur-log-2")
    shared = {"state": "cold", "by": "gauge", "ambient": "-4 degF", "elevation": "6240 ft"}
    tire = {"position": "steer left", "vehicle": "coach", "pressure": "84 psi"} | shared
    fill = {
        "tank": "diesel",
        "amount": "62.1 gal",
        "full": "true",
        "vehicle": "coach",
        "odometer": "34510 mi",
    }
    assert [one.kind for one in entries] == ["tire"] * 4 + ["fill"]
    assert (entries[0].written, entries[-1].written) == (tire, fill)
    marks = {(one.who, one.card, one.code) for one in entries}
    assert marks == {("Ann", card, space.code(card)) for card in ("3", "5.1")}
    assert {one.at.isoformat()[-6:] for one in entries} <= {"-07:00", "-06:00"}
    assert not any(one.is_clock_unsure for one in entries)

    # Handed over again, with one more, only that one is new.
    filled(phone, space, "10", "Not full")
    assert len(imported(space.rig, phone.hands_over(tmp_path), tmp_path)) == 6

    text = printed(tmp_path / "rig", space.rig, tmp_path / "printing")
    assert re.search(r"coach, steer left 84 psi cold, gauge", text)
    assert re.search(r"coach, odometer .* 34,510 mi", text)


def test_hot_tires_are_let_out_nothing_and_mates_too_far_apart_are_told(
    phone: Phone, space: WebSpace
) -> None:
    phone.opens(space.scanned("3"))
    phone.reads(steer_left="118", steer_right="104", drive_left_outer="91")
    assert phone.verdict("Steer left") == "? Say first: cold, or just driven."
    phone.page.get_by_label("Just driven").check()

    assert phone.verdict("Steer left") == "GO Hot: let out nothing."
    assert phone.verdict("Steer right") == "ADD Low even hot. Rest it 3 h, read cold, add to 105."
    assert phone.verdict("Drive left outer") == "FLAT Add no air. Stand clear. Call tire service."
    apart = (
        "Steer right is 14 psi under steer left, more than 10: one leaks, or a brake drags. Find out which."
    )
    said = phone.page.locator("output.apart").inner_text()
    assert said.replace("\u00a0", " ") == f"APART {apart}"


def test_a_stale_card_says_so_and_what_changed(phone: Phone, space: WebSpace) -> None:
    (card,) = (one for one in space.known["cards"] if one["id"] == "3")
    replaced = next(code for code, one in card["was"].items() if "until" in one)
    in_hand = next(code for code, one in card["was"].items() if "of" in one)
    warning = phone.page.locator("#warning")

    phone.opens(f"{space.address}#3.{in_hand}")
    text = warning.inner_text()
    assert text.startswith("This card is out of date.")
    assert (
        f"In force is {card['code']}. Destroy this card, print it anew. It was printed on 2026-06-01." in text
    )
    assert "Coach, steer: set point: 104 psi now 105 psi" in text
    phone.page.goto(f"{space.address}#3.{replaced}")
    warning.get_by_text("It was replaced on 2026-06-01. ").or_(
        warning.get_by_text("is not recorded here")
    ).first.wait_for()
    phone.page.goto(f"{space.address}#3.abcde")
    warning.get_by_text("Code abcde is not known here.").wait_for()
    assert f"In force is {card['code']}." in warning.inner_text()
    phone.page.goto(f"{space.address}#77.abcde")
    warning.get_by_text("There is no card 77 of Larkspur here.").wait_for()
    phone.page.goto(f"{space.address}#<img src=x>")
    warning.get_by_text("This address names no card.").wait_for()
    phone.page.goto(space.scanned("3"))
    phone.page.get_by_text("in force").wait_for()
    assert warning.inner_text() == ""


@pytest.mark.parametrize(
    ("typed", "wrong"),
    [
        ("1040", "1040 can hardly be right. It is between 0 and 300 psi."),
        ("-5", "-5 can hardly be right. It is between 0 and 300 psi."),
        ("abc", "\u201cabc\u201d is no number. Type digits only."),
        ("10 4 5.5.5", "\u201c10 4 5.5.5\u201d is no number. Type digits only."),
        ("1e2", "\u201c1e2\u201d is no number. Type digits only."),
        ("\u0661\u0660\u0664", "\u201c\u0661\u0660\u0664\u201d is no number. Type digits only."),
    ],
)
def test_a_wrong_value_is_told_beside_its_field_and_nothing_is_kept(
    phone: Phone, space: WebSpace, typed: str, wrong: str
) -> None:
    phone.opens(space.scanned("3"))
    page = phone.page
    page.get_by_label("Cold", exact=True).check()
    phone.reads(steer_left="104", steer_right=typed[:9])
    said = phone.keeps()

    field = page.get_by_label("Steer right", exact=True)
    told = page.locator(f"#{field.get_attribute('aria-describedby')}").inner_text()
    assert told == wrong.replace(typed, typed[:9])
    assert field.get_attribute("aria-invalid") == "true"
    assert field.evaluate("node => node === document.activeElement")
    assert said == "Nothing is kept yet: one field is to be put right."
    assert page.locator("#hand-over").is_hidden()
    field.fill("105")
    assert phone.keeps().startswith("Kept: 2 entries.")


def test_what_is_missing_is_told_and_what_is_odd_is_asked(phone: Phone, space: WebSpace) -> None:
    phone.opens(space.scanned("5.1"))
    page = phone.page
    assert phone.keeps() == "Nothing is kept yet: 3 fields are to be put right."
    assert "Say which: diesel or" in page.locator("#form").inner_text()
    assert "This is needed." in page.locator("#form").inner_text()

    page.get_by_label("diesel", exact=True).check()
    page.get_by_label("How much went in").fill("621")
    page.get_by_label("Odometer").fill("3451")
    page.get_by_label("Odometer").blur()
    assert "More than the tank holds, 100. Is it right?" in page.locator("#form").inner_text()
    assert "Less than it read before, 34150. Is it right?" in page.locator("#form").inner_text()
