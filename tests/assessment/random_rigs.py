"""Made-up rigs of every kind from a few drawn numbers, in pounds, inches and psi."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from hypothesis import strategies as st

from binder.assessment.assess import assess
from binder.assessment.entries.contradictions import refuse_contradictions
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from binder.models.trip import Trip
from tests.by_key import ByKey

PRESSURES = tuple(range(60, 125, 5))
WATER = 8.33


@dataclass(frozen=True)
class AxleMade:
    """One axle: where it is, its ends on the scale, its tires' strength at 120 psi, its rating and label."""

    at: float
    left: float
    right: float
    strength: float
    rating: float
    label: float
    duals: bool = False
    ends_read: bool = True
    carries: str | None = None

    @property
    def load(self) -> float:
        return self.left + self.right

    @property
    def tires_each_end(self) -> int:
        return 2 if self.duals else 1

    def rows(self) -> dict[int, float]:
        """Its load table; what a pair's tire carries is 90 % of a single one's."""
        share = 0.9 if self.duals else 1.0
        return {p: round(self.strength * share * (p / 120) ** 0.7, 1) for p in PRESSURES}


@dataclass(frozen=True)
class Thing:
    """Water, a person or cargo; ``at`` None where nobody has noted its place."""

    weight: float
    at: float | None
    left: float | None = 0.0


@dataclass(frozen=True)
class VehicleMade:
    """One vehicle with one tank, and what a trip puts into it; ``weighed`` is of a camper alone."""

    kind: str
    axles: tuple[AxleMade, ...] = ()
    tank: Thing = Thing(400.0, 20.0)
    gallons: float = 0.0
    cargo: tuple[Thing, ...] = ()
    weighed: float = 0.0
    center: float = 0.0

    @property
    def changes(self) -> tuple[Thing, ...]:
        """What is aboard at departure and was not on the scale."""
        return (Thing(self.gallons * WATER, self.tank.at, self.tank.left), *self.cargo)

    @property
    def on_the_scale(self) -> float:
        return self.weighed + sum(axle.load for axle in self.axles)


@dataclass(frozen=True)
class JoinMade:
    """What joins a vehicle to the one ahead or beneath: where, its weight, what it presses down, its bars."""

    ahead: str
    behind: str
    how: str
    at: float
    at_behind: float = 0.0
    down: float = 0.0
    weight: float = 0.0
    couple: float = 0.0


@dataclass(frozen=True)
class RigMade:
    """A rig, its ticket with every vehicle apart, and a trip of one day."""

    vehicles: dict[str, VehicleMade]
    joins: tuple[JoinMade, ...] = ()
    units: str = "us"
    basis: str = "weighed"
    wheel: float = 120.0
    more: dict[str, Any] = field(default_factory=dict)

    def changed(self, vehicle: str, change: Callable[[VehicleMade], VehicleMade]) -> "RigMade":
        return replace(self, vehicles=self.vehicles | {vehicle: change(self.vehicles[vehicle])})

    def with_cargo(self, vehicle: str, thing: Thing) -> "RigMade":
        return self.changed(vehicle, lambda one: replace(one, cargo=(*one.cargo, thing)))

    def assessed(self) -> ByKey:
        profile = Profile(
            "made-up",
            Rig.model_validate(self._rig()),
            Located("rig.yaml", ""),
            Trip.model_validate(self._trip()),
            Located("trip.yaml", ""),
            "trip",
        )
        refuse_contradictions(profile)
        return ByKey(assess(profile, date(2026, 6, 1)))

    def _rig(self) -> dict[str, Any]:
        found = {name: _vehicle(name, one) for name, one in self.vehicles.items()}
        tires = {
            _tires_name(name, number): _tires(one.kind, axle)
            for name, one in self.vehicles.items()
            for number, axle in enumerate(one.axles)
        }
        wheel = {
            "maximum_load": "12000 lb",
            "maximum_pressure": f"{self.wheel} psi",
            "valve_maximum_pressure": "150 psi",
        }
        return {
            "name": "Made up",
            "units": self.units,
            "paper": "letter" if self.units == "us" else "a4",
            "basis": self.basis,
            "vehicles": found,
            "couplings": [_join(one) for one in self.joins],
            "tires": tires,
            "wheels": {"wheels": wheel},
            "scale_tickets": [_ticket(name, one) for name, one in self.vehicles.items()],
        }

    def _trip(self) -> dict[str, Any]:
        cargo = [
            {"what": "thing", "in": name} | _placed(thing)
            for name, one in self.vehicles.items()
            for thing in one.cargo
        ]
        levels = {name: {"fresh": f"{one.gallons} gal"} for name, one in self.vehicles.items()}
        stop = {"place": "Camp", "elevation": "6240 ft"}
        night = {"low": "24 degF", "high": "60 degF"}
        days = [{"leave": "2026-06-01 09:00", "legs": [{"to": stop}], "night": night}]
        return {"name": "Trip", "cargo": cargo, "levels_at_start": levels, "days": days}


