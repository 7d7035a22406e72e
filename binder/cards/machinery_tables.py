"""Tables of engine and tanks for the rig at a glance."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.cards.blocks import Block, Table
from binder.cards.display import BLANK
from binder.models.vehicles import Tank, Vehicle
from binder.wording.as_written import as_written
from binder.wording.both_systems import both_as_written


def engine_tables(assessment: Assessment) -> Iterator[Block]:
    """Make the tables of machinery and tanks of every vehicle that has them."""
    for name, vehicle in assessment.rig.vehicles.items():
        machinery = tuple(_machinery(vehicle))
        if machinery:
            yield Table(("", "as noted"), machinery, small=True, caption=f"Engine and generator, {name}")
        if vehicle.tanks:
            yield Table(
                ("tank", "holds", "capacity", "usable", "filler", "valve"),
                tuple(_tank(what, tank) for what, tank in vehicle.tanks.items()),
                small=True,
                caption=f"Tanks, {name}",
            )


def _machinery(vehicle: Vehicle) -> Iterator[tuple[str, str]]:
    engine, generator = vehicle.engine, vehicle.generator
    if engine:
        cylinders = BLANK if engine.cylinders is None else str(engine.cylinders)
        size = f"{as_written(engine.power)}, {as_written(engine.displacement)}, {cylinders} cylinders"
        belts = f"; belts: {', '.join(engine.belts)}" if engine.belts else ""
        yield "engine", f"{size}, {engine.place or BLANK}{belts}"
    if vehicle.transmission:
        yield "towed with its wheels down", vehicle.transmission.tow_with_wheels_down or BLANK
    if generator:
        yield "generator", f"{as_written(generator.power)}, {generator.place or BLANK}"


def _tank(name: str, tank: Tank) -> tuple[str, ...]:
    valve = tank.valve or "-"
    if tank.holds == "propane":
        valve = f"{tank.valve or BLANK}; {tank.valve_while_driving.upper()} while driving"
    usable = "-" if tank.usable is None else both_as_written(tank.usable)
    return name, tank.holds, both_as_written(tank.capacity), usable, tank.filler or "-", valve
