"""In a browser: a card is scanned, readings are judged and kept without signal, handed over and imported."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Route

from binder.cli import main
from binder.log.entries import KINDS, Entry
from binder.log.in_force import in_force
from binder.log.store import entries_in
from tests.log_page.conftest import Phone, WebSpace
from tests.log_page.sites import site, written
from tests.printed.folders import changed, copied


def imported(rig: Path, file: Path, to: Path) -> list[Entry]:
    """What the log of a rig holds after an import of a file, which ends well."""
    folder = to / "rig"
    folder.mkdir(exist_ok=True)
    (folder / "rig.yaml").write_bytes((rig / "rig.yaml").read_bytes())
    run = CliRunner().invoke(main, ["log", "import", str(folder), str(file)])
    assert run.exit_code == 0, run.output
    return entries_in(folder)


def test_a_reading_is_judged_kept_without_signal_handed_over_and_imported(
    phone: Phone, space: WebSpace, tmp_path: Path
) -> None:
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
    said = phone.keeps()
    assert said == (
        "Kept: 4 entries. FLAT: coach steer left. ADD: coach steer right. OVER: coach drive right outer."
    )

    page.context.set_offline(True)
    page.goto(space.scanned("5.1"))
    page.get_by_label("diesel", exact=True).check()
    page.get_by_label("How much went in").fill("62.1")
    page.get_by_label("To the top").check()
    page.get_by_label("Odometer").fill("34,510")
    assert phone.keeps() == "Kept: coach, diesel, 62.1 gal, full, odometer 34510 mi."
    page.reload()
    assert "5 entries on this phone, 5 not handed over yet." in page.locator("#waiting").inner_text()

    file = phone.hands_over(tmp_path)
    entries = imported(space.rig, file, tmp_path)
    page.get_by_text("5 entries on this phone, none not handed over yet.").wait_for()
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
    assert entries[0].written == tire
    assert entries[-1].written == fill
    assert {(one.who, one.card, one.code) for one in entries} == {
        ("Ann", card, space.code(card)) for card in ("3", "5.1")
    }
    assert {one.at.isoformat()[-6:] for one in entries} <= {"-07:00", "-06:00"}
    assert not any(one.is_clock_unsure for one in entries)

    # Handed over again, with one more, only that one is new.
    page.get_by_label("diesel", exact=True).check()
    page.get_by_label("How much went in").fill("10")
    page.get_by_label("Not full").check()
    phone.keeps()
    assert len(imported(space.rig, phone.hands_over(tmp_path), tmp_path)) == 6


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
    assert phone.page.locator("output.apart").inner_text() == f"APART {apart}"


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


def _note(phone: Phone) -> None:
    phone.page.get_by_label("Note", exact=True).fill("<script>alert(1)</script>\u202e\u0007 \U0001f4a7")


KEPT: dict[str, tuple[Callable[[Phone], None], dict[str, str]]] = {
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
    # Pressures and fills are tested above, withdrawals below; a weighing is typed at home, from its ticket.
    assert set(entries) | {"fill", "withdrawal", "weight"} == set(KINDS)
    assert phone.page.locator("script").count() == len(list(space.folder.glob("*.js"))) - 1


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


def test_a_newer_edition_takes_over_where_nothing_typed_is_lost(
    phone: Phone, space: WebSpace, tmp_path: Path
) -> None:
    phone.opens(space.scanned("3"))
    newer = copied(tmp_path)
    changed(newer, ("margin: 5 psi  ", "margin: 8 psi  "))
    written(site(newer), space.folder)
    fresh = space.scanned("3")

    phone.page.goto(f"{space.address}?{fresh.partition('#')[0][-1]}#{fresh.partition('#')[2]}")
    phone.page.get_by_text(f"Code {space.code('3')}: in force").wait_for()


def test_the_page_asks_for_nothing_but_itself(phone: Phone, space: WebSpace) -> None:
    hosts: list[str] = []
    phone.page.context.on("request", lambda one: hosts.append(one.url))
    phone.opens(space.scanned("3"))
    first = {name.removeprefix('"GET ') for name in space.asked}
    own = {"/larkspur/", *(f"/larkspur/{file.name}" for file in space.folder.iterdir())}
    assert first <= own
    assert all(url.startswith((space.address, "blob:")) for url in hosts)

    space.asked.clear()
    phone.page.get_by_label("Cold", exact=True).check()
    phone.reads(steer_left="104")
    phone.keeps()
    phone.page.goto(space.scanned("6"))
    phone.page.reload()
    phone.page.locator("#entries").wait_for(state="attached")
    assert set(space.asked) <= {"/larkspur/worker.js"}


def test_scripts_that_are_not_the_page_s_own_are_refused(
    phones: Callable[..., Phone], space: WebSpace
) -> None:
    phone = phones()
    page = phone.page

    def with_a_script(route: Route) -> None:
        body = (
            (space.folder / "index.html")
            .read_text("utf-8")
            .replace("</body>", "<script>window.x = 1</script></body>")
        )
        route.fulfill(body=body, content_type="text/html")

    page.route("**/larkspur/", with_a_script)
    page.goto(space.address)
    page.locator("h1").wait_for()

    policy = page.locator("meta[http-equiv]").get_attribute("content") or ""
    assert policy.startswith("default-src 'none';")
    assert "unsafe" not in policy
    assert "*" not in policy
    assert page.evaluate("window.x") is None
    assert "Content Security Policy" in phone.console.pop()


def test_the_page_opens_from_a_file(phone: Phone, space: WebSpace, tmp_path: Path) -> None:
    page = phone.page
    page.goto(f"{(space.folder / 'index.html').as_uri()}#3.{space.code('3')}")
    page.get_by_text("Opened from a file").wait_for()
    page.get_by_label("Cold", exact=True).check()
    phone.reads(steer_left="104")
    phone.keeps()
    page.reload()

    assert page.locator("#entries li").count() == 1
    assert len(imported(space.rig, phone.hands_over(tmp_path), tmp_path)) == 1


def test_what_people_wrote_is_shown_as_text(
    phones: Callable[..., Phone], tmp_path: Path, space: WebSpace
) -> None:
    name = "<img src=x onerror=alert(1)></script><script>window.x=1</script>"
    rig = copied(tmp_path)
    changed(rig, ("name: Larkspur", f"name: '{name}'"))
    written(site(rig), space.folder)
    phone = phones()
    phone.opens(f"{space.address}#6")
    phone.page.get_by_label("What is wrong").fill(name)
    phone.keeps()

    assert phone.page.evaluate("window.x") is None
    assert phone.page.locator("img").count() == 0
    assert name in phone.page.locator("#rig").inner_text()
    assert name in phone.page.locator("#entries").inner_text()
    assert phone.hands_over(tmp_path).name.startswith("img-src-x")


def test_where_a_browser_keeps_nothing_the_page_says_so(
    phones: Callable[..., Phone], space: WebSpace
) -> None:
    phone = phones()
    phone.page.add_init_script("Object.defineProperty(window, 'indexedDB', { value: undefined });")
    phone.opens(space.scanned("6"))
    phone.page.get_by_text("This browser keeps nothing: hand over before you close it.").wait_for()
    phone.page.get_by_label("What is wrong").fill("no crank")

    assert phone.keeps() == "Kept: no crank."


def test_ids_are_of_version_7_and_sort_as_they_were_made(phone: Phone, space: WebSpace) -> None:
    phone.opens(space.address)
    ids = phone.page.evaluate("Array.from({ length: 2000 }, newId)")

    assert ids == sorted(set(ids))
    assert all(one[14] == "7" and one[19] in "89ab" for one in ids)