def _vehicle(name: str, made: VehicleMade) -> dict[str, Any]:
    axles = {f"axle {number}": _axle(name, number, made) for number in range(len(made.axles))}
    tank = {"holds": "fresh water", "capacity": f"{round(made.tank.weight / WATER, 1)} gal"}
    vehicle = {
        "kind": made.kind,
        "size": {"front_overhang": "300 in", "rear_overhang": "400 in"},
        "axles": axles,
        "tanks": {"fresh": tank | {"at": f"{made.tank.at} in", "left": f"{made.tank.left} in"}},
    }
    if made.kind == "camper":
        vehicle["center_of_gravity"] = {"at": f"{made.center} in", "left": "0 in"}
    return vehicle


def _axle(name: str, number: int, made: VehicleMade) -> dict[str, Any]:
    axle = made.axles[number]
    found = {
        "at": f"{axle.at} in",
        "track": "74 in",
        "fitment": "dual" if axle.duals else "single",
        "rating": f"{axle.rating} lb",
        "label_pressure": f"{axle.label} psi",
        "tires": _tires_name(name, number),
        "wheels": "wheels",
    }
    found |= {"equalized": "true"} if made.kind == "trailer" else {}
    return found | ({"carries": axle.carries} if axle.carries else {})


def _tires_name(vehicle: str, number: int) -> str:
    return f"{vehicle} {number}"


def _tires(kind: str, axle: AxleMade) -> dict[str, Any]:
    family = {"car": "passenger", "trailer": "special trailer", "dolly": "special trailer"}.get(kind, "truck")
    rows = {f"{pressure} psi": f"{load} lb" for pressure, load in axle.rows().items()}
    table: dict[str, Any] = {"basis": "per tire", "from": "made up"}
    return {
        "size": "made up",
        "family": family,
        "sidewall": {"maximum_load_single": f"{axle.strength} lb", "maximum_pressure": "120 psi"},
        "table": table | {"dual" if axle.duals else "single": rows},
    }


def _placed(thing: Thing) -> dict[str, Any]:
    places = {"at": thing.at, "left": thing.left}
    found = {name: f"{place} in" for name, place in places.items() if place is not None}
    return {"weight": f"{thing.weight} lb"} | found


def _join(made: JoinMade) -> dict[str, Any]:
    found: dict[str, Any] = {"ahead": made.ahead, "behind": made.behind, "how": made.how}
    found |= {"at": f"{made.at} in", "weight": f"{made.weight} lb"}
    if made.at_behind:
        found |= {"at_behind": f"{made.at_behind} in", "down_load": f"{made.down} lb"}
    return found | ({"distribution": {"couple": f"{made.couple} lb*in"}} if made.couple else {})


