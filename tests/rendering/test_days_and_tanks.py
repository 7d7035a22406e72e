"""Bars of days and strips of tanks are told apart without color."""

from binder.cards.drawings import DaysBar, DaysBars, TankStrip, TankStrips
from binder.rendering.days_bars import days_bars
from binder.rendering.tank_strips import tank_strips


def bars(*rows: DaysBar) -> str:
    return days_bars(DaysBars(rows, 14.0, "Days left")).svg


def test_what_ends_first_is_black_and_its_name_bold() -> None:
    svg = bars(DaysBar("propane", 6.0, "6 days"), DaysBar("food", 2.0, "2 days", is_first=True))

    assert svg.count('fill="#000"') == 1
    assert 'font-weight="bold" text-anchor="start">food' in svg


def test_a_bar_longer_than_the_scale_ends_in_an_arrow() -> None:
    assert "<polygon" in bars(DaysBar("propane", 30.0, "30 days"))
    assert "<polygon" not in bars(DaysBar("propane", 14.0, "14 days"))


def test_what_is_not_known_has_no_bar() -> None:
    svg = bars(DaysBar("food", None, "______ days"))

    assert "<rect" not in svg
    assert "______ days" in svg


def test_a_tank_that_is_not_known_at_a_moment_leaves_a_gap() -> None:
    def filled(*shares: float | None) -> int:
        strips = TankStrips((TankStrip("fresh", shares, None, ""),), (), "Fresh water")
        return tank_strips(strips).svg.count("<polygon")

    assert filled(1.0, 0.5, 0.2) == 2
    assert filled(1.0, None, 0.2) == 0


def test_a_long_trip_names_the_days_there_is_room_for() -> None:
    days = tuple((number, f"day {number}") for number in range(100))
    strip = TankStrip("fresh", tuple([0.5] * 100), 0.25, "least 9 gal")

    svg = tank_strips(TankStrips((strip,), days, "Fresh water")).svg

    assert 5 < svg.count(">day ") < 30
    assert 'stroke-dasharray="4 2"' in svg
