"""What people write about the equipment of a vehicle: what opens, warns, stops or helps, and where it is."""

from typing import Annotated, Literal, TypeAlias

from pydantic import ValidatorFunctionWrapHandler, WrapValidator

from binder.models.base import BareRecord, Count, Record, SpacedRecord, Text, Truth, entry, needed
from binder.quantities import Mass, Place, Share


def _none_or_where(value: object, read: ValidatorFunctionWrapHandler) -> object:
    return False if value == "none" else read(value)


_NONE = WrapValidator(_none_or_where)
Places: TypeAlias = Annotated[list[Text] | Literal[False], _NONE]
"""Where something is; ``none``, kept as False, says that the vehicle has none of it."""


class TireMonitor(Record):
    """The tire monitor; empty where its limits are not known."""

    closest_low_alarm: Share | None = entry(
        "how close its low alarm can be set to the set pressure", "its manual", "88 %"
    )


class Door(Record):
    """Where a door is along the vehicle, and on which side."""

    at: Place | None = entry("its middle, from the first axle to the rear", "measure it", "-60 in")
    side: Literal["left", "right", "rear"] | None = entry("which side", "", "right")


class Bay(Record):
    """One bay, measured to its middle; ``rating`` is what its label or its maker allows in it."""

    at: Place | None = entry("its middle, from the first axle to the rear", "measure it", "84 in")
    left: Place | None = entry("its middle, from the center line to the left", "measure it", "38 in")
    side: Literal["left", "right", "rear"] | None = entry("which side it opens to", "", "left")
    lock: Text | None = entry("how it locks", "", "key")
    rating: Mass | None = entry("the most that may be stowed in it", "its label", "300 lb")


class Spot(BareRecord):
    """A place of something; a bare text names it. ``at`` and ``side`` say where it is drawn; both: a pair."""

    bare_field = "place"
    place: Text = needed("where it is, in words", "", "bedroom window")
    at: Place | None = entry("from the first axle to the rear, for the drawing", "measure it", "240 in")
    side: Literal["left", "right", "both", "front", "rear"] | None = entry("which side", "", "left")


class Exit(Spot):
    """A way out."""

    opens: Text | None = entry("how it opens", "open it", "both levers up, push")


class Extinguisher(Spot):
    """An extinguisher."""

    type: Text | None = entry("what it is for and its size", "its label", "ABC 5 lb")


class ShutOff(Spot):
    """A valve or switch; what it stops is not guessed from its place."""

    stops: Literal["propane", "water", "battery", "engine"] | None = entry("what it stops", "", "propane")
    how: Text | None = entry("how it is worked", "", "clockwise")


class WhenStuck(SpacedRecord):
    """What to do when a thing will not move or run: a line each, in order."""

    slide: list[Text] = entry(
        "a slide that will not move", "its manual", '["motor turned by hand"]', default=[]
    )
    awning: list[Text] = entry("an awning", "its manual", '["crank eye by its arm"]', default=[])
    entry_step: list[Text] = entry("the entry step", "its manual", '["pin at its motor"]', default=[])
    leveling_jacks: list[Text] = entry("a jack", "its manual", '["valves at the pump"]', default=[])
    generator: list[Text] = entry("the generator", "its manual", '["breaker at its end"]', default=[])
    air: list[Text] = entry("air that will not build", "its manual", '["drain under the step"]', default=[])


class Equipment(SpacedRecord):
    """What opens, unfolds or warns; ``[]``: it has it, place not noted; ``none``: it has none.

    Absent or blank is not known for alarms and extinguishers, and none for the rest.
    """

    slide: Places | None = entry("slides; none, or where", "", "[left front]")
    awning: Places | None = entry("awnings; none, or where", "", "[right]")
    roof_antenna: Places | None = entry("antenna on the roof; none, or where", "", "[roof front]")
    satellite_dish: Places | None = entry("dish; none, or where", "", "[roof middle]")
    roof_vents: Places | None = entry("vents; none, or where", "", "[bathroom]")
    leveling_jacks: Places | None = entry("leveling jacks; none, or where", "", "[front, left rear]")
    entry_step: Places | None = entry("steps that fold; none, or where", "", "[right front]")
    cargo_trays: Places | None = entry("trays that slide; none, or where", "", "[pass-through bay]")
    ladder: Places | None = entry("ladder; none, or where", "", "[rear right]")
    cameras: Places | None = entry("cameras; none, or where", "", "[rear]")
    radio: Places | None = entry("radio; none, or where", "", "[dash]")
    refrigerator: Places | None = entry("refrigerator; none, or where", "", "[galley]")
    burners: Places | None = entry("burners; none, or where", "", "[galley]")
    water_heater: Places | None = entry("water heater; none, or where", "", "[rear bay]")
    inverter: Places | None = entry("inverter; none, or where", "", "[entry bay]")
    solar: Places | None = entry("solar panels; none, or where", "", "[roof]")
    smoke_alarm: Places | None = entry("smoke alarms; none, or where; blank is not known", "", "[bedroom]")
    carbon_monoxide_alarm: Places | None = entry(
        "carbon monoxide alarms; none, or where; blank is not known", "", "[bedroom, galley]"
    )
    propane_alarm: Places | None = entry("propane alarms; none, or where; blank is not known", "", "[galley]")
    extinguishers: Annotated[list[Extinguisher] | Literal[False], _NONE] | None = entry(
        "extinguishers, each with its type; none; blank is not known",
        "its label",
        "[{place: entry door, type: ABC 5 lb}]",
    )
    exits: list[Exit] | None = entry(
        "ways out, each with how it opens",
        "open each once",
        "[entry door, {place: bedroom window, at: 240 in, side: left, opens: both levers up}]",
    )
    wipers: Places | None = entry("wipers; none, or where", "", "[windshield]")
    pets: list[Text] | None = entry("where pets ride", "", "[crate by the sofa]")
    vests: list[Text] | None = entry("where vests hang", "", "[entry door]")
    warning_devices: list[Text] | None = entry("where the warning devices lie", "", "[tool bay]")
    chocks: Count | None = entry("how many wheel chocks", "", "4")
    chock_places: list[Text] | None = entry("where they lie", "", "[entry bay]")
    entry_door: Door | None = entry("where the entry door is")
    tire_monitor: TireMonitor | None = entry("the tire monitor")
    shut_offs: list[ShutOff] | None = entry(
        "valves and switches a stranger must find",
        "",
        "[{stops: propane, place: propane bay, how: clockwise}]",
    )
    jacking_points: list[Spot] | None = entry("where a jack may stand", "its manual", "[front axle beam]")
    lift_points: list[Spot] | None = entry("where a wrecker may lift", "its manual", "[front axle]")
    tow_eyes: list[Spot] | None = entry("where a wrecker may pull", "its manual", "[behind the front bumper]")
    air_port: Spot | None = entry(
        "where a wrecker feeds air, and with which fitting", "its manual", "behind the front bumper, 1/4 in"
    )
    when_stuck: WhenStuck = entry("what to do when it will not move or run", default=WhenStuck.blank())
    spare_wheel: Literal["none", "tire only", "mounted"] | None = entry(
        "what is carried for a flat: none, tire only or mounted", "", "mounted"
    )
    brake_controller: Truth | None = entry("whether a controller works electric brakes", "", "true")