def _ticket(name: str, made: VehicleMade) -> dict[str, Any]:
    weights: dict[str, Any] = {
        f"axle {number}": (
            {"left": f"{axle.left} lb", "right": f"{axle.right} lb"}
            if axle.ends_read
            else {"axle": f"{axle.load} lb"}
        )
        for number, axle in enumerate(made.axles)
    }
    weights |= {} if made.axles else {"total": f"{made.weighed} lb"}
    return {
        "on": "2026-03-30",
        "weights": {name: weights},
        "aboard": [],
        "levels": {name: {"fresh": "empty"}},
        "state": {"slides": "in", "ride_height": "true", "coupled": "false"},
    }


# What is drawn.

sides = st.integers(-30, 30).map(float)


@st.composite
def _axles(draw: st.DrawFn, /, at: float, loads: tuple[int, int], **fixed: Any) -> AxleMade:
    half = draw(st.integers(*loads)) / 2
    skew = round(draw(st.integers(-8, 8)) / 100 * half, 1)
    duals = bool(fixed.get("duals"))
    strength = half / (2 if duals else 1) * draw(st.integers(105, 190)) / 100
    rating = round(2 * half * draw(st.integers(100, 150)) / 100, 1)
    label = float(draw(st.integers(60, 115)))
    made = AxleMade(at, half + skew, half - skew, round(strength, 1), rating, label)
    return replace(made, ends_read=draw(st.booleans()), **fixed)


@st.composite
def _loaded(draw: st.DrawFn, vehicle: VehicleMade, span: tuple[float, float]) -> VehicleMade:
    places = st.integers(*(round(end) for end in span)).map(float)
    cargo = st.builds(Thing, st.integers(0, 400).map(float), st.none() | places, st.none() | sides)
    return replace(
        vehicle,
        tank=Thing(float(draw(st.integers(80, 900))), draw(places), draw(sides)),
        gallons=float(draw(st.integers(0, 9))),
        cargo=tuple(draw(st.lists(cargo, max_size=2))),
    )


@st.composite
def _driven(draw: st.DrawFn, kind: str, tag: str | None = None) -> VehicleMade:
    wheelbase = float(draw(st.integers(140, 280)))
    front = draw(_axles(0.0, (2500, 6000)))
    rear = draw(_axles(wheelbase, (3000, 12000), duals=kind == "motorhome"))
    axles: tuple[AxleMade, ...] = (front, rear)
    if tag is not None:
        carries = {"air": "air", "share": f"{draw(st.integers(15, 45))} %"}.get(tag)
        axles = (*axles, draw(_axles(wheelbase + 48, (2000, 6000), carries=carries)))
    return draw(_loaded(VehicleMade(kind, axles), (-60, axles[-1].at + 90)))


@st.composite
def _trailer(draw: st.DrawFn, count: int, loads: tuple[int, int] = (1500, 4000)) -> VehicleMade:
    axles = tuple(draw(_axles(34.0 * number, loads)) for number in range(count))
    return draw(_loaded(VehicleMade("trailer", axles), (-120, axles[-1].at + 80)))


def _car(draw: st.DrawFn) -> VehicleMade:
    axles = (draw(_axles(0.0, (1400, 2400))), draw(_axles(106.0, (900, 1800))))
    return draw(_loaded(VehicleMade("car", axles), (0, 120)))


def _behind(vehicle: VehicleMade, more: float) -> float:
    return vehicle.axles[-1].at + more


@st.composite
def rigs(draw: st.DrawFn, kind: str) -> RigMade:
    """A rig of one of ``KINDS``."""
    made = _KINDS[kind](draw)
    return replace(
        made,
        units=draw(st.sampled_from(["us", "metric"])),
        basis=draw(st.sampled_from(["weighed", "label"])),
        wheel=float(draw(st.integers(90, 125))),
    )


def _alone(draw: st.DrawFn) -> RigMade:
    return RigMade({"coach": draw(_driven("motorhome"))})


def _tag(draw: st.DrawFn) -> RigMade:
    return RigMade({"coach": draw(_driven("motorhome", draw(st.sampled_from(["air", "share", "unknown"]))))})


def _tow_bar(draw: st.DrawFn) -> RigMade:
    coach = draw(_driven("motorhome"))
    join = JoinMade("coach", "car", "tow bar", _behind(coach, 110), weight=float(draw(st.integers(0, 90))))
    return RigMade({"coach": coach, "car": _car(draw)}, (join,))


