"""A value known only between two ends, both of which are shown."""

from dataclasses import dataclass

from binder.quantities import Quantity


@dataclass(frozen=True)
class Band:
    """The least and the most a value may be."""

    least: Quantity
    most: Quantity

    def __post_init__(self) -> None:
        if self.least > self.most:
            raise ValueError(f"a band from {self.least} to {self.most} is upside down")
