"""Why a part differs: the entry that was changed, the day, or nothing that any part shows."""

from datetime import date
from pathlib import Path

import pytest

from binder.cards.blocks import Form
from binder.printed.differences import codes_by_day, void_since
from binder.printed.words import exchange_slip, told
from binder.printing.build import BuildOptions, read_and_assess
from tests.printed.folders import ON, changed, found, larkspur

__all__ = ["larkspur"]


def test_each_part_names_the_entry_that_moves_it_and_no_other(larkspur: Path) -> None:
    changed(
        larkspur,
        ("front_overhang: 88 in", "front_overhang: 90 in"),
        ("    nut_torque: 475 ft*lb", "    nut_torque: 450 ft*lb"),
    )
    because = {one.title: {cause.path[-1] for cause in one.because} for one in found(larkspur).every}

    assert because["7 Towing this rig"] == {"front_overhang"}
    assert because["8 Tire failure"] == {"nut_torque"}


def test_an_entry_that_no_part_shows_is_told_with_its_line(larkspur: Path) -> None:
    changed(larkspur, ("raised: 12 ft 8 in ", "raised: 12 ft 6 in "))
    whole = found(larkspur)
    lines = list(told(whole, {}))

    assert whole.every == ()
    assert len(whole.idle) == 1
    text = (larkspur / "rig.yaml").read_text("utf-8").splitlines()
    assert "raised: 12 ft 6 in" in text[(whole.idle[0].line or 0) - 1]
    assert lines[-1].endswith("vehicles.coach.size.height_measured.raised")


def test_a_change_that_only_makes_paper_safer_leaves_it_in_use(larkspur: Path) -> None:
    changed(larkspur, ("raised: 12 ft 8 in", "raised: 12 ft 6 in"))
    changed(larkspur, ("overall_height: 12 ft 8 in", "overall_height: 12 ft 6 in"))
    slip = next(one for one in found(larkspur).every if one.title == "12 Windshield slip")
    changed(larkspur, ("overall_height: 12 ft 6 in", "overall_height: 12 ft 9 in"))
    higher = next(one for one in found(larkspur).every if one.title == "12 Windshield slip")

    assert (slip.is_void, higher.is_void) == (False, True)


def test_a_page_that_only_aged_is_not_printed_again(larkspur: Path) -> None:
    whole = found(larkspur, on=date(2026, 6, 20))
    aged = [one.title for one in whole.every if one.is_aged]

    assert "Tire register" in aged
    assert not set(aged) & {one.title for one in whole.due}
    assert all(one.by_date and not one.because for one in whole.every)


def test_a_part_that_a_day_makes_void_tells_the_day(larkspur: Path) -> None:
    on = date(2033, 1, 1)
    assessment = read_and_assess(larkspur, BuildOptions(on))
    cover = next(one for one in found(larkspur, on=on).every if one.title == "Cover")
    since = void_since(cover, on, codes_by_day(assessment, "everything"))

    assert since is not None
    before = found(larkspur, on=date.fromordinal(since.toordinal() - 1))
    assert "Cover" not in {one.title for one in before.every}
    assert "Cover" in {one.title for one in found(larkspur, on=since).every}


@pytest.mark.parametrize("name", ["everything", "codriver"])
def test_the_slip_destroys_and_inserts_what_differs(larkspur: Path, name: str) -> None:
    changed(larkspur, ("overall_height: 12 ft 8 in", "overall_height: 12 ft 9 in"))
    whole = found(larkspur, name)
    slip = next(one for one in exchange_slip(whole).blocks if isinstance(one, Form))

    assert [(row[0], row[1], row[3]) for row in slip.rows] == [
        (one.title, one.was.code if one.was else "\u2013", one.now or "\u2013") for one in whole.due
    ]
    assert slip.rows


def test_entries_of_a_date_are_not_blamed_on_the_same_day(larkspur: Path) -> None:
    changed(larkspur, ("overall_height: 12 ft 8 in", "overall_height: 12 ft 9 in"))

    assert not any(one.by_date for one in found(larkspur, on=ON).every)
