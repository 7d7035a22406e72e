"""One axle's tires: everything the rules of inflation need, gathered from the profile and the loads."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, NamedTuple

from binder.assessment.ledger import Fact, Phrase, Place
from binder.assessment.tires import kinds
from binder.assessment.weights.loads import AxleLoad, StateLoads
from binder.assessment.weights.resting import carrying_coupling, rolling_axles
from binder.calculations.tires.limits import (
    Cap,
    LoadLimits,
    PressureLimits,
    derated_load,
    derated_table,
    is_derated,
    load_cap,
    load_over_cap,
    pressure_cap,
)
from binder.calculations.tires.load_tables import LoadRow, LoadTable, row_for, table_per_tire
from binder.calculations.tires.markings import Sameness, marking, sameness
from binder.models.equipment import TireMonitor
from binder.models.rig import Rig
from binder.models.tires import Tires, Wheels
from binder.models.vehicles import Axle, Vehicle
from binder.quantities import Quantity, number_in, registry

_STEP = {"us": registry.Quantity(1.0, "psi"), "metric": registry.Quantity(5.0, "kilopascal")}
# These come with a placard that their maker chose for every load the vehicle may carry.
_PLACARDED = {"car", "pickup"}
_TOWED_BODIES = {"trailer", "dolly"}
_NO_TIRES, _NO_WHEELS = Tires.blank(), Wheels.blank()


class Overload(NamedTuple):
    """By how much one tire is over its limit, and in which state; assumed where its kindest load is not."""

    state: StateLoads
    load: AxleLoad
    excess: Quantity
    is_assumed: bool


def _known_end(load: AxleLoad) -> Quantity | None:
    """What a wheel end carries at least: as weighed, or half of an axle that only was weighed whole."""
    if load.weighed == "ends":
        return load.end
    return load.load / 2 if load.weighed == "axle" and load.load is not None else None


@dataclass(frozen=True)
class TireAxle:
    """One axle, its tires, wheels and loads in every state."""

    rig: Rig
    vehicle_name: str
    axle_name: str
    states: tuple[StateLoads, ...]

    @property
    def subject(self) -> tuple[str, str]:
        """What its figures are of."""
        return self.vehicle_name, self.axle_name

    @property
    def fitted(self) -> dict[str, Fact]:
        """The names under which its tires and wheels are entered."""
        return {"tires": self.axle.tires or "NAME", "wheels": self.axle.wheels or "NAME"}

    def place(self, entry: str) -> Place:
        """Where an entry of the axle stands in the profile."""
        return Place("rig.yaml", ("vehicles", self.vehicle_name, "axles", self.axle_name, entry))

    @property
    def name(self) -> str:
        """The axle in words."""
        return f"{self.vehicle_name}, {self.axle_name}"

    @property
    def vehicle(self) -> Vehicle:
        """The vehicle it is under."""
        return self.rig.vehicles[self.vehicle_name]

    @property
    def axle(self) -> Axle:
        """The axle as the profile states it."""
        return self.vehicle.axles[self.axle_name]

    @property
    def tires(self) -> Tires:
        """Its tires; a blank record where the profile names none."""
        return self.rig.tires.get(self.axle.tires or "") or _NO_TIRES

    @property
    def wheels(self) -> Wheels:
        """Its wheels; a blank record where the profile names none."""
        return self.rig.wheels.get(self.axle.wheels or "") or _NO_WHEELS

    @property
    def is_dual(self) -> bool:
        """Two tires at each end."""
        return self.axle.fitment == "dual"

    @property
    def is_towed(self) -> bool:
        """The vehicle is behind another one."""
        return any(coupling.behind == self.vehicle_name for coupling in self.rig.couplings)

    @property
    def is_trailer(self) -> bool:
        """The vehicle is a trailer: never below its label, whatever is weighed."""
        return self.vehicle.kind in _TOWED_BODIES or bool(carrying_coupling(self.rig, self.vehicle_name))

    @property
    def has_placard(self) -> bool:
        """A car or pickup, whose placard serves every load within its ratings."""
        return self.vehicle.kind in _PLACARDED

    @property
    def is_steering(self) -> bool:
        """The first axle of a vehicle that is not a trailer."""
        return not self.is_trailer and self.axle_name == next(iter(self.vehicle.axles))

    @property
    def step(self) -> Quantity:
        """Step of the printed pressure."""
        return _STEP[self.rig.units]

    @cached_property
    def table(self) -> LoadTable | None:
        """The typed load table of this fitment, per tire; None where there is none."""
        return self.table_for(self.axle.fitment)

    def table_for(self, fitment: Literal["single", "dual"]) -> LoadTable | None:
        """Typed load table of a fitment, per tire."""
        typed = self.tires.table
        rows = (typed.dual if fitment == "dual" else typed.single) if typed else None
        if typed is None or not rows or self.is_table_of_another_size:
            return None
        typed_rows = [LoadRow(pressure, load) for pressure, load in rows.items()]
        table = table_per_tire(typed_rows, typed.basis, fitment)
        return derated_table(table) if self.is_derated else table

    @cached_property
    def is_table_of_another_size(self) -> bool:
        """The typed table says a size that the tires are not of: tires were changed and the table left."""
        table, tires = self.tires.table, self.tires
        return bool(table and table.size and sameness(table.size, tires.size, tires.load_range) == "another")

    @property
    def is_derated(self) -> bool:
        """Passenger tires under something else than a passenger car carry less (never twice)."""
        if self.vehicle.kind == "car":
            return False
        return is_derated(self.tires.family, "trailer, truck or multipurpose vehicle", is_placard=False)

    @property
    def stamped_load(self) -> Quantity | None:
        """What the sidewall says one tire carries in this fitment."""
        sidewall = self.tires.sidewall
        load = sidewall.maximum_load_dual if self.is_dual else sidewall.maximum_load_single
        return derated_load(load) if load is not None and self.is_derated else load

    @cached_property
    def cap(self) -> Cap:
        """Highest cold pressure that tire, wheel and valve allow."""
        top = self.table.rows[-1].pressure if self.table else None
        stamped = self.tires.sidewall.maximum_pressure
        wheels = self.wheels
        return pressure_cap(
            PressureLimits(top, stamped, wheels.maximum_pressure, wheels.valve_maximum_pressure)
        )

    @cached_property
    def load_limit(self) -> Cap:
        """Highest load on one tire that tire and wheel allow."""
        top = self.table.rows[-1].load if self.table else None
        return load_cap(LoadLimits(top, self.stamped_load, self.wheels.maximum_load))

    def loads(self) -> Iterator[tuple[StateLoads, AxleLoad]]:
        """Yield this axle's load in every state."""
        for state in self.states:
            yield state, state.vehicles[self.vehicle_name].axles[self.axle_name]

    @cached_property
    def heaviest(self) -> tuple[StateLoads, AxleLoad] | None:
        """State with the heaviest wheel end; None where an end is not known in some state."""
        return None if any(load.end is None for _, load in self.loads()) else self.heaviest_known

    @cached_property
    def heaviest_known(self) -> tuple[StateLoads, AxleLoad] | None:
        """State with the heaviest wheel end of those that are known: what the axle carries at least."""
        return max(
            ((state, load) for state, load in self.loads() if load.end is not None),
            key=lambda pair: number_in(pair[1].end, "pound") if pair[1].end is not None else 0.0,
            default=None,
        )

    @staticmethod
    def end_of(load: AxleLoad | None) -> Phrase:
        """The heavier end by its side, where it was weighed; else as the heavier one."""
        is_side = load is not None and load.side in {"left", "right"}
        return Phrase(kinds.SIDE_END, {"side": load.side}) if load and is_side else Phrase(kinds.HEAVIER_END)

    @cached_property
    def load_per_tire(self) -> Quantity | None:
        """Load on one tire of the heaviest wheel end of the trip."""
        return self.least_load_per_tire if self.heaviest else None

    @cached_property
    def least_load_per_tire(self) -> Quantity | None:
        """The same of the states in which it is known: no pressure is for less."""
        end = self.heaviest_known[1].end if self.heaviest_known else None
        return None if end is None else end / self.axle.tires_each_end

    @cached_property
    def is_weighed(self) -> bool:
        """In every state its load follows from a weighing; else it is taken at its rating there."""
        return self.heaviest is not None and all(load.weighed != "nothing" for _, load in self.loads())

    @cached_property
    def row_load(self) -> Quantity | None:
        """Load of the row that carries the heaviest tire; None without a table or over its last row."""
        load = self.load_per_tire
        row = row_for(self.table, load) if self.table and load is not None else None
        return row.load if row else None

    @property
    def monitor(self) -> TireMonitor | None:
        """The rig's tire monitor; one system watches the whole combination."""
        monitors = [vehicle.equipment.tire_monitor for vehicle in self.rig.vehicles.values()]
        return next((monitor for monitor in monitors if monitor), None)

    @cached_property
    def label_match(self) -> Sameness:
        """Whether the fitted tires are of the label's size and load range."""
        return sameness(self.axle.label_tires, self.tires.size, self.tires.load_range)

    @property
    def is_of_placards_size(self) -> bool:
        """A car or pickup on the placard's size, of whatever load range."""
        asked, fitted = self.axle.label_tires, self.tires.size
        if asked is None or fitted is None:
            return False
        return self.has_placard and marking(asked).size == marking(fitted).size

    @cached_property
    def least_heaviest(self) -> tuple[StateLoads, AxleLoad, Quantity] | None:
        """Where the heaviest tire carries most, as far as it is known, and how much that is at least."""
        ends = [(state, load, _known_end(load)) for state, load in self.loads()]
        known = [
            (state, load, end / self.axle.tires_each_end) for state, load, end in ends if end is not None
        ]
        return max(known, key=lambda one: number_in(one[2], "pound"), default=None)

    @cached_property
    def overload(self) -> Overload | None:
        """By how much the worst tire is over what it or its wheel may carry: as known, else as assumed."""
        if self.least_heaviest is not None:
            state, load, least = self.least_heaviest
            over = load_over_cap(least, self.load_limit)
            if over is not None:
                return Overload(state, load, over, is_assumed=False)
        if self.heaviest_known is None or self.least_load_per_tire is None:
            return None
        over = load_over_cap(self.least_load_per_tire, self.load_limit)
        return None if over is None else Overload(*self.heaviest_known, over, is_assumed=True)


