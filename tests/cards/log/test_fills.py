"""Fuel and exhaust fluid on the page of the log: a chart over time beside the plan's line, and a table."""

import pytest

from binder.cards.blocks import Heading, Page, Picture, Table
from binder.cards.drawings import Readings
from binder.cards.log.page import log
from binder.models.log_entries import Entry
from binder.rendering.drawings.readings import readings
from tests.assessment.logged import by_key, larkspur
from tests.assessment.supplies.test_rates import fill, full_tanks


def page(*entries: Entry) -> Page:
    made = log(by_key(larkspur(entries)).assessment)
    assert made is not None
    return made


def charts(made: Page) -> list[Readings]:
    return [one.view for one in made.blocks if isinstance(one, Picture) and isinstance(one.view, Readings)]


def level(chart: Readings) -> dict[str, float]:
    return {chart.level[1]: chart.level[0]} if chart.level else {}


def test_miles_a_gallon_of_each_interval_stand_over_time_beside_the_plan_s_line() -> None:
    (chart,) = charts(page(*full_tanks(7.4, 8.4, 7.9)))
    (line,) = chart.lines

    assert [point.value for point in line.points] == pytest.approx([7.4, 8.4, 7.9], rel=1e-4)
    assert [point.begins for point in line.points] == [True, False, False]
    assert level(chart) == pytest.approx({"the plan: 8 mpg": 8.0})
    assert chart.values[-1][1].endswith(" mpg")
    assert "7.4 mpg" in chart.alternative
    assert "the plan: 8 mpg" in readings(chart).svg


def test_what_was_left_out_is_marked_alone_and_the_table_says_why() -> None:
    made = page(*full_tanks(8.0, 8.0, 8.0), fill(800, 250))
    sure, left_out = charts(made)[0].lines
    (table,) = [one for one in made.blocks if isinstance(one, Table)]

    assert (len(sure.points), len(left_out.points)) == (3, 1)
    assert left_out.name == "left out"
    assert table.rows[-1][-1] == "left out: more than the tank holds"
    assert [row[-1] for row in table.rows[:-1]] == [""] * 3


def test_of_many_intervals_the_newest_are_listed_with_those_that_the_rate_rests_on() -> None:
    made = page(*full_tanks(*[6.0] * 6, *[6.2] * 30))
    (table,) = [one for one in made.blocks if isinstance(one, Table)]

    assert len(charts(made)[0].lines[0].points) == 36
    assert [row[3] for row in table.rows] == ["6 mpg"] * 6 + ["6.15 mpg"] * 24
    assert any("Drawn are the newest 36, listed 30 of them." in str(one) for one in made.blocks)


def test_the_exhaust_fluid_is_told_as_a_share_of_the_fuel() -> None:
    fluid = [fill(at * 400, 1.6, tank="exhaust fluid") for at in range(4)]
    made = page(*full_tanks(*[8.0] * 6), *fluid)
    (chart,) = [one for one in charts(made) if "exhaust fluid" in one.alternative]

    assert [point.value for point in chart.lines[0].points] == pytest.approx([3.2] * 3, rel=1e-4)
    assert level(chart) == pytest.approx({"the plan: 2.5 %": 2.5})
    headings = [one.text for one in made.blocks if isinstance(one, Heading)]
    assert "Exhaust fluid, share of the fuel from one full tank to the next" in headings


def test_one_interval_is_a_row_and_no_chart() -> None:
    made = page(*full_tanks(7.4))

    assert not charts(made)
    assert [one for one in made.blocks if isinstance(one, Table)]


def test_a_tank_that_was_full_once_is_not_on_the_page() -> None:
    assert log(by_key(larkspur([fill(0, 20)])).assessment) is None
