"""What a tire loses a month: exact where readings are, unmoved by what is no leak."""

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from random import Random

import pytest

from binder.calculations.tires.gas_law import TireState, pressure_after
from binder.calculations.tires.leaks import (
    CLEAR,
    DAYS_A_MONTH,
    REFERENCE,
    ColdReading,
    TireLoss,
    pressure_losses,
)
from binder.quantities import registry
from tests.log.leaks import COACH, SIDES, rates

START = datetime(2026, 3, 1, 7, tzinfo=UTC)
WEEKS = range(16)


def state(degrees: float = 68.0, feet: float = 0.0) -> TireState:
    return TireState(registry.Quantity(degrees, "degF"), registry.Quantity(feet, "foot"))


def read(
    week: float, psi: float, at: TireState = REFERENCE, level: str = "", unit: str = "psi"
) -> ColdReading:
    """What is read where a tire holds so much at the reference."""
    shown = pressure_after(registry.Quantity(psi, "psi"), REFERENCE, at).to(unit)
    return ColdReading(START + timedelta(weeks=week), shown, at, level)


def falling(
    month: float, weeks: Iterable[float] = WEEKS, level: str = "", fill: float = 100
) -> list[ColdReading]:
    """Readings of a tire that loses so many psi a month."""
    return [read(week, fill - month * week * 7 / DAYS_A_MONTH, level=level) for week in weeks]


def losses(**readings: list[ColdReading]) -> dict[str, TireLoss]:
    return pressure_losses(readings, {name: name[0] for name in readings})


def psi(found: object) -> float:
    return round(float(getattr(found, "m_as")("psi")), 6)  # noqa: B009 - a quantity or None.


def test_what_is_lost_a_month_is_the_slope_of_the_readings() -> None:
    found = losses(left_a=falling(2.0), left_b=falling(0.5), right_a=falling(0.5), right_b=falling(0.4))

    assert [psi(one.loss) for one in found.values()] == [2.0, 0.5, 0.5, 0.4]
    assert [psi(one.excess) for one in found.values()] == [1.5, -1.5, 0.0, -0.1]
    assert [name for name, one in found.items() if one.loses_more] == ["left_a"]
    assert {one.readings for one in found.values()} == {16}


def test_temperature_and_elevation_are_no_loss() -> None:
    chance = Random(3)  # noqa: S311 - a test.
    states = [state(chance.uniform(-10, 100), chance.uniform(0, 9000)) for _ in WEEKS]
    tire = [read(week, 95, at, unit="bar") for week, at in zip(WEEKS, states, strict=True)]

    assert psi(losses(left=tire, right=tire)["left"].loss) == pytest.approx(0, abs=1e-9)


def test_air_added_is_a_new_level_and_no_gain() -> None:
    topped = [*falling(2.0, range(8)), *falling(2.0, range(8, 16), "1", fill=109)]

    assert psi(losses(left=topped, right=falling(0.5))["left"].loss) == 2.0


def test_readings_of_a_sensor_that_is_off_are_set_against_each_other_alone() -> None:
    gauge, sensor = falling(1.0, range(0, 16, 2), "gauge"), falling(1.0, range(1, 16, 2), "sensor", fill=93)

    assert psi(losses(left=[*gauge, *sensor], right=falling(1.0))["left"].loss) == 1.0


def test_a_few_wild_readings_do_not_move_it() -> None:
    wild = falling(1.0)
    for week, psi_read in ((3, 14.0), (7, 140.0), (12, 10.0)):
        wild[week] = read(week, psi_read)
    found = losses(left_a=wild, left_b=falling(1.0), right_a=falling(1.0), right_b=falling(1.0))

    assert [psi(one.loss) for one in found.values()] == pytest.approx([1.0] * 4, abs=0.1)
    assert not any(one.loses_more for one in found.values())


def test_a_walk_with_a_wrong_temperature_moves_no_tire() -> None:
    walk = [read(16, 90), *falling(1.0)]
    tires = {name: list(walk) for name in ("left_a", "left_b", "right_a", "right_b")}

    assert [psi(one.excess) for one in losses(**tires).values()] == [0.0] * 4


def test_what_loses_less_than_is_clear_is_not_named() -> None:
    below, above = psi(CLEAR) - 0.05, psi(CLEAR) + 0.05

    assert not losses(left=falling(below), right=falling(0.0))["left"].loses_more
    assert losses(left=falling(above), right=falling(0.0))["left"].loses_more


@pytest.mark.parametrize(
    ("weeks", "told", "named"),
    [(range(5), False, False), (range(4), False, False), (range(8), True, False), (range(13), True, True)],
)
def test_a_fall_is_told_and_a_tire_named_when_readings_are_enough(
    weeks: range,
    told: bool,  # noqa: FBT001 - as in the table.
    named: bool,  # noqa: FBT001 - as in the table.
) -> None:
    found = losses(left=falling(3.0, weeks), right=falling(0.0, weeks))["left"]

    assert (found.loss is not None, found.loses_more) == (told, named)


def test_a_tire_without_mates_has_a_loss_and_no_excess() -> None:
    found = losses(left=falling(1.0), right=falling(1.0, range(2)))["left"]

    assert (psi(found.loss), found.excess, found.loses_more) == (1.0, None, False)


def test_readings_in_any_order_say_the_same() -> None:
    tires = {"left": falling(1.3), "right": falling(0.2)}
    before = losses(**tires)
    Random(1).shuffle(tires["left"])  # noqa: S311 - a test.

    assert losses(**tires) == before


def test_leaks_are_found_and_sound_tires_left_alone_as_the_long_run_tells() -> None:
    leaking, sound = rates(4, 60, COACH, 2.0), rates(5, 60, COACH, 0.0)

    assert leaking.found >= 54
    assert leaking.accused + sound.accused <= 9
    assert set(COACH) <= set(SIDES)
