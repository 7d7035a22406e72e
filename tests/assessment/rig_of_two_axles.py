"""A made-up motorhome of two axles, alone or with a trailer, from a few numbers in pounds and inches."""

from dataclasses import dataclass, field
from datetime import date
from typing import Any

from binder.assessment.assess import assess
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from binder.models.trip import Trip
from tests.by_key import ByKey

SINGLE = {
    "70 psi": "4500 lb",
    "75 psi": "4720 lb",
    "80 psi": "4940 lb",
    "85 psi": "5155 lb",
    "90 psi": "5365 lb",
    "95 psi": "5570 lb",
    "100 psi": "5775 lb",
    "105 psi": "5975 lb",
    "110 psi": "6175 lb",
}
DUAL_LOADS = (4135, 4340, 4540, 4735, 4930, 5120, 5305, 5490, 5675)
DUAL = {pressure: f"{load} lb" for pressure, load in zip(SINGLE, DUAL_LOADS, strict=True)}
TIRES: dict[str, Any] = {
    "size": "295/75R22.5",
    "load_range": "G",
    "family": "truck",
    "sidewall": {
        "maximum_load_single": "6175 lb",
        "maximum_load_dual": "5675 lb",
        "maximum_pressure": "110 psi",
    },
    "table": {"basis": "per tire", "from": "made up", "single": SINGLE, "dual": DUAL},
}
WHEELS = {"maximum_load": "7400 lb", "maximum_pressure": "120 psi"}
TRACKS = {"steer": 83.0, "drive": 76.0}


@dataclass(frozen=True)
class Placed:
    """A weight at a place; across, positive to the left."""

    weight: float
    at: float
    left: float = 0.0


@dataclass(frozen=True)
class Ends:
    """What the scale said of an axle."""

    left: float
    right: float


@dataclass(frozen=True)
class Coach:
    """The rig as weighed, empty tank and nobody aboard, and what a trip adds to it."""

    wheelbase: float = 252.0
    steer: Ends = Ends(4900.0, 4800.0)
    drive: Ends = Ends(7900.0, 7700.0)
    tank_at: float = 196.0
    tank_left: float = 0.0
    gallons: float = 0.0
    cargo: tuple[Placed, ...] = ()
    bar: Placed | None = None
    trailer: dict[str, Any] | None = None
    low: float = 24.0
    basis: str = "weighed"
    labels: tuple[float, float] = (80.0, 80.0)
    valve: float = 120.0
    more: dict[str, Any] = field(default_factory=dict)

    def assessed(self) -> ByKey:
        profile = Profile(
            "made-up",
            Rig.model_validate(self._rig()),
            Located("rig.yaml", ""),
            Trip.model_validate(self._trip()),
            Located("trip.yaml", ""),
            "trip",
        )
        return ByKey(assess(profile, date(2026, 6, 1)))

    def _axle(self, at: float, fitment: str, label: float) -> dict[str, Any]:
        name = "steer" if fitment == "single" else "drive"
        return {
            "at": f"{at} in",
            "track": f"{TRACKS[name]} in",
            "fitment": fitment,
            "rating": "12000 lb" if name == "steer" else "22000 lb",
            "label_pressure": f"{label} psi",
            "label_tires": "295/75R22.5 G",
            "tires": "tires",
            "wheels": "wheels",
        }

    def _rig(self) -> dict[str, Any]:
        tank = {"holds": "fresh water", "capacity": "400 gal"}
        tank |= {"at": f"{self.tank_at} in", "left": f"{self.tank_left} in"}
        coach = {
            "kind": "motorhome",
            "axles": {
                "steer": self._axle(0, "single", self.labels[0]),
                "drive": self._axle(self.wheelbase, "dual", self.labels[1]),
            },
            "tanks": {"fresh": tank},
        }
        ends = {"steer": self.steer, "drive": self.drive}
        weights = {
            name: {"left": f"{axle.left} lb", "right": f"{axle.right} lb"} for name, axle in ends.items()
        }
        vehicles: dict[str, Any] = {"coach": coach}
        couplings = []
        if self.bar is not None:
            vehicles["car"] = {"kind": "car", "axles": {"front": {"at": "0 in", "fitment": "single"}}}
            couplings = [self._coupling("car", "tow bar", self.bar)]
        if self.trailer is not None:
            vehicles["trailer"] = self.trailer["vehicle"]
            couplings = [self.trailer["coupling"]]
        tickets = [self._ticket("coach", weights, {"coach": {"fresh": "empty"}})]
        tickets += self.trailer["tickets"] if self.trailer else []
        return {
            "name": "Made up",
            "units": "us",
            "paper": "letter",
            "basis": self.basis,
            "vehicles": vehicles,
            "couplings": couplings,
            "tires": {"tires": TIRES},
            "wheels": {"wheels": WHEELS | {"valve_maximum_pressure": f"{self.valve} psi"}},
            "scale_tickets": tickets,
        } | self.more

    @staticmethod
    def _ticket(vehicle: str, weights: dict[str, Any], levels: dict[str, Any]) -> dict[str, Any]:
        state = {"slides": "in", "ride_height": "true", "coupled": "false"}
        return {
            "on": "2026-03-30",
            "weights": {vehicle: weights},
            "aboard": [],
            "levels": levels,
            "state": state,
        }

    @staticmethod
    def _coupling(behind: str, how: str, part: Placed) -> dict[str, Any]:
        at, weight = f"{part.at} in", f"{part.weight} lb"
        return {"ahead": "coach", "behind": behind, "how": how, "at": at, "weight": weight}

    def _trip(self) -> dict[str, Any]:
        cargo = [
            {
                "what": f"thing {number}",
                "weight": f"{one.weight} lb",
                "at": f"{one.at} in",
                "left": f"{one.left} in",
                "in": "coach",
            }
            for number, one in enumerate(self.cargo)
        ]
        stop = {"place": "Camp", "elevation": "6240 ft"}
        night = {"low": f"{self.low} degF", "high": "60 degF"}
        return {
            "name": "Trip",
            "cargo": cargo,
            "levels_at_start": {"coach": {"fresh": f"{self.gallons} gal"}},
            "days": [{"leave": "2026-06-01 09:00", "legs": [{"to": stop}], "night": night}],
        }
