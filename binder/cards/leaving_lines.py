"""The lines of leaving: what is looked at, what is seen, and what follows when it is not so."""

from binder.assessment.conditions import (
    AIR_BRAKES,
    AIR_SUSPENSION,
    DUALS,
    ELECTRIC_BRAKES,
    GENERATOR,
    HYDRAULIC_BRAKES,
    LAMP_IN_CAB,
    TAG_AXLE,
    either,
    equipped,
    every,
    holds,
    is_coupled,
    never,
    tanks,
)
from binder.cards.held_down import held_down, is_held_down
from binder.cards.procedure_lines import ProcedureLine, with_number
from binder.models.rig import Rig

_CLOSED = {"roof_vents": "vents", "roof_antenna": "antenna", "satellite_dish": "dish"}
_LOCKED = {"awning": "awning", "cargo_trays": "trays"}


def _fitted(rig: Rig, names: dict[str, str]) -> list[str]:
    return [word for name, word in names.items() if equipped(name)(rig)]


def _sentence(words: list[str]) -> str:
    text = ", ".join(words)
    return text[:1].upper() + text[1:]


def _propane(rig: Rig) -> str:
    return "Propane valve, burners" if equipped("burners")(rig) else "Propane valve"


def _propane_state(rig: Rig) -> str:
    states = {tank.valve_while_driving for tank in tanks(rig) if tank.holds == "propane"}
    valve = "SHUT" if "shut" in states else "OPEN"
    return f"{valve}, OFF" if equipped("burners")(rig) else valve


def _openings(rig: Rig) -> str:
    return _sentence(["windows", *_fitted(rig, _CLOSED)])


def _openings_state(rig: Rig) -> str:
    return "SHUT, DOWN" if equipped("roof_antenna", "satellite_dish")(rig) else "SHUT"


def _power(rig: Rig) -> str:
    return _sentence(
        [
            *(["generator"] if GENERATOR(rig) else []),
            *(["inverter"] if equipped("inverter")(rig) else []),
        ]
    )


def _chocks(rig: Rig) -> str:
    counted = sum(vehicle.equipment.chocks or 0 for vehicle in rig.vehicles.values())
    return f"{counted} IN" if counted else "___ IN"


def _locks(rig: Rig) -> str:
    bays = ["bay doors"] if any(vehicle.bays for vehicle in rig.vehicles.values()) else ["doors"]
    return _sentence([*_fitted(rig, _LOCKED), *bays, "pulled"])


def _tires(rig: Rig) -> str:
    return "Tires, between duals" if DUALS(rig) else "Tires, by eye"


def _tires_state(rig: Rig) -> str:
    return "NO BULGE, STONE, CUT" if DUALS(rig) else "NO BULGE, NO CUT"


def _caps(rig: Rig) -> str:
    return "Caps, fuel, exhaust fluid" if holds("exhaust fluid")(rig) else "Caps, fuel"


def _watching(rig: Rig) -> str:
    return _sentence(_fitted(rig, {"cameras": "camera", "radio": "radio", "tire_monitor": "tire monitor"}))


def _watching_state(rig: Rig) -> str:
    states = [
        *(["ON"] if equipped("cameras", "radio")(rig) else []),
        *(["ALL REPORT"] if equipped("tire_monitor")(rig) else []),
    ]
    return ", ".join(states)


_BY_HAND = every(ELECTRIC_BRAKES, equipped("brake_controller"))


def _behind(rig: Rig) -> str:
    proofs = [*(["lamp"] if LAMP_IN_CAB(rig) else []), *(["brake"] if _BY_HAND(rig) else [])]
    return ", ".join(["Wheels" if len(proofs) > 1 else "Towed wheels", *proofs])


def _behind_state(rig: Rig) -> str:
    proofs = [*(["LIT"] if LAMP_IN_CAB(rig) else []), *(["HOLDS"] if _BY_HAND(rig) else [])]
    return ", ".join(["TURNING", *proofs])


def _bags(rig: Rig) -> str:
    return "Air bags, all vehicles" if _air_vehicles(rig) > 1 else "Air bags"


def _air_vehicles(rig: Rig) -> int:
    return sum(vehicle.suspension == "air" for vehicle in rig.vehicles.values())


