import pytest

from binder.calculations.tires.load_tables import (
    Doubt,
    LoadRow,
    LoadTable,
    Stamp,
    dual_doubts,
    load_carried,
    row_for,
    slack_to_next_row,
    table_doubts,
    table_per_tire,
    table_step,
)
from binder.quantities import registry
from tests.printed_tables import table_from

q = registry.Quantity
TABLE = table_from([(70, 4500), (75, 4720), (80, 4940), (85, 5155)], "psi", "pound")


def pressure_for(pounds: float) -> float | None:
    row = row_for(TABLE, q(pounds, "pound"))
    return None if row is None else float(row.pressure.m)


@pytest.mark.parametrize(
    ("pounds", "pressure"),
    [(1, 70), (4500, 70), (4500.1, 75), (4720, 75), (5155, 85), (5155.1, None)],
)
def test_row_is_the_first_that_carries_the_load(pounds: float, pressure: float | None) -> None:
    assert pressure_for(pounds) == pressure


@pytest.mark.parametrize("row", range(4))
def test_equal_load_needs_no_step_up_after_conversion_of_units(row: int) -> None:
    load = TABLE.rows[row].load

    found = row_for(TABLE, load.to("kg").to("tonne").to("pound"))

    assert found is TABLE.rows[row]


def test_metric_table_is_read_with_a_load_in_pounds() -> None:
    table = table_from([(500, 1450), (550, 1550)], "kPa", "kg")

    row = row_for(table, q(1450 / 0.45359237, "pound"))

    assert row is table.rows[0]


@pytest.mark.parametrize(("psi", "pounds"), [(70, 4500), (74.9, 4500), (75, 4720), (200, 5155)])
def test_load_carried_is_that_of_the_row_reached(psi: float, pounds: float) -> None:
    carried = load_carried(TABLE, q(psi, "psi").to("kPa"))

    assert carried is not None
    assert carried.m == pounds


def test_nothing_is_known_below_the_first_row() -> None:
    assert load_carried(TABLE, q(69.9, "psi")) is None


def test_an_overload_has_no_slack() -> None:
    light, heavy = q(5100, "pound"), q(5200, "pound")

    assert slack_to_next_row(TABLE, light) == q(55, "pound")
    assert slack_to_next_row(TABLE, heavy) is None


@pytest.mark.parametrize(
    ("basis", "fitment", "pounds"),
    [
        ("per tire", "single", 4000),
        ("per tire", "dual", 4000),
        ("per pair", "single", 4000),
        ("per pair", "dual", 2000),
        ("per axle end", "single", 4000),
        ("per axle end", "dual", 2000),
    ],
)
def test_only_dual_rows_are_ever_halved(basis: str, fitment: str, pounds: float) -> None:
    typed = [LoadRow(q(50, "psi"), q(4000, "pound"))]

    table = table_per_tire(typed, basis, fitment)  # type: ignore[arg-type]  # Parametrized words.

    assert table.rows[0].load == q(pounds, "pound")


def test_table_without_rows_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one row"):
        LoadTable(())


def test_step_of_a_single_row_is_not_known() -> None:
    assert table_step(table_from([(50, 1)], "psi", "pound")) is None


def doubts(rows: list[tuple[float, float]]) -> list[tuple[Doubt, float]]:
    table = table_from(rows, "psi", "pound")
    found = table_doubts(table, Stamp(q(80, "psi"), q(3042, "pound")), "light truck")
    return [(doubt.doubt, float(doubt.row.pressure.m)) for doubt in found if doubt.row is not None]


GOOD: list[tuple[float, float]] = [(65, 2623), (70, 2765), (75, 2905), (80, 3042)]


def test_good_table_raises_no_doubt() -> None:
    assert doubts(GOOD) == []


def test_short_last_step_is_allowed_and_a_long_one_is_not() -> None:
    assert doubts([(60, 2485), (66, 2660), (72, 2820), (78, 2978), (80, 3042)]) == []
    assert doubts([(65, 2623), (70, 2765), (80, 3042)]) == [(Doubt.UNEVEN_STEP, 70.0)]


@pytest.mark.parametrize(
    ("place", "row", "expected"),
    [
        (1, (70, 2576), [(Doubt.NOT_RISING, 70.0), (Doubt.OFF_CURVE, 70.0)]),
        (1, (65, 2765), [(Doubt.NOT_RISING, 65.0)]),
        (1, (70, 2623), [(Doubt.NOT_RISING, 70.0)]),
        (3, (80, 3024), [(Doubt.TOP_LOAD, 80.0)]),
    ],
)
def test_slips_of_typing_are_pointed_at(
    place: int, row: tuple[float, float], expected: list[tuple[Doubt, float]]
) -> None:
    rows = list(GOOD)
    rows[place] = row

    assert set(expected) <= set(doubts(rows))


def test_top_row_beside_the_stamp_is_a_doubt() -> None:
    assert doubts(GOOD[:-1]) == [(Doubt.TOP_PRESSURE, 75.0), (Doubt.TOP_LOAD, 75.0)]


def test_curve_is_not_held_against_a_family_that_has_none() -> None:
    odd = table_from([(65, 1000), (70, 2765)], "psi", "pound")

    assert table_doubts(odd, Stamp(None, None), None) == ()
    assert [doubt.doubt for doubt in table_doubts(odd, Stamp(None, None), "truck")] == [Doubt.OFF_CURVE]


def test_problems_are_told_from_hints() -> None:
    single = table_from(GOOD, "psi", "pound")
    falling = table_from([(65, 2623), (70, 2500)], "psi", "pound")

    problems = {d.doubt for d in table_doubts(falling, Stamp(q(80, "psi"), None), "truck") if d.is_problem}

    assert problems == {Doubt.NOT_RISING}
    assert [d.is_problem for d in dual_doubts(single, single)] == [True] * 4
