"""What a rig usually carries: rules by equipment, each with its quantity, its reason and its source."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeAlias

from binder.reference.sources import rows_of_table

Per: TypeAlias = Literal["rig", "vehicle", "belt"]
_PER: Mapping[str, Per] = {"rig": "rig", "vehicle": "vehicle", "belt": "belt"}


@dataclass(frozen=True)
class SpareRule:
    """One row of the table.

    ``needs`` is met where all words of one of its groups hold for the rig. ``us`` and ``metric`` are the
    quantity in words; ``noted_as`` is a field of the equipment that tells it is carried, or ``fluid``:
    what is noted for topping up the fluid of this name. ``size`` says what must be known to buy the
    right one: a fluid's name, ``socket``, ``torque`` or ``cap``.
    """

    name: str
    group: str
    needs: tuple[tuple[str, ...], ...]
    per: Per
    us: str
    metric: str
    noted_as: str
    size: str
    has_part_number: bool
    reason: str
    source: str


@cache
def spare_rules() -> tuple[SpareRule, ...]:
    """Read the rules; of two with one name, the first that is met counts.

    Returns: The rules in the order of the table.
    Sources: Each row carries its own in the column ``source_id``; all of them are practice.

    >>> [rule.us for rule in spare_rules() if rule.name == "fuel filter"]
    ['2', '1']
    """
    return tuple(_read())


def _read() -> Iterator[SpareRule]:
    for row in rows_of_table("spares"):
        groups = tuple(tuple(group.split(" and ")) for group in row["needs"].split(" or "))
        yield SpareRule(
            row["name"],
            row["group"],
            groups,
            _PER[row["per"]],
            row["us"],
            row["metric"],
            row["noted_as"],
            row["size"],
            row["has_part_number"] == "yes",
            row["reason"],
            row["source_id"],
        )
