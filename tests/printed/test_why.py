"""Why a part differs: the entry that was changed, the day, or nothing that any part shows."""

from datetime import date
from pathlib import Path

import pytest

from binder.cards.blocks import Form
from binder.printed import FILE
from binder.printed.differences import by_day, void_since
from binder.printed.record import printed_of, text_of
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


def test_a_figure_tells_which_way_it_moved_and_its_card_is_void_either_way(larkspur: Path) -> None:
    changed(larkspur, ("raised: 12 ft 8 in", "raised: 12 ft 6 in"))
    changed(larkspur, ("overall_height: 12 ft 8 in", "overall_height: 12 ft 6 in"))
    slip = next(one for one in found(larkspur).every if one.title == "12 Windshield slip")
    changed(larkspur, ("overall_height: 12 ft 6 in", "overall_height: 12 ft 9 in"))
    higher = next(one for one in found(larkspur).every if one.title == "12 Windshield slip")

    heights = [next(one for one in card.moved if one.was == "12 ft 8 in") for card in (slip, higher)]
    assert [one.is_safe for one in heights] == [True, False]
    # A line that shows no figure may have changed with it: no card is called safe for its figures.
    assert (slip.is_void, higher.is_void) == (True, True)


def test_what_a_newer_binder_says_otherwise_is_void_and_never_called_aged(larkspur: Path) -> None:
    file = larkspur / FILE
    whole = printed_of(larkspur)
    old = {f"page-{name}": "aaaaa" for name in ("tire_register", "weather")}
    first, *others = whole.printings
    parts = {key: one.model_copy(update={"code": old.get(key, one.code)}) for key, one in first.parts.items()}
    edited = whole.model_copy(update={"printings": (first.model_copy(update={"parts": parts}), *others)})
    file.write_text(text_of(edited), "utf-8")

    for on in (ON, date(2026, 6, 20)):
        named = {one.name: one for one in found(larkspur, on=on).every if one.name in old}
        assert named.keys() == old.keys()
        assert all(one.by_program and one.is_void and not one.is_aged for one in named.values())


def test_a_page_that_only_aged_is_not_printed_again(larkspur: Path) -> None:
    whole = found(larkspur, on=date(2026, 6, 20))
    aged = [one.title for one in whole.every if one.is_aged]

    assert "Tire register" in aged
    assert not set(aged) & {one.title for one in whole.due}
    assert all(one.by_date and not one.because and not one.by_program for one in whole.every)


def test_only_pages_of_ages_may_age(larkspur: Path) -> None:
    """When the scale ticket is too old the weights' page says something else: that is no age."""
    whole = found(larkspur, on=date(2027, 6, 1))

    assert {one.name for one in whole.every if one.is_aged} <= {"page-tire_register", "page-service_due"}
    assert any(one.name == "page-weights" and one.is_void for one in whole.every)


def test_a_part_that_a_day_makes_void_tells_the_day(larkspur: Path) -> None:
    on = date(2033, 1, 1)
    assessment = read_and_assess(larkspur, BuildOptions(on))
    cover = next(one for one in found(larkspur, on=on).every if one.title == "Cover")
    since = void_since(cover, "everything", on, by_day(assessment))

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
