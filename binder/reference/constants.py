"""Constants with their origin: atmosphere, densities, the arithmetic of labels, law, procedures.

Fixed numbers of the procedures are the same for every rig, so no figure holds them; a card prints the text
that stands in their table and computes nothing. The metric text is rounded to the strict side, and says how.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from binder.quantities import Quantity, registry
from binder.reference.sources import rows_of_table


@dataclass(frozen=True)
class Constant:
    """One cited value: what it is, how much, which entry of the bibliography, and a caution."""

    name: str
    quantity: Quantity
    source: str
    note: str = ""


def _constant(name: str, value: float, unit: str, source: str, note: str = "") -> Constant:
    return Constant(name, registry.Quantity(value, unit), source, note)


# The 1976 standard atmosphere, its lowest layer.
EARTH_RADIUS = _constant("radius of the earth for geopotential height", 6_356_766.0, "meter", "USSA1976")
SEA_LEVEL_PRESSURE = _constant("air pressure at sea level", 101_325.0, "pascal", "USSA1976")
SEA_LEVEL_TEMPERATURE = _constant("air temperature at sea level", 288.15, "kelvin", "USSA1976")
LOWEST_LAYER_LAPSE = _constant("temperature gradient", -0.0065, "kelvin / meter", "USSA1976")
LOWEST_LAYER_BOTTOM = _constant("lowest height tabulated", -5_000.0, "meter", "USSA1976")
LOWEST_LAYER_TOP = _constant("top of the lowest layer", 11_000.0, "meter", "USSA1976", "geopotential")
# g0 M / (R* L) with g0 = 9.80665 m/s2, M = 28.9644 kg/kmol, R* = 8314.32 J/(kmol K), L = -0.0065 K/m.
LOWEST_LAYER_EXPONENT = _constant(
    "exponent of the pressure", 9.80665 * 28.9644 / (8314.32 * -0.0065), "", "USSA1976"
)

# Densities used for weights.
WATER_DENSITY = _constant("fresh and waste water", 8.33, "pound / gallon", "S-AP42A")
PROPANE_DENSITY = _constant("liquid propane", 4.24, "pound / gallon", "S-COMAR")
EXHAUST_FLUID_DENSITY = _constant(
    "diesel exhaust fluid", 9.1, "pound / gallon", "S-ISO22241-1", "limits 9.07 to 9.12 at 68 degF"
)
DIESEL_DENSITY = _constant(
    "diesel", 7.05, "pound / gallon", "S-MIDWEST", "about; secondary, 7.05 to 7.09, varies with temperature"
)
GASOLINE_DENSITY = _constant(
    "gasoline", 6.17, "pound / gallon", "S-BIOINS", "about; secondary, 6.0 to 6.3, varies with temperature"
)

# The arithmetic of the labels (occupant and cargo carrying capacity).
LABEL_PERSON = _constant("one person on a label", 150.0, "pound", "49 CFR 571.110", "a seat")
LABEL_WATER_DENSITY = _constant("water on a label", 8.3, "pound / gallon", "49 CFR 571.120", "label only")

# Tires.
SPECIAL_TRAILER_SPEED = _constant("speed of ST tires", 65.0, "mph", "S17; S04", "unless the sidewall differs")
PASSENGER_DERATE = _constant("passenger tires off a passenger car carry rating / 1.10", 1.10, "", "S32")
HOT_MATES_SHARE = _constant("hot mates apart: leak or brake", 10.0, "percent", "practice")
# The most a tire rises from cold to hot, by its family. Where no figure was found it may be the most of all:
# a higher hot line calls a tire flat sooner, never later.
MOST_HOT_RISE = _constant("most any tire rises hot", 18.0, "psi", "S54; gas law", "truck tires")
_CAR_RISE = _constant("most a car tire rises hot", 6.0, "psi", "S54; gas law")
HOT_RISES = {
    "truck": MOST_HOT_RISE,
    "light truck": _constant("most a light-truck tire rises hot", 11.0, "psi", "S54; gas law"),
    "passenger": _CAR_RISE,
    "passenger P": _CAR_RISE,
}
COLD_MATES = _constant("cold mates apart", 5.0, "psi", "S45; S48")
LOAD_USED_ATTENTION = _constant("load used that asks for attention", 95.0, "percent", "practice")
RETARDER_USED_ATTENTION = _constant("retarder used that asks for attention", 85.0, "percent", "practice")

# Lengths that the bars of a drawn day's road stand for: upward, then along.
PROFILE_BARS = {
    "us": (
        _constant("bar of heights", 1_000.0, "foot", "practice"),
        _constant("bar of the way", 20.0, "mile", "practice"),
    ),
    "metric": (
        _constant("bar of heights", 500.0, "meter", "practice"),
        _constant("bar of the way", 40.0, "kilometer", "practice"),
    ),
}

# What each kind of tank holds, for weights.
DENSITIES = {
    "diesel": DIESEL_DENSITY,
    "gasoline": GASOLINE_DENSITY,
    "exhaust fluid": EXHAUST_FLUID_DENSITY,
    "fresh water": WATER_DENSITY,
    "gray water": WATER_DENSITY,
    "black water": WATER_DENSITY,
    "propane": PROPANE_DENSITY,
}

# Federal limits of weight and groups of licenses, for comparison only: local law differs.
_ON_INTERSTATES = "freight vehicles on Interstate highways; states and other countries differ"
SINGLE_AXLE_LIMIT = _constant("one axle", 20_000.0, "pound", "23 CFR 658.17", _ON_INTERSTATES)
TANDEM_LIMIT = _constant(
    "axles over 40 in and up to 96 in apart", 34_000.0, "pound", "23 CFR 658.17", _ON_INTERSTATES
)
GROSS_LIMIT = _constant("all axles together", 80_000.0, "pound", "23 CFR 658.17", _ON_INTERSTATES)
SINGLE_AXLE_SPREAD = _constant("axles this near count as one", 40.0, "inch", "23 CFR 658.17; W10")
TANDEM_SPREAD = _constant("a tandem's axles at most", 96.0, "inch", "23 CFR 658.17; W10")
BRIDGE_STEP = _constant(
    "the formula is rounded to the nearest", 500.0, "pound", "23 CFR 658.17", "a half: down"
)

HEAVY_RATING = _constant("rating from which a group begins", 26_001.0, "pound", "49 CFR 383.91", "11,794 kg")
# The law prints both units, and a label's kilograms must not be over by their rounding: 10,000.2 lb.
TOWED_RATING = _constant("towed rating over which group A begins", 4536.0, "kg", "49 CFR 383.91", "10,000 lb")


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


def _procedure_constant(row: dict[str, str]) -> ProcedureConstant:
    us, metric = Amount(row["us"], row["us_unit"]), Amount(row["metric"], row["metric_unit"])
    rounding = row["rounding"] or "the same in both systems"
    return ProcedureConstant(
        row["name"], us, metric, row["reason"], row["source_id"], rounding, row["metric_reason"]
    )


PROCEDURE_CONSTANTS: Mapping[str, ProcedureConstant] = MappingProxyType(
    {row["name"]: _procedure_constant(row) for row in rows_of_table("procedure_constants")}
)
"""Every fixed number of the procedures by its name."""

_EMERGENCY_ZONES: Mapping[str, str] = MappingProxyType(
    {row["zone"]: row["number"] for row in rows_of_table("emergency_zones")}
)


def emergency_number(zone: str) -> str:
    """Name the number of the procedures that is called where a time zone is.

    Args:
        zone: name of a time zone, such as ``America/Boise``.

    Returns: The name of a constant; empty where none is known.

    Sources: The table emergency_zones, by the beginnings of the zones' names.

    >>> emergency_number("America/Boise") != ""
    True
    """
    return next((number for start, number in _EMERGENCY_ZONES.items() if zone.startswith(start)), "")
