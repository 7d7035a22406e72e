"""The rig profile: vehicles joined by couplings, their tires, scale tickets, spares and service."""

import re
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field, PlainValidator, model_validator

from binder.models.base import (
    BareRecord,
    Count,
    Day,
    Form,
    Level,
    Record,
    Text,
    Truth,
    as_text,
    entry,
    needed,
    written_problem,
)
from binder.models.service import Expiry, Reading, Service
from binder.models.tires import Tires, Wheels
from binder.models.vehicles import Vehicle
from binder.quantities import Length, Mass, Place, ScaleStep, ScaleWeight, Torque


def _amount(value: object) -> str:
    if isinstance(value, str) and re.fullmatch(r"[0-9]+(\.[0-9]+)?( [^\W\d].*)?", value):
        return value
    raise written_problem(f"'{value}' is not a number of something; write it like '2', '1 set' or '2.5 gal'")


Amount: TypeAlias = Annotated[
    str,
    PlainValidator(_amount),
    Form("an amount", "2", {"type": ["string", "number"], "pattern": r"^[0-9]+(\.[0-9]+)?( [^\W\d].*)?$"}),
]


class Carried(BareRecord):
    """One thing carried; a bare text is what it is, and nothing else of it is known.

    ``names`` is the name in the list of what belongs aboard, where ``what`` is another; ``serves`` the
    vehicle it is for, ``vehicle`` the one it lies in; ``weight`` is of all of them together; ``since``
    the day it came aboard.
    """

    bare_field = "what"
    asked = frozenset({"expires"})
    what: Text = needed("what it is", "", "fuel filter")
    names: Text | None = entry(
        "its name in the list of what belongs aboard, where `what` is another",
        "the shopping list",
        "fuses",
        alias="is",
    )
    serves: Text | None = entry("the vehicle it fits", "", "coach", alias="for")
    quantity: Amount | None = entry("how many or how much", "", "2")
    part_number: Text | None = entry("part number", "the part", "LK-1107")
    place: Text | None = entry("where it lies", "", "tool bay")
    vehicle: Text | None = entry("the vehicle it lies in, where its place is no bay", "", "coach", alias="in")
    expires: Day | None = entry("its date", "printed on it", "2027-02-01")
    weight: Mass | None = entry("weight of all of them", "", "5 lb")
    since: Day | None = entry("the day it came aboard", "", "2024-05-18")


class PartRating(BareRecord):
    """What one part of a coupling may tow and carry; a bare weight means what it may tow."""

    bare_field = "towed"
    asked = frozenset({"down"})
    towed: Mass | None = entry("what it may tow", "stamped on it", "10000 lb")
    down: Mass | None = entry("what may press on it", "stamped on it", "1000 lb")


class Distribution(Record):
    """Weight distribution: the couple its bars apply, and the receiver's ratings with bars on."""

    couple: Torque | None = entry("couple its bars apply", "the hitch's manual", "26250 in*lb")
    receiver_distributing: PartRating = entry(
        "the receiver's ratings with bars on", "stamped on it", default=PartRating.blank()
    )


class Coupling(Record):
    """What joins two vehicles. ``at`` is measured in the one ahead, ``at_behind`` in the one behind.

    A vehicle that is ``carried`` whole, a camper on its bed or a car on its trailer, or with its first axle
    on a ``dolly``, stands "behind" what carries it; ``at`` is where its own places are measured from.
    ``since`` is the day it was fitted: a ticket of before, weighed coupled, is put aside.
    """

    asked = frozenset({"weight", "length"})
    ahead: Text = needed("name of the vehicle in front", "", "coach")
    behind: Text = needed("name of the one behind, or carried", "", "car")
    since: Day | None = entry("since when it has been as it is, where it was changed", "", "2026-05-02")
    how: Literal["tow bar", "dolly", "ball", "fifth wheel", "gooseneck", "carried"] = needed(
        "what joins them", "", "tow bar"
    )
    at: Place | None = entry("the coupling, from the first axle of the vehicle ahead", "measure it", "376 in")
    at_behind: Place | None = entry(
        "the coupling, from the first axle of the vehicle behind; ahead of it is negative",
        "measure it",
        "-35 in",
    )
    height: Length | None = entry("above the ground, at the vehicle ahead", "measure it", "22 in")
    height_behind: Length | None = entry("above the ground, at the vehicle behind", "measure it", "21 in")
    length: Length | None = entry("length of the bar", "measure it", "60 in")
    weight: Mass | None = entry("weight of the bar or dolly", "its manual", "40 lb")
    down_load: Mass | None = entry("what presses on it: tongue or pin weight", "a scale", "600 lb")
    latching: Text | None = entry(
        "how the hitch latches, its maker's line", "the hitch's manual", '"ease ahead until both arms lock"'
    )
    distribution: Distribution | None = entry("weight distribution, where it has bars")
    parts: dict[str, PartRating] = entry(
        "each part by name with its own rating", "stamped on each", "{tow bar: 8000 lb}", default={}
    )


