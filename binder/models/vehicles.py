"""What people write about one vehicle of the combination."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field, PlainValidator, ValidatorFunctionWrapHandler, WrapValidator

from binder.models.base import Count, Day, Record, SpacedRecord, Text, Truth, written_problem
from binder.models.service import LastDone
from binder.quantities import (
    SHARE,
    Angle,
    Charge,
    Length,
    Mass,
    Place,
    Power,
    Pressure,
    Quantity,
    QuantityError,
    Share,
    Speed,
    Time,
    Torque,
    Voltage,
    Volume,
    VolumeRate,
)

VehicleKind: TypeAlias = Literal["motorhome", "pickup", "car", "trailer", "dolly", "camper"]
Contents: TypeAlias = Literal[
    "diesel", "gasoline", "exhaust fluid", "fresh water", "gray water", "black water", "propane"
]


class Label(Record):
    """What the vehicle's own labels say."""

    gross_vehicle_weight_rating: Mass | None = None
    gross_combination_weight_rating: Mass | None = None
    unloaded_vehicle_weight: Mass | None = None
    occupant_and_cargo_carrying_capacity: Mass | None = None
    cargo_carrying_capacity: Mass | None = None
    seats: Count | None = None
    towing_limit_without_brakes: Mass | None = None


class HeightMeasured(Record):
    """When and how the overall height was measured, and the highest thing."""

    on: Day | None = None
    state: Text | None = None
    highest: Text | None = None
    raised: Length | None = None


class Size(Record):
    """Outer dimensions."""

    overall_length: Length | None = None
    overall_width: Length | None = None
    width_with_mirrors: Length | None = None
    overall_height: Length | None = None
    height_measured: HeightMeasured | None = None
    front_overhang: Length | None = None
    rear_overhang: Length | None = None
    ground_clearance: Length | None = None
    wheel_cut: Angle | None = None


def _carries(value: object) -> Share | Literal["air"]:
    if value == "air":
        return "air"
    try:
        return SHARE.read(value)
    except QuantityError as error:
        raise written_problem(f"'{value}' is neither 'air' nor a share like '33 %'") from error


class Axle(Record):
    """One axle; ``at`` is measured from the vehicle's first axle, positive to the rear."""

    at: Place
    track: Length | None = None
    fitment: Literal["single", "dual"]
    rating: Mass | None = None
    label_pressure: Pressure | None = None
    label_tires: Text | None = None
    tires: Text | None = None
    wheels: Text | None = None
    carries: Annotated[Share | Literal["air"], PlainValidator(_carries)] | None = None
    heavier_end_allowance: Share | None = None
    equalized: Truth | None = None

    @property
    def tires_each_end(self) -> int:
        """How many tires stand at each end of the axle."""
        return 2 if self.fitment == "dual" else 1


class Tank(Record):
    """One tank: what it holds, how much, and where its middle is (left of center positive)."""

    holds: Contents
    capacity: Volume | None = None
    usable: Volume | None = None
    at: Place | None = None
    left: Place | None = None
    filler: Text | None = None
    valve: Text | None = None
    valve_while_driving: Literal["shut", "open"] = "shut"


class Brakes(Record):
    """Service brakes of a vehicle."""

    service: Literal["air", "hydraulic", "electric", "none"] | None = None
    retarder: Power | None = None
    exhaust_brake: Truth | None = None


class Engine(Record):
    """The engine that drives the vehicle."""

    power: Power | None = None
    place: Literal["front", "rear"] | None = None
    cylinders: Count | None = None
    displacement: Volume | None = None
    belts: list[Text] = []


class Transmission(Record):
    """The transmission."""

    speeds: Count | None = None
    tow_with_wheels_down: Text | None = None


class Generator(Record):
    """The generator and the fuel level it stops drawing at."""

    power: Power | None = None
    use: VolumeRate | None = None
    use_at_full_load: VolumeRate | None = None
    cut_off: Text | None = None
    place: Text | None = None


class HydronicHeater(Record):
    """A heater that warms a loop of fluid."""

    use_burning: VolumeRate | None = None
    loop: Volume | None = None


class Battery(Record):
    """One bank of batteries."""

    count: Count | None = None
    each: Charge | None = None
    voltage: Voltage | None = None
    chemistry: Literal["lead-acid", "lithium iron phosphate"] | None = None
    total: Charge | None = None
    place: Text | None = None


class TopUp(Record):
    """What is carried to top a fluid up, and where it lies."""

    quantity: Volume | None = None
    place: Text | None = None


class Fluid(Record):
    """One fluid: what it is, how much, where and in which condition it is read."""

    specification: Text | None = None
    capacity: Volume | None = None
    check: Text | None = None
    top_up: TopUp | None = None


class TireMonitor(Record):
    """The tire monitor; empty where its limits are not known."""

    closest_low_alarm: Share | None = None


class Door(Record):
    """Where a door is along the vehicle, and on which side."""

    at: Place | None = None
    side: Literal["left", "right", "rear"] | None = None


class Bay(Record):
    """One bay, measured to its middle; ``rating`` is what its label or its maker allows in it."""

    at: Place | None = None
    left: Place | None = None
    side: Literal["left", "right", "rear"] | None = None
    lock: Text | None = None
    rating: Mass | None = None