def _dolly(draw: st.DrawFn) -> RigMade:
    coach = draw(_driven("motorhome"))
    dolly = VehicleMade("dolly", (draw(_axles(0.0, (500, 900))),), tank=Thing(1.0, 0.0))
    strong = replace(dolly.axles[0], strength=2400.0, rating=4200.0)
    ball = JoinMade("coach", "dolly", "ball", _behind(coach, 110), -90.0, float(draw(st.integers(30, 120))))
    on_it = JoinMade("dolly", "car", "dolly", float(draw(st.integers(-6, 4))))
    vehicles = {"coach": coach, "dolly": replace(dolly, axles=(strong,)), "car": _car(draw)}
    return RigMade(vehicles, (ball, on_it))


def _car_on_trailer(draw: st.DrawFn) -> RigMade:
    coach, trailer = draw(_driven("motorhome")), draw(_trailer(2, (500, 1200)))
    strong = tuple(replace(axle, strength=2540.0, rating=3500.0) for axle in trailer.axles)
    ball = JoinMade(
        "coach", "trailer", "ball", _behind(coach, 110), -150.0, float(draw(st.integers(80, 400)))
    )
    carried = JoinMade("trailer", "car", "carried", float(draw(st.integers(-70, -20))))
    vehicles = {"coach": coach, "trailer": replace(trailer, axles=strong), "car": _car(draw)}
    return RigMade(vehicles, (ball, carried))


def _ball(draw: st.DrawFn) -> RigMade:
    truck, trailer = draw(_driven("pickup")), draw(_trailer(draw(st.integers(1, 3))))
    join = JoinMade(
        "truck", "trailer", "ball", _behind(truck, 66), -200.0, float(draw(st.integers(300, 900)))
    )
    return RigMade({"truck": truck, "trailer": trailer}, (join,))


def _bars(draw: st.DrawFn) -> RigMade:
    made = _ball(draw)
    return replace(made, joins=(replace(made.joins[0], couple=float(draw(st.integers(5000, 30000)))),))


def _fifth_wheel(draw: st.DrawFn) -> RigMade:
    truck, trailer = draw(_driven("pickup")), draw(_trailer(draw(st.integers(2, 3)), (3000, 6000)))
    down = float(draw(st.integers(1200, 3000)))
    join = JoinMade("truck", "trailer", "fifth wheel", _behind(truck, -3), -230.0, down)
    return RigMade({"truck": truck, "trailer": trailer}, (join,))


def _camper(draw: st.DrawFn) -> RigMade:
    truck = draw(_driven("pickup"))
    weighed, center = float(draw(st.integers(1200, 4000))), float(draw(st.integers(30, 60)))
    camper = draw(_loaded(VehicleMade("camper", weighed=weighed, center=center), (-60, 120)))
    join = JoinMade("truck", "camper", "carried", _behind(truck, -55), weight=60.0)
    return RigMade({"truck": truck, "camper": camper}, (join,))


def _camper_and_trailer(draw: st.DrawFn) -> RigMade:
    made, trailer = _camper(draw), draw(_trailer(1))
    ball = JoinMade("truck", "trailer", "ball", _behind(made.vehicles["truck"], 80), -140.0, 250.0)
    return RigMade(made.vehicles | {"trailer": trailer}, (*made.joins, ball))


_KINDS: dict[str, Callable[[st.DrawFn], RigMade]] = {
    "motorhome": _alone,
    "motorhome with a tag axle": _tag,
    "car on its wheels": _tow_bar,
    "car on a dolly": _dolly,
    "car on a trailer": _car_on_trailer,
    "travel trailer": _ball,
    "travel trailer with bars": _bars,
    "fifth wheel": _fifth_wheel,
    "slide-in camper": _camper,
    "slide-in camper and a trailer": _camper_and_trailer,
}
KINDS = tuple(_KINDS)