class AxleWeights(Record):
    """One axle on the scale; what was not read is left out."""

    left: ScaleWeight | None = entry("weight under the left end", "the ticket", "5480 lb")
    right: ScaleWeight | None = entry("weight under the right end", "the ticket", "5240 lb")
    axle: ScaleWeight | None = entry("weight under the whole axle", "the ticket", "10720 lb")


class VehicleWeights(Record):
    """One vehicle on the scale: each axle by its name, and the total."""

    axles: dict[str, AxleWeights] = needed("each axle by its name")
    total: ScaleWeight | None = entry("the whole vehicle", "the ticket", "27200 lb")

    @model_validator(mode="before")
    @classmethod
    def _total_stands_beside_axles(cls, value: Any) -> Any:  # noqa: ANN401 - pydantic hands over anything.
        if not isinstance(value, dict):
            raise written_problem("axle weights are needed here, like '{steer: {axle: 10720 lb}}'")
        axles = {name: item for name, item in value.items() if name != "total" and item}
        return {"axles": axles, "total": value.get("total")}


class Aboard(Record):
    """Someone or something aboard, with its weight and place."""

    what: Text = needed("who or what", "", "two people")
    weight: ScaleWeight | None = entry("its weight", "", "360 lb")
    at: Place | None = entry("from the first axle to the rear", "", "4 in")
    left: Place | None = entry("from the center line to the left", "", "0 in")
    vehicle: Text = needed("the vehicle it is in", "", "coach", alias="in")


class TicketState(Record):
    """The state the rig stood in on the scale."""

    slides: Literal["in", "out"] | None = entry("slides on the scale", "", "in")
    ride_height: Truth | None = entry("whether it stood at ride height", "", "true")
    coupled: Truth | None = entry("whether it was coupled", "", "false")


class ScaleTicket(Record):
    """One weighing, with the fill state and the people it was taken with."""

    on: Day = needed("the day", "the ticket", "2026-03-30")
    division: ScaleStep | None = entry("smallest step of the scale", "the ticket", "20 lb")
    weights: dict[str, VehicleWeights] = needed("each vehicle by its name")
    aboard: list[Aboard] | None = entry("who and what was in it that is not always in it; [] nothing")
    levels: dict[str, dict[str, Level]] = entry(
        "how full each tank was", "", "{coach: {fresh: 25 gal}}", default={}
    )
    state: TicketState = entry("the state it stood in", default=TicketState.blank())
    tires: Text | None = entry("which tires were on, where others were", "", "winter tires")


def _log_address(value: object) -> str:
    text = str(value)
    if re.match(r"https?://[^/?@]*:[^/?@]*@", text):
        raise written_problem(
            "this address holds a password, which every card's code would tell; leave it out"
        )
    if (
        re.fullmatch(r"(https?://[!-~]+|mailto:[!-~]+@[!-~]+|tel:[!-~]+|geo:[!-~]+)", text)
        and "#" not in text
    ):
        return text
    raise written_problem(
        f"'{text}' is no address a code can hold; write it like 'https://log.example.org/name', "
        "'mailto:name@example.org', 'tel:+15555550100' or 'geo:44.2,-114.9', without spaces and '#'"
    )


LogAddress: TypeAlias = Annotated[
    str,
    PlainValidator(_log_address),
    as_text("an address", "https://log.example.org/mine", "(https?://|mailto:|tel:|geo:)[!-~]+"),
]


class Rig(Record):
    """The whole profile."""

    name: Text = needed("what you call the rig", "", "Larkspur")
    invented: Truth = entry("true for a demo alone", "", "false", default=False)
    units: Literal["us", "metric"] = needed("which units are printed first", "", "us")
    pressure: Literal["kPa", "bar"] | None = entry("which unit metric pressures are printed in", "", "bar")
    clock: Literal["12 h", "24 h"] | None = entry(
        "which hours are printed; empty: 12 h with us units, 24 h with metric", "", "24 h"
    )
    paper: Literal["letter", "a4"] = needed("paper of the printer", "", "letter")
    log: LogAddress | None = entry(
        "where the codes on the cards lead; empty: no codes", "", "https://log.example.org/mine"
    )
    basis: Literal["weighed", "label"] = entry(
        "label: never under the label's pressures; weighed: they may follow the scale ticket",
        "",
        "label",
        default="label",
    )
    vehicles: Annotated[dict[str, Vehicle], Field(min_length=1)] = needed("by names of your own")
    couplings: list[Coupling] = entry("what joins them, front to rear", default=[])
    tires: dict[str, Tires] = entry("by names of your own", default={})
    wheels: dict[str, Wheels] = entry("by names of your own", default={})
    scale_tickets: list[ScaleTicket] = entry("each weighing", default=[])
    spares: list[Carried] = entry("what is carried against a breakdown", default=[])
    service: list[Service] = entry("what is due and how often", default=[])
    readings: list[Reading] = entry("what the meters read", default=[])
    expires: list[Expiry] = entry("papers and things with a date", default=[])
    tools: list[Carried] = entry("like spares", default=[])
    people: Count | None = entry("how many travel", "", "2")
