"""What people write about one vehicle of the combination."""

from math import pi
from typing import Annotated, Literal, TypeAlias

from pydantic import PlainValidator, ValidatorFunctionWrapHandler, WrapValidator

from binder.models.base import Count, Day, Record, Text, Truth, as_text, entry, needed, written_problem
from binder.models.equipment import Bay, Equipment
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
    Voltage,
    Volume,
    VolumeRate,
    written_pattern,
)

VehicleKind: TypeAlias = Literal["motorhome", "pickup", "car", "trailer", "dolly", "camper"]
Contents: TypeAlias = Literal[
    "diesel", "gasoline", "exhaust fluid", "fresh water", "gray water", "black water", "propane"
]


class Label(Record):
    """What the vehicle's own labels say."""

    asked = frozenset(("gross_vehicle_weight_rating", "gross_combination_weight_rating")).union(
        ("occupant_and_cargo_carrying_capacity", "cargo_carrying_capacity")
    )
    gross_vehicle_weight_rating: Mass | None = entry(
        "the most the whole vehicle may weigh, loaded: GVWR",
        "the label by the driver's door or seat; on a trailer at its front left",
        "30500 lb",
    )
    gross_combination_weight_rating: Mass | None = entry(
        "the most it may weigh with everything it tows: GCWR", "the chassis manual", "41000 lb"
    )
    unloaded_vehicle_weight: Mass | None = entry(
        "its weight as it left the factory: UVW", "the weight label", "25370 lb"
    )
    occupant_and_cargo_carrying_capacity: Mass | None = entry(
        "what people and cargo may weigh: OCCC", "the yellow label by the entry door", "5130 lb"
    )
    cargo_carrying_capacity: Mass | None = entry(
        "what cargo may weigh: CCC", "the label of a trailer or an older motorhome", "2100 lb"
    )
    seats: Count | None = entry("seats with belts", "count them, or the label", "5")
    towing_limit_without_brakes: Mass | None = entry(
        "the most it may tow when that has no brakes of its own", "the chassis manual", "1500 lb"
    )


class HeightMeasured(Record):
    """When and how the overall height was measured, and the highest thing."""

    on: Day | None = entry("the day the height was measured", "", "2026-03-30")
    state: Text | None = entry("the state it stood in", "", "ride height, dish down")
    highest: Text | None = entry("the highest thing on the roof", "", "front air conditioner")
    raised: Length | None = entry("the height with its air bags raised", "measure it", "12 ft 10 in")


def _turning(value: object, read: ValidatorFunctionWrapHandler) -> Quantity:
    cut: Quantity = read(value)
    if 0 < cut.to("").magnitude < pi / 2:
        return cut
    raise written_problem(f"'{value}' is not between 0 and 90 degrees; write it like '50 deg'")


def _apart(value: object, read: ValidatorFunctionWrapHandler) -> Quantity:
    track: Quantity = read(value)
    if track.magnitude > 0:
        return track
    raise written_problem(f"'{value}' leaves nothing between left and right; write it like '82 in'")


class Size(Record):
    """Outer dimensions."""

    overall_length: Length | None = entry("bumper to bumper", "measure it", "38 ft 4 in")
    overall_width: Length | None = entry("across the body, without mirrors", "measure it", "101 in")
    width_with_mirrors: Length | None = entry("across the mirrors as driven", "measure it", "120 in")
    overall_height: Length | None = entry(
        "ground to the top of the highest thing", "measure it yourself, from the roof", "12 ft 8 in"
    )
    height_measured: HeightMeasured | None = entry("when and how the height was measured")
    front_overhang: Length | None = entry("front axle to front bumper", "measure it", "88 in")
    rear_overhang: Length | None = entry("last axle to rear bumper", "measure it", "120 in")
    ground_clearance: Length | None = entry("under the lowest thing between the axles", "measure it", "9 in")
    front_clearance: Length | None = entry(
        "under the lowest thing ahead of the front axle", "measure it", "14 in"
    )
    rear_clearance: Length | None = entry(
        "under the lowest thing behind the last axle", "measure it", "15 in"
    )
    wheel_cut: Annotated[Angle, WrapValidator(_turning)] | None = entry(
        "how far the front wheels turn", "the chassis manual", "50 deg"
    )


def _carries(value: object) -> Share | Literal["air"]:
    if value == "air":
        return "air"
    try:
        return SHARE.read(value)
    except QuantityError as error:
        raise written_problem(f"'{value}' is neither 'air' nor a share like '33 %'") from error


_CARRIES = as_text("air, or a share", "33 %", f"air|{written_pattern(SHARE)}")


