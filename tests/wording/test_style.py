"""What an owner chooses of how numbers are written: bar for kilopascals, and the hours of the clock."""

from datetime import time
from pathlib import Path

import pytest

from binder.quantities import registry
from binder.wording.measures import FILL, PRESSURE_LIMIT, Style
from binder.wording.numbers import beside, both_as_written, recorded
from binder.wording.words import Words, procedure_number, style_of
from tests.assessment.edited_demos import edited_demo

BAR = Style("metric", "bar")


def test_a_metric_rig_prints_its_pressures_in_bar_where_it_chooses_so(tmp_path: Path) -> None:
    bar = edited_demo(tmp_path / "bar", "tamarack", ("paper:", "pressure: bar\npaper:"))
    usual = edited_demo(tmp_path / "usual", "tamarack")
    key = "tires.truck.steer.set_point"

    words, of_kilopascals = Words(style_of(bar)), Words(style_of(usual))

    figure = next(one for one in bar.ledger.entered if words.key(one.key) == key)
    assert (of_kilopascals.value(figure), words.value(figure)) == ("450 kPa", "4.50 bar")


def test_bar_is_rounded_by_the_steps_of_kilopascals() -> None:
    pressure = registry.Quantity(551, "kilopascal")

    assert Words(BAR).text(pressure, FILL) == "5.55 bar"
    assert Words(BAR).text(pressure, PRESSURE_LIMIT) == "5.50 bar"
    assert Words(BAR).fill(pressure, pressure) == "5.51"
    assert recorded(pressure, FILL, BAR) == (5.51, "bar")
    assert beside(registry.Quantity(80, "psi"), FILL, Style("us", "bar")) == "5.55 bar"
    assert both_as_written(registry.Quantity(80, "psi"), "bar") == "80 psi (5.50 bar)"


@pytest.mark.parametrize(
    ("name", "usual", "bar"),
    [
        ("hot rise light truck", "60 to 80 kPa", "0.60 to 0.80 bar"),
        ("air loss, released", "13 kPa", "0.13 bar"),
        ("estimate more", "13.8 kPa", "0.138 bar"),
        ("nuts again", "80 to 160 km", "80 to 160 km"),
    ],
)
def test_a_fixed_pressure_stands_in_bar_too(name: str, usual: str, bar: str) -> None:
    assert procedure_number(name, Style("metric")) == usual
    assert procedure_number(name, BAR) == bar


@pytest.mark.parametrize(
    ("moment", "told"),
    [
        (time(0, 5), "12:05 am"),
        (time(9, 0), "9:00 am"),
        (time(12, 0), "12:00 pm"),
        (time(23, 59), "11:59 pm"),
    ],
)
def test_hours_are_of_twelve_or_of_twenty_four(moment: time, told: str) -> None:
    assert Words(Style("us", clock="12 h")).clock(moment) == told
    assert Words(Style("us", clock="24 h")).clock(moment) == f"{moment:%H:%M}"


@pytest.mark.parametrize(
    ("rig", "change", "clock"),
    [
        ("larkspur", (), "12 h"),
        ("larkspur", (("paper:", "clock: 24 h\npaper:"),), "24 h"),
        ("tamarack", (), "24 h"),
        ("tamarack", (("paper:", "clock: 12 h\npaper:"),), "12 h"),
    ],
)
def test_the_clock_is_the_owners_choice_or_usual_with_the_units(
    tmp_path: Path, rig: str, change: tuple[tuple[str, str], ...], clock: str
) -> None:
    assert style_of(edited_demo(tmp_path, rig, *change)).clock == clock
