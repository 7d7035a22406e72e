"""Card 9, Fire, gas, carbon monoxide: people out first; where things are, drawn; what the crew is told."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.body.equipment import is_lived_in
from binder.assessment.conditions import driven
from binder.cards.blocks import Big, Blank, Block, Card, Line
from binder.cards.marks import marks_for_fire
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import words_of
from binder.cards.ring.marked_plan import Marks, marked_plan
from binder.models.equipment import ShutOff
from binder.models.rig import Rig
from binder.models.vehicles import Tank, Vehicle
from binder.quantities import Quantity
from binder.wording.measures import NEEDED_VOLUME
from binder.wording.numbers import BLANK
from binder.wording.words import begun

_BURNS = ("propane", "diesel", "gasoline")


def fire(assessment: Assessment) -> Card:
    """Make the card for fire, gas and carbon monoxide."""
    rig = assessment.rig
    computed = {
        "exits": tuple(_exits(rig)),
        "extinguishers": tuple(_extinguishers(rig)),
        "drawing": tuple(marked_plan(assessment, _marks(rig), begun(rig.name))),
        "shut-offs": tuple(_shut_offs(rig)),
        "fire crew": tuple(_fire_crew(assessment)),
    }
    return said_card(card_words("fire"), assessment, computed)


def _lived_in(rig: Rig) -> list[tuple[str, Vehicle]]:
    """Vehicles that people sleep in; of a rig without one all of them."""
    every = list(rig.vehicles.items())
    return [(name, vehicle) for name, vehicle in every if is_lived_in(vehicle)] or every


def _exits(rig: Rig) -> Iterator[Block]:
    ways = [way for _, vehicle in _lived_in(rig) for way in vehicle.equipment.exits or []]
    yield from (Line(f"Out: {way.place}", way.opens or BLANK) for way in ways)
    if not ways:
        yield Blank("First way out, how it opens")
    if len(ways) < 2:  # noqa: PLR2004 - practice: the door may be what burns.
        yield Blank("Second way out, how it opens")


def _extinguishers(rig: Rig) -> Iterator[Block]:
    """Extinguishers of one type on one line, each place with its vehicle where several have some."""
    held = {name: vehicle.equipment.extinguishers for name, vehicle in rig.vehicles.items()}
    several, by_type = sum(bool(found) for found in held.values()) > 1, dict[str, list[str]]()
    for name, found in held.items():
        for one in found or []:
            place = f"{name} {one.place}" if several else one.place
            by_type.setdefault(one.type or BLANK, []).append(place)
    yield from (Line(f"Extinguisher: {', '.join(where)}", type_) for type_, where in by_type.items())
    if not by_type:
        is_none = any(found is False for found in held.values())
        yield Line("Extinguishers", "NONE ABOARD") if is_none else Blank("Extinguisher: where, which")


def _stops(rig: Rig) -> Iterator[ShutOff]:
    yield from (stop for vehicle in rig.vehicles.values() for stop in vehicle.equipment.shut_offs or [])


def _shut_offs(rig: Rig) -> Iterator[Block]:
    named = {stop.stops for stop in _stops(rig)}
    for stop in _stops(rig):
        challenge = f"{begun(stop.stops)}: {stop.place}" if stop.stops else begun(stop.place)
        yield Line(challenge, stop.how or BLANK)
    for _, tank in _tanks(rig):
        if tank.holds == "propane" and "propane" not in named:
            yield Line(f"Propane: {tank.valve}", BLANK) if tank.valve else Blank("Propane shut-off")
    if "battery" not in named:
        yield Blank("Battery shut-off")


def _tanks(rig: Rig) -> Iterator[tuple[str, Tank]]:
    for name, vehicle in rig.vehicles.items():
        yield from ((name, tank) for tank in vehicle.tanks.values())


def _fire_crew(assessment: Assessment) -> Iterator[Block]:
    """What burns and how much of it, what is under voltage, where the engine is."""
    rig, words = assessment.rig, words_of(assessment)
    for burning in _BURNS:
        held = [_most(tank) for _, tank in _tanks(rig) if tank.holds == burning]
        if held:
            known = [amount for amount in held if amount is not None]
            total: Quantity | None = sum(known[1:], start=known[0]) if len(known) == len(held) else None
            amount = words.text(total, NEEDED_VOLUME)
            yield (
                Big("Propane, at most", amount, "", 24)
                if burning == "propane"
                else Line(f"{begun(burning)}, at most", amount)
            )
    engine, every = driven(rig)[1].engine, rig.vehicles.values()
    yield Line("Engine", ((engine.place if engine else None) or BLANK).upper())
    yield from (Line("Generator", entry.generator.place or BLANK) for entry in every if entry.generator)
    yield from _batteries(rig)
    for place in (place for entry in every for place in entry.equipment.solar or []):
        yield Line(f"Solar: {place}", "LIVE IN DAYLIGHT")


_CHEMISTRY = {"lead-acid": "LEAD-ACID", "lithium iron phosphate": "LITHIUM", None: BLANK}


def _batteries(rig: Rig) -> Iterator[Block]:
    """Kinds of batteries aboard, with the place of each."""
    held = [pair for vehicle in rig.vehicles.values() for pair in vehicle.batteries.items()]
    if held:
        said = dict.fromkeys(_CHEMISTRY[battery.chemistry] for _, battery in held)
        places = (f"{name} {battery.place or BLANK}" for name, battery in held)
        yield Line("Batteries", ", ".join(said), ", ".join(places))


def _most(tank: Tank) -> Quantity | None:
    """What a full tank holds; of propane what may be filled."""
    return tank.usable or tank.capacity if tank.holds == "propane" else tank.capacity


def _marks(rig: Rig) -> Marks:
    return {name: tuple(marks_for_fire(vehicle)) for name, vehicle in rig.vehicles.items()}
