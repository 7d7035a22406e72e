"""Cold pressure estimated where no load table is given, and how far a typed table may be believed."""

from typing import Literal, TypeAlias

from binder.calculations.load_tables import LoadRow
from binder.calculations.pressure_steps import is_at_least, rounded_up
from binder.quantities import Mass, Pressure, checks_dimensions, registry

Family: TypeAlias = Literal[
    "passenger P", "passenger", "light truck", "special trailer", "truck", "european commercial"
]

_LINEAR = 1.0
# Load grows as pressure to this power. Fitted on S01 S03 S04 S05 S06 S10; P-metric formula S42.
# "passenger" (a size without a letter) and unknown stay linear: a lower power is the unsafe side.
_EXPONENTS: dict[str, float] = {
    "passenger P": 0.50,
    "special trailer": 0.585,
    "light truck": 0.70,
    "truck": 0.70,
    "european commercial": 0.80,
}
# First rows of the reference tables: S05, S04, S01 with S61, S06. No estimate goes below them.
_FIRST_ROWS: dict[str, float] = {
    "passenger P": 20.0,
    "special trailer": 15.0,
    "light truck": 35.0,
    "european commercial": 30.0,
}
_FLAT_SHARE = 0.50  # Where no first row is known: a tire at half its maximum counts as flat (S40).
_PADDING = registry.Quantity(2.0, "psi")  # The right exponents miss printed tables by up to 1.84 psi.
_STEP = registry.Quantity(5.0, "psi")  # Step of the tables the exponents were fitted on.


def family_exponent(family: Family | None) -> float:
    """Power of pressure that load grows with in a family of tires.

    Args:
        family: of the tire; None where unknown.

    Returns:
        The exponent; 1 where the family is unknown or the size has no letter, which asks for more air.

    Sources:
        measured here (on S01, S03, S04, S05, S06, S10); S42 (P-metric). Truck is weakly supported.

    Example:
        >>> family_exponent("special trailer"), family_exponent(None)
        (0.585, 1.0)
    """
    return _LINEAR if family is None else _EXPONENTS.get(family, _LINEAR)


@checks_dimensions
def curve_pressure(load: Mass, rated: LoadRow, exponent: float) -> Pressure:
    """Pressure on the family curve through a tire's rated point, before anything is added.

    Args:
        load: on one tire [mass].
        rated: maximum pressure and the load carried at it.
        exponent: power of pressure that load grows with [dimensionless].

    Returns:
        P = Pmax (L / Lmax) ** (1 / n) [pressure].

    Sources:
        S31 (the same law with exponent 0.8); S42; measured here.

    Example:
        >>> rated = LoadRow(registry.Quantity(50, "psi"), registry.Quantity(750, "kg"))
        >>> f"{curve_pressure(registry.Quantity(550, 'kg'), rated, 0.8):.1f}"
        '33.9 psi'
    """
    share = (load / rated.load).to("").m
    return registry.Quantity(rated.pressure.m * share ** (1 / exponent), rated.pressure.units)


@checks_dimensions
def estimated_row(load: Mass, rated: LoadRow, family: Family | None) -> Pressure | None:
    """Pressure used as the row where the maker's table is not given.

    Why: a bare step up still lands below the maker's row for 2 to 16 % of loads; 2 psi more does not.

    Args:
        load: on one tire [mass].
        rated: stamped maximum pressure and the load carried at it in this fitment.
        family: of the tire; None where unknown.

    Returns:
        The curve's pressure and 2 psi, up to the next 5 psi, at most the stamped pressure, which
        carries the stamped load; not below the first row of its family's tables [pressure]. None
        where the tire does not carry the load. To be marked "calculated, get the maker's table".

    Sources:
        measured here (on S01, S03, S04, S05, S06, S10); S42; S40.

    Example:
        >>> rated = LoadRow(registry.Quantity(80, "psi"), registry.Quantity(3042, "pound"))
        >>> f"{estimated_row(registry.Quantity(2150, 'pound'), rated, 'light truck'):.0f}"
        '55 psi'
    """
    if not is_at_least(rated.load, load):
        return None
    bare = curve_pressure(load, rated, family_exponent(family)).to("psi")
    estimate = max(rounded_up(bare + _PADDING, _STEP), _first_row(rated, family))
    return rated.pressure if is_at_least(estimate, rated.pressure) else estimate


def _first_row(rated: LoadRow, family: Family | None) -> Pressure:
    if family is not None and family in _FIRST_ROWS:
        return registry.Quantity(_FIRST_ROWS[family], "psi")
    return rounded_up(rated.pressure * _FLAT_SHARE, _STEP)
