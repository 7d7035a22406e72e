"""Rigs of every kind made up from a seed, as the text a person would write: long names, many stops, blanks.

Nothing of them is real. The same seed gives the same rig on every machine.
"""

from pathlib import Path
from random import Random
from typing import Any

import yaml

from tests.unknown.made_up_trips import Data, made_up_trip, rear_of

KINDS = ("motorhome", "motorhome with car", "pickup with trailer", "fifth wheel", "camper")
NAMES = (
    "Lark",
    "Grandmother's summer house on ten wheels",
    "Błękitny Żuraw",
    "Šťastný kůň",
    "Ταξιδιώτης",
    "Странник",
    "Gezgin Çiğdem",
    "Đường xa 2",
    "car no.2",
    "A",
)
LONG_NAME = "rearmost axle, under the bedroom, with drums"[:43]
"""As long a name as somebody gave an axle."""

TABLE_STARTS = {"truck": 4500, "light truck": 2030, "special trailer": 1760, "passenger": 1100}
_BLANK = 0.06
"""How often an optional entry is left out."""

_BLOCKS = frozenset(
    ("size", "label", "equipment", "night", "use", "rules", "sidewall", "parts", "generator", "state")
)
"""Blocks that are left out whole as often, a vehicle's sizes among them."""


def made_up(seed: int, kind: str | None = None) -> tuple[Data, Data]:
    """The rig's file and the plan of one made-up rig, as plain data."""
    draw = Random(seed)  # noqa: S311 - examples, no secrets.
    kind = kind or KINDS[seed % len(KINDS)]
    rig = _rig(draw, kind)
    return _with_blanks(rig, draw), _with_blanks(made_up_trip(draw, rig), draw)


def written(folder: Path, rig: Data, trip: Data) -> Path:
    """Write a rig's folder as the product reads it."""
    (folder / "trips").mkdir(parents=True, exist_ok=True)
    for file, data in ((folder / "rig.yaml", rig), (folder / "trips" / "trip.yaml", trip)):
        file.write_text(yaml.safe_dump(data, sort_keys=False, allow_unicode=True, width=1000), "utf-8")
    return folder


def _rig(draw: Random, kind: str) -> Data:
    units = draw.choice(("us", "metric"))
    drives = {"motorhome": "motorhome", "motorhome with car": "motorhome"}.get(kind, "pickup")
    vehicles = {draw.choice(("coach", "truck", *NAMES[:8])): _vehicle(draw, drives)}
    ahead = next(iter(vehicles))
    couplings: list[Data] = []
    behind = {
        "motorhome with car": "car",
        "pickup with trailer": "trailer",
        "fifth wheel": "trailer",
        "camper": "camper",
    }
    if kind in behind:
        name = draw.choice([name for name in ("behind", "the other one", *NAMES) if name != ahead])
        vehicles[name] = _vehicle(draw, behind[kind])
        couplings.append(_coupling(draw, kind, ahead, name, rear_of(vehicles[ahead])))
    rig: Data = {
        "name": draw.choice(NAMES),
        "units": units,
        "paper": draw.choice(("letter", "a4")),
        "log": draw.choice((None, "https://log.example.org/x")),
        "basis": draw.choice(("weighed", "label")),
        "vehicles": vehicles,
        "couplings": couplings,
        "tires": {},
        "wheels": {"wheels": _wheels(draw)},
        "scale_tickets": [],
        "people": draw.randint(1, 6),
    }
    for name, vehicle in vehicles.items():
        for axle_name, axle in vehicle.get("axles", {}).items():
            family = {"car": "passenger", "trailer": "special trailer", "pickup": "light truck"}.get(
                vehicle["kind"], draw.choice(("truck", "light truck"))
            )
            axle |= {"tires": f"{name} {axle_name}", "wheels": "wheels"}
            rig["tires"][f"{name} {axle_name}"] = _tires(draw, family, axle_name, axle)
    if draw.random() < 0.8:
        rig["scale_tickets"] = [_ticket(draw, vehicles)]
    return rig | (_service(ahead) if draw.random() < 0.6 else {})


