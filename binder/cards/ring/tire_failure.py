"""Card 8, Tire failure: what hands and feet do while it moves, when no air is added, what to order."""

from collections.abc import Iterator
from itertools import groupby

from binder.assessment.assess import Assessment
from binder.assessment.tires import kinds
from binder.assessment.tires.axle import is_spare
from binder.cards.blocks import Big, Block, Card, Line, Step, ValueRow, ValueTable
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import AxleGroup, axle_groups, words_of
from binder.models.rig import Rig
from binder.models.tires import Wheels
from binder.models.vehicles import Vehicle
from binder.wording.measures import FILL, TORQUE
from binder.wording.numbers import BLANK
from binder.wording.words import Words, begun

_FLAT = {"Flat, cold": kinds.RUN_FLAT_BELOW, "Flat, just driven": kinds.HOT_FLAT}

_SPARES = {"none": "NONE", "tire only": "TIRE ONLY", "mounted": "ON A WHEEL"}


def tire_failure(assessment: Assessment) -> Card:
    """Make the card for a tire that fails."""
    groups = axle_groups(assessment)
    computed = {
        "flat lines": tuple(_flat_lines(assessment, groups)),
        "order": tuple(_orders(assessment, groups)),
        "spare": tuple(_spares(assessment.rig)),
    }
    named = {
        f"{group.name}: {name}": figure
        for group in groups
        for name, kind in _FLAT.items()
        if (figure := assessment.known(group.keys(kind)[0]))
    }
    return said_card(card_words("tire_failure"), assessment, computed, named)


def _flat_lines(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Block]:
    """From which pressure on a tire that was driven counts as flat."""
    if not groups:
        return
    words = words_of(assessment)
    rows = tuple(
        ValueRow(
            group.name,
            "",
            words.number(group.value(kinds.RUN_FLAT_BELOW), kinds.RUN_FLAT_BELOW.measure),
            (words.number(group.value(kinds.HOT_FLAT), kinds.HOT_FLAT.measure),),
        )
        for group in groups
    )
    headers = (f"cold, or less, {words.unit(FILL)}", "just driven")
    yield ValueTable("Driven flat: ADD NO AIR", headers, rows)
    yield from _off(groups)


def _off(groups: tuple[AxleGroup, ...]) -> Iterator[Step]:
    """What is done with a tire that was driven flat; one of a truck, or of an unknown kind, is left alone."""
    said: dict[str, dict[str, None]] = {}
    for group in groups:
        is_truck = group.tires.family in {"truck", None}
        answer = "stand clear, tire service lifts it." if is_truck else "take it off, inspect inside."
        said.setdefault(answer, {})[group.vehicle_name] = None
    for answer, names in said.items():
        yield Step(f"{begun(', '.join(names))}: {answer}", indent=True)


def _orders(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Block]:
    """What each axle takes; axles that take the same are told together."""
    words = words_of(assessment)
    for _, alike in groupby(groups, key=lambda one: (one.vehicle_name, one.axle.tires, one.axle.wheels)):
        yield from _order(assessment.rig, tuple(alike), words)


def _order(rig: Rig, alike: tuple[AxleGroup, ...], words: Words) -> Iterator[Block]:
    first = alike[0]
    name, wheels = _name(alike), rig.wheels.get(first.axle.wheels or "") or Wheels.blank()
    size = f"{first.tires.size or BLANK} {first.tires.load_range or BLANK}"
    fills = " / ".join(words.fill(group.value(kinds.SET_POINT), group.known_limit) for group in alike)
    yield Big(name, size, f"cold fill {fills} {words.unit(FILL)}", 24)
    socket, thread = wheels.socket or BLANK, wheels.thread or BLANK
    yield Line(f"Nuts: socket {socket}, {thread}", words.text(wheels.nut_torque, TORQUE))


def _name(alike: tuple[AxleGroup, ...]) -> str:
    first, *others = alike
    return ", ".join([first.name, *(group.name.lower() for group in others)])


def _spares(rig: Rig) -> Iterator[Block]:
    """What is carried for each vehicle that rolls, as said, else as mounted among its tires."""
    rolling = {name: vehicle for name, vehicle in rig.vehicles.items() if vehicle.axles}
    said = [_spare(rig, vehicle) for vehicle in rolling.values()]
    yield Line(f"Spare, {' / '.join(rolling)}", " / ".join(said))


def _spare(rig: Rig, vehicle: Vehicle) -> str:
    said = vehicle.equipment.spare_wheel
    mounted = (rig.tires[axle.tires].mounted for axle in vehicle.axles.values() if axle.tires in rig.tires)
    if said is None and any(is_spare(position) for tires in mounted for position in tires):
        return "ABOARD"
    return _SPARES[said] if said else BLANK
