"""How long a battery lasts: hour-rated capacity, Peukert, the usable part, cold."""

from dataclasses import dataclass
from functools import cache
from math import log
from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.table_rows import value_between
from binder.quantities import (
    Charge,
    Current,
    Power,
    Quantity,
    Share,
    Temperature,
    Time,
    Voltage,
    checks_dimensions,
    registry,
)
from binder.reference.sources import rows_of_table

Chemistry: TypeAlias = Literal["lead-acid", "lithium iron phosphate"]

# practice; S-SUNON advises 50 % for lead-acid, S-LFP at most 80 % for lithium iron phosphate.
USABLE: dict[Chemistry, Share] = {
    "lead-acid": registry.Quantity(50.0, "percent"),
    "lithium iron phosphate": registry.Quantity(80.0, "percent"),
}
_CHARGES_FROM = registry.Quantity(0.0, "degree_Celsius")  # S-LFP.
_CHARGES_TO = registry.Quantity(45.0, "degree_Celsius")  # S-LFP.


@dataclass(frozen=True)
class RatedBattery:
    """Capacity at its stated hour rate, and Peukert's exponent: 1 takes no loss, lead-acid has more."""

    capacity: Charge
    rated_time: Time
    exponent: float

    def __post_init__(self) -> None:
        if self.capacity.magnitude <= 0 or self.rated_time.magnitude <= 0:
            raise ValueError("capacity and its hour rate must be more than zero")
        if self.exponent < 1:
            raise ValueError(f"an exponent of {self.exponent} would give more the faster it is drawn")

    @property
    def rated_current(self) -> Current:
        """The current that empties it in its rated time."""
        current: Quantity = (self.capacity / self.rated_time).to("ampere")
        return current


@checks_dimensions
def discharge_time(battery: RatedBattery, current: Current) -> Time:
    """How long a full battery gives a steady current until it is empty.

    Why: the plain form of Peukert's law wants the capacity at one ampere, which no maker states; with an
    hour-rated capacity it is wrong even at the rated current. Drawn slower than rated, a battery gives
    its rated capacity, not more.

    Args:
        battery: capacity, hour rate and exponent.
        current: drawn steadily [current].

    Returns:
        The time [time].

    Raises:
        ValueError: the current is not more than zero.

    Sources:
        S-SMARTG; S-XANTREX (slower than rated).

    Example:
        >>> q = registry.Quantity
        >>> battery = RatedBattery(q(100, "Ah"), q(20, "hour"), 1.25)
        >>> [f"{discharge_time(battery, q(amps, 'ampere')).to('hour'):.1f}" for amps in (2.5, 5, 10)]
        ['40.0 hour', '20.0 hour', '8.4 hour']
    """
    if current.magnitude <= 0:
        raise ValueError("a battery is emptied by a current of more than zero")
    times_rated = float((current / battery.rated_current).to("").m)
    # C (C/R)^(n-1) / I^n is R / (I / (C/R))^n.
    exponent = battery.exponent if times_rated > 1 else 1.0
    time: Quantity = battery.rated_time / times_rated**exponent
    return time


class DischargeTest(NamedTuple):
    """One full discharge at a steady current: how much, for how long."""

    current: Current
    time: Time


def peukert_exponent(fast: DischargeTest, slow: DischargeTest) -> float:
    """Peukert's exponent from two discharges, or two hour ratings, of one battery.

    Args:
        fast: the discharge with the higher current.
        slow: the one with the lower.

    Returns:
        The exponent.

    Raises:
        ValueError: the two are not at different currents and times, the faster the shorter.

    Sources:
        S-XANTREX.

    Example:
        >>> q = registry.Quantity
        >>> fast, slow = (DischargeTest(q(a, "ampere"), q(h, "hour")) for a, h in ((25, 2.7), (5, 20)))
        >>> round(peukert_exponent(fast, slow), 2)
        1.24
    """
    currents = float((fast.current / slow.current).to("").m)
    times = float((slow.time / fast.time).to("").m)
    if currents <= 1 or times <= 1:
        raise ValueError("the first discharge must be at more current and over sooner")
    return log(times) / log(currents)


@checks_dimensions
def usable_charge(capacity: Charge, usable: Share, cold: Share) -> Charge:
    """Charge a battery may give before it is recharged.

    Args:
        capacity: when full and warm [charge].
        usable: part that may be drawn; the owner's, else by chemistry [dimensionless].
        cold: part of the capacity left at its temperature [dimensionless].

    Returns:
        The charge [charge].

    Sources:
        practice; S-SUNON; S-LFP.

    Example:
        >>> q = registry.Quantity
        >>> f"{usable_charge(q(440, 'Ah'), USABLE['lead-acid'], q(75, 'percent')):.0f}"
        '165 ampere_hour'
    """
    charge: Quantity = capacity * (usable.to("").m * cold.to("").m)
    return charge


@checks_dimensions
def current_drawn(power: Power, voltage: Voltage, efficiency: Share) -> Current:
    """Current an appliance draws from the battery.

    Args:
        power: of the appliance [power].
        voltage: of the battery [voltage].
        efficiency: of the inverter between; all of it without one [dimensionless].

    Returns:
        The current [current].

    Raises:
        ValueError: voltage or efficiency is not more than zero.

    Sources:
        arithmetic.

    Example:
        >>> q = registry.Quantity
        >>> f"{current_drawn(q(120, 'watt'), q(12, 'volt'), q(100, 'percent')):.0f}"
        '10 ampere'
    """
    if voltage.magnitude <= 0 or efficiency.magnitude <= 0:
        raise ValueError("voltage and efficiency must be more than zero")
    current: Quantity = (power / voltage / efficiency).to("ampere")
    return current


@cache
def _cold_capacities() -> tuple[tuple[float, float], ...]:
    rows = rows_of_table("lead_acid_cold_capacity")
    return tuple((float(row["electrolyte_F"]), float(row["capacity_percent"])) for row in rows)


@checks_dimensions
def lead_acid_capacity_in_cold(electrolyte: Temperature) -> Share | None:
    """Part of its capacity a lead-acid battery gives in the cold, straight between the table's rows.

    Args:
        electrolyte: temperature of the battery, not of the air [temperature].

    Returns:
        The share [dimensionless]; None under 0 °F and over 77 °F.

    Sources:
        S-TM10-6140.

    Example:
        >>> f"{lead_acid_capacity_in_cold(registry.Quantity(20, 'degF')):.0f}"
        '62 percent'
    """
    share = value_between(_cold_capacities(), float(electrolyte.to("degree_Fahrenheit").m))
    return None if share is None else registry.Quantity(share, "percent")


@checks_dimensions
def is_charge_taken(chemistry: Chemistry, cell: Temperature) -> bool | None:
    """Tell whether a battery may be charged at a temperature.

    Args:
        chemistry: of the battery [name].
        cell: temperature of the cells, not of the air [temperature].

    Returns:
        For lithium iron phosphate, True from 0 to 45 °C; None for lead-acid, for which no limit was
        found (frozen, it must not be charged).

    Sources:
        S-LFP.

    Example:
        >>> is_charge_taken("lithium iron phosphate", registry.Quantity(31, "degF"))
        False
    """
    if chemistry != "lithium iron phosphate":
        return None
    kelvin = float(cell.to("kelvin").m)
    edge = 1e-9  # 32 °F and 0 °C are one temperature, but for the last bits.
    return float(_CHARGES_FROM.to("kelvin").m) - edge <= kelvin <= float(_CHARGES_TO.to("kelvin").m) + edge
