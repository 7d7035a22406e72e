"""In a browser: what a scale says is typed, judged by the ratings, kept, and taken home as a scale ticket."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Locator

from binder.cli import main
from binder.log.in_force import in_force
from binder.models.load import load_rig
from binder.models.log_entries import Entry
from binder.models.rig import Rig
from tests.demos import PROFILES
from tests.log_page.conftest import Phone, WebSpace, weigh
from tests.log_page.sites import imported, site, told, written
from tests.printed.folders import changed, copied


@pytest.fixture
def scale(phone: Phone, space: WebSpace) -> Phone:
    """A phone that was taken to a scale, with the windshield slip scanned."""
    phone.opens(space.scanned("12"))
    phone.page.get_by_role("button", name="Weighing", exact=True).click()
    return phone


def wrong(group: Locator, label: str) -> str:
    """What is told to be wrong with a field."""
    field = group.get_by_label(label, exact=True)
    said = group.page.locator(f"#{field.get_attribute('aria-describedby')}").inner_text()
    assert bool(said) == (field.get_attribute("aria-invalid") == "true")
    return said.replace("\u00a0", " ")


def heavy(group: Locator) -> str:
    return group.locator("output.verdict").inner_text().replace("\u00a0", " ")


def taken_home(phone: Phone, rig: Path, to: Path) -> tuple[Entry, str]:
    """Import what a phone hands over; give the weighing that counts, and the ticket that is offered of it."""
    (entry,) = in_force(imported(rig, phone.hands_over(to), to))
    run = CliRunner().invoke(main, ["log", "ticket", str(to / "rig"), entry.id])
    assert run.exit_code == 0, run.output
    return entry, run.output


def pasted(rig: Path, ticket: str, to: Path) -> Rig:
    """Paste a ticket where it belongs; ``check`` has nothing against it."""
    folder = shutil.copytree(rig, to / "pasted")
    changed(folder, ("scale_tickets:\n", f"scale_tickets:\n{ticket}"))
    run = CliRunner().invoke(main, ["check", str(folder)])
    assert "error" not in run.output
    assert run.exit_code != 2, run.output
    return load_rig(folder)


def weighed_at_wheel_ends(phone: Phone) -> None:
    """Type all that can be said of the coach, each wheel end on its own pad."""
    page = phone.page
    page.get_by_label("Wheel ends").check()
    weigh(phone, "Coach, steer", Left="5480", Right="5,240", Axle="10720")
    weigh(phone, "Coach, drive", Left="8420", Right="8060")
    weigh(phone, "Coach, total", Total="27200")
    page.get_by_label("Smallest step of the scale").fill("20")
    for tank, level in (("Diesel", "3/4"), ("Black", "empty")):
        page.get_by_label(tank, exact=True).select_option(level)
    for tank, level in (("Exhaust fluid", "2/3"), ("Fresh", "25gal"), ("Gray", "10 %")):
        page.get_by_label(tank, exact=True).select_option(label="Something else")
        page.get_by_label(f"{tank}: like").fill(level)
    page.get_by_label("Apart").check()
    page.get_by_role("group", name="Slides").get_by_label("In", exact=True).check()
    page.get_by_role("group", name="At ride height").get_by_label("Yes").check()
    page.get_by_label("Something", exact=True).check()
    for number, what, weight in (("1", "two people", "360"), ("2", "Rex: the dog", "")):
        group = page.get_by_role("group", name=f"Aboard, {number}")
        group.get_by_label("Who or what").fill(what)
        group.get_by_label("Its weight").fill(weight)
        group.get_by_label("Its weight").blur()
        group.get_by_label("In which").select_option("coach")


def test_what_was_typed_at_the_scale_is_a_ticket_that_check_reads(
    scale: Phone, space: WebSpace, tmp_path: Path
) -> None:
    weighed_at_wheel_ends(scale)
    said = scale.keeps()
    assert said.startswith("Kept: coach steer left 5480 lb, right 5240 lb, axle 10720 lb, drive left 8420 lb")
    assert "aboard: two people, 360 lb, in coach, aboard: Rex: the dog, in coach" in said
    assert "diesel 3/4" in said
    assert "apart, slides in, at ride height" in said
    assert "TOO HEAVY" not in said
    entry, ticket = taken_home(scale, space.rig, tmp_path)

    assert (entry.kind, entry.card, entry.code) == ("weight", "12", space.code("12"))
    day = entry.at.date()
    assert ticket.splitlines() == [
        *ticket.splitlines()[:1],
        f"  - on: {day.isoformat()}",
        "    division: 20 lb",
        "    weights:",
        "      coach:",
        "        steer: {left: 5480 lb, right: 5240 lb, axle: 10720 lb}",
        "        drive: {left: 8420 lb, right: 8060 lb}",
        "        total: 27200 lb",
        "    aboard:",
        "      - {what: two people, weight: 360 lb, in: coach}",
        '      - {what: "Rex: the dog", in: coach}',
        "    levels:",
        "      coach: {diesel: 3/4, exhaust fluid: 2/3, fresh: 25 gal, gray: 10 %, black: empty}",
        "    state: {coupled: false, slides: in, ride_height: true}",
    ]
    mine, first, *_ = pasted(space.rig, ticket, tmp_path).scale_tickets
    assert mine.on == day
    assert mine.weights["coach"].axles["steer"] == first.weights["coach"].axles["steer"]
    assert mine.state == first.state


def test_what_was_left_blank_is_not_in_the_ticket_and_nothing_aboard_is_said(
    scale: Phone, space: WebSpace, tmp_path: Path
) -> None:
    weigh(scale, "Car, rear", Axle="1830")
    scale.page.get_by_label("Nothing", exact=True).check()
    assert scale.keeps() == "Kept: car rear 1830 lb, aboard: nothing."
    entry, ticket = taken_home(scale, space.rig, tmp_path)

    assert entry.written == {"weights": {"car": {"rear": {"axle": "1830 lb"}}}, "aboard": []}
    (mine, *_) = pasted(space.rig, ticket, tmp_path).scale_tickets
    assert "    aboard: []" in ticket.splitlines()
    assert mine.aboard == []
    assert set(mine.weights["car"].axles) == {"rear"}
    assert (mine.weights["car"].total, mine.division, mine.levels) == (None, None, {})


def test_a_total_alone_is_enough_and_no_weight_at_all_is_not(scale: Phone) -> None:
    scale.page.get_by_label("Coupled").check()
    assert scale.keeps() == "Nothing is kept yet: type at least one reading."

    weigh(scale, "Coach, total", Total="27200")
    assert scale.keeps() == "Kept: coach total 27200 lb, coupled."


def test_what_is_over_its_rating_is_told_at_once_and_when_it_is_kept(scale: Phone) -> None:
    steer = weigh(scale, "Coach, steer", Axle="12000")
    assert "rating 12,000\u00a0lb" in steer.inner_text()
    assert heavy(steer) == ""
    weigh(scale, "Coach, steer", Axle="12020")
    off = "take weight off, carry less water, or move it to another axle."
    assert heavy(steer) == f"TOO HEAVY 20 lb over its rating. Do not drive on: {off}"

    # The axles alone make more than the coach may weigh, and no axle hides it by being under its rating.
    drive = weigh(scale, "Coach, drive", Axle="18500")
    total = scale.page.get_by_role("group", name="Coach, total")
    assert heavy(drive) == ""
    assert (
        heavy(total)
        == "TOO HEAVY 20 lb over its rating. Do not drive on: take weight off, or carry less water."
    )
    assert "Its axles: 30,520\u00a0lb" in total.inner_text()
    assert scale.keeps().splitlines()[1:] == ["TOO HEAVY: coach, steer.", "TOO HEAVY: coach, total."]


def test_ends_are_added_and_count_only_while_they_are_shown(scale: Phone) -> None:
    page = scale.page
    page.get_by_label("Wheel ends").check()
    steer = weigh(scale, "Coach, steer", Left="12040")
    assert heavy(steer).startswith("TOO HEAVY 40 lb")
    weigh(scale, "Coach, steer", Left="5480", Right="5240")
    assert "Left and right: 10,720\u00a0lb" in steer.inner_text()
    weigh(scale, "Coach, steer", Right="x")
    page.get_by_label("Axles", exact=True).check()
    assert "Left" not in steer.inner_text()
    weigh(scale, "Coach, steer", Axle="10700")

    assert scale.keeps() == "Kept: coach steer 10700 lb."


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("heavy", "\u201cheavy\u201d is no number. Type digits only."),
        ("4870 kg", "Type digits only, in lb."),
        ("104 psi", "Type digits only, in lb."),
        ("-10", "-10 can hardly be right. It is between 0 and 200000 lb."),
        ("1072000", "1072000 can hardly be right. It is between 0 and 200000 lb."),
    ],
)
def test_a_wrong_weight_is_told_beside_its_field_and_nothing_is_kept(
    scale: Phone, typed: str, said: str
) -> None:
    steer = weigh(scale, "Coach, steer", Axle=typed)
    assert scale.keeps() == "Nothing is kept yet: one field is to be put right."

    assert wrong(steer, "Axle") == said
    assert heavy(steer) == ""
    assert scale.page.locator("#hand-over").is_hidden()


def test_weights_that_cannot_be_of_one_weighing_are_told_while_the_scale_is_there(scale: Phone) -> None:
    page = scale.page
    page.get_by_label("Wheel ends").check()
    steer = weigh(scale, "Coach, steer", Left="5480", Right="5240", Axle="10740")
    assert wrong(steer, "Axle") == ""
    page.get_by_label("Smallest step of the scale").fill("10")
    page.get_by_label("Smallest step of the scale").blur()
    assert wrong(steer, "Axle") == "Left and right make 10,720 lb. Weigh again, or leave one out."
    weigh(scale, "Coach, steer", Axle="1072")
    assert wrong(steer, "Axle") == "One end alone weighs more. Weigh again, or leave one out."
    weigh(scale, "Coach, steer", Axle="")
    weigh(scale, "Coach, drive", Axle="16480")
    total = weigh(scale, "Coach, total", Total="27210")
    assert wrong(total, "Total") == ""
    weigh(scale, "Coach, total", Total="27220")
    assert wrong(total, "Total") == "The axles make 27,200 lb. Weigh again, or leave one out."

    assert scale.keeps() == "Nothing is kept yet: one field is to be put right."
    weigh(scale, "Coach, total", Total="")
    assert scale.keeps().startswith("Kept: coach")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("30", "Type it like 2/3, 60 % or 30 gal."),
        ("4/3", "Type it like 2/3, 60 % or 30 gal."),
        ("2/0", "Type it like 2/3, 60 % or 30 gal."),
        ("110 %", "Type it like 2/3, 60 % or 30 gal."),
        ("-5 gal", "Type it like 2/3, 60 % or 30 gal."),
        ("90 L", "Type it like 2/3, 60 % or 30 gal."),
        ("91 gal", "More than the tank holds, 90 gal."),
    ],
)
def test_a_level_that_no_profile_may_say_is_told(scale: Phone, typed: str, said: str) -> None:
    weigh(scale, "Coach, steer", Axle="10720")
    scale.page.get_by_label("Fresh", exact=True).select_option(label="Something else")
    scale.page.get_by_label("Fresh: like").fill(typed)

    assert scale.keeps() == "Nothing is kept yet: one field is to be put right."
    assert wrong(scale.page.locator("#form"), "Fresh: like 2/3, 60 % or 30 gal") == said


def test_somebody_aboard_has_a_name_and_a_vehicle(scale: Phone) -> None:
    weigh(scale, "Coach, steer", Axle="10720")
    scale.page.get_by_label("Something", exact=True).check()
    assert scale.keeps() == "Nothing is kept yet: one field is to be put right."
    scale.page.get_by_label("Its weight").first.fill("360")
    assert scale.keeps() == "Nothing is kept yet: 2 fields are to be put right."
    scale.page.get_by_label("Who or what").first.fill("two people")
    scale.page.get_by_label("In which").first.select_option("coach")

    assert scale.keeps().endswith("aboard: two people, 360 lb, in coach.")


def test_a_weighing_is_corrected_with_all_that_it_said_and_withdrawn(
    scale: Phone, space: WebSpace, tmp_path: Path
) -> None:
    weighed_at_wheel_ends(scale)
    scale.keeps()
    scale.page.locator("#entries summary").click()
    scale.page.get_by_role("button", name="Correct").click()
    assert scale.page.locator("#form h2").inner_text() == "Correct: weighing"
    weigh(scale, "Coach, drive", Right="8080")
    scale.keeps()
    first, second = imported(space.rig, scale.hands_over(tmp_path), tmp_path)
    drive = {"left": "8420 lb", "right": "8080 lb"}
    weights = first.written["weights"]
    assert isinstance(weights, dict)
    assert isinstance(weights["coach"], dict)
    assert second.written == {**first.written, "weights": {"coach": {**weights["coach"], "drive": drive}}}
    assert (second.corrects, second.at) == (first.id, first.at)

    scale.page.locator("#entries summary").click()
    scale.page.get_by_role("button", name="Withdraw").click()
    assert scale.keeps() == "Withdrawn."
    assert scale.page.locator("#entries li").count() == 0
    assert in_force(imported(space.rig, scale.hands_over(tmp_path), tmp_path)) == []


def test_what_was_typed_at_the_scale_outlives_the_page(scale: Phone) -> None:
    weighed_at_wheel_ends(scale)
    scale.page.wait_for_timeout(1000)
    scale.page.reload()
    scale.page.get_by_role("button", name="Weighing", exact=True).click()
    assert (
        "Left and right: 10,720\u00a0lb" in scale.page.get_by_role("group", name="Coach, steer").inner_text()
    )

    assert "aboard: Rex: the dog, in coach" in scale.keeps()


def test_a_metric_rig_is_weighed_in_kilograms_and_asked_only_what_it_has(
    phones: Callable[..., Phone], space: WebSpace, tmp_path: Path
) -> None:
    written(site(PROFILES / "tamarack"), space.folder)
    phone = phones()
    phone.opens(space.address)
    phone.page.get_by_role("button", name="Weighing", exact=True).click()
    assert phone.page.get_by_role("group", name="At ride height").count() == 0
    first = weigh(phone, "Trailer, first", Axle="3070")
    assert heavy(first).startswith("TOO HEAVY 10 kg over its rating.")
    weigh(phone, "Trailer, first", Axle="2530")
    phone.page.get_by_label("Fresh", exact=True).select_option(label="Something else")
    phone.page.get_by_label("Fresh: like").fill("150 L")
    phone.keeps()
    entry, ticket = taken_home(phone, PROFILES / "tamarack", tmp_path)

    assert entry.written["levels"] == {"trailer": {"fresh": "150 L"}}
    mine, _, known = pasted(PROFILES / "tamarack", ticket, tmp_path).scale_tickets
    assert mine.weights["trailer"].axles["first"].axle == known.weights["trailer"].axles["first"].axle


def test_one_vehicle_is_not_asked_whether_it_was_coupled_nor_which_it_is(
    phones: Callable[..., Phone], space: WebSpace
) -> None:
    written(site(PROFILES / "kestrel"), space.folder)
    phone = phones()
    phone.opens(space.address)
    phone.page.get_by_role("button", name="Weighing", exact=True).click()
    weigh(phone, "Steer", Axle="3900")
    phone.page.get_by_label("Something", exact=True).check()
    phone.page.get_by_label("Who or what").first.fill("two people")
    asked = phone.page.locator("#form").inner_text()
    assert "Coupled" not in asked
    assert "In which" not in asked

    assert phone.keeps() == "Kept: coach steer 3900 lb, aboard: two people, in coach."


def test_a_rating_that_is_not_known_is_said_and_judges_nothing(
    phones: Callable[..., Phone], space: WebSpace, tmp_path: Path
) -> None:
    folder = copied(tmp_path)
    text = (folder / "rig.yaml").read_text("utf-8")
    assert text.count("rating: 12000 lb") == 1
    changed(folder, ("rating: 12000 lb", "rating:"))
    written(site(folder), space.folder)
    phone = phones()
    phone.opens(space.address)
    phone.page.get_by_role("button", name="Weighing", exact=True).click()
    steer = weigh(phone, "Coach, steer", Axle="30000")

    assert "rating not known" in steer.inner_text()
    assert heavy(steer) == ""


@pytest.mark.parametrize("rig", ["kestrel", "larkspur", "sandpiper", "tamarack"])
def test_all_that_stands_on_a_scale_is_asked_for_with_its_rating(rig: str) -> None:
    loaded = load_rig(PROFILES / rig)
    vehicles = {one["vehicle"]: one for one in told(site(PROFILES / rig))["weighing"]["vehicles"]}

    assert list(vehicles) == list(loaded.vehicles)
    for name, vehicle in loaded.vehicles.items():
        ratings = [axle.rating.magnitude for axle in vehicle.axles.values() if axle.rating]
        assert [one["axle"] for one in vehicles[name]["axles"]] == list(vehicle.axles)
        assert [one["rating"] for one in vehicles[name]["axles"]] == ratings
        assert [one["tank"] for one in vehicles[name]["tanks"]] == list(vehicle.tanks)
