"""Spares and tools: which this equipment wants, and which are carried and in date."""

import re
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment.body.equipment import has
from binder.assessment.conditions import driven
from binder.assessment.ledger import FigureKind, Key, Ledger, Phrase
from binder.assessment.spares import kinds
from binder.assessment.tires.kinds import CAP
from binder.models.equipment import Bay
from binder.models.rig import Aboard, Carried, Rig, ScaleTicket
from binder.models.tires import Wheels
from binder.quantities import VOLUME, Quantity, QuantityError, registry
from binder.reference.spares import SpareRule, spare_rules

_WITH_LAMPS = {"motorhome", "pickup", "car", "trailer"}


class Want(NamedTuple):
    """One thing that belongs aboard.

    ``vehicle`` is the one it is for where each of several has its own, else empty; ``quantity`` in the
    rig's units; ``names`` all the names, in small letters, under which it may be entered.
    """

    name: str
    vehicle: str
    quantity: str
    rule: SpareRule
    names: frozenset[str]
    is_driven: bool = True

    @property
    def words(self) -> Phrase:
        """Its name, with the vehicle where that is needed."""
        text = kinds.SPARE_OF if self.vehicle else kinds.SPARE
        return Phrase(text, {"spare": self.name, "vehicle": self.vehicle})

    def key(self, of_rig: FigureKind, of_vehicle: FigureKind) -> Key:
        """Give the key of a figure of it: of the rig, or of its vehicle where each has its own."""
        return of_vehicle.of(self.vehicle, self.name) if self.vehicle else of_rig.of(self.name)


def wanted_spares(rig: Rig) -> tuple[Want, ...]:
    """List what a rig with this equipment should carry."""
    found: dict[tuple[str, str], Want] = {}
    for rule in spare_rules():
        if has(rig, rule.needs):
            for want in _wants(rig, rule):
                found.setdefault((want.vehicle, want.name), want)
    return tuple(found.values())


def _wants(rig: Rig, rule: SpareRule) -> Iterator[Want]:
    quantity = rule.us if rig.units == "us" else rule.metric
    if rule.per == "belt":
        yield from _belts(rig, rule, quantity)
    elif rule.per == "vehicle":
        names, leading = _each(rig), driven(rig)[0]
        for name in names:
            vehicle = name if len(names) > 1 else ""
            yield Want(rule.name, vehicle, quantity, rule, frozenset({rule.name}), name == leading)
    else:
        yield Want(rule.name, "", quantity, rule, frozenset({rule.name}))


def _each(rig: Rig) -> list[str]:
    return [name for name, vehicle in rig.vehicles.items() if vehicle.kind in _WITH_LAMPS]


def _belts(rig: Rig, rule: SpareRule, quantity: str) -> Iterator[Want]:
    """One for each belt the profile names; without a list one, of which nothing is known."""
    engines = [vehicle.engine for vehicle in rig.vehicles.values() if vehicle.engine]
    named = [
        kinds.ENGINE_BELT if belt is None else belt if "belt" in belt else kinds.BELT.format(belt=belt)
        for engine in engines
        for belt in engine.belts
    ]
    belts = list(dict.fromkeys(named)) or [kinds.ENGINE_BELT]
    for belt in belts:
        others = {rule.name, kinds.ENGINE_BELT} if len(belts) == 1 else set()
        yield Want(belt, "", quantity, rule, frozenset({belt.casefold(), *others}))


def size_of(want: Want, rig: Rig, ledger: Ledger) -> Phrase | None:
    """Say which size or kind is wanted, from what else the profile says."""
    kind = want.rule.size
    if kind == "cap":
        caps = [figure.quantity for figure in ledger.of_kind(CAP) if figure.quantity is not None]
        return Phrase(kinds.READS_TO, {"cap": max(caps)}) if caps else None
    if kind == "torque":
        torques = [wheels.nut_torque for wheels in rig.wheels.values() if wheels.nut_torque is not None]
        return Phrase(kinds.TORQUES_TO, {"torque": max(torques)}) if torques else None
    if kind == "socket":
        sockets = dict.fromkeys(wheels.socket for wheels in _wheels(rig, want.vehicle) if wheels.socket)
        return Phrase(kinds.SOCKETS, {"sockets": tuple(sockets)}) if sockets else None
    return _specification(rig, kind) if kind else None