class CenterOfGravity(Record):
    """Where a vehicle without axles has its weight, as its maker marks it or as it was found."""

    at: Place | None = None
    left: Place | None = None


class Equipment(SpacedRecord):
    """What opens, unfolds or warns. Absent: the rig has none. An empty list: it has it, place not noted."""

    slide: list[Text] | None = None
    awning: list[Text] | None = None
    roof_antenna: list[Text] | None = None
    satellite_dish: list[Text] | None = None
    roof_vents: list[Text] | None = None
    leveling_jacks: list[Text] | None = None
    entry_step: list[Text] | None = None
    cargo_trays: list[Text] | None = None
    ladder: list[Text] | None = None
    cameras: list[Text] | None = None
    radio: list[Text] | None = None
    refrigerator: list[Text] | None = None
    burners: list[Text] | None = None
    water_heater: list[Text] | None = None
    inverter: list[Text] | None = None
    solar: list[Text] | None = None
    smoke_alarm: list[Text] | None = None
    carbon_monoxide_alarm: list[Text] | None = None
    propane_alarm: list[Text] | None = None
    extinguishers: list[Text] | None = None
    exits: list[Text] | None = None
    wipers: list[Text] | None = None
    pets: list[Text] | None = None
    vests: list[Text] | None = None
    warning_devices: list[Text] | None = None
    chocks: Count | None = None
    entry_door: Door | None = None
    tire_monitor: TireMonitor | None = None
    shut_offs: list[Text] | None = None
    jacking_points: list[Text] | None = None
    brake_controller: Truth | None = None


class Towing(Record):
    """How the vehicle is towed, in its maker's words, and what keeps it safe behind."""

    as_its_maker_says: list[Text] | None = None
    supplemental_brake: Truth | None = None
    brakes_on_all_wheels: Truth | None = None
    breakaway: Truth | None = None
    brake_lamp_in_cab: Truth | None = None


class Vehicle(Record):
    """One vehicle of the combination. A camper has no axle: its places count from the front of its floor.

    ``since`` is the day it joined the rig or was last changed: a ticket of before is put aside.
    """

    kind: VehicleKind
    since: Day | None = None
    label: Label = Label.blank()
    size: Size = Size.blank()
    axles: dict[str, Axle] = {}
    center_of_gravity: CenterOfGravity | None = None
    tanks: dict[str, Tank] = {}
    brakes: Brakes | None = None
    suspension: Literal["air", "leaf", "coil", "torsion"] | None = None
    engine: Engine | None = None
    transmission: Transmission | None = None
    generator: Generator | None = None
    hydronic_heater: HydronicHeater | None = None
    batteries: dict[str, Battery] = {}
    fluids: dict[str, Fluid] = {}
    equipment: Equipment = Equipment.blank()
    bays: dict[str, Bay] = {}
    towing: Towing | None = None


Family: TypeAlias = Literal[
    "passenger P", "passenger", "light truck", "special trailer", "truck", "european commercial"
]
TableBasis: TypeAlias = Literal["per tire", "per pair", "per axle end"]


def _rows(value: object, read: ValidatorFunctionWrapHandler) -> dict[Quantity, Quantity]:
    rows: dict[Quantity, Quantity] = read(value)
    if isinstance(value, dict) and len(rows) < len(value):
        raise written_problem("two rows of this table state the same pressure")
    return rows


Rows: TypeAlias = Annotated[dict[Pressure, Mass], WrapValidator(_rows)]


class Sidewall(Record):
    """What is molded into the tire: its greatest loads and the cold pressure they are stated at."""

    maximum_load_single: Mass | None = None
    maximum_load_dual: Mass | None = None
    maximum_pressure: Pressure | None = None


class LoadTableText(Record):
    """The maker's load table as typed: cold pressure to load, for single and dual fitment."""

    basis: TableBasis
    origin: Text = Field(alias="from")
    single: Rows | None = None
    dual: Rows | None = None


class MountedTire(Record):
    """One tire of the register, at its position."""

    date_code: Text | None = None
    tread: Length | None = None
    circumference: Length | None = None
    diameter: Length | None = None
    mounted_on: Day | None = None
    damage: Text | None = None


class Tires(Record):
    """One kind of tire the rig rolls on, and the register of those mounted."""

    size: Text | None = None
    load_range: Text | None = None
    family: Family | None = None
    maximum_speed: Speed | None = None
    sidewall: Sidewall = Sidewall.blank()
    margin: Pressure | None = None
    replace_after: Time | None = None
    table: LoadTableText | None = None
    mounted: dict[str, MountedTire] = {}


class Wheels(Record):
    """One kind of wheel: its own limits, its valve's, how its nuts are tightened, and when that was done.

    ``fitted`` is when one of them was last taken off and put on again, ``since`` when the kind was changed.
    """

    since: Day | None = None
    maximum_load: Mass | None = None
    maximum_pressure: Pressure | None = None
    valve_maximum_pressure: Pressure | None = None
    nut_torque: Torque | None = None
    socket: Text | None = None
    thread: Literal["dry", "oiled"] | None = None
    dual_spacing: Length | None = None
    fitted: LastDone | None = None
    nuts_checked: LastDone | None = None
