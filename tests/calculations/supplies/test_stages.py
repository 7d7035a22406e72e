"""Legs and stays against hand arithmetic with the figures of the demo rig: 8 mpg, 2.5 %, 14 gal a day."""

from dataclasses import replace

import pytest

from binder.calculations.supplies.propane import PropaneAtLow
from binder.calculations.supplies.stages import (
    Chains,
    Drive,
    Generator,
    Hookups,
    Stay,
    Uses,
    battery_store,
    tank_store,
    trip_stages,
)
from binder.calculations.supplies.walk import Held, Store, trip_walk
from binder.quantities import registry

Q = registry.Quantity
USES = Uses(
    Q(1 / 8, "gallon / mile"),
    Q(2.5, "percent"),
    Q(14, "gal/day"),
    Q(20, "percent"),
    (PropaneAtLow(None, Q(0.9, "gal/day")),),
    battery=Q(60, "Ah/day"),
)
CHAINS = Chains(
    *((name,) for name in ("diesel", "exhaust", "fresh", "gray", "black", "propane", "diesel", "battery"))
)
LEG = Drive("leg", Q(96, "mile"), Q(2, "hour"))
NIGHT = Stay("night", Q(24, "hour"), Q(24, "hour"), "none", is_night=True)
ZERO = Q(0, "gallon")


def walked(*events: Drive | Stay, uses: Uses = USES) -> dict[str, Held]:
    tanks = {"diesel": 100, "exhaust": 15, "fresh": 90, "propane": 24}
    stores = {name: tank_store(Q(size, "gal"), Q(size, "gal"), ZERO) for name, size in tanks.items()}
    empty: dict[str, Store] = {
        name: tank_store(Q(size, "gal"), ZERO, ZERO) for name, size in {"gray": 60, "black": 40}.items()
    }
    every = stores | empty | {"battery": battery_store(Q(220, "Ah"))}
    return dict(trip_walk(every, trip_stages(events, uses, CHAINS))[-1].held)


def test_a_leg_takes_fuel_exhaust_fluid_and_the_water_of_its_hours() -> None:
    held = walked(LEG)

    assert held["diesel"].used == pytest.approx(96 / 8)
    assert held["exhaust"].used == pytest.approx(96 / 8 * 0.025)
    assert held["fresh"].used == pytest.approx(14 * 2 / 24)
    assert held["gray"].level == pytest.approx(14 * 2 / 24 * 0.8)
    assert held["black"].level == pytest.approx(14 * 2 / 24 * 0.2)
    assert held["propane"].used == 0  # Its valve is shut.


def test_an_open_valve_burns_on_the_road() -> None:
    held = walked(LEG, uses=USES._replace(is_propane_open_driving=True))

    assert held["propane"].used == pytest.approx(0.9 * 2 / 24)


def test_a_night_without_hookups_takes_water_propane_and_charge() -> None:
    held = walked(NIGHT)

    assert held["fresh"].level == pytest.approx(76)
    assert held["propane"].level == pytest.approx(23.1)
    assert held["battery"].level == pytest.approx(160)
    assert held["diesel"].used == 0


@pytest.mark.parametrize(("hookups", "fresh", "gray"), [("electric", 76, 11.2), ("full", 90, 0)])
def test_hookups_charge_and_full_ones_bring_water_too(hookups: Hookups, fresh: float, gray: float) -> None:
    held = walked(NIGHT, replace(NIGHT, hookups=hookups))

    assert held["battery"].level == pytest.approx(220)
    assert held["fresh"].level == pytest.approx(fresh - 14)
    assert held["gray"].level == pytest.approx(gray + 11.2)


def test_a_generator_burns_fuel_down_to_its_cut_off_and_charges() -> None:
    runs = USES._replace(generator=Generator(Q(4, "gal/day"), Q(25, "gal")))
    month = replace(NIGHT, time=Q(30, "day"), propane_time=Q(1, "day"))

    assert walked(NIGHT, uses=runs)["diesel"].level == pytest.approx(96)
    assert walked(NIGHT, uses=runs)["battery"].level == pytest.approx(220)
    assert walked(month, uses=runs)["diesel"].level == pytest.approx(25)
    assert walked(month, uses=runs)["diesel"].short == pytest.approx(45)


def test_what_is_not_given_is_not_guessed() -> None:
    assert walked(replace(LEG, distance=None))["diesel"].level is None
    assert walked(replace(LEG, time=None))["fresh"].level is None
    assert walked(NIGHT, uses=USES._replace(water=None))["gray"].level is None
    assert walked(NIGHT, uses=USES._replace(propane=()))["propane"].level is None
    assert walked(LEG, uses=USES._replace(exhaust_fluid=None))["exhaust"].level is None


def test_by_day_the_warmest_figure_for_propane_stands() -> None:
    by_low = (PropaneAtLow(Q(50, "degF"), Q(0.9, "gal/day")), PropaneAtLow(Q(20, "degF"), Q(3.5, "gal/day")))
    lunch = Stay("lunch", Q(2, "hour"), Q(2, "hour"))

    held = walked(lunch, uses=USES._replace(propane=by_low))

    assert held["propane"].used == pytest.approx(0.9 / 12)
