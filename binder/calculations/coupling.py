"""What may be towed: the least of everything between the towing vehicle and the one behind it."""

from collections.abc import Iterable
from typing import NamedTuple

from binder.quantities import Mass, Quantity, checks_dimensions

# Limits that fall together within this share are a tie: what is written in other units never
# comes back to the last binary digit.
_SAME = 1e-9


class Link(NamedTuple):
    """One limit on what is towed, by its trade name; None where it is not known."""

    name: str
    limit: Mass | None


class CouplingLimit(NamedTuple):
    """Least of the known limits, every part that sets it, and the parts whose limit is not known.

    ``limit`` None means that no limit is known at all.
    """

    limit: Mass | None
    weakest: tuple[str, ...]
    unknown: tuple[str, ...]

    def margin(self, load: Mass) -> Mass | None:
        """What the weakest part still allows beyond a load.

        Args:
            load: what is towed, loaded [mass].
        Returns: The margin [mass], negative when over; None where no limit is known.
        Sources: arithmetic.

        >>> f"{CouplingLimit(q(8000, 'pound'), ('tow bar',), ()).margin(q(4060, 'pound')):.0f}"
        '3940 pound'
        """
        return None if self.limit is None else self.limit - load


def coupling_limit(links: Iterable[Link]) -> CouplingLimit:
    """Least limit of a coupling; a tie names every part.

    Args:
        links: each part with what it may tow [mass]. A safety cable stands with the rating of one
            cable, since each must hold the loaded towed vehicle alone.
    Returns: The limit [mass], what sets it, and what is not known.
    Sources: arithmetic; 49 CFR 393.70 (safety chains and cables).

    >>> limits = {"receiver": 10000, "tow bar": 8000, "base plate": 8000}
    >>> coupling_limit(Link(name, q(limit, "pound")) for name, limit in limits.items()).weakest
    ('tow bar', 'base plate')
    """
    every = tuple(links)
    unknown = tuple(link.name for link in every if link.limit is None)
    known = [(link.name, link.limit) for link in every if link.limit is not None]
    if not known:
        return CouplingLimit(None, (), unknown)
    least = min(limit for _, limit in known)
    slack = abs(least) * _SAME
    return CouplingLimit(least, tuple(name for name, limit in known if limit <= least + slack), unknown)


@checks_dimensions
def room_in_combination_rating(combination_rating: Mass, towing_vehicle: Mass) -> Mass:
    """What the combination rating leaves for the towed vehicle.

    Args:
        combination_rating: gross combination weight rating [mass].
        towing_vehicle: the towing vehicle as loaded [mass].
    Returns: The room [mass], negative when the towing vehicle alone is over.
    Sources: 49 CFR 571.3.

    >>> f"{room_in_combination_rating(q(41000, 'pound'), q(28228, 'pound')):.0f}"
    '12772 pound'
    """
    room: Quantity = combination_rating - towing_vehicle
    return room


@checks_dimensions
def limit_without_brakes(limit: Mass | None, *, brakes_work: bool | None) -> Link | None:
    """Chassis maker's limit for towing without brakes, where it applies.

    Args:
        limit: of the chassis maker, None where it is not known [mass].
        brakes_work: whether the towed vehicle's brakes work; None where it is not known.
    Returns: The limit as a link of the chain; None where the towed vehicle's brakes are known to work.
    Sources: maker; practice.

    >>> limit_without_brakes(q(1500, "pound"), brakes_work=True)
    >>> limit_without_brakes(q(1500, "pound"), brakes_work=None).name
    'towing limit without brakes'
    """
    return None if brakes_work else Link("towing limit without brakes", limit)