class Axle(Record):
    """One axle; ``at`` is measured from the vehicle's first axle, positive to the rear; None: not known."""

    at: Place | None = entry(
        "from the vehicle's first axle to this one, to the rear", "measure it between wheel centers", "252 in"
    )
    track: Annotated[Length, WrapValidator(_apart)] | None = entry(
        "middle of the left tire (or pair) to the middle of the right", "measure it", "83 in"
    )
    fitment: Literal["single", "dual"] = needed("one tire at each end, or two", "look", "dual")
    rating: Mass | None = entry(
        "the most this axle may carry: GAWR", "the same label as the GVWR", "12000 lb"
    )
    label_pressure: Pressure | None = entry(
        "cold pressure on the vehicle's label", "the same label", "110 psi"
    )
    label_tires: Text | None = entry(
        "tire size on the vehicle's label, with its load range", "the same label", "295/75R22.5 G"
    )
    tires: Text | None = entry("the name under tires: of what is mounted here", "", "coach tires")
    wheels: Text | None = entry("the name under wheels: of what is mounted here", "", "coach wheels")
    carries: Annotated[Share | Literal["air"], PlainValidator(_carries), _CARRIES] | None = entry(
        "what a tag axle carries: air, or its share of the pair", "its maker, or a scale ticket", "33 %"
    )
    heavier_end_allowance: Share | None = entry(
        "what to add for the heavier end where ends were not weighed", "", "12 %"
    )
    equalized: Truth | None = entry("whether a trailer's axles share their load", "look under it", "true")

    @property
    def tires_each_end(self) -> int:
        """How many tires stand at each end of the axle."""
        return 2 if self.fitment == "dual" else 1

    @property
    def tire_places(self) -> tuple[str, ...]:
        """Where its tires stand, outer before inner."""
        if self.fitment == "dual":
            return ("left outer", "left inner", "right inner", "right outer")
        return ("left", "right")


class Tank(Record):
    """One tank: what it holds, how much, and where its middle is (left of center positive)."""

    holds: Contents = needed("what is in it", "", "fresh water")
    capacity: Volume | None = entry(
        "how much it holds; of propane the whole container", "its plate or the manual", "90 gal"
    )
    usable: Volume | None = entry("how much can be drawn; of propane the 80 % fill", "the manual", "80 gal")
    at: Place | None = entry("its middle, from the first axle to the rear", "measure it", "196 in")
    left: Place | None = entry("its middle, from the center line to the left", "measure it", "14 in")
    filler: Text | None = entry("where it is filled", "look", "left front")
    valve: Text | None = entry("where its valve is", "look", "service bay")
    valve_while_driving: Literal["shut", "open"] = entry(
        "how its valve stands while driving", "", "shut", default="shut"
    )


class Brakes(Record):
    """Service brakes of a vehicle."""

    service: Literal["air", "hydraulic", "electric", "none"] | None = entry(
        "what works the brakes; blank is not known", "the chassis manual", "air"
    )
    retarder: Power | None = entry(
        "the power of its retarder; 0 kW where it has none", "the chassis manual", "150 kW"
    )
    exhaust_brake: Truth | None = entry("whether it has an exhaust or engine brake", "the dash", "true")


class Engine(Record):
    """The engine that drives the vehicle."""

    power: Power | None = entry("rated power", "the engine's plate", "380 hp")
    place: Literal["front", "rear"] | None = entry("which end it is at", "", "rear")
    cylinders: Count | None = entry("how many cylinders", "the manual", "6")
    displacement: Volume | None = entry("displacement", "the manual", "8.9 L")
    belts: list[Text | None] = entry(
        "what each belt drives", "look", "[alternator, air conditioner]", default=[]
    )
    no_crank: list[Text] = entry(
        "what to do when it does not crank, a line each",
        "its manual, and what you have found",
        '["selector in N, try again"]',
        default=[],
    )


class Transmission(Record):
    """The transmission."""

    speeds: Count | None = entry("how many forward speeds", "the manual", "6")
    tow_with_wheels_down: Text | None = entry(
        "its maker's words on towing it with driven wheels on the road",
        "its manual",
        '"no: drive shaft out first"',
    )


class Generator(Record):
    """The generator and the fuel level it stops drawing at."""

    power: Power | None = entry("rated power", "its plate", "8 kW")
    use: VolumeRate | None = entry("fuel an hour, lightly loaded", "its manual or your log", "0.25 gal/h")
    use_at_full_load: VolumeRate | None = entry("fuel an hour at full load", "its manual", "0.9 gal/h")
    cut_off: Text | None = entry("fuel level where its pick-up ends", "the chassis manual", "1/4")
    place: Text | None = entry("where it is", "", "front, behind the nose door")


