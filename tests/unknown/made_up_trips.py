"""Trips made up from a seed: up to seven days of six stops, with bridges, grades, limits and tunnels."""

from collections.abc import Callable
from random import Random
from typing import Any, TypeAlias

Data: TypeAlias = dict[str, Any]

PLACES = (
    "Alder Flat",
    "Saint Ursula at the Lower Crossing of the Cold River",
    "Žďár nad Sázavou",
    "Bø",
    "Quartz",
    "Camp of the Seven Very Old and Very Tall Trees",
)


def made_up_trip(draw: Random, rig: Data) -> Data:
    """The plan of one made-up trip with a rig."""
    first = next(iter(rig["vehicles"]))
    tanks = {name: list(vehicle.get("tanks", {})) for name, vehicle in rig["vehicles"].items()}
    fuel = rig["vehicles"][first]["tanks"]["fuel"]["holds"]
    days = _days(draw)
    return {
        "name": "Made-up trip",
        "crew": [
            {"who": "driver", "weight": "180 lb", "at": "5 in", "left": "20 in", "in": first},
            {"who": "co-driver", "weight": "150 lb", "at": "5 in", "in": first},
        ],
        "cargo": [
            {
                "what": "tools",
                "weight": f"{draw.randint(20, 300)} lb",
                "at": f"{min(120, rear_of(vehicle))} in",
                "left": "0 in",
                "in": name,
            }
            for name, vehicle in rig["vehicles"].items()
        ],
        "levels_at_start": {
            name: {words: draw.choice(("full", "1/2", "empty")) for words in words_}
            for name, words_ in tanks.items()
            if words_
        },
        "use": {
            "water": "12 gal/day",
            "propane": "0.8 gal/day",
            fuel: f"{draw.randint(6, 16)} mpg",
            "battery": "60 Ah/day",
        },
        "rules": {"longest_day": "6 h", "arrive_before": "sunset"},
        "days": days,
    }


def rear_of(vehicle: Data) -> int:
    """Inches from a vehicle's first axle to its rear: nothing of it or in it lies farther back."""
    axles = list(vehicle["axles"].values())
    inches = (axles[-1]["at"] if axles else "0 in", vehicle["size"]["rear_overhang"])
    return sum(int(one.split()[0]) for one in inches)


def _days(draw: Random) -> list[Data]:
    days: list[Data] = []
    for number in range(draw.choice((1, 2, 3, 7))):
        legs = [_leg(draw, number, leg) for leg in range(draw.choice((1, 2, 4, 6)))]
        day: Data = {
            "leave": f"2026-06-{number + 1:02d} 0{draw.randint(6, 9)}:{draw.choice(('00', '30'))}",
            "legs": legs,
        }
        day["night"] = {
            "hookups": draw.choice(("none", "electric", "full")),
            "low": f"{draw.randint(-5, 60)} degF",
            "high": f"{draw.randint(61, 100)} degF",
        }
        days.append(day)
    days[0]["from"] = {
        "place": "Home",
        "latitude": "44.1",
        "longitude": "-116.2",
        "elevation": "2100 ft",
        "time_zone": "America/Boise",
    }
    return days


def _leg(draw: Random, day: int, leg: int) -> Data:
    stop = {
        "place": draw.choice(PLACES),
        "latitude": f"{44.1 + 0.3 * day + 0.05 * leg:.2f}",
        "longitude": f"{-116.2 + 0.4 * day + 0.05 * leg:.2f}",
        "elevation": f"{draw.choice((-282, draw.randint(-282, 9000)))} ft",
        "time_zone": "America/Boise",
        "kind": draw.choice(("fuel", "rest", "site")),
        "stay": draw.choice(("15 min", "1 h", None)),
    }
    found: Data = {
        "distance": f"{draw.randint(20, 140)} mi",
        "driving": f"{draw.randint(30, 170)} min",
        "to": stop,
    }
    optional: dict[str, Callable[[], list[Data]]] = {
        "clearances": lambda: [
            {
                "what": f"bridge {n} at {draw.choice(PLACES)}",
                "posted": f"{draw.randint(11, 16)} ft {draw.randint(0, 11)} in",
            }
            for n in range(draw.randint(1, 3))
        ],
        "grades": lambda: [
            {
                "what": "Long Hill",
                "goes": draw.choice(("down", "up")),
                "length": "5 mi",
                "slope": "6 %",
                "begins_after": "4 mi",
                "top": f"{draw.randint(-200, 11000)} ft",
                "posted_truck_speed": "45 mph",
            }
        ],
        "limits": lambda: [{"what": "old bridge", "weight": f"{draw.randint(5, 40)}000 lb", "width": "9 ft"}],
        "tunnels": lambda: [{"what": "Long Tunnel", "propane": "valves shut"}],
    }
    return found | {name: make() for name, make in optional.items() if draw.random() < 0.4}
