"""What people write about tires and wheels."""

from typing import Annotated, Literal, TypeAlias

from pydantic import ValidatorFunctionWrapHandler, WrapValidator

from binder.models.base import Day, Record, Text, entry, needed, written_problem
from binder.models.service import LastDone
from binder.quantities import Length, Mass, Pressure, Quantity, Speed, Time, Torque

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

    maximum_load_single: Mass | None = entry("load of one tire on its own", "the sidewall", "6175 lb")
    maximum_load_dual: Mass | None = entry("load of one tire of a pair", "the sidewall", "5675 lb")
    maximum_pressure: Pressure | None = entry(
        "the cold pressure those loads are stated at", "the sidewall", "110 psi"
    )


class LoadTableText(Record):
    """The maker's load table as typed: cold pressure to load, for single and dual fitment."""

    basis: TableBasis = needed(
        "what one figure of the table is for", "the head of the maker's table", "per tire"
    )
    origin: Text = needed("whose table, which page", "", "the maker's data book, page 12", alias="from")
    size: Text | None = entry("the size it is for, with the load range", "the table's head", "295/75R22.5 G")
    single: Rows | None = entry(
        "pressure to load, single", "the maker's table for this size and load range", "{70 psi: 4500 lb}"
    )
    dual: Rows | None = entry("pressure to load, dual", "the same table", "{70 psi: 4135 lb}")


class MountedTire(Record):
    """One tire of the register, at its position."""

    asked = frozenset({"damage"})
    date_code: Text | None = entry(
        "week and year it was made: the last four figures after DOT",
        "the sidewall, perhaps the inner one",
        "1423",
    )
    tread: Length | None = entry("least tread depth", "measure it", "11/32 in")
    circumference: Length | None = entry("around the tread", "measure it", "125.5 in")
    diameter: Length | None = entry("across the tire", "measure it", "40 in")
    mounted_on: Day | None = entry("the day it was mounted", "the bill", "2023-06-10")
    damage: Text | None = entry("what is wrong with it", "look", "cut in the tread")


class Tires(Record):
    """One kind of tire the rig rolls on, and the register of those mounted."""

    size: Text | None = entry("size with its letters", "the sidewall", "LT235/85R16")
    load_range: Text | None = entry("load range", "the sidewall", "E")
    family: Family | None = entry(
        "what kind of tire",
        "the letters of its size: P, LT, ST; C behind it is european commercial",
        "light truck",
    )
    maximum_speed: Speed | None = entry("speed it may run at", "the sidewall or its maker", "75 mph")
    sidewall: Sidewall = entry("what is molded into it", default=Sidewall.blank())
    margin: Pressure | None = entry("what you add over the row of the table", "", "5 psi")
    replace_after: Time | None = entry("your own age limit", "", "7 years")
    table: LoadTableText | None = entry("its maker's load table")
    mounted: dict[str, MountedTire] = entry(
        "each tire by axle and side, outer before inner: drive left inner", default={}
    )


class Wheels(Record):
    """One kind of wheel: its own limits, its valve's, how its nuts are tightened, and when that was done.

    ``fitted`` is when one of them was last taken off and put on again, ``since`` when the kind was changed.
    """

    since: Day | None = entry("since when wheels of this kind have been mounted", "", "2026-05-02")
    maximum_load: Mass | None = entry("load of one wheel", "stamped on it", "7400 lb")
    maximum_pressure: Pressure | None = entry("pressure of one wheel", "stamped on it", "120 psi")
    valve_maximum_pressure: Pressure | None = entry(
        "pressure of the valve stem", "its data sheet; ask the tire shop", "120 psi"
    )
    nut_torque: Torque | None = entry("how tight its nuts are", "the manual", "475 ft*lb")
    socket: Text | None = entry("size of the socket", "try it", "33 mm")
    thread: Literal["dry", "oiled"] | None = entry(
        "whether the torque is meant dry or oiled", "the manual", "dry"
    )
    dual_spacing: Length | None = entry("middle to middle of a pair", "measure it", "13.5 in")
    fitted: LastDone | None = entry("when a wheel was last put on")
    nuts_checked: LastDone | None = entry("when its nuts were last torqued")
