"""What people write about tires and wheels."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field, ValidatorFunctionWrapHandler, WrapValidator

from binder.models.base import Day, Record, Text, written_problem
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

    ``fitted`` is when one of them was last taken off and put on again.
    """

    maximum_load: Mass | None = None
    maximum_pressure: Pressure | None = None
    valve_maximum_pressure: Pressure | None = None
    nut_torque: Torque | None = None
    socket: Text | None = None
    thread: Literal["dry", "oiled"] | None = None
    dual_spacing: Length | None = None
    fitted: LastDone | None = None
    nuts_checked: LastDone | None = None
