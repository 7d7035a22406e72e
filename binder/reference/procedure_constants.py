"""Fixed numbers of the procedures: each with its words in both systems, its reason and its source.

They are the same for every rig, so no figure holds them; a card prints the text that stands in the table and
computes nothing. The metric text is rounded to the strict side, and says how.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from binder.reference.sources import rows_of_table


@dataclass(frozen=True)
class Amount:
    """A number, or two with a word between them, and its unit, as printed."""

    value: str
    unit: str

    @property
    def text(self) -> str:
        """Value and unit, as they stand on a card."""
        return f"{self.value} {self.unit}".strip()

    @property
    def ends(self) -> tuple[str, ...]:
        """Each of its numbers with the unit: two where there is a word between them."""
        return tuple(f"{number} {self.unit}" for number in self.value.split(" to "))


@dataclass(frozen=True)
class ProcedureConstant:
    """One fixed number: in both systems, why it is so, where it is from, how the metric is rounded.

    ``metric_reason`` stands in for a reason that names other numbers in US units.
    """

    name: str
    us: Amount
    metric: Amount
    reason: str
    source: str
    rounding: str
    metric_reason: str


def _constant(row: dict[str, str]) -> ProcedureConstant:
    us, metric = Amount(row["us"], row["us_unit"]), Amount(row["metric"], row["metric_unit"])
    rounding = row["rounding"] or "the same in both systems"
    return ProcedureConstant(
        row["name"], us, metric, row["reason"], row["source_id"], rounding, row["metric_reason"]
    )


PROCEDURE_CONSTANTS: Mapping[str, ProcedureConstant] = MappingProxyType(
    {row["name"]: _constant(row) for row in rows_of_table("procedure_constants")}
)
"""Every fixed number of the procedures by its name."""