def tire_axles(rig: Rig, states: Iterable[StateLoads]) -> tuple[TireAxle, ...]:
    """Every axle of the rig, front to rear."""
    held = tuple(states)
    return tuple(
        TireAxle(rig, vehicle, axle, held) for vehicle, entry in rig.vehicles.items() for axle in entry.axles
    )


def rolling_tire_axles(rig: Rig, states: Iterable[StateLoads]) -> tuple[TireAxle, ...]:
    """Every axle of the rig whose tires are on the road, front to rear."""
    held = tuple(states)
    return tuple(TireAxle(rig, vehicle, axle, held) for vehicle, _, axle, _ in rolling_axles(rig))


SPARE = "spare"
"""How the position of a spare begins in the register."""


class Position(NamedTuple):
    """Where a tire stands: on which axle, and where on it."""

    axle: str
    place: str

    @property
    def name(self) -> str:
        """As the profile writes it."""
        return f"{self.axle} {self.place}"


def positions_of(axle: TireAxle) -> tuple[Position, ...]:
    """The tire positions of an axle, outer before inner."""
    return tuple(Position(axle.axle_name, place) for place in axle.axle.tire_places)


def is_spare(position: str) -> bool:
    """Tell whether a position of the profile is that of a spare."""
    return position.startswith(SPARE)
