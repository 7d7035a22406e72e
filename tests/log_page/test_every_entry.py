"""In a browser: every kind of entry is made, corrected, withdrawn and handed over as an import takes it."""

import json
from collections.abc import Callable, Mapping
from pathlib import Path

from click.testing import CliRunner
from playwright.sync_api import expect

from binder.cli import main
from binder.log.in_force import in_force
from binder.log.store import entries_in
from binder.models.log_entries import KINDS, Written
from tests.log_page.conftest import Phone, WebSpace, weigh
from tests.log_page.sites import imported, site, written
from tests.printed.folders import copied


def _fault(phone: Phone) -> None:
    phone.page.get_by_label("What is wrong").fill("lamp dark,\nleft rear")
    phone.page.get_by_label("Where").select_option(label="coach drive left inner")


def _air(phone: Phone) -> None:
    phone.page.get_by_label("Which tire").select_option(label="car rear left")
    phone.page.get_by_label("Cold", exact=True).check()
    phone.page.get_by_label("Before").fill("29,5")
    phone.page.get_by_label("After").fill("33")


def _tread(phone: Phone) -> None:
    phone.reads(steer_left="11", steer_right="")


def _meter(phone: Phone) -> None:
    for label, text in (("Odometer", "34600"), ("Engine hours", "1120.5"), ("Generator hours", "440")):
        phone.page.get_by_role("group", name="Coach").get_by_label(label).fill(text)


def _repair(phone: Phone) -> None:
    phone.page.get_by_label("Which fault").select_option(index=1)
    phone.page.get_by_label("What was done").fill("new lamp")


def _service(phone: Phone) -> None:
    phone.page.get_by_label("What was done", exact=True).select_option(label="Something else")
    phone.page.get_by_label("What was done: in words").fill("steps greased")
    phone.page.get_by_label("Vehicle").select_option(label="coach")
    phone.page.get_by_label("Odometer").fill("34600")


def _spare(phone: Phone) -> None:
    phone.page.get_by_label("Used").check()
    phone.page.get_by_label("What", exact=True).select_option(label="fuel filter")
    phone.page.get_by_label("How many").fill("1")


def _weighing(phone: Phone) -> None:
    weigh(phone, "Coach, steer", Axle="10,720")
    phone.page.get_by_label("Fresh", exact=True).select_option("3/4")
    phone.page.get_by_label("Apart").check()


def _note(phone: Phone) -> None:
    phone.page.get_by_label("Note", exact=True).fill("<script>alert(1)</script>\u202e\u0007 \U0001f4a7")


KEPT: dict[str, tuple[Callable[[Phone], None], Mapping[str, Written]]] = {
    "Air added": (
        _air,
        {
            "position": "rear left",
            "before": "29.5 psi",
            "after": "33 psi",
            "vehicle": "car",
            "state": "cold",
            "by": "gauge",
        },
    ),
    "Tread": (_tread, {"position": "steer left", "vehicle": "coach", "tread": "11/32 in"}),
    "Meters": (
        _meter,
        {"vehicle": "coach", "odometer": "34600 mi", "engine": "1120.5 h", "generator": "440 h"},
    ),
    "Fault": (
        _fault,
        {"what": "lamp dark,\nleft rear", "vehicle": "coach", "position": "drive left inner"},
    ),
    "Repair": (_repair, {"what": "new lamp"}),
    "Service": (_service, {"what": "steps greased", "vehicle": "coach", "odometer": "34600 mi"}),
    "Spare": (_spare, {"change": "used", "what": "fuel filter", "quantity": "1"}),
    "Weighing": (
        _weighing,
        {
            "weights": {"coach": {"steer": {"axle": "10720 lb"}}},
            "levels": {"coach": {"fresh": "3/4"}},
            "state": {"coupled": "false"},
        },
    ),
    "Note": (_note, {"text": "<script>alert(1)</script>\u202e  \U0001f4a7"}),
}


def test_every_kind_of_entry_can_be_made_and_is_taken_as_it_was_typed(
    phone: Phone, space: WebSpace, tmp_path: Path
) -> None:
    phone.opens(space.address)
    for form, (fill, _) in KEPT.items():
        phone.page.get_by_role("button", name=form, exact=True).click()
        fill(phone)
        assert phone.keeps().startswith("Kept"), form
    entries = {one.kind: one for one in imported(space.rig, phone.hands_over(tmp_path), tmp_path)}

    repair = entries["repair"].written
    assert repair["fault"] == entries["fault"].id
    found = [{key: value for key, value in one.written.items() if key != "fault"} for one in entries.values()]
    assert found == [said for _, said in KEPT.values()]
    # Pressures and fills are tested above, withdrawals below.
    assert set(entries) | {"fill", "withdrawal"} == set(KINDS)
    assert phone.page.locator("script").count() == len(list(space.folder.glob("*.js"))) - 1