def _wheels(rig: Rig, vehicle: str) -> list[Wheels]:
    chosen = [rig.vehicles[vehicle]] if vehicle else list(rig.vehicles.values())
    names = [axle.wheels for entry in chosen for axle in entry.axles.values()]
    return [rig.wheels[name] for name in names if name in rig.wheels]


def _specification(rig: Rig, fluid: str) -> Phrase | None:
    for vehicle in (driven(rig)[1], *rig.vehicles.values()):
        found = vehicle.fluids.get(fluid)
        if found and found.specification:
            return Phrase(kinds.SPECIFICATION, {"specification": found.specification})
    return None


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
    measured = is_volume(f"1 {wanted.unit}")
    if text is None:
        return 1.0 if wanted.number == 1 and not measured else None
    if measured and is_volume(text):
        return float((VOLUME.read(text) / VOLUME.read(f"1 {wanted.unit}")).to("").magnitude)
    return None if measured or is_volume(text) else amount_of(text).number


def is_volume(text: str) -> bool:
    """Tell whether an amount is one of volume."""
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
        if noted is False:
            continue
        if isinstance(noted, int):
            found.append(Carried(what=want.name, quantity=str(noted)))
        elif noted is not None:
            found += [_from_words(want.name, str(words)) for words in noted] or [Carried(what=want.name)]
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


_NOTHING = registry.Quantity(0.0, "pound")


class BayLoad(NamedTuple):
    """One bay with what is noted in it; so many entries have no weight, and so many lie nobody says where."""

    vehicle: str
    name: str
    bay: Bay
    load: Quantity
    unweighed: int
    unplaced: int

    @property
    def subject(self) -> tuple[str, str]:
        """What its figures are of."""
        return self.vehicle, self.name


def vehicle_of(rig: Rig, item: Carried) -> str:
    """Find the vehicle an entry lies in."""
    if item.vehicle is not None:
        return item.vehicle
    having = [name for name, vehicle in rig.vehicles.items() if item.place in vehicle.bays]
    if len(having) == 1:
        return having[0]
    return next(iter(rig.vehicles)) if len(rig.vehicles) == 1 else ""


def bay_of(rig: Rig, item: Carried) -> Bay | None:
    """Find the bay an entry lies in."""
    vehicle = rig.vehicles.get(vehicle_of(rig, item))
    return vehicle.bays.get(item.place or "") if vehicle else None


def bay_loads(rig: Rig) -> tuple[BayLoad, ...]:
    """Add up what is noted in each bay, whether it is on a scale ticket or not."""
    return tuple(_bay_loads(rig))


def _bay_loads(rig: Rig) -> Iterator[BayLoad]:
    for vehicle, entry in rig.vehicles.items():
        listed = [item for item in (*rig.spares, *rig.tools) if item.place is None]
        unplaced = sum(vehicle_of(rig, item) in {"", vehicle} for item in listed)
        for name, bay in entry.bays.items():
            held = [
                item
                for item in (*rig.spares, *rig.tools)
                if item.place == name and vehicle_of(rig, item) == vehicle
            ]
            weights = [item.weight for item in held if item.weight is not None]
            if held:
                load = sum((weight.to("pound") for weight in weights), start=_NOTHING)
                yield BayLoad(vehicle, name, bay, load, len(held) - len(weights), unplaced)


def is_on_ticket(item: Carried, ticket: ScaleTicket | None) -> bool:
    """Tell whether an entry was aboard when its vehicle was weighed."""
    return ticket is not None and item.since is not None and item.since < ticket.on


def spare_cargo(rig: Rig, tickets: Mapping[str, ScaleTicket | None]) -> tuple[Aboard, ...]:
    """List what is carried with a weight and is on no scale ticket, as cargo of its vehicle."""
    found = []
    for item in (*rig.spares, *rig.tools):
        vehicle = vehicle_of(rig, item)
        if item.weight is None or not vehicle or is_on_ticket(item, tickets.get(vehicle)):
            continue
        bay = bay_of(rig, item)
        at, left = (bay.at, bay.left) if bay else (None, None)
        found.append(
            Aboard.model_construct(what=item.what, weight=item.weight, at=at, left=left, vehicle=vehicle)
        )
    return tuple(found)
