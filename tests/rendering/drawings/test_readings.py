"""Readings over time: lines told apart without color, breaks, and names that never run into each other."""

import re

from binder.cards.drawings import Readings, ReadLine, ReadPoint
from binder.rendering.drawings.readings import readings

VALUES = ((90.0, "90"), (100.0, "100 psi"))
DAYS = ((0.0, "Jan 5"), (27.0, "Feb 1"), (28.0, "Feb 2"))


def line(name: str, *values: float, breaks: tuple[int, ...] = (), air: tuple[int, ...] = ()) -> ReadLine:
    points = [ReadPoint(7.0 * n, value, n in {0, *breaks}, n in air) for n, value in enumerate(values)]
    return ReadLine(name, tuple(points))


def svg(*lines: ReadLine, level: tuple[float, str] | None = None) -> str:
    return readings(Readings(lines, VALUES, DAYS, level, "Pressures over time.", 44.0)).svg


def test_each_line_has_a_dash_of_its_own() -> None:
    names = ("left outer", "left inner", "right inner", "right outer")
    drawn = svg(*(line(name, 99.0 - n, 98.0 - n) for n, name in enumerate(names)))

    assert len(set(re.findall(r'stroke-dasharray="([^"]+)"', drawn))) == 3
    assert all(f">{name}<" in drawn for name in names)


def test_a_break_leaves_a_gap_and_air_a_plus() -> None:
    whole, broken = svg(line("left", 99, 98, 97, 96)), svg(line("left", 99, 98, 97, 96, breaks=(2,)))
    with_air = svg(line("left", 99, 98, 97, 96, breaks=(2,), air=(2,)))

    assert broken.count("<polyline") == whole.count("<polyline") + 1
    assert with_air.count("<polyline") == broken.count("<polyline") + 2


def test_marks_that_stand_alone_have_no_line_and_none_beside_their_name() -> None:
    alone, joined = svg(line("left out", 99, 98, 97, breaks=(1, 2))), svg(line("left out", 99, 98, 97))

    assert joined.count("<polyline") == alone.count("<polyline") + 2
    assert joined.count("<circle") == alone.count("<circle") == 4


def test_names_of_lines_that_end_at_one_height_stand_apart() -> None:
    """The drawing itself refuses texts that run into each other."""
    drawn = svg(*(line(name, 95.0, 95.0) for name in ("a", "b", "c", "d")), level=(95.0, "cold fill 95 psi"))

    assert drawn.count("<text") == 5 + len(VALUES) + 2


def test_days_without_room_are_not_named() -> None:
    assert ">Feb 2<" not in svg(line("left", 99, 98, 97, 96, 95))


def test_a_single_reading_is_drawn() -> None:
    assert ">left<" in svg(line("left", 95.0))
