"""Densities of what tanks hold, by temperature."""

from functools import cache
from math import exp
from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.table_rows import Points, value_between
from binder.quantities import Density, Mass, Quantity, Temperature, Volume, checks_dimensions, registry
from binder.reference.sources import rows_of_table

Liquid: TypeAlias = Literal[
    "water",
    "propane liquid",
    "ethylene glycol 50 % by volume",
    "propylene glycol 50 % by volume",
]


class _Product(NamedTuple):
    """Density at 15 °C from and to, and the coefficients of its expansion (S-D1250)."""

    least: float
    most: float
    by_square: float
    by_one: float


# S-D1250. Programs differ on the transition between 770 and 788 kg/m3: no row, no answer there.
_PRODUCTS = (
    _Product(653.0, 770.0, 346.4228, 0.4388),  # Gasolines.
    _Product(788.0, 839.0, 594.5418, 0.0),  # Kerosene and light diesel.
    _Product(839.0, 1075.0, 186.9696, 0.4862),  # Diesel and fuel oils.
)
_BASE_TEMPERATURE = 15.0  # °C, S-D1250.
_COLDEST, _WARMEST = -20.0, 40.0  # °C: as far as the formula was compared with the programs.


@cache
def _densities(liquid: Liquid) -> Points:
    rows = [row for row in rows_of_table("liquid_densities") if row["fluid"] == liquid]
    return tuple((float(row["temp_F"]), float(row["density_kg_m3"])) for row in rows)


@checks_dimensions
def liquid_density(liquid: Liquid, temperature: Temperature) -> Density | None:
    """Density of a liquid, straight between the table's rows; propane under its own vapor.

    Args:
        liquid: which one [name].
        temperature: of the liquid [temperature].

    Returns:
        The density [density]; None outside the table.

    Sources:
        LIB-COOLPROP.

    Example:
        >>> f"{liquid_density('water', registry.Quantity(70, 'degF')).to('lb/gal'):.2f}"
        '8.33 pound / gallon'
    """
    density = value_between(_densities(liquid), float(temperature.to("degree_Fahrenheit").m))
    return None if density is None else registry.Quantity(density, "kilogram / meter ** 3")


@checks_dimensions
def fuel_density(at_15_celsius: Density, temperature: Temperature) -> Density | None:
    """Density of gasoline or diesel at a temperature, from its density at 15 °C.

    Args:
        at_15_celsius: as a delivery slip states it [density].
        temperature: of the fuel [temperature].

    Returns:
        The density [density]; None outside -20 to 40 °C and outside the products, between which, at 770
        to 788 kg/m3, programs differ.

    Sources:
        S-D1250.

    Example:
        >>> slip = registry.Quantity(845, "kilogram / meter ** 3")
        >>> f"{fuel_density(slip, registry.Quantity(-4, 'degF')).to('lb/gal'):.2f}"
        '7.26 pound / gallon'
    """
    base, celsius = float(at_15_celsius.to("kilogram / meter ** 3").m), float(temperature.to("degC").m)
    product = next((item for item in reversed(_PRODUCTS) if item.least <= base <= item.most), None)
    edge = 1e-9  # -4 °F and -20 °C are one temperature, but for the last bits.
    if product is None or not _COLDEST - edge <= celsius <= _WARMEST + edge:
        return None
    growth = (product.by_square / base + product.by_one) / base * (celsius - _BASE_TEMPERATURE)
    return registry.Quantity(base * exp(-growth * (1 + 0.8 * growth)), "kilogram / meter ** 3")


@checks_dimensions
def contents_weight(volume: Volume, density: Density) -> Mass:
    """Weight of what a tank holds.

    Args:
        volume: held [volume].
        density: of the contents [density].

    Returns:
        The weight [mass].

    Sources:
        arithmetic.

    Example:
        >>> q = registry.Quantity
        >>> f"{contents_weight(q(10, 'gallon'), q(1090, 'kg / meter ** 3')).to('pound'):.1f}"
        '91.0 pound'
    """
    weight: Quantity = (volume * density).to("pound")
    return weight
