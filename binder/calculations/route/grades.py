"""Long grades: height, energy, and the power to hold a weight at a speed against what resists it.

Downhill, gravity feeds power in; air and tires take a part, the retarder takes what it can, and the rest
goes into the brakes. No speed is advised here: the figures compare, the driver decides.
"""

from collections.abc import Mapping
from functools import cache
from math import atan, cos, sin
from types import MappingProxyType
from typing import NamedTuple

from binder.calculations.tires.gas_law import atmospheric_pressure
from binder.quantities import (
    Density,
    Length,
    Mass,
    Power,
    Quantity,
    Share,
    Speed,
    Time,
    checks_dimensions,
    registry,
)
from binder.reference.constants import EARTH_RADIUS, LOWEST_LAYER_LAPSE, SEA_LEVEL_TEMPERATURE
from binder.reference.sources import rows_of_table

_GRAVITY = registry.Quantity(1.0, "standard_gravity")
# R*/M of the 1976 standard atmosphere: 8314.32 J/(kmol K) over 28.9644 kg/kmol (USSA1976).
_AIR_CONSTANT = registry.Quantity(8314.32 / 28.9644, "joule / kilogram / kelvin")


class RoadLoad(NamedTuple):
    """What resists a vehicle: drag area (coefficient times frontal area) and rolling coefficient.

    Rolling is ``rolling * (1 + speed / rolling_speed)``; without ``rolling_speed`` it does not grow.
    """

    drag_area: Quantity
    rolling: float
    rolling_speed: Speed | None = None


class Motion(NamedTuple):
    """A weight at a speed through air of a density."""

    mass: Mass
    speed: Speed
    air_density: Density


class HoldingPower(NamedTuple):
    """Power to hold a weight on a grade, and its parts.

    ``left`` is what brakes, engine and retarder must take together; negative where air and tires alone
    hold it.
    """

    gravity: Power
    air: Power
    rolling: Power

    @property
    def left(self) -> Power:
        """What air and tires do not take."""
        left: Quantity = self.gravity - self.air - self.rolling
        return left


@cache
def road_loads() -> Mapping[str, RoadLoad]:
    """Published road loads of trucks; none of a motorhome was found.

    Returns: Drag area and rolling coefficient, by vehicle.
    Sources: LIB-FASTSIM.

    >>> road_loads()["line-haul truck"].rolling
    0.006
    """
    rows = rows_of_table("road_load_coefficients")
    return MappingProxyType(
        {
            row["vehicle"]: RoadLoad(
                registry.Quantity(float(row["drag_area_m2"]), "meter ** 2"), float(row["rolling_coefficient"])
            )
            for row in rows
        }
    )


def least_road_load() -> RoadLoad:
    """Road load that helps least downhill: the least drag and the least rolling of the table.

    Returns: The road load; uphill it would be the unsafe one.
    Sources: LIB-FASTSIM.

    >>> f"{least_road_load().drag_area:.2f}"
    '5.10 meter ** 2'
    """
    loads = road_loads().values()
    return RoadLoad(min(load.drag_area for load in loads), min(load.rolling for load in loads))


@checks_dimensions
def air_density(elevation: Length) -> Density:
    """Density of the standard atmosphere.

    Args:
        elevation: geometric, over the sea [length].
    Returns: The density [density].
    Raises: ValueError: the elevation is outside the lowest layer of the standard.
    Sources: USSA1976.

    >>> f"{air_density(q(5000, 'foot')):.4f}"
    '1.0556 kilogram / meter ** 3'
    """
    pressure = atmospheric_pressure(elevation)
    height = EARTH_RADIUS.quantity * elevation / (EARTH_RADIUS.quantity + elevation)
    lapse = LOWEST_LAYER_LAPSE.quantity.to("kelvin / meter").m * height.to("meter").m
    warmth = registry.Quantity(SEA_LEVEL_TEMPERATURE.quantity.to("kelvin").m + lapse, "kelvin")
    density: Quantity = (pressure / (_AIR_CONSTANT * warmth)).to("kilogram / meter ** 3")
    return density


@checks_dimensions
def grade_height(length: Length, slope: Share) -> Length:
    """Height a grade climbs or falls.

    Args:
        length: along the road [length].
        slope: rise over level distance, as posted [dimensionless].
    Returns: The height [length].
    Sources: geometry.

    >>> f"{grade_height(q(6, 'mile'), q(6, 'percent')).to('foot'):.0f}"
    '1897 foot'
    """
    height: Quantity = length * sin(_angle(slope))
    return height


