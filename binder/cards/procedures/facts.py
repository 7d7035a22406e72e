"""The registry of facts: what a card's file may name in braces, and the text it gives for this assessment."""

from collections.abc import Callable, Iterable, Mapping
from functools import partial
from types import MappingProxyType

from binder.assessment.assess import Assessment
from binder.assessment.body.kinds import GAP_FROM_40, TAIL_SWING, WIDTH_WITH_MIRRORS
from binder.assessment.conditions import carried, coupled_by, driven, equipped, tanks, towed
from binder.assessment.road.kinds import CLEARANCE_NEEDED
from binder.assessment.route.days import trip_days
from binder.assessment.route.kinds import WIND
from binder.assessment.supplies.kinds import CONTAINER_HELD
from binder.cards.fill_table import worst_morning
from binder.cards.procedures.conditions import (
    carried_thing,
    carries_a_car,
    has_exhaust_brake,
    has_generator,
    has_retarder,
    rule_on_wheels_down,
    towing_forbidden,
    worth_of_can,
)
from binder.cards.resources_left import charger, colder_night
from binder.cards.rig_words import length_of_all, overall_height, weight_of_all, words_of
from binder.models.rig import Rig
from binder.models.vehicles import Vehicle
from binder.quantities import Quantity
from binder.wording.measures import LOAD, SIZE, SWING, TEMPERATURE, TORQUE, Style
from binder.wording.numbers import BLANK, both_lengths
from binder.wording.words import (
    all_procedure_constants,
    begun,
    number_called_in,
    procedure_constant,
    procedure_number,
    procedure_reason,
    style_of,
)

LONGEST_NAME = 8
"""Letters of a vehicle's name that leave the line of the devices on one line of an A5 card."""


LONGEST_WAY = 34
"""Letters of a valve's place and way that its step has room for; the front of the card says them too."""


def _fitted(rig: Rig, names: Mapping[str, str]) -> list[str]:
    return [word for name, word in names.items() if equipped(name)(rig)]


def _propane_valve(rig: Rig) -> str:
    states = {tank.valve_while_driving for tank in tanks(rig) if tank.holds == "propane"}
    return "SHUT" if "shut" in states else "OPEN"


def _openings(rig: Rig) -> str:
    return begun(", ".join(["windows", *_fitted(rig, {"roof_vents": "vents"})]))


def _on_masts(rig: Rig) -> str:
    return begun(", ".join(_fitted(rig, {"roof_antenna": "antenna", "satellite_dish": "dish"})))


def _latching(rig: Rig) -> str:
    """How the hitch that is towed by latches, in its maker's words."""
    said = [link.latching for link in rig.couplings if link.how == "tow bar" and link.latching]
    return said[0] if said else "the hitch maker's way"


def _places(rig: Rig, entry: str) -> str:
    """Where equipment lies; a blank where it is fitted and no place is told."""
    told = [one for vehicle in rig.vehicles.values() for one in getattr(vehicle.equipment, entry) or []]
    return ", ".join(one if isinstance(one, str) else one.place for one in told) or BLANK


def _place_of(rig: Rig, name: str) -> str:
    """Where a tool or spare lies; a blank where it is not carried, for then it must be found elsewhere."""
    thing = carried_thing(rig, name)
    return (thing.place if thing else None) or BLANK


def _banks(rig: Rig, *, house: bool) -> str:
    """Where batteries stand; of those of the house alone, if asked."""
    banks = [
        f"{name}: {bank.place or BLANK}"
        for vehicle in rig.vehicles.values()
        for name, bank in vehicle.batteries.items()
        if name == "house" or not house
    ]
    return ", ".join(banks) or BLANK


def _battery_switches(rig: Rig) -> str:
    """Where a battery is switched off, and how; what a switch stops is not guessed from its place."""
    shut_offs = [one for vehicle in rig.vehicles.values() for one in vehicle.equipment.shut_offs or []]
    told = [f"{one.place} ({one.how or BLANK})" for one in shut_offs if one.stops == "battery"]
    return ", ".join(told) or BLANK


def _air_port(rig: Rig) -> str:
    port = driven(rig)[1].equipment.air_port
    return port.place if port else BLANK


def _generator(rig: Rig, entry: str) -> str:
    told = [getattr(vehicle.generator, entry) for vehicle in rig.vehicles.values() if vehicle.generator]
    return ", ".join(one for one in told if one) or BLANK


