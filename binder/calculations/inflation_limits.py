"""What tire, wheel and valve allow: the cap on pressure and the limit on load."""

from typing import Literal, NamedTuple, TypeAlias

from binder.calculations.load_tables import LoadTable, row_for
from binder.calculations.pressure_steps import is_at_least
from binder.quantities import Mass, Pressure, Quantity, checks_dimensions

Part: TypeAlias = Literal["tire", "wheel", "valve"]


class PressureLimits(NamedTuple):
    """Highest cold pressure of each part; None where it is not known.

    The tire has two figures: the last row of its table and what is stamped on its sidewall.
    """

    tabulated: Pressure | None
    stamped: Pressure | None
    wheel: Pressure | None
    valve: Pressure | None


class LoadLimits(NamedTuple):
    """Highest load on one tire of each part; None where it is not known."""

    tabulated: Mass | None
    stamped: Mass | None
    wheel: Mass | None


class Cap(NamedTuple):
    """Least of the limits that are known: which parts set it (all of a tie), and which are unknown.

    ``limit`` None means that no part's limit is known.
    """

    limit: Quantity | None
    bound_by: tuple[Part, ...]
    unknown: tuple[Part, ...]


def pressure_cap(limits: PressureLimits) -> Cap:
    """Highest cold pressure that tire, wheel and valve all allow.

    Args:
        limits: highest cold pressure of each part [pressure].

    Returns:
        The cap [pressure], what binds it, and the parts whose limit is to be read off the wheel.

    Sources:
        S60 (wheel); S21 (wheels and valves as the limit).

    Example:
        >>> from binder.quantities import registry
        >>> psi = registry.Quantity(110, "psi")
        >>> cap = pressure_cap(PressureLimits(psi, psi, registry.Quantity(120, "psi"), None))
        >>> cap.bound_by, cap.unknown
        (('tire',), ('valve',))
    """
    tire = _least([limits.tabulated, limits.stamped])
    return _cap((("tire", tire), ("wheel", limits.wheel), ("valve", limits.valve)))


def load_cap(limits: LoadLimits) -> Cap:
    """Highest load on one tire that the tire and its wheel both allow.

    Args:
        limits: highest load on one tire, of each part [mass].

    Returns:
        The cap [mass], what binds it, and the parts whose limit is not known.

    Sources:
        S21 (wheels as the limit); S60.

    Example:
        >>> from binder.quantities import registry
        >>> lb = registry.Quantity(6175, "pound")
        >>> load_cap(LoadLimits(lb, lb, registry.Quantity(5000, "pound"))).bound_by
        ('wheel',)
    """
    tire = _least([limits.tabulated, limits.stamped])
    return _cap((("tire", tire), ("wheel", limits.wheel)))


@checks_dimensions
def load_over_cap(load: Mass, cap: Cap) -> Mass | None:
    """How far the load on one tire is over what tire and wheel allow.

    Args:
        load: on one tire [mass].
        cap: of tire and wheel.

    Returns:
        The excess [mass]; None where the load is allowed or no limit is known.

    Sources:
        arithmetic.

    Example:
        >>> from binder.quantities import registry
        >>> cap = load_cap(LoadLimits(None, registry.Quantity(3042, "pound"), None))
        >>> f"{load_over_cap(registry.Quantity(3100, 'pound'), cap):.0f}"
        '58 pound'
    """
    if cap.limit is None or is_at_least(cap.limit, load):
        return None
    excess: Quantity = load - cap.limit
    return excess


@checks_dimensions
def pressure_for_rating(table: LoadTable, rating: Mass, tires: int) -> Pressure | None:
    """Pressure at which fitted tires of another size than the label's carry the axle's rating.

    Args:
        table: of the fitted tires, per tire.
        rating: gross axle weight rating [mass].
        tires: on the axle [count].

    Returns:
        The row's pressure [pressure]; None where the fitted tires cannot carry the rating.

    Sources:
        49 CFR 571.120; practice.

    Example:
        >>> from binder.calculations.load_tables import LoadRow
        >>> from binder.quantities import registry
        >>> q = registry.Quantity
        >>> rows = ((95, 5570), (100, 5775), (105, 5975), (110, 6175))
        >>> table = LoadTable(tuple(LoadRow(q(psi, "psi"), q(load, "pound")) for psi, load in rows))
        >>> f"{pressure_for_rating(table, q(12000, 'pound'), 2):.0f}"
        '110 psi'
    """
    row = row_for(table, rating / tires)
    return None if row is None else row.pressure


def _least(values: list[Quantity | None]) -> Quantity | None:
    known = [value for value in values if value is not None]
    return min(known) if known else None


def _cap(parts: tuple[tuple[Part, Quantity | None], ...]) -> Cap:
    known = [(part, value) for part, value in parts if value is not None]
    unknown = tuple(part for part, value in parts if value is None)
    if not known:
        return Cap(None, (), unknown)
    least = min(value for _, value in known)
    return Cap(least, tuple(part for part, value in known if is_at_least(least, value)), unknown)


def trailer_label_pressure(label: Pressure | None, stamped: Pressure | None) -> Pressure | None:
    """Pressure a trailer's axle never goes below, whatever was weighed.

    Args:
        label: on the trailer's certification label; None where not found [pressure].
        stamped: maximum cold pressure on the sidewall; None where not read [pressure].

    Returns:
        The label's pressure, and where there is no label the stamped one [pressure].

    Sources:
        S64; practice (tandem axles scrub).

    Example:
        >>> from binder.quantities import registry
        >>> f"{trailer_label_pressure(None, registry.Quantity(65, 'psi')):.0f}"
        '65 psi'
    """
    return stamped if label is None else label
