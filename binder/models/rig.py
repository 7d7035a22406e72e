"""The rig profile: vehicles joined by couplings, their tires, scale tickets, spares and service."""

import re
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field, PlainValidator, model_validator

from binder.models.base import Count, Day, Level, Record, Text, Truth, written_problem
from binder.models.service import Expiry, Reading, Service
from binder.models.vehicles import Tires, Vehicle, Wheels
from binder.quantities import Length, Mass, Place, Torque


def _amount(value: object) -> str:
    if isinstance(value, str) and re.fullmatch(r"[0-9]+(\.[0-9]+)?( [^\W\d].*)?", value):
        return value
    raise written_problem(f"'{value}' is not a number of something; write it like '2', '1 set' or '2.5 gal'")


Amount: TypeAlias = Annotated[str, PlainValidator(_amount)]


class Carried(Record):
    """One thing carried; a bare text is what it is, and nothing else of it is known.

    ``names`` is the name in the list of what belongs aboard, where ``what`` is another; ``serves`` the
    vehicle it is for, ``vehicle`` the one it lies in; ``weight`` is of all of them together; ``since``
    the day it came aboard.
    """

    what: Text
    names: Text | None = Field(default=None, alias="is")
    serves: Text | None = Field(default=None, alias="for")
    quantity: Amount | None = None
    part_number: Text | None = None
    place: Text | None = None
    vehicle: Text | None = Field(default=None, alias="in")
    expires: Day | None = None
    weight: Mass | None = None
    since: Day | None = None

    @model_validator(mode="before")
    @classmethod
    def _bare_text_is_what_it_is(cls, value: Any) -> Any:  # noqa: ANN401 - pydantic hands over anything.
        return {"what": value} if isinstance(value, str) else value


class PartRating(Record):
    """What one part of a coupling may tow and carry; a bare weight means what it may tow."""

    towed: Mass | None = None
    down: Mass | None = None

    @model_validator(mode="before")
    @classmethod
    def _bare_weight_is_towed(cls, value: Any) -> Any:  # noqa: ANN401 - pydantic hands over anything.
        return {"towed": value} if isinstance(value, str) or value is None else value


class Distribution(Record):
    """Weight distribution: the couple its bars apply, and the receiver's ratings with bars on."""

    couple: Torque | None = None
    receiver_distributing: PartRating = PartRating.blank()


class Coupling(Record):
    """What joins two vehicles. ``at`` is measured in the one ahead, ``at_behind`` in the one behind.

    A vehicle that is ``carried`` whole, a camper on its bed or a car on its trailer, or with its first axle
    on a ``dolly``, stands "behind" what carries it; ``at`` is where its own places are measured from.
    ``since`` is the day it was fitted: a ticket of before, weighed coupled, is put aside.
    """

    ahead: Text
    behind: Text
    since: Day | None = None
    how: Literal["tow bar", "dolly", "ball", "fifth wheel", "gooseneck", "carried"]
    at: Place | None = None
    at_behind: Place | None = None
    height: Length | None = None
    height_behind: Length | None = None
    length: Length | None = None
    weight: Mass | None = None
    down_load: Mass | None = None
    distribution: Distribution | None = None
    parts: dict[str, PartRating] = {}


class AxleWeights(Record):
    """One axle on the scale; what was not read is left out."""

    left: Mass | None = None
    right: Mass | None = None
    axle: Mass | None = None


class VehicleWeights(Record):
    """One vehicle on the scale: each axle by its name, and the total."""

    axles: dict[str, AxleWeights]
    total: Mass | None = None

    @model_validator(mode="before")
    @classmethod
    def _total_stands_beside_axles(cls, value: Any) -> Any:  # noqa: ANN401 - pydantic hands over anything.
        if not isinstance(value, dict):
            raise written_problem("axle weights are needed here, like '{steer: {axle: 10720 lb}}'")
        axles = {name: item for name, item in value.items() if name != "total" and item}
        return {"axles": axles, "total": value.get("total")}


class Aboard(Record):
    """Someone or something aboard, with its weight and place."""

    what: Text
    weight: Mass | None = None
    at: Place | None = None
    left: Place | None = None
    vehicle: Text = Field(alias="in")


class TicketState(Record):
    """The state the rig stood in on the scale."""

    slides: Literal["in", "out"] | None = None
    ride_height: Truth | None = None
    coupled: Truth | None = None


class ScaleTicket(Record):
    """One weighing, with the fill state and the people it was taken with."""

    on: Day
    division: Mass | None = None
    weights: dict[str, VehicleWeights]
    aboard: list[Aboard] | None = None
    levels: dict[str, dict[str, Level]] = {}
    state: TicketState = TicketState.blank()
    tires: Text | None = None


def _log_address(value: object) -> str:
    text = str(value)
    if (
        re.fullmatch(r"(https?://[!-~]+|mailto:[!-~]+@[!-~]+|tel:[!-~]+|geo:[!-~]+)", text)
        and "#" not in text
    ):
        return text
    raise written_problem(
        f"'{text}' is no address a code can hold; write it like 'https://log.example.org/name', "
        "'mailto:name@example.org', 'tel:+15555550100' or 'geo:44.2,-114.9', without spaces and '#'"
    )


LogAddress: TypeAlias = Annotated[str, PlainValidator(_log_address)]


class Rig(Record):
    """The whole profile."""

    name: Text
    invented: Truth = False
    units: Literal["us", "metric"]
    paper: Literal["letter", "a4"]
    log: LogAddress | None = None
    basis: Literal["weighed", "label"] = "label"
    vehicles: dict[str, Vehicle] = Field(min_length=1)
    couplings: list[Coupling] = []
    tires: dict[str, Tires] = {}
    wheels: dict[str, Wheels] = {}
    scale_tickets: list[ScaleTicket] = []
    spares: list[Carried] = []
    service: list[Service] = []
    readings: list[Reading] = []
    expires: list[Expiry] = []
    tools: list[Carried] = []
    people: Count | None = None
