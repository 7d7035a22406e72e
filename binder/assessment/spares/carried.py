"""What is carried, held against what should be: enough, too few, missing, expired, or not counted."""

import re
from collections.abc import Iterator
from datetime import date
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment.spares.wanted import Want, wanted_spares
from binder.models.rig import Rig
from binder.models.spares import Carried
from binder.quantities import VOLUME, QuantityError

Status: TypeAlias = Literal["enough", "few", "missing", "expired", "uncounted"]
_COUNTED = re.compile(r"(\d+)\s*$")


class Amount(NamedTuple):
    """A number of pieces, or of units of volume; ``unit`` is the word after the number."""

    number: float
    unit: str

    @property
    def text(self) -> str:
        """As it is said: whole numbers without a point."""
        return f"{self.number:g} {self.unit}".strip()

    @property
    def value(self) -> float | str:
        """A bare number as a number, "2 qt" as words: a quart is not to be printed in gallons."""
        return self.text if self.unit else self.number


class Stock(NamedTuple):
    """One want, the entries that meet it, and how far they do.

    ``carried`` counts what is in date on the last day, None where an entry gives no number that can be
    held against the want; ``short`` is what is to be bought, None where that is nothing or not known.
    """

    want: Want
    items: tuple[Carried, ...]
    expired: tuple[Carried, ...]
    carried: Amount | None
    short: Amount | None
    status: Status


def stocks(rig: Rig, last: date) -> tuple[Stock, ...]:
    """Hold what a rig carries against what it should."""
    return tuple(_stock(rig, want, last) for want in wanted_spares(rig))


def is_met_by(want: Want, item: Carried) -> bool:
    """Tell whether an entry is what is wanted: by its ``is``, else by what stands before a comma."""
    said = (item.names or item.what).casefold().strip()
    if said not in want.names and said.split(",")[0].strip() not in want.names:
        return False
    if not want.vehicle:
        return True
    return want.is_driven if item.serves is None else item.serves == want.vehicle


def extra_items(rig: Rig) -> tuple[Carried, ...]:
    """List what is carried that no rule asks for."""
    wants = wanted_spares(rig)
    return tuple(
        item for item in (*rig.spares, *rig.tools) if not any(is_met_by(want, item) for want in wants)
    )


def has_expired(item: Carried, last: date) -> bool:
    """Tell whether an entry is out of date on the last day."""
    return item.expires is not None and item.expires < last


def _stock(rig: Rig, want: Want, last: date) -> Stock:
    met = tuple(item for item in (*rig.spares, *rig.tools) if is_met_by(want, item))
    expired = tuple(item for item in met if has_expired(item, last))
    items = tuple(item for item in met if item not in expired) or (() if expired else _noted(rig, want))
    wanted = amount_of(want.quantity)
    if not items:
        return Stock(want, (), expired, Amount(0.0, wanted.unit), wanted, "expired" if expired else "missing")
    numbers = [_number(item.quantity, wanted) for item in items]
    known = [number for number in numbers if number is not None]
    if len(known) < len(numbers):
        return Stock(want, items, expired, None, None, "uncounted")
    carried = Amount(round(sum(known), 3), wanted.unit)
    if carried.number >= wanted.number:
        return Stock(want, items, expired, carried, None, "enough")
    short = Amount(round(wanted.number - carried.number, 3), wanted.unit)
    return Stock(want, items, expired, carried, short, "expired" if expired else "few")


def amount_of(text: str) -> Amount:
    """Read a number and what it counts."""
    number, _, unit = text.partition(" ")
    return Amount(float(number), unit)


def _number(text: str | None, wanted: Amount) -> float | None:
    """How many of the unit wanted; pieces and boxes are counted alike, a volume only with a volume.

    An entry without a number is one piece: it is there.
    """
    measured = _is_volume(f"1 {wanted.unit}")
    if text is None:
        return 1.0 if wanted.number == 1 and not measured else None
    if measured and _is_volume(text):
        return float((VOLUME.read(text) / VOLUME.read(f"1 {wanted.unit}")).to("").magnitude)
    return None if measured or _is_volume(text) else amount_of(text).number


def _is_volume(text: str) -> bool:
    try:
        VOLUME.read(text)
    except QuantityError:
        return False
    return True


def _noted(rig: Rig, want: Want) -> tuple[Carried, ...]:
    """What the profile notes elsewhere: for topping a fluid up, or among the equipment."""
    field = want.rule.noted_as
    if field == "fluid":
        return tuple(_top_ups(rig, want.name))
    if not field:
        return ()
    found = []
    for vehicle in rig.vehicles.values():
        noted = getattr(vehicle.equipment, field)
        if isinstance(noted, int):
            found.append(Carried(what=want.name, quantity=str(noted)))
        elif noted is not None:
            found += [_from_words(want.name, words) for words in noted] or [Carried(what=want.name)]
    return tuple(found)


def _from_words(what: str, words: str) -> Carried:
    """Take place and number of "tool bay, 3" apart."""
    counted = _COUNTED.search(words)
    place = words[: counted.start()].rstrip(", ") if counted else words
    return Carried(what=what, quantity=counted[1] if counted else None, place=place or None)


def _top_ups(rig: Rig, name: str) -> Iterator[Carried]:
    for vehicle in rig.vehicles.values():
        fluid = vehicle.fluids.get(name)
        if fluid and fluid.top_up and (fluid.top_up.quantity is not None or fluid.top_up.place):
            amount = fluid.top_up.quantity
            text = None if amount is None else _volume_text(amount.magnitude, str(amount.units))
            yield Carried(what=name, quantity=text, place=fluid.top_up.place)


def _volume_text(number: float, unit: str) -> str:
    short = {"gallon": "gal", "quart": "qt", "pint": "pt", "liter": "L", "milliliter": "mL"}
    return f"{number:g} {short.get(unit, unit)}"