def _how_read(rig: Rig, fluid: str) -> str:
    told = [vehicle.fluids[fluid].check for vehicle in rig.vehicles.values() if fluid in vehicle.fluids]
    return ", ".join(one for one in told if one) or BLANK


def _belts(rig: Rig) -> str:
    engine = driven(rig)[1].engine
    named = [belt for belt in engine.belts if belt] if engine else []
    return f": {', '.join(named)}" if named else ""


def propane_valves(rig: Rig) -> tuple[str, ...]:
    """Where the propane is shut: its shut-offs, else the valves of its tanks."""
    stops = [one for entry in rig.vehicles.values() for one in entry.equipment.shut_offs or []]
    found = [one.place for one in stops if one.stops == "propane"]
    found = found or [tank.valve for tank in tanks(rig) if tank.holds == "propane" and tank.valve]
    return tuple(dict.fromkeys(found))


def _ways_of_propane_valves(rig: Rig) -> str:
    """Where the propane is shut, and which way its valves turn where there is room."""
    stops = [one for entry in rig.vehicles.values() for one in entry.equipment.shut_offs or []]
    ways = {one.place: one.how for one in stops if one.stops == "propane"}
    places = propane_valves(rig)
    told = "; ".join(", ".join(part for part in (place, ways.get(place)) if part) for place in places)
    return (told if len(told) <= LONGEST_WAY else ", ".join(places)) or BLANK


def _people(rig: Rig) -> str:
    return f"{rig.people or BLANK} {'person' if rig.people == 1 else 'people'}"


def _jacks_or_bags(rig: Rig) -> str:
    is_on_air = any(vehicle.suspension == "air" for vehicle in rig.vehicles.values())
    jacks = "its leveling jacks" if equipped("leveling_jacks")(rig) else "a jack alone"
    return listed([jacks, *(["air bags"] if is_on_air else [])])


def _last_towed(rig: Rig) -> str:
    return towed(rig)[-1][0] if towed(rig) else ""


def _power(rig: Rig) -> str:
    generator = ["generator"] if has_generator(rig) else []
    return begun(", ".join([*generator, *_fitted(rig, {"inverter": "inverter"})]))


def _chocks(rig: Rig) -> str:
    counted = sum(vehicle.equipment.chocks or 0 for vehicle in rig.vehicles.values())
    return str(counted) if counted else "___"


def _locks(rig: Rig) -> str:
    doors = "bay doors" if any(vehicle.bays for vehicle in rig.vehicles.values()) else "doors"
    return begun(", ".join([*_fitted(rig, {"awning": "awning", "cargo_trays": "trays"}), doors]))


def _watching(rig: Rig) -> str:
    return begun(", ".join(_fitted(rig, {"cameras": "camera", "radio": "radio"})))


def _held_down(rig: Rig) -> str:
    """What holds a vehicle on another one: straps over tires, or the tie-downs of a camper."""
    if coupled_by("dolly")(rig):
        return f"Straps, {towed(rig)[-1][0]}"
    names = ", ".join(name for name, _ in carried(rig))
    return f"{'Straps' if carries_a_car(rig) else 'Tie-downs'}, {names}"


def _could_roll(rig: Rig) -> str:
    """What stands alone before it is coupled: of a car and its dolly the dolly."""
    names = [name for name, _ in towed(rig)]
    return next((name for name, vehicle in towed(rig) if vehicle.kind == "dolly"), names[-1])


def _cars_carried(rig: Rig) -> list[str]:
    return [name for name, vehicle in carried(rig) if vehicle.axles]


def _helper(rig: Rig) -> str:
    helpers = {"retarder": has_retarder, "exhaust brake": has_exhaust_brake}
    return begun(", ".join(word for word, is_fitted in helpers.items() if is_fitted(rig)))


def _brakes(rig: Rig, unknown: str = "") -> str:
    brakes = driven(rig)[1].brakes
    return f"{brakes.service} brakes" if brakes and brakes.service else unknown


def _each(vehicles: Iterable[tuple[str, Vehicle]], after: str = "") -> str:
    return "; ".join(f"the {name}{after}" for name, _ in vehicles)


def _each_link(rig: Rig) -> str:
    links = [link for link in rig.couplings if link.behind in dict(towed(rig)) and link.how != "dolly"]
    return "; ".join(f"the {link.how} between {link.ahead} and {link.behind}" for link in links)