class HydronicHeater(Record):
    """A heater that warms a loop of fluid."""

    use_burning: VolumeRate | None = entry("fuel an hour while it burns", "its manual", "0.35 gal/h")
    loop: Volume | None = entry("fluid in its loop", "its manual", "10 gal")


class Battery(Record):
    """One bank of batteries."""

    count: Count | None = entry("how many batteries", "count them", "4")
    each: Charge | None = entry("capacity of one", "its label, at the 20-hour rate", "220 Ah")
    voltage: Voltage | None = entry("voltage of one", "its label", "6 V")
    chemistry: Literal["lead-acid", "lithium iron phosphate"] | None = entry(
        "what kind", "its label", "lead-acid"
    )
    total: Charge | None = entry("capacity of the bank at its own voltage", "", "440 Ah")
    place: Text | None = entry("where they are", "", "entry bay")


class TopUp(Record):
    """What is carried to top a fluid up, and where it lies."""

    quantity: Volume | None = entry("how much is carried", "", "1 gal")
    place: Text | None = entry("where it lies", "", "tool bay")


class Fluid(Record):
    """One fluid: what it is, how much, where and in which condition it is read."""

    specification: Text | None = entry(
        "what it is; none where it has none", "the manual, or the cap", "SAE 15W-40"
    )
    capacity: Volume | None = entry("how much there is of it", "the manual", "28 qt")
    check: Text | None = entry(
        "where and how it is read: cold or hot, engine on or off",
        "the manual",
        "rear stick, cold, engine off",
    )
    top_up: TopUp | None = entry("what is carried to top it up")


class CenterOfGravity(Record):
    """Where a vehicle without axles has its weight, as its maker marks it or as it was found."""

    at: Place | None = entry(
        "from the front of its floor to the rear", "the maker's mark on its side", "46 in"
    )
    left: Place | None = entry("from its center line to the left", "", "0 in")


class Towing(Record):
    """How the vehicle is towed, in its maker's words, and what keeps it safe behind."""

    as_its_maker_says: list[Text] | None = entry(
        "how it is set up for towing: its maker's lines, word for word, in order",
        "its manual",
        "[Parking brake ON, Transfer case to N]",
    )
    uncoupling_as_its_maker_says: list[Text] | None = entry(
        "how it is set back after towing: its maker's lines; never the others read backwards",
        "its manual",
        "[Parking brake ON, Transfer case to 4H]",
    )
    supplemental_brake: Truth | None = entry(
        "whether a supplemental brake works it; blank is not known", "", "true"
    )
    brakes_on_all_wheels: Truth | None = entry("whether all its wheels brake while towed", "", "true")
    breakaway: Truth | None = entry(
        "whether a breakaway switch sets its brakes; blank is not known", "look for the cable and pin", "true"
    )
    brake_lamp_in_cab: Truth | None = entry("whether a lamp in the cab shows its brake working", "", "true")


class Vehicle(Record):
    """One vehicle of the combination. A camper has no axle: its places count from the front of its floor.

    ``since`` is the day it joined the rig or was last changed: a ticket of before is put aside.
    """

    kind: VehicleKind = needed("what it is", "", "motorhome")
    since: Day | None = entry(
        "since when it has been in this combination, where it was changed", "", "2026-05-02"
    )
    label: Label = entry("what its labels say", default=Label.blank())
    size: Size = entry("outer dimensions", default=Size.blank())
    axles: dict[str, Axle] = entry(
        "front to rear, by names of your own; the first is where you measure from", default={}
    )
    center_of_gravity: CenterOfGravity | None = entry("where a camper has its weight")
    tanks: dict[str, Tank] = entry("by names of your own", default={})
    brakes: Brakes | None = entry("service brakes and what helps them")
    suspension: Literal["air", "leaf", "coil", "torsion"] | None = entry(
        "what carries the axles", "look", "air"
    )
    engine: Engine | None = entry("the engine that drives it")
    transmission: Transmission | None = entry("the transmission")
    generator: Generator | None = entry("leave out where there is none")
    hydronic_heater: HydronicHeater | None = entry("leave out where there is none")
    batteries: dict[str, Battery] = entry("banks by names of your own", default={})
    fluids: dict[str, Fluid] = entry("by name: engine oil, coolant, brake fluid ...", default={})
    equipment: Equipment = entry("what it has, and where", default=Equipment.blank())
    bays: dict[str, Bay] = entry("by names of your own", default={})
    towing: Towing | None = entry("how it is towed")

    @property
    def axle_places(self) -> list[Quantity]:
        """Where its axles stand, front to rear; empty where one of them is not known."""
        places = [axle.at for axle in self.axles.values() if axle.at is not None]
        return places if len(places) == len(self.axles) else []
