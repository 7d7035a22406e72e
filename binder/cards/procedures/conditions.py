"""The registry of conditions: what a card's file may name under ``when`` and ``unless``."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from binder.assessment.assess import Assessment
from binder.assessment.conditions import (
    AIR_BRAKES,
    BREAKAWAY,
    BREAKAWAY_NOT_KNOWN,
    DISTRIBUTION,
    DUALS,
    SUPPLEMENTAL_BRAKE,
    SUPPLEMENTAL_BRAKE_NOT_KNOWN,
    Condition,
    carried,
    coupled_by,
    driven,
    equipped,
    holds,
    is_coupled,
    tanks,
    towed,
)
from binder.assessment.coupling import kinds as chain
from binder.assessment.ledger import Figure, Finding, Grade
from binder.assessment.supplies.kinds import CONTAINER_WORTH
from binder.assessment.weights.kinds import COMBINATION
from binder.assessment.weights.resting import rolling_axles
from binder.cards.fill_table import first_cell
from binder.cards.resources_left import charger
from binder.models.rig import Carried, Rig
from binder.models.vehicles import Vehicle

ON_WHEELS, TRAILERS = ("car", "pickup"), ("trailer", "dolly")
"""Kinds of what is towed: what has an engine of its own, and what has none."""


def _any_vehicle(is_such: Callable[[Vehicle], bool]) -> Condition:
    return lambda rig: any(map(is_such, rig.vehicles.values()))


def _any_towed(is_such: Callable[[Vehicle], object]) -> Condition:
    return lambda rig: any(is_such(vehicle) for _, vehicle in towed(rig))


def hydraulic_brakes(rig: Rig) -> bool:
    """Hold where the vehicle that drives has hydraulic brakes."""
    brakes = driven(rig)[1].brakes
    return brakes is not None and brakes.service == "hydraulic"


def has_retarder(rig: Rig) -> bool:
    """Hold where the vehicle that drives has a retarder with some power."""
    brakes = driven(rig)[1].brakes
    return brakes is not None and brakes.retarder is not None and brakes.retarder.magnitude > 0


def has_exhaust_brake(rig: Rig) -> bool:
    """Hold where the vehicle that drives has an exhaust brake."""
    brakes = driven(rig)[1].brakes
    return brakes is not None and bool(brakes.exhaust_brake)


def _tag_axle(rig: Rig) -> bool:
    """The vehicle that drives has an axle behind its drive axle."""
    _first, *others = driven(rig)[1].axles or ("",)
    return len(others) > 1


def has_generator(rig: Rig) -> bool:
    """Hold where some vehicle has a generator."""
    return any(vehicle.generator is not None for vehicle in rig.vehicles.values())


def _electric_brakes(rig: Rig) -> bool:
    return any(vehicle.brakes and vehicle.brakes.service == "electric" for _, vehicle in towed(rig))


has_lamp_in_cab = _any_towed(lambda vehicle: vehicle.towing and vehicle.towing.brake_lamp_in_cab)
tows_a_car = _any_towed(lambda vehicle: vehicle.kind in ON_WHEELS)


def carries_a_car(rig: Rig) -> bool:
    """Hold where a vehicle with axles of its own is carried."""
    return any(vehicle.axles for _, vehicle in carried(rig))


def _is_held_down(rig: Rig) -> bool:
    """A vehicle stands on another one: a camper, a car on its trailer or on a dolly."""
    return bool(carried(rig)) or coupled_by("dolly")(rig)


def _car_on_its_wheels(rig: Rig) -> bool:
    return tows_a_car(rig) and not coupled_by("dolly")(rig)


def _over_a_tailgate(rig: Rig) -> bool:
    return coupled_by("fifth wheel", "gooseneck")(rig) and driven(rig)[1].kind == "pickup"


def makers_words(vehicle: Vehicle) -> list[str]:
    """What the maker of a vehicle says on how it is towed."""
    return (vehicle.towing.as_its_maker_says or []) if vehicle.towing else []


def _trailers_makers_words(rig: Rig) -> bool:
    behind = (*towed(rig), *carried(rig))
    return any(vehicle.kind in TRAILERS and makers_words(vehicle) for _, vehicle in behind)


def _is_fueled(rig: Rig) -> bool:
    return any(tank.holds in {"diesel", "gasoline"} for tank in driven(rig)[1].tanks.values())


def _filler_sides(rig: Rig, contents: str) -> set[str]:
    fillers = (tank.filler for tank in driven(rig)[1].tanks.values() if tank.holds == contents)
    words = {word for filler in fillers for word in (filler or "").lower().split()}
    return words & {"left", "right"}


def _fillers_on_different_sides(rig: Rig) -> bool:
    fuel, fluid = _filler_sides(rig, "diesel"), _filler_sides(rig, "exhaust fluid")
    return bool(fuel and fluid and fuel.isdisjoint(fluid))


def _several_on_air(rig: Rig) -> bool:
    return sum(vehicle.suspension == "air" for vehicle in rig.vehicles.values()) > 1


def is_lived_in(vehicle: Vehicle) -> bool:
    """Hold where people live in a vehicle: a motorhome, a camper, a trailer with tanks."""
    return vehicle.kind in {"motorhome", "camper"} or (vehicle.kind == "trailer" and bool(vehicle.tanks))


def _is_trailer(vehicle: Vehicle) -> bool:
    return vehicle.kind == "trailer"


def _fitted_or_not_known(name: str) -> Condition:
    """Hold where a vehicle that is lived in has it, or where nobody has looked."""
    return _any_vehicle(
        lambda vehicle: is_lived_in(vehicle) and getattr(vehicle.equipment, name) is not False
    )


def carried_thing(rig: Rig, name: str) -> Carried | None:
    """Find a tool or spare that is carried, by its name before a comma."""
    every = (*rig.tools, *rig.spares)
    return next((one for one in every if one.what.partition(",")[0] == name), None)


def _brakes_not_known(rig: Rig) -> bool:
    brakes = driven(rig)[1].brakes
    return brakes is None or brakes.service is None


def _lead_acid(vehicle: Vehicle) -> bool:
    return any(bank.chemistry == "lead-acid" for bank in vehicle.batteries.values())


def rule_on_wheels_down(rig: Rig) -> str:
    """What its maker says on towing the vehicle that drives on its driven wheels; nothing where not known."""
    transmission = driven(rig)[1].transmission
    return (transmission.tow_with_wheels_down or "") if transmission else ""


def _never_on_its_wheels(rig: Rig) -> bool:
    return rule_on_wheels_down(rig).lower().startswith("no")


def _drive_shaft_first(rig: Rig) -> bool:
    return _never_on_its_wheels(rig) and "shaft" in rule_on_wheels_down(rig).lower()


def _engine_at_the_rear(rig: Rig) -> bool:
    engine = driven(rig)[1].engine
    return engine is not None and engine.place == "rear"


def _truck_tires(rig: Rig) -> bool:
    tires = (rig.tires.get(axle.tires or "") for *_, axle in rolling_axles(rig))
    return any(one is None or one.family in {"truck", None} for one in tires)


_OF_RIG: Mapping[str, Condition] = MappingProxyType(
    {
        # What the vehicles are fitted with.
        "slides": equipped("slide"),
        "burners": equipped("burners"),
        "refrigerator": equipped("refrigerator"),
        "antenna or dish": equipped("roof_antenna", "satellite_dish"),
        "generator": has_generator,
        "generator or inverter": lambda rig: has_generator(rig) or equipped("inverter")(rig),
        "alarms": equipped("smoke_alarm", "carbon_monoxide_alarm", "propane_alarm"),
        "leveling jacks": equipped("leveling_jacks"),
        "entry step": equipped("entry_step"),
        "awning": equipped("awning"),
        "tire monitor": equipped("tire_monitor"),
        "camera or radio": equipped("cameras", "radio"),
        "vests": equipped("vests"),
        "warning devices": equipped("warning_devices"),
        "pets": equipped("pets"),
        "water heater": equipped("water_heater"),
        "outlet tester": lambda rig: carried_thing(rig, "outlet tester") is not None,
        "smoke alarm or not known": _fitted_or_not_known("smoke_alarm"),
        "carbon monoxide alarm or not known": _fitted_or_not_known("carbon_monoxide_alarm"),
        "propane alarm or not known": _fitted_or_not_known("propane_alarm"),
        "extinguishers or not known": _fitted_or_not_known("extinguishers"),
        "batteries": _any_vehicle(lambda vehicle: bool(vehicle.batteries)),
        "house batteries": _any_vehicle(lambda vehicle: "house" in vehicle.batteries),
        "lead-acid batteries": _any_vehicle(_lead_acid),
        # What the vehicles are.
        "motorhome": lambda rig: driven(rig)[1].kind == "motorhome",
        "hookups": _any_vehicle(is_lived_in),
        "trailer that is lived in": _any_towed(is_lived_in),
        "trailer": _any_towed(_is_trailer),
        "trailer of several axles": _any_towed(lambda one: _is_trailer(one) and len(one.axles) > 1),
        # What the tanks hold.
        "diesel": holds("diesel"),
        "fresh water": holds("fresh water"),
        "gray water": holds("gray water"),
        "black water": holds("black water"),
        "waste tanks": holds("gray water", "black water"),
        "water aboard": holds("fresh water", "gray water", "black water"),
        "tanks": lambda rig: any(True for _ in tanks(rig)),
        "propane": holds("propane"),
        "exhaust fluid": holds("exhaust fluid"),
        "diesel or gasoline": holds("diesel", "gasoline"),
        "fueled at a pump": _is_fueled,
        "fillers on different sides": _fillers_on_different_sides,
        # Wheels, brakes, suspension.
        "duals": DUALS,
        "duals on the road": lambda rig: any(axle.fitment == "dual" for *_, axle in rolling_axles(rig)),
        "tag axle": _tag_axle,
        "air suspension": _any_vehicle(lambda vehicle: vehicle.suspension == "air"),
        "several on air suspension": _several_on_air,
        "air brakes": AIR_BRAKES,
        "hydraulic brakes": hydraulic_brakes,
        "brakes not known": _brakes_not_known,
        "retarder": has_retarder,
        "exhaust brake": has_exhaust_brake,
        "retarder or exhaust brake": lambda rig: has_retarder(rig) or has_exhaust_brake(rig),
        "electric brakes": _electric_brakes,
        "brake controller": equipped("brake_controller"),
        "supplemental brake": SUPPLEMENTAL_BRAKE,
        "supplemental brake not known": SUPPLEMENTAL_BRAKE_NOT_KNOWN,
        "breakaway": BREAKAWAY,
        "breakaway not known": BREAKAWAY_NOT_KNOWN,
        "lamp in the cab": has_lamp_in_cab,
        # What strangers ask of what is broken or burns.
        "rule on wheels down": lambda rig: bool(rule_on_wheels_down(rig)),
        "never on its wheels": _never_on_its_wheels,
        "drive shaft first": _drive_shaft_first,
        "engine at the rear": _engine_at_the_rear,
        "truck tires": _truck_tires,
        # What is behind, and how it is coupled.
        "towed": is_coupled,
        "tow bar": coupled_by("tow bar"),
        "dolly": coupled_by("dolly"),
        "tow bar or dolly": coupled_by("tow bar", "dolly"),
        "ball": coupled_by("ball"),
        "tow bar or ball": coupled_by("tow bar", "ball"),
        "fifth wheel": coupled_by("fifth wheel"),
        "gooseneck": coupled_by("gooseneck"),
        "ball or gooseneck": coupled_by("ball", "gooseneck"),
        "hitch in the bed": coupled_by("fifth wheel", "gooseneck"),
        "hitch": coupled_by("ball", "fifth wheel", "gooseneck"),
        "weight distribution": DISTRIBUTION,
        "tailgate in the way": _over_a_tailgate,
        "tow a car": tows_a_car,
        "car on its own wheels": _car_on_its_wheels,
        "car on a trailer": carries_a_car,
        "car on a trailer or dolly": lambda rig: coupled_by("dolly")(rig) or carries_a_car(rig),
        "held down by straps": _is_held_down,
        "words of the trailer's maker": _trailers_makers_words,
        "words of a maker of what is towed": _any_towed(makers_words),
    }
)


_NO_TOWING = chain.FORBIDDING | {COMBINATION.over}


def towing_forbidden(assessment: Assessment) -> tuple[Finding, ...]:
    """Findings on the coupling, or on what hangs on it, that say not to drive."""
    return tuple(
        found for found in assessment.findings if found.kind in _NO_TOWING and found.grade == "do not drive"
    )


def worth_of_can(assessment: Assessment) -> Figure | None:
    """How far the carried can of exhaust fluid takes the rig, where that is known."""
    worth = next(assessment.ledger.of_kind(CONTAINER_WORTH), None)
    return worth if worth and worth.quantity is not None else None


def _has(grade: Grade) -> Callable[[Assessment], bool]:
    return lambda assessment: any(one.grade == grade for one in assessment.findings)


_OF_ASSESSMENT: Mapping[str, Callable[[Assessment], bool]] = MappingProxyType(
    {
        "do not drive": _has("do not drive"),
        "not cleared": _has("not cleared"),
        "do not tow": lambda assessment: bool(towing_forbidden(assessment)),
        "worth of the can": lambda assessment: worth_of_can(assessment) is not None,
        "trip plan": lambda assessment: assessment.trip is not None,
        "fill table": lambda assessment: first_cell(assessment) is not None,
        "car or pickup to charge in": lambda assessment: bool(charger(assessment)),
    }
)

CONDITION_NAMES = frozenset({*_OF_RIG, *_OF_ASSESSMENT})


def is_so(name: str, assessment: Assessment) -> bool:
    """Decide whether a condition holds, by its name."""
    return _OF_RIG[name](assessment.rig) if name in _OF_RIG else _OF_ASSESSMENT[name](assessment)