def rear_of(rig: Rig) -> str:
    """Where steps begin: the rear of the last vehicle, in words that keep to one line."""
    last = towed(rig)[-1][0] if towed(rig) else "rig"
    return f"{last} rear" if len(last) <= LONGEST_NAME else "the very rear"


def steps_to(device: str, rig: Rig) -> str:
    """Count the steps to a warning device, without the word."""
    counted = procedure_constant(f"steps {device}")
    return counted.us.value if rig.units == "us" else counted.metric.value


def listed(names: Iterable[str]) -> str:
    """Join names as a sentence does."""
    every = list(names)
    return " or ".join([", ".join(every[:-1]), every[-1]]) if len(every) > 1 else "".join(every)


_LOOKED_FOR = (
    "air hose",
    "compressor",
    "fuses",
    "leak test fluid",
    "outlet tester",
    "tire gauge",
    "tow truck air fitting",
    "water pressure regulator",
    "water pump fuse",
)
"""Tools and spares that a page sends somebody for, by the names in the list of what belongs aboard."""

_OF_RIG: Mapping[str, Callable[[Rig], str]] = MappingProxyType(
    {
        "propane valve": _propane_valve,
        "windows, vents": _openings,
        "antenna, dish": _on_masts,
        "latching of the hitch": _latching,
        "places of vests": lambda rig: _places(rig, "vests"),
        "places of devices": lambda rig: _places(rig, "warning_devices"),
        "generator, inverter": _power,
        "chocks": _chocks,
        "awning, trays, doors": _locks,
        "camera, radio": _watching,
        "straps or tie-downs": _held_down,
        "vehicle that drives": lambda rig: driven(rig)[0],
        "what could roll": _could_roll,
        "Car or cars carried": lambda rig: listed(_cars_carried(rig)).capitalize(),
        "cars carried": lambda rig: ", ".join(_cars_carried(rig)),
        "retarder, exhaust brake": _helper,
        "its service brakes": _brakes,
        "its brakes": lambda rig: _brakes(rig, "brakes"),
        "each towed": lambda rig: _each(towed(rig)),
        "each towed behind": lambda rig: _each(towed(rig), " behind"),
        "each towed or carried": lambda rig: _each((*towed(rig), *carried(rig))),
        "each link": _each_link,
        "people": _people,
        "place of the propane valve": lambda rig: ", ".join(propane_valves(rig)) or BLANK,
        "propane valve and its way": _ways_of_propane_valves,
        "jacks or bags": _jacks_or_bags,
        "last towed": _last_towed,
        "rule on wheels down": rule_on_wheels_down,
        "second device": lambda rig: steps_to("far", rig),
        "places of chocks": lambda rig: _places(rig, "chock_places"),
        "places of slides": lambda rig: _places(rig, "slide"),
        "places of smoke alarms": lambda rig: _places(rig, "smoke_alarm"),
        "places of carbon monoxide alarms": lambda rig: _places(rig, "carbon_monoxide_alarm"),
        "places of propane alarms": lambda rig: _places(rig, "propane_alarm"),
        "places of extinguishers": lambda rig: _places(rig, "extinguishers"),
        "places of exits": lambda rig: _places(rig, "exits"),
        "places of batteries": lambda rig: _banks(rig, house=False),
        "house batteries": lambda rig: _banks(rig, house=True),
        "battery switches": _battery_switches,
        "air port": _air_port,
        "generator cut-off": lambda rig: _generator(rig, "cut_off"),
        "place of the generator": lambda rig: _generator(rig, "place"),
        "how generator oil is read": lambda rig: _how_read(rig, "generator oil"),
        "what belts drive": _belts,
        "names of all vehicles": lambda rig: ", ".join(rig.vehicles),
        **{f"place of the {name}": partial(_place_of, name=name) for name in _LOOKED_FOR},
    }
)


def _height_in_both(assessment: Assessment) -> str:
    tall, words = overall_height(assessment), words_of(assessment)
    return both_lengths(tall, words.text(tall, SIZE), words.style)


def _gap(assessment: Assessment) -> str:
    return words_of(assessment).value(assessment.known(GAP_FROM_40.of()), f"{BLANK} s")


def _wind(name: str, assessment: Assessment) -> str:
    """The wind its owner parks at; where no trip says it, the usual one."""
    usual = procedure_number(f"wind {name}", style_of(assessment))
    return words_of(assessment).value(assessment.known(WIND[name].of()), usual)