def _angle(slope: Share) -> float:
    return atan(float(slope.to("").m))


@checks_dimensions
def grade_energy(mass: Mass, height: Length) -> Quantity:
    """Energy a weight gives off going down, or needs going up.

    Args:
        mass: of the whole combination [mass].
        height: of the grade [length].
    Returns: The energy [energy].
    Sources: statics.

    >>> f"{grade_energy(q(33_112, 'pound'), q(1897, 'foot')).to('kWh'):.1f}"
    '23.7 kilowatt_hour'
    """
    energy: Quantity = (mass * _GRAVITY * height).to("kilowatt_hour")
    return energy


@checks_dimensions
def time_on_grade(length: Length, speed: Speed) -> Time:
    """How long a grade takes.

    Args:
        length: along the road [length].
        speed: held [speed].
    Returns: The time [time].
    Raises: ValueError: the speed is not more than zero.
    Sources: arithmetic.

    >>> f"{time_on_grade(q(6, 'mile'), q(45, 'mph')):.0f}"
    '8 minute'
    """
    if speed.magnitude <= 0:
        raise ValueError("a grade is driven at a speed of more than zero")
    time: Quantity = (length / speed).to("minute")
    return time


@checks_dimensions
def holding_power(motion: Motion, slope: Share, road_load: RoadLoad) -> HoldingPower:
    """Power to hold a weight at a speed down a grade.

    Args:
        motion: weight, speed and air; the crest's air is the thinnest and helps least.
        slope: rise over level distance, as posted [dimensionless].
        road_load: what resists the vehicle.
    Returns: Power of gravity, and what air and tires take of it [power].
    Sources: S-MANNERING; statics.

    >>> motion = Motion(q(33_112, "pound"), q(45, "mph"), air_density(q(5000, "foot")))
    >>> held = holding_power(motion, q(6, "percent"), least_road_load())
    >>> f"{held.gravity:.0f} less {held.air + held.rolling:.0f}"
    '177 kilowatt less 40 kilowatt'
    """
    angle = _angle(slope)
    weight = motion.mass * _GRAVITY
    return HoldingPower(
        (weight * sin(angle) * motion.speed).to("kilowatt"),
        (_air_force(motion, road_load) * motion.speed).to("kilowatt"),
        (weight * cos(angle) * _rolling(motion, road_load) * motion.speed).to("kilowatt"),
    )


def _air_force(motion: Motion, road_load: RoadLoad) -> Quantity:
    force: Quantity = motion.air_density * road_load.drag_area * motion.speed**2 / 2
    return force


def _rolling(motion: Motion, road_load: RoadLoad) -> float:
    if road_load.rolling_speed is None:
        return road_load.rolling
    return road_load.rolling * (1 + float((motion.speed / road_load.rolling_speed).to("").m))


@checks_dimensions
def retarder_margin(held: HoldingPower, retarder: Power) -> Power:
    """What a retarder can take beyond what a grade leaves to it.

    Args:
        held: power on the grade.
        retarder: what it takes at that speed [power].
    Returns: The margin [power]; negative: the brakes must take that much, all the way down.
    Sources: practice (the comparison).

    >>> f"{retarder_margin(HoldingPower(q(177, 'kW'), q(25, 'kW'), q(20, 'kW')), q(150, 'kW')):.0f}"
    '18 kilowatt'
    """
    margin: Quantity = (retarder - held.left).to("kilowatt")
    return margin


@checks_dimensions
def retarder_share(held: HoldingPower, retarder: Power) -> Share:
    """How much of a retarder's power a grade takes.

    Args:
        held: power on the grade.
        retarder: what it takes at that speed [power].
    Returns: The share [dimensionless]; over one: the brakes take the rest; zero: air and tires hold the rig.
    Raises: ValueError: there is no retarder.
    Sources: practice (the comparison).

    >>> share = retarder_share(HoldingPower(q(177, "kW"), q(25, "kW"), q(20, "kW")), q(150, "kW"))
    >>> f"{share.to('percent'):.0f}"
    '88 percent'
    """
    if retarder.magnitude <= 0:
        raise ValueError("no share of a retarder that takes nothing")
    share: Quantity = (held.left / retarder).to("")
    return max(share, 0 * share)