def test_open_faults_of_the_log_stand_on_their_card_until_repaired(
    phone: Phone, space: WebSpace, tmp_path: Path
) -> None:
    rig = copied(tmp_path)
    line = "fault lamp <b>dark</b>, left rear"
    assert CliRunner().invoke(main, ["log", "add", str(rig), *line.split(), "--card", "6"]).exit_code == 0
    written(site(rig), space.folder)
    phone.opens(f"{space.address}#3")
    assert phone.page.locator("#open li").count() == 0
    phone.page.goto(f"{space.address}#6")
    (fault,) = phone.page.locator("#open li").all()
    assert "Open fault: lamp <b>dark</b>, left rear" in fault.inner_text()
    fault.get_by_role("button", name="Repaired").click()
    phone.page.get_by_label("What was done").fill("new lamp")
    phone.keeps()

    assert phone.page.locator("#open li").count() == 0
    file = phone.hands_over(tmp_path)
    assert CliRunner().invoke(main, ["log", "import", str(rig), str(file)]).exit_code == 0
    found, repair = entries_in(rig)
    assert repair.written["fault"] == found.id


def test_an_entry_is_corrected_and_withdrawn_by_later_ones(
    phone: Phone, space: WebSpace, tmp_path: Path
) -> None:
    page = phone.page
    phone.opens(space.scanned("3"))
    page.get_by_label("Cold", exact=True).check()
    phone.reads(steer_left="140", steer_right="105")
    phone.keeps()
    first = page.locator("#entries li").filter(has_text="140 psi")
    first.locator("summary").click()
    first.get_by_role("button", name="Correct").click()
    assert page.locator("input.reading").count() == 1
    assert page.get_by_label("Steer left", exact=True).input_value() == "140"
    phone.reads(steer_left="104")
    phone.keeps()
    assert page.locator("#entries").get_by_text("140 psi").count() == 0

    other = page.locator("#entries li").filter(has_text="105 psi")
    other.locator("summary").click()
    other.get_by_role("button", name="Withdraw").click()
    page.get_by_label("Why").fill("wrong tire")
    assert phone.keeps() == "Withdrawn."
    assert page.locator("#entries li").count() == 1

    entries = imported(space.rig, phone.hands_over(tmp_path), tmp_path)
    (left,) = in_force(entries)
    assert (left.written["pressure"], left.corrects, left.at) == ("104 psi", entries[0].id, entries[0].at)
    assert len(entries) == 4


def test_the_file_is_shared_where_a_phone_can_and_marked_only_when_it_was(
    phones: Callable[..., Phone], space: WebSpace, tmp_path: Path
) -> None:
    phone = phones()
    phone.page.add_init_script(
        """navigator.canShare = () => true; window.shared = []; window.refused = true;
        navigator.share = async (what) => {
          if (window.refused) throw new DOMException("", "AbortError");
          window.shared.push(await what.files[0].text());
        };"""
    )
    phone.opens(space.scanned("6"))
    phone.page.get_by_label("What is wrong").fill("no crank")
    phone.keeps()
    share = phone.page.get_by_role("button", name="Share the file")
    share.click()
    phone.page.get_by_text("Not handed over.", exact=True).wait_for()
    assert "1 not handed over yet" in phone.page.locator("#waiting").inner_text()
    phone.page.evaluate("window.refused = false")
    share.click()
    phone.page.get_by_text("Handed over. The entries stay here too.").wait_for()
    assert "handed over" in phone.page.locator("#entries li").inner_text()

    file = tmp_path / "shared.txt"
    (text,) = phone.page.evaluate("window.shared")
    file.write_text(text, encoding="utf-8")
    assert json.loads(text.splitlines()[0]) == {"format": "rig log", "version": 1, "rig": "Larkspur"}
    assert [one.written for one in imported(space.rig, file, tmp_path)] == [{"what": "no crank"}]


def test_ids_are_of_version_7_and_sort_as_they_were_made(phone: Phone, space: WebSpace) -> None:
    phone.opens(space.address)
    ids = phone.page.evaluate("Array.from({ length: 2000 }, newId)")

    assert ids == sorted(set(ids))
    assert all(one[14] == "7" and one[19] in "89ab" for one in ids)


def test_what_was_typed_and_not_kept_outlives_the_page_for_a_while(phone: Phone, space: WebSpace) -> None:
    page = phone.page
    phone.opens(space.scanned("3"))
    page.get_by_label("Cold", exact=True).check()
    phone.reads(steer_left="84", steer_right="10")
    page.wait_for_timeout(1000)
    page.reload()
    assert phone.verdict("Steer left").startswith("FLAT")
    assert page.locator("#keep").inner_text() == "Keep 2 readings"
    page.get_by_role("button", name="Clear").click()
    expect(page.get_by_label("Steer left", exact=True)).to_have_value("")

    phone.reads(steer_left="84")
    page.wait_for_timeout(1000)
    page.clock.install()
    page.clock.fast_forward("03:00:00")
    page.reload()
    page.locator("#keep").wait_for()
    expect(page.get_by_label("Steer left", exact=True)).to_have_value("")