def _service(ahead: str) -> Data:
    return {
        "service": [
            {
                "what": "engine oil and filter",
                "every": ["12 months", "15000 mi"],
                "last": {"on": "2025-11-02", "at": "31200 mi"},
                "in": ahead,
            },
            {"what": "wheel bearings greased", "every": ["12 months"], "last": {"on": "2024-03-01"}},
        ],
        "readings": [{"on": "2026-05-20", "in": ahead, "odometer": "33400 mi"}],
        "spares": [{"what": "drive belt", "quantity": "1", "place": "left bay"}, "coolant hose"],
    }


def _axles(draw: Random, kind: str) -> Data:
    count = {
        "motorhome": draw.choice((2, 2, 3, 5)),
        "pickup": 2,
        "car": 2,
        "trailer": draw.choice((1, 2, 2, 3, 4, 5)),
        "camper": 0,
    }[kind]
    axles: Data = {}
    at = 0
    for number in range(count):
        heavy = {"motorhome": 11000, "pickup": 5200, "car": 2400, "trailer": 5500}.get(kind, 0)
        dual = kind == "motorhome" and number == 1
        name = (
            ("steer", "drive", "tag", "second tag", "third tag")[number]
            if kind == "motorhome"
            else draw.choice(
                (f"axle {number + 1}", f"{('front', 'rear', 'third', 'fourth', 'fifth')[number]}", LONG_NAME)
            )
        )
        while name in axles:
            name += " too"
        axles[name] = {
            "at": f"{at} in",
            "track": f"{draw.randint(62, 84)} in",
            "fitment": "dual" if dual else "single",
            "rating": f"{heavy * (2 if dual else 1) + 100 * draw.randint(-8, 8)} lb",
            "label_pressure": f"{draw.choice((35, 50, 65, 80, 95, 110))} psi",
        }
        if kind == "trailer":
            axles[name]["equalized"] = "true"
        if name.endswith("tag"):
            axles[name]["carries"] = draw.choice(("air", "30 %"))
        at += {"motorhome": 240 if number == 0 else 48, "pickup": 160, "car": 106, "trailer": 34}.get(kind, 0)
    return axles


def _vehicle(draw: Random, kind: str) -> Data:
    axles = _axles(draw, kind)
    rating = sum(int(axle["rating"].split()[0]) for axle in axles.values()) or 3000
    span = int(list(axles.values())[-1]["at"].split()[0]) if axles else 0
    front, rear = draw.randint(25, 60), draw.randint(40, 120)
    vehicle: Data = {
        "kind": kind,
        "label": {
            "gross_vehicle_weight_rating": f"{rating - 200} lb",
            "gross_combination_weight_rating": f"{rating + 9000} lb",
        },
        "size": {
            "overall_length": f"{front + span + rear} in",
            "overall_width": f"{draw.randint(70, 102)} in",
            "overall_height": f"{draw.randint(66, 160)} in",
            "height_measured": {"on": "2026-03-01", "state": "ride height", "highest": "air conditioner"},
            "rear_overhang": f"{rear} in",
            "front_overhang": f"{front} in",
            "wheel_cut": f"{draw.randint(30, 55)} deg",
        },
        "axles": axles,
    }
    fitted = _fittings(draw, kind, span)
    chance = Random(f"{kind} {span} {front} {rear}")  # noqa: S311 - its own, so that no seed's rig changes.
    vehicle["size"] |= {f"{end}_clearance": f"{chance.randint(4, 30)} in" for end in ("front", "rear")}
    if kind in {"motorhome", "pickup"}:
        fitted["transmission"] = {"tow_with_wheels_down": chance.choice(("", "no", "no: shaft out", "yes"))}
    return vehicle | fitted | {"equipment": fitted.get("equipment", {}) | _for_strangers(chance, span)}


def _for_strangers(chance: Random, span: int) -> Data:
    """Points that a wrecker's driver asks for, in any place and any number, and a fire's exits."""

    def spots(most: int, *sides: str) -> list[Data | str]:
        return [
            {"place": LONG_NAME, "at": f"{chance.randint(-60, span + 90)} in", "side": chance.choice(sides)}
            for _ in range(chance.randint(0, most))
        ]

    return {
        "jacking points": ["frame", *spots(4, "both", "left")],
        "tow eyes": spots(2, "both", "front", "rear"),
        "exits": ["entry door", *spots(4, "left", "right", "rear")],
    }