LINES = (
    ProcedureLine(
        "Floor, slides",
        "CLEAR, IN, LOCKED",
        "inside",
        equipped("slide"),
        killer=True,
        consequence="do not move",
        reason="A slide that is not locked comes out on a curve, into the next lane.",
    ),
    ProcedureLine(
        _propane,
        _propane_state,
        "inside",
        holds("propane"),
        killer=True,
        consequence="do not move",
        reason="As the profile says for driving, else shut: a broken line then feeds no fire.",
    ),
    ProcedureLine("Loose things, doors", "STOWED, PINNED", "inside"),
    ProcedureLine(
        "Refrigerator",
        "DRIVING MODE",
        "inside",
        equipped("refrigerator"),
        reason="The mode that makes no flame while driving; its manual names it.",
    ),
    ProcedureLine(_openings, _openings_state, "inside"),
    ProcedureLine(
        _power,
        "SAY ON OR OFF",
        "inside",
        either(GENERATOR, equipped("inverter")),
        consequence="go",
        reason="Both states are right; what hurts is not knowing which it is.",
    ),
    ProcedureLine(
        "Alarm lamps",
        "LIT",
        "inside",
        equipped("smoke_alarm", "carbon_monoxide_alarm", "propane_alarm"),
        reason="An alarm with no lamp has no power and warns nobody.",
    ),
    ProcedureLine("People, pets", "SEATED, BELTED", "inside", consequence="do not move"),
    ProcedureLine(
        "Cords, hoses, cable",
        "IN",
        "walk",
        killer=True,
        consequence="do not move",
    ),
    ProcedureLine(
        "Chocks, counted",
        _chocks,
        "walk",
        killer=True,
        consequence="do not move",
        reason="Counted into their place, so that none is left under a wheel.",
    ),
    ProcedureLine(
        "Jacks, by eye",
        "UP",
        "walk",
        equipped("leveling_jacks"),
        killer=True,
        consequence="do not move",
        reason="By eye: the lamp in the cab reads a switch, not the jack.",
    ),
    ProcedureLine("Steps", "IN", "walk", equipped("entry_step"), killer=True, consequence="do not move"),
    ProcedureLine(
        "Roof line, by eye",
        "NOTHING UP",
        "walk",
        killer=True,
        consequence="do not move",
        reason="Never by the dash lamp: it does not see a branch, a vent lid or a bent mast.",
    ),
    ProcedureLine(
        _locks,
        "LOCKED",
        "walk",
        reason="Trays first, since a door shuts on a tray that is not locked. Each is pulled by hand.",
    ),
    ProcedureLine("Ground under the rig", "DRY", "walk"),
    ProcedureLine(
        "Coupling, card 4",
        "COMPLETE",
        "wheels",
        is_coupled,
        killer=True,
        consequence="do not move",
    ),
    ProcedureLine(
        held_down,
        "TIGHT",
        "wheels",
        every(is_held_down, never(is_coupled)),
        killer=True,
        consequence="do not move",
        reason="What is towed has card 4; a camper stands on its turnbuckles alone.",
    ),
    ProcedureLine(
        _tires,
        _tires_state,
        "wheels",
        consequence="do not move",
        reason="Between duals from behind and below, with a light: a stone there works into both sidewalls.",
    ),
    ProcedureLine(
        "Rims, nuts, hubs",
        "NO CRACK, RUST, OIL",
        "wheels",
        consequence="do not move",
        reason="Rust weeping from a nut is a loose nut; oil on a wheel is a hub seal.",
    ),
    ProcedureLine(_caps, "ON", "walk", holds("diesel", "gasoline", "exhaust fluid")),
    ProcedureLine(
        "Wipers, glass, mirrors",
        "TIGHT, CLEAN",
        "walk",
        reason="Tight: the nut of each wiper arm. The arm that works loose leaves in the first rain.",
    ),
    ProcedureLine(
        "Air, warning",
        with_number("OVER {}, SILENT", "air to move"),
        "seat",
        AIR_BRAKES,
        killer=True,
        consequence="do not move",
        reason="Under this the governor has not refilled the tanks; the brake maker's figure comes first.",
        source="W39",
    ),
    ProcedureLine(
        "Pumped down: warning",
        with_number("BEFORE {}", "air warning"),
        "seat",
        AIR_BRAKES,
        consequence="do not move",
        reason="Done while the wheels are still chocked: engine off, key on, pedal pumped. Lamp or buzzer "
        "comes first, then the knobs pop out and set the brake; the brake maker's figures come first.",
        source="W39",
    ),
    ProcedureLine(
        "Pumped down: knobs",
        with_number("POP, {}", "knobs pop"),
        "seat",
        AIR_BRAKES,
        consequence="do not move",
        source="W39",
    ),
    ProcedureLine(
        with_number("Air build {}", "air build"),
        with_number("WITHIN {}", "air build time"),
        "seat",
        AIR_BRAKES,
        consequence="do not move",
        reason="A compressor that needs longer is failing; the brake maker's figure comes first.",
        source="W39",
    ),
    ProcedureLine("Brake pedal, lamp", "FIRM, OUT", "seat", HYDRAULIC_BRAKES, consequence="do not move"),
    ProcedureLine(
        _bags,
        "RIDE HEIGHT",
        "seat",
        AIR_SUSPENSION,
        consequence="do not move",
        reason="The height that was measured, and the axle loads, are true at ride height only.",
    ),
    ProcedureLine(
        "Tag axle",
        "DOWN, LOADED",
        "seat",
        TAG_AXLE,
        killer=True,
        consequence="do not move",
        detail=with_number("raised or dumped: under {}, to maneuver", "tag raised"),
        reason="Raised or dumped, its load stands on the drive axle and its tires.",
    ),
    ProcedureLine(
        _watching,
        _watching_state,
        "seat",
        equipped("cameras", "radio", "tire_monitor"),
        reason="Every tire must report: a sensor that is silent reads as no alarm.",
    ),
    ProcedureLine(
        "Parking brake, gentle pull",
        "HOLDS",
        "seat",
        consequence="do not move",
        source="W39",
        reason="The lowest gear against the brake, once: a worn brake is found on level ground.",
    ),
    ProcedureLine("Behind: nobody, nothing", "CLEAR", "seat", consequence="do not move"),
    ProcedureLine(
        _behind,
        _behind_state,
        "moving",
        is_coupled,
        killer=True,
        consequence="do not move",
        reason="A dragged wheel burns its tire within a mile: look from outside or in the mirrors. Lamp: lit "
        "in the cab by the towed car's own brake. Brake: the trailer's, by the hand lever of the controller.",
    ),
    ProcedureLine(
        with_number("Brake at {}", "service brake speed"),
        "STRAIGHT",
        "moving",
        consequence="do not move",
        reason="A pull to one side is a brake that does not work, or a tire that is low.",
        source="W39",
    ),
    ProcedureLine(
        "Battery terminals, grounds",
        "CLEAN, TIGHT",
        "season",
        reason="Chassis and house: most electrical trouble is corrosion or a bad ground.",
    ),
    ProcedureLine("Belts, hoses, cold fluids", "NO CRACK, AT MARK", "season"),
)
