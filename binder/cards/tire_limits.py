"""What tires, wheels and valves allow, and how wheel nuts are tightened."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.cards.blocks import Block, Note, Table
from binder.models.tires import Tires, Wheels
from binder.wording.as_written import as_written
from binder.wording.both_systems import both_as_written
from binder.wording.numbers import BLANK


def limit_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the tables of limits of tires and of wheels."""
    rig = assessment.rig
    if rig.tires:
        yield Table(
            ("tires", "size, load range", "single", "one of a pair", "pressure", "speed", "replace after"),
            tuple(_tires(name, tires) for name, tires in rig.tires.items()),
            small=True,
            caption="Limits on the sidewall",
        )
    if rig.wheels:
        yield Table(
            ("wheels", "load", "pressure", "valve", "nuts, torque", "socket", "thread", "dual spacing"),
            tuple(_wheels(name, wheels) for name, wheels in rig.wheels.items()),
            small=True,
            caption="Limits of wheels and valves, and their nuts",
        )
        yield Note(
            "The cap is the least of tire, wheel and valve. A blank valve: read it off the valve or ask the "
            "tire shop. Nuts: the maker's manual comes first; heavy wheels are work for a tire service."
        )


def _tires(name: str, tires: Tires) -> tuple[str, ...]:
    sidewall = tires.sidewall
    pair = "-" if sidewall.maximum_load_dual is None else both_as_written(sidewall.maximum_load_dual)
    return (
        name,
        f"{tires.size or BLANK}, {tires.load_range or BLANK}",
        both_as_written(sidewall.maximum_load_single),
        pair,
        both_as_written(sidewall.maximum_pressure),
        both_as_written(tires.maximum_speed),
        as_written(tires.replace_after),
    )


def _wheels(name: str, wheels: Wheels) -> tuple[str, ...]:
    spacing = "-" if wheels.dual_spacing is None else as_written(wheels.dual_spacing)
    return (
        name,
        both_as_written(wheels.maximum_load),
        both_as_written(wheels.maximum_pressure),
        both_as_written(wheels.valve_maximum_pressure),
        both_as_written(wheels.nut_torque),
        wheels.socket or BLANK,
        wheels.thread or BLANK,
        spacing,
    )