def _fittings(draw: Random, kind: str, span: int) -> Data:
    vehicle: Data = {}
    if kind == "camper":
        vehicle["center_of_gravity"] = {"at": "60 in", "left": "0 in"}
    if kind in {"motorhome", "pickup"}:
        fuel = draw.choice(("diesel", "gasoline"))
        vehicle["brakes"] = {
            "service": draw.choice(("air", "hydraulic")) if kind == "motorhome" else "hydraulic"
        }
        vehicle["tanks"] = {"fuel": _tank(draw, fuel, 60, span)}
        if fuel == "diesel":
            vehicle["tanks"]["exhaust fluid"] = _tank(draw, "exhaust fluid", 10, span)
    if kind in {"motorhome", "trailer", "camper"}:
        vehicle |= {"tanks": vehicle.get("tanks", {}) | _house_tanks(draw, span)} | _house(draw)
    if kind == "car":
        vehicle["towing"] = {
            "as_its_maker_says": ["Ignition on", "Selector in neutral"],
            "supplemental_brake": "true",
            "breakaway": "true",
        }
    if kind == "trailer":
        vehicle["brakes"] = {"service": "electric"}
        vehicle["towing"] = {"breakaway": draw.choice(("true", "false"))}
    return vehicle


def _house_tanks(draw: Random, span: int) -> Data:
    sizes = (("fresh", "fresh water", 60), ("gray", "gray water", 45), ("black", "black water", 35))
    return {
        words: _tank(draw, holds, size, span) for words, holds, size in (*sizes, ("propane", "propane", 20))
    }


def _house(draw: Random) -> Data:
    return {
        "batteries": {
            "house": {
                "count": "2",
                "voltage": "12 V",
                "chemistry": draw.choice(("lead-acid", "lithium iron phosphate")),
                "total": "400 Ah",
            }
        },
        "generator": {
            "power": "5 kW",
            "use": "0.5 gal/h",
            "use_at_full_load": "0.9 gal/h",
            "cut_off": "1/4",
        },
        "equipment": {
            "slide": ["left"],
            "awning": ["right"],
            "burners": ["galley"],
            "tire monitor": {"closest_low_alarm": "15 %"},
            "chocks": "4",
            "extinguishers": draw.choice((["entry door"], [{"place": "galley", "type": "ABC 5 lb"}], "none")),
            "shut offs": [{"stops": "propane", "place": "bay behind the door", "how": "clockwise"}],
        },
    }


def _tank(draw: Random, holds: str, gallons: int, span: int) -> Data:
    return {
        "holds": holds,
        "capacity": f"{gallons + draw.randint(-5, 40)} gal",
        "at": f"{draw.randint(0, span + 20)} in",
        "left": f"{draw.randint(-30, 30)} in",
    }


def _tires(draw: Random, family: str, axle_name: str, axle: Data) -> Data:
    start = TABLE_STARTS[family]
    low, top = {
        "truck": (70, 120),
        "light truck": (35, 80),
        "special trailer": (35, 80),
        "passenger": (26, 44),
    }[family]
    step = 5 if family != "passenger" else 3
    rows = {f"{p} psi": f"{round(start * (p / low) ** 0.7)} lb" for p in range(low, top + 1, step)}
    duals = {f"{p} psi": f"{round(0.9 * start * (p / low) ** 0.7)} lb" for p in range(low, top + 1, step)}
    strongest, weakest = list(rows.values())[-1], list(duals.values())[-1]
    code = draw.choice(("1423", "0822", "2221", "", "9", "3325"))
    ends = (
        ("left outer", "left inner", "right inner", "right outer")
        if axle["fitment"] == "dual"
        else ("left", "right")
    )
    tires: Data = {
        "size": draw.choice(("295/75R22.5", "LT235/85R16", "ST225/75R15", "205/60R16")),
        "load_range": draw.choice("CDEGH"),
        "family": family,
        "sidewall": {
            "maximum_load_single": strongest,
            "maximum_load_dual": weakest,
            "maximum_pressure": list(rows)[-1],
        },
        "mounted": {
            f"{axle_name} {end}": {"date_code": code, "tread": f"{draw.randint(1, 14)}/32 in"} for end in ends
        },
    }
    if draw.random() < 0.75:
        tires["table"] = {"basis": "per tire", "from": "made up", "single": rows, "dual": duals}
    return tires


