"""How axles and the whole rig are named and measured where they are printed, and why a figure is so."""

from dataclasses import dataclass

from binder.assessment.assess import Assessment
from binder.assessment.body.kinds import OVERALL_HEIGHT
from binder.assessment.conditions import driven
from binder.assessment.coupling.kinds import COMBINATION_LENGTH
from binder.assessment.ledger import FigureKind, Finding, Key, all_known
from binder.assessment.tires import kinds
from binder.assessment.weights.kinds import COMBINATION
from binder.assessment.weights.resting import rolling_axles
from binder.cards.blocks import Reason
from binder.models.tires import Tires
from binder.models.vehicles import Axle, Vehicle
from binder.quantities import Quantity, is_quantity
from binder.wording.sentences import Told, as_sentence
from binder.wording.words import Words, style_of

_SAME = (kinds.SET_POINT, kinds.LEAVE_UP_TO, kinds.RUN_FLAT_BELOW, kinds.LOW_ALARM, kinds.SPEED_LIMIT)


def on_cap(tank: str) -> str:
    """Name a tank as the cap of its filler does: DEF, where no owner's name is given it."""
    return "DEF" if tank == "exhaust fluid" else tank


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

    def least(self, kind: FigureKind) -> Quantity | None:
        """Value of one of the group's ceilings, of the axle where it is lowest; none where one is unknown."""
        values = all_known(self.assessment.quantity(key) for key in self.keys(kind))
        return min(values) if values else None

    @property
    def known_limit(self) -> Quantity | None:
        """The least of those parts' limits that are known, over which no pressure is rounded."""
        return known_limit(self.assessment, self.keys(kinds.SET_POINT)[0])

    @property
    def unread_parts(self) -> tuple[str, ...]:
        """The parts whose highest pressure was never read."""
        parts = (
            found.facts["part"] for found in self.findings() if found.kind is kinds.HIGHEST_PRESSURE_UNKNOWN
        )
        return tuple(dict.fromkeys(str(part) for part in parts))

    def findings(self) -> tuple[Finding, ...]:
        """What was found about the group's tires and loads."""
        return tuple(
            found
            for found in self.assessment.findings
            if any(found.about.subject[:2] == (self.vehicle_name, axle) for axle in self.axle_names)
        )


def known_limit(assessment: Assessment, set_point: Key) -> Quantity | None:
    """The least limit of tire, wheel and valve that is known where a pressure was set."""
    figure = assessment.known(set_point)
    cap = figure.given(kinds.CAP_INPUT) if figure else None
    return cap.value if cap and is_quantity(cap.value) else None


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
    return Words(style_of(assessment))


HEIGHT, LENGTH, WEIGHT = OVERALL_HEIGHT.of(), COMBINATION_LENGTH.of(), COMBINATION.heaviest.of()


def overall_height(assessment: Assessment) -> Quantity | None:
    """Give the height of the highest vehicle, in whatever state was the higher."""
    figure = assessment.known(HEIGHT)
    if figure is not None:
        return figure.quantity
    sizes = [vehicle.size for vehicle in assessment.rig.vehicles.values()]
    heights = [
        height
        for size in sizes
        for height in (size.overall_height, size.height_measured.raised if size.height_measured else None)
        if height is not None
    ]
    return max(heights, default=None)


def length_of_all(assessment: Assessment) -> Quantity | None:
    """Give the length of all vehicles, coupled."""
    figure = assessment.known(LENGTH)
    if figure is not None or assessment.rig.couplings:
        return figure.quantity if figure else None
    return driven(assessment.rig)[1].size.overall_length


def weight_of_all(assessment: Assessment) -> Quantity | None:
    """Give the weight of all vehicles at its heaviest."""
    return assessment.quantity(WEIGHT)


def reason_of(name: str, figure: Told) -> Reason:
    """Tell a figure's rule, what decided it, and its cautions."""
    inputs = "; ".join(f"{item.name} {item.text}" for item in figure.inputs)
    parts = [figure.rule, inputs, *figure.cautions]
    return Reason(name, " ".join(as_sentence(part) for part in parts if part), figure.sources)
