"""The page of supplies along the trip: a row for reaching and for leaving each stop."""

import re

import pytest

from binder.assessment.assess import Assessment
from binder.cards.blocks import Page, Picture
from binder.cards.drawings import TankStrips
from binder.cards.pages.supplies_along_trip import exhaust_fluid, supplies_along_trip
from tests.assessment.edited_demos import Assessed, assessed, larkspur
from tests.cards.binder_rigs import demo, notes, rig, table
from tests.cards.procedure_rigs import coach

__all__ = ["assessed", "larkspur"]


def of(assessment: Assessment) -> Page:
    page = supplies_along_trip(assessment)
    assert page is not None
    return page


def test_each_stop_has_a_row_for_reaching_and_for_leaving_it(larkspur: Assessment) -> None:
    rows = table(of(larkspur), "Levels").rows
    stops = [row[0] for row in rows if not row[0].startswith("Day ")]

    assert stops[:3] == ["leaving Pendleton", "reaching Baker City", "leaving Baker City"]
    assert len(stops) == 1 + 2 * 10


def test_levels_are_rounded_down_and_waste_up_beside_the_share(larkspur: Assessment) -> None:
    found = table(of(larkspur), "Levels")
    rows = {row[0]: dict(zip(found.headers, row, strict=True)) for row in found.rows}

    # 14.4 of 15 gal, 28.6 of 90, 27.1 of 60, by the record.
    ketchum = rows["leaving Ketchum"]
    assert ketchum["exhaust fluid, gal"] == "14 · 96 %"
    assert ketchum["fresh, gal"] == "58 · 65 %"
    assert ketchum["gray, gal"] == "28 · 45 %"
    # 69 gal less the reserve of 25 at 8 miles a gallon.
    assert ketchum["range, mi"] == "352"
    assert ketchum["battery, Ah"] == "110 · 50 %"


def test_nights_stand_with_their_day(larkspur: Assessment) -> None:
    days = [row[0] for row in table(of(larkspur), "Levels").rows if row[0].startswith("Day ")]

    assert days == ["Day 1, nights 1", "Day 2, nights 2", "Day 3, nights 1", "Day 4, nights 1", "Day 5"]


def test_a_crossed_reserve_is_said_in_words(assessed: Assessed) -> None:
    far = ("distance: 82 mi\n        driving: 1.6 h", "distance: 382 mi\n        driving: 7 h")
    levels = ("arriving: {coach: {diesel: 59 gal, exhaust", "arriving: {coach: {exhaust")

    page = of(assessed("larkspur", trip=(far, levels)))

    rows = {row[0]: row[-1] for row in table(page, "Levels").rows}
    assert rows["reaching Twin Falls"] == "UNDER RESERVE"
    assert "under the reserve of 25 gal" in notes(page.blocks)


def test_a_trip_that_works_says_so(larkspur: Assessment) -> None:
    assert "no leg crosses a reserve" in notes(of(larkspur).blocks)


def test_a_trip_that_spills_never_says_that_nothing_does() -> None:
    page = of(demo("kestrel"))

    assert any("spilled" in row[1] for row in table(page, "Filled").rows)
    assert "nothing spills" not in notes(page.blocks)
    assert "A waste tank is over full at the mean use" in notes(page.blocks)


def test_what_is_not_known_is_a_blank_and_not_judged(assessed: Assessed) -> None:
    page = of(assessed("larkspur", trip=(("battery: 60 Ah/day", "battery:"),)))
    found = table(page, "Levels")

    assert "______" in {row[found.headers.index("battery, Ah")] for row in found.rows}
    assert "no leg crosses a reserve" not in notes(page.blocks)
    assert "Not judged, since not known" in notes(page.blocks)


def test_what_is_filled_dumped_and_used_is_told(larkspur: Assessment) -> None:
    rows = {row[0]: row[1:] for row in table(of(larkspur), "Filled").rows}

    assert rows["Day 1, reaching Baker City"] == ("", "diesel 12 gal, exhaust fluid 1 gal, fresh 2 gal")
    assert rows["Day 1, leaving Ontario"][0].startswith("filled fresh 5 gal; dumped gray 4 gal")


def test_the_strips_show_the_same_levels(larkspur: Assessment) -> None:
    view = next(block for block in of(larkspur).blocks if isinstance(block, Picture)).view
    assert isinstance(view, TankStrips)
    strips = {row.name: row for row in view.rows}

    assert strips["diesel"].shares[:3] == (1.0, 0.88, 1.0)
    assert (strips["diesel"].reserve, strips["gray"].reserve) == (0.25, None)
    assert strips["gray"].words == "most 29 gal"


def test_exhaust_fluid_is_a_band_where_the_plan_gives_no_rate(assessed: Assessed) -> None:
    page = exhaust_fluid(assessed("larkspur", trip=(("  exhaust fluid: 2.5 % of diesel\n", ""),)))
    assert page is not None
    rows = {row[0]: row[1] for row in table(page, "").rows}

    # 842 miles at 8 miles a gallon, 2 to 3 % of it.
    assert rows["used on this trip"] == "2 gal to 4 gal"
    assert rows["freezes at"] == "12 °F"
    # 2.5 gal at 3 % of an eighth of a gallon a mile.
    assert rows["the carried container is worth"] == "666 mi"


def test_a_metric_rig_has_liters_and_no_exhaust_fluid() -> None:
    page = of(demo("tamarack"))

    assert "diesel, L" in table(page, "Levels").headers
    assert "range, km" in table(page, "Levels").headers
    assert "Exhaust fluid" not in {getattr(block, "caption", "") for block in page.blocks}


def test_without_a_trip_there_is_no_such_page() -> None:
    assert supplies_along_trip(rig(vehicles={"coach": coach()})) is None


def number(cell: str) -> float:
    return float(cell.partition(" ")[0].replace(",", ""))


def amounts(tank: str, unit: str, told: str) -> dict[str, float]:
    """What a row says of one tank, by what was done."""
    found: dict[str, float] = {}
    for what, listed in re.findall(r"(filled|dumped|spilled|used) ([^;]*)", told):
        amount = re.search(rf"(?:^|, ){re.escape(tank)} ([\d,]+) {unit}", listed)
        if amount:
            found[what] = number(amount[1])
    return found


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "sandpiper", "tamarack"])
def test_what_is_filled_and_used_leads_from_each_printed_level_to_the_next(name: str) -> None:
    page = of(demo(name))
    levels, checked = table(page, "Levels"), 0
    moved = {row[0]: f"{row[1]}; used {row[2]}" for row in table(page, "Filled").rows}
    for column, header in enumerate(levels.headers[1:], start=1):
        tank, _, unit = header.rpartition(", ")
        day, before = "", 0.0
        for row in levels.rows:
            if row[0].startswith("Day "):
                day = row[0].partition(",")[0]
                continue
            told = amounts(tank, unit, moved.get(f"{day}, {row[0]}", ""))
            if told and tank not in {"gray", "black"}:
                gone = sum(told.get(what, 0) for what in ("dumped", "spilled", "used"))
                assert before + told.get("filled", 0) - gone == number(row[column]), (day, row[0], tank)
                checked += 1
            before = number(row[column]) if row[column] else before
    assert checked > 10