def _wheels(draw: Random) -> Data:
    return {
        "maximum_load": f"{draw.randint(30, 80) * 100} lb",
        "maximum_pressure": f"{draw.choice((80, 110, 120))} psi",
        "valve_maximum_pressure": f"{draw.choice((65, 80, 200))} psi",
        "nut_torque": "450 ft*lb",
    }


def _coupling(draw: Random, kind: str, ahead: str, behind: str, rear: int) -> Data:
    how = {
        "motorhome with car": "tow bar",
        "pickup with trailer": "ball",
        "fifth wheel": "fifth wheel",
        "camper": "carried",
    }[kind]
    at = f"{min(draw.randint(20, 300), rear)} in"
    coupling: Data = {"ahead": ahead, "behind": behind, "how": how, "at": at}
    if how == "carried":
        return coupling
    down = 0 if how == "tow bar" else draw.randint(3, 20) * 100
    coupling |= {"at_behind": f"{-draw.randint(60, 260)} in", "down_load": f"{down} lb", "weight": "60 lb"}
    parts = {
        "tow bar": ("receiver", "tow bar", "base plate"),
        "ball": ("receiver", "ball mount"),
        "fifth wheel": ("head", "rails"),
    }[how]
    return coupling | {
        "parts": {
            part: {"towed": f"{draw.randint(40, 200) * 100} lb", "down": f"{draw.randint(5, 50) * 100} lb"}
            for part in parts
        }
    }


def _ticket(draw: Random, vehicles: Data) -> Data:
    weights: Data = {}
    levels: Data = {}
    for name, vehicle in vehicles.items():
        share = draw.choice((draw.uniform(0.5, 0.95), draw.uniform(0.5, 0.95), draw.uniform(0.95, 3)))
        found: Data = {}
        for axle, entry in vehicle["axles"].items():
            load = int(entry["rating"].split()[0]) * share
            left = load * draw.uniform(0.46, 0.54)
            found[axle] = (
                {"left": f"{left:.0f} lb", "right": f"{load - left:.0f} lb"}
                if draw.random() < 0.5
                else {"axle": f"{load:.0f} lb"}
            )
        weights[name] = found or {"total": "2400 lb"}
        levels[name] = {
            words: draw.choice(("full", "1/2", "empty", "2 gal")) for words in vehicle.get("tanks", {})
        }
    return {
        "on": draw.choice(("2026-04-02", "2024-01-15")),
        "weights": weights,
        "levels": {name: inner for name, inner in levels.items() if inner},
        "aboard": [{"what": "two people", "weight": "340 lb", "at": "10 in", "in": next(iter(vehicles))}],
        "state": {"slides": "in", "ride_height": "true", "coupled": draw.choice(("true", "false"))},
    }


_NEEDED = frozenset(
    (
        *("name", "units", "paper", "kind", "at", "fitment", "holds", "basis", "from"),
        *("ahead", "behind", "how", "on", "place", "leave", "what", "who", "in", "to", "tires", "wheels"),
    )
)


def _with_blanks(data: Any, draw: Random, key: str = "") -> Any:
    """The same data with some entries left out, as by a person who did not know them."""
    if isinstance(data, dict):
        return {
            name: _with_blanks(value, draw, name)
            for name, value in data.items()
            if _is_kept(name, value) or draw.random() > _BLANK
        }
    if isinstance(data, list):
        return [_with_blanks(value, draw, key) for value in data]
    return data


def _is_kept(name: str, value: Any) -> bool:
    if isinstance(value, dict):
        return name not in _BLOCKS
    return isinstance(value, list) or name in _NEEDED
