"""The shape of a fixed number of the procedures: its words in both systems, its reason and its source."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Amount:
    """A number, or two with a word between them, and its unit, as printed."""

    value: str
    unit: str

    @property
    def text(self) -> str:
        """Value and unit, as they stand on a card."""
        return f"{self.value} {self.unit}".strip()


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
    rounding: str = "the same in both systems"
    metric_reason: str = ""
