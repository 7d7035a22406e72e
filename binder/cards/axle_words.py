"""How axles are named and grouped where they are printed: axles that read alike share a row."""

from dataclasses import dataclass

from binder.assessment.assessment import Assessment
from binder.assessment.ledger import FigureKind, Finding, Key
from binder.assessment.tires import kinds
from binder.assessment.weights.resting import rolling_axles
from binder.models.tires import Tires
from binder.models.vehicles import Axle, Vehicle
from binder.quantities import Quantity
from binder.wording.words import Words

_SAME = (kinds.SET_POINT, kinds.LEAVE_UP_TO, kinds.RUN_FLAT_BELOW, kinds.LOW_ALARM, kinds.SPEED_LIMIT)


@dataclass(frozen=True)
class AxleGroup:
    """One or more axles of a vehicle that are printed as one: same tires, same pressures."""

    assessment: Assessment
    vehicle_name: str
    axle_names: tuple[str, ...]

    @property
    def vehicle(self) -> Vehicle:
        """The vehicle."""
        return self.assessment.rig.vehicles[self.vehicle_name]

    @property
    def axle(self) -> Axle:
        """The first axle of the group."""
        return self.vehicle.axles[self.axle_names[0]]

    @property
    def tires(self) -> Tires:
        """The tires of the group."""
        return self.assessment.rig.tires.get(self.axle.tires or "", Tires())

    @property
    def is_first_vehicle(self) -> bool:
        """It is under the vehicle that is driven."""
        return self.vehicle_name == next(iter(self.assessment.rig.vehicles))

    @property
    def name(self) -> str:
        """Its name on paper."""
        names = " and ".join(self.axle_names)
        pairs = ", pairs" if self.axle.fitment == "dual" else ""
        if self.is_first_vehicle:
            return f"{names[:1].upper()}{names[1:]}{pairs}"
        is_whole = len(self.axle_names) == len(self.vehicle.axles)
        towed = f"Towed {self.vehicle_name}" if self.vehicle.kind == "car" else self.vehicle_name.capitalize()
        return towed if is_whole else f"{towed}, {names}{pairs}"

    @property
    def short_name(self) -> str:
        """Its name at the head of a column: the vehicle is named where it is not the first."""
        return self.axle_names[0] if self.is_first_vehicle else self.vehicle_name

    def keys(self, kind: FigureKind) -> tuple[Key, ...]:
        """Keys of one kind of the group's figures, front to rear."""
        return tuple(kind.of(self.vehicle_name, axle) for axle in self.axle_names)

    def value(self, kind: FigureKind) -> Quantity | None:
        """Value of one of the group's figures, of the axle where it is highest."""
        values = [value for key in self.keys(kind) if (value := self.assessment.quantity(key)) is not None]
        return max(values, default=None)

    def findings(self) -> tuple[Finding, ...]:
        """What was found about the group's tires and loads."""
        return tuple(
            found
            for found in self.assessment.findings
            if any(found.about.subject[:2] == (self.vehicle_name, axle) for axle in self.axle_names)
        )


def axle_groups(assessment: Assessment) -> tuple[AxleGroup, ...]:
    """Axles of the rig whose tires are on the road, front to rear, neighbors that read alike together."""
    groups: list[AxleGroup] = []
    for vehicle, _, axle, _ in rolling_axles(assessment.rig):
        single = AxleGroup(assessment, vehicle, (axle,))
        if groups and _read_alike(groups[-1], single):
            groups[-1] = AxleGroup(assessment, vehicle, (*groups[-1].axle_names, axle))
        else:
            groups.append(single)
    return tuple(groups)


def _read_alike(one: AxleGroup, other: AxleGroup) -> bool:
    if one.vehicle_name != other.vehicle_name or one.axle.tires != other.axle.tires:
        return False
    if one.axle.fitment != other.axle.fitment or one.is_first_vehicle:
        return False
    return all(one.value(kind) == other.value(kind) for kind in _SAME)


def words_of(assessment: Assessment) -> Words:
    """How this rig is written about."""
    return Words(assessment.rig.units)