def _nut_torques(assessment: Assessment) -> str:
    words, rig = words_of(assessment), assessment.rig
    told = [
        f"{name} {words.text(rig.wheels[axle.wheels].nut_torque, TORQUE)}"
        for name, vehicle in rig.vehicles.items()
        for axle in vehicle.axles.values()
        if axle.wheels in rig.wheels
    ]
    return ", ".join(dict.fromkeys(told)) or BLANK


def _worth_of_can(assessment: Assessment) -> str:
    worth, words = worth_of_can(assessment), words_of(assessment)
    held = words.given(worth, CONTAINER_HELD)
    return f"{held.text} lasts {words.value(worth)}" if held else ""


def _than(how: str, quantity: Quantity | None, meaning: str, assessment: Assessment) -> str:
    return "" if quantity is None else f"{how} than {words_of(assessment).text(quantity, meaning)}"


def _emergency_call(assessment: Assessment) -> str:
    """The number of the countries that the trip goes through; a blank where one of them is not known."""
    known, style = dict[str, str](), style_of(assessment)
    zones = [day.zone_at_start for day in trip_days(assessment.profile)]
    zones += [leg.to.time_zone for day in trip_days(assessment.profile) for leg in day.plan.legs]
    for zone in filter(None, zones):
        known[number_called_in(zone, style) or BLANK] = zone
    if assessment.trip is None:
        us, europe = (procedure_number(f"emergency call, {of}", style) for of in _CALLED)
        return f"{us} (Europe {europe})"
    return " / ".join(known) or BLANK


_CALLED = ("United States", "European Union")


def _do_not_tow(assessment: Assessment) -> str:
    """One sentence that stops whoever picks up the card; the whole list is on the cover."""
    first, *others = towing_forbidden(assessment)
    return f"DO NOT TOW: {words_of(assessment).found(first).brief}.{' See the cover.' if others else ''}"


_OF_ASSESSMENT: Mapping[str, Callable[[Assessment], str]] = MappingProxyType(
    {
        "clearance needed": lambda one: words_of(one).text(one.quantity(CLEARANCE_NEEDED.of()), SIZE),
        "overall height, in both systems": _height_in_both,
        "tail swing": lambda one: words_of(one).text(one.quantity(TAIL_SWING.of()), SWING),
        "worth of the can": _worth_of_can,
        "worst morning": worst_morning,
        "degrees to fill in": lambda one: f"{BLANK} {words_of(one).unit(TEMPERATURE)}",
        "car or pickup to charge in": charger,
        "do not tow": _do_not_tow,
        "emergency call": _emergency_call,
        "overall height": lambda one: words_of(one).text(overall_height(one), SIZE),
        "length of all": lambda one: words_of(one).text(length_of_all(one), SIZE),
        "weight of all": lambda one: words_of(one).text(weight_of_all(one), LOAD),
        "width with mirrors": lambda one: words_of(one).text(one.quantity(WIDTH_WITH_MIRRORS.of()), SIZE),
        "seconds to follow": _gap,
        "wind sustained of the rig": partial(_wind, "sustained"),
        "wind gusts of the rig": partial(_wind, "gusts"),
        "nut torques": _nut_torques,
        "higher": lambda assessment: _than("higher", overall_height(assessment), SIZE, assessment),
        "longer": lambda assessment: _than("longer", length_of_all(assessment), SIZE, assessment),
        "heavier": lambda assessment: _than("heavier", weight_of_all(assessment), LOAD, assessment),
        "colder": colder_night,
        "how steps are counted": lambda assessment: procedure_reason("steps far", assessment.rig.units),
    }
)

_NUMBERS = frozenset(constant.name for constant, _ in all_procedure_constants(Style("us")))

FACT_NAMES = frozenset({*_OF_RIG, *_OF_ASSESSMENT})


def is_fact(name: str) -> bool:
    """Tell whether a card's file may name this in braces: a fact of the registry, or a procedure's number."""
    return name in FACT_NAMES or name in _NUMBERS


def fact(name: str, assessment: Assessment) -> str:
    """Give the text of a fact, by its name."""
    if name in _OF_RIG:
        return _OF_RIG[name](assessment.rig)
    of_assessment = _OF_ASSESSMENT.get(name)
    return of_assessment(assessment) if of_assessment else procedure_number(name, style_of(assessment))
