"""What an entry of the log says, by kind, and the entry itself: who said it, when, on which card."""

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from itertools import groupby
from types import MappingProxyType
from typing import Annotated, ClassVar, Literal, NamedTuple, TypeAlias, get_args, get_origin

from pydantic import PlainValidator

from binder.models.base import Level, Record, Truth, as_text, entry, needed, written_problem
from binder.models.rig import Aboard, Amount, TicketState, VehicleWeights
from binder.quantities import (
    ELEVATION,
    LENGTH,
    PRESSURE,
    TEMPERATURE,
    TIME,
    VOLUME,
    Dimension,
    Quantity,
    ScaleStep,
)

Written: TypeAlias = "str | dict[str, Written] | list[Written]"
"""A value as it is kept: text with its unit, or a block or list of such."""

_LONGEST_NAME, _LONGEST_TEXT = 200, 4000


def _up_to(longest: int) -> PlainValidator:
    def read(value: object) -> str:
        if not isinstance(value, str):
            raise written_problem("words are needed here, not a list or a block")
        if len(value) > longest:
            raise written_problem(f"this has {len(value)} characters; {longest} are the most")
        return value

    return PlainValidator(read)


Name: TypeAlias = Annotated[str, _up_to(_LONGEST_NAME), as_text("words", "", ".+")]
Words: TypeAlias = Annotated[str, _up_to(_LONGEST_TEXT), as_text("words", "", ".+")]


class _Read(Dimension):
    """A dimension whose texts are read once: a log has the same ones again and again."""

    def read(self, text: object) -> Quantity:
        """Read a text that may have been read before."""
        return _read_once(self, text) if isinstance(text, str) else super().read(text)


@lru_cache(maxsize=1 << 16)
def _read_once(dimension: Dimension, text: str) -> Quantity:
    return Dimension.read(dimension, text)


def _of(dimension: Dimension, words: str, example: str, least: float, most: float, unit: str) -> Dimension:  # noqa: PLR0913, PLR0917 - one row of a table.
    return _Read(dimension.formula, words, example, dimension.signed, (least, most, unit))


# Odd readings are taken; what no gauge, tank or road can show is a slip of the pen.
Pressure: TypeAlias = Annotated[Quantity, _of(PRESSURE, "a pressure", "104 psi", 0, 300, "psi")]
Temperature: TypeAlias = Annotated[
    Quantity, _of(TEMPERATURE, "a temperature", "48 degF", -100, 250, "degree_Fahrenheit")
]
Height: TypeAlias = Annotated[Quantity, _of(ELEVATION, "an elevation", "6,240 ft", -1500, 30000, "foot")]
Tread: TypeAlias = Annotated[Quantity, _of(LENGTH, "a tread depth", "11/32 in", 0, 2, "inch")]
Volume: TypeAlias = Annotated[Quantity, _of(VOLUME, "a volume", "62.1 gal", 0, 1000, "gallon")]
Distance: TypeAlias = Annotated[
    Quantity, _of(LENGTH, "a reading of an odometer", "34510 mi", 0, 5_000_000, "mile")
]
Hours: TypeAlias = Annotated[Quantity, _of(TIME, "a reading of an hour meter", "412 h", 0, 500_000, "hour")]


class Said(Record):
    """What an entry says; ``one_of`` names fields of which at least one must be there."""

    one_of: ClassVar[tuple[str, ...]] = ()
    is_plain_text: ClassVar[bool] = False
    """Whether its short form is words alone, commas among them."""


_VEHICLE = "the vehicle; it may be left out where only one has such a place"


class Tire(Said):
    """A reading of one tire."""

    one_of = ("pressure", "tread")
    position: Name = needed("which tire: axle and side", like="drive left inner")
    vehicle: Name | None = entry(_VEHICLE, like="coach")
    pressure: Pressure | None = entry("pressure read", like="104 psi")
    state: Literal["cold", "hot"] | None = entry("before driving, or after", like="cold")
    by: Literal["gauge", "sensor"] | None = entry("what it was read with", like="gauge")
    ambient: Temperature | None = entry("temperature of the air", like="48 degF")
    elevation: Height | None = entry("elevation", like="6,240 ft")
    tread: Tread | None = entry("least tread depth", like="11/32 in")


class Air(Said):
    """Air added to one tire, or let out."""

    position: Name = needed("which tire: axle and side", like="drive left inner")
    before: Pressure = needed("pressure before", like="95 psi")
    after: Pressure = needed("pressure after", like="105 psi")
    vehicle: Name | None = entry(_VEHICLE, like="coach")
    state: Literal["cold", "hot"] | None = entry("before driving, or after", like="cold")
    by: Literal["gauge", "sensor"] | None = entry("what it was read with", like="gauge")
    ambient: Temperature | None = entry("temperature of the air", like="48 degF")
    elevation: Height | None = entry("elevation", like="6,240 ft")


class Fill(Said):
    """A tank filled, to the top or not."""

    tank: Name = needed("which tank", like="diesel")
    amount: Volume = needed("how much went in", like="62.1 gal")
    full: Truth | None = entry("whether it is full now", like="true")
    vehicle: Name | None = entry(_VEHICLE, like="coach")
    odometer: Distance | None = entry("odometer", like="34510 mi")
    hours: Hours | None = entry("hours of what burns it", like="1180 h")


class Meter(Said):
    """What the meters of a vehicle read."""

    one_of = ("odometer", "engine", "generator")
    vehicle: Name = needed("the vehicle", like="coach")
    odometer: Distance | None = entry("odometer", like="34510 mi")
    engine: Hours | None = entry("engine hours", like="1180 h")
    generator: Hours | None = entry("generator hours", like="438 h")


class Fault(Said):
    """Something found wrong; open until it is repaired."""

    is_plain_text = True
    what: Words = needed("what is wrong", like="clearance lamp dark, left rear")
    vehicle: Name | None = entry("the vehicle", like="coach")
    position: Name | None = entry("which tire, where it is one", like="drive left inner")


class Repair(Said):
    """A fault put right."""

    fault: Name | None = entry("the fault: its entry", like="4f0c2a9e")
    what: Words = needed("what was done", like="new lamp")
    vehicle: Name | None = entry("the vehicle", like="coach")


class ServiceDone(Said):
    """A service done."""

    what: Name = needed("what was done, as it stands under service:", like="engine oil and filter")
    vehicle: Name | None = entry("the vehicle", like="coach")
    odometer: Distance | None = entry("odometer", like="34510 mi")
    hours: Hours | None = entry("hours of its meter", like="1180 h")


class Spare(Said):
    """A spare used, or bought."""

    change: Literal["used", "bought"] = needed("which of the two", like="used")
    what: Name = needed("what it is, as it stands under spares:", like="fuel filter")
    quantity: Amount | None = entry("how many or how much", like="1")
    vehicle: Name | None = entry("the vehicle it fits", like="coach")


class Weight(Said):
    """A weighing, as a scale ticket of the profile says it; its day is the entry's."""

    weights: dict[str, VehicleWeights] = needed("each vehicle by its name")
    division: ScaleStep | None = entry("smallest step of the scale", like="20 lb")
    aboard: list[Aboard] | None = entry("who and what was in it that is not always in it")
    levels: dict[str, dict[str, Level]] = entry("how full each tank was", default={})
    state: TicketState = entry("the state it stood in", default=TicketState.blank())
    tires: Name | None = entry("which tires were on, where others were", like="winter tires")


class Note(Said):
    """Anything else worth keeping."""

    is_plain_text = True
    text: Words = needed("the note", like="water at the campground tastes of iron")
    vehicle: Name | None = entry("the vehicle", like="coach")
    position: Name | None = entry("which tire, where it is about one", like="drive left inner")


class Withdrawal(Said):
    """The entry it corrects was a mistake and says nothing any more."""

    is_plain_text = True
    why: Words | None = entry("why", like="typed on the wrong day")


KINDS: Mapping[str, type[Said]] = MappingProxyType(
    {
        "tire": Tire,
        "air": Air,
        "fill": Fill,
        "meter": Meter,
        "fault": Fault,
        "repair": Repair,
        "service": ServiceDone,
        "spare": Spare,
        "weight": Weight,
        "note": Note,
        "withdrawal": Withdrawal,
    }
)
"""Every kind of entry by its word."""

_AHEAD, _BEHIND = timedelta(days=1), timedelta(days=2 * 365)
_FIRST, _LAST = datetime.min.replace(tzinfo=UTC), datetime.max.replace(tzinfo=UTC)
"""Ends of the calendar: an export may say that it was taken then."""

LOOKED_BACK = timedelta(days=182)
"""What is told of tires' readings is of the newest: a leak that began lately is not hidden by a good year."""


class Entry(NamedTuple):
    """One entry as it is kept: ``written`` is what it says, in the words and units it was written in.

    ``taken`` is the moment this log took it, by the clock of the computer that did; ``unread`` counts
    readings of the same tire, day, state and instrument between it and the last of them, left unread.
    """

    id: str
    at: datetime
    kind: str
    written: Mapping[str, Written]
    who: str = ""
    card: str = ""
    code: str = ""
    corrects: str = ""
    taken: datetime | None = None
    unread: int = 0

    @property
    def said(self) -> Said:
        """What it says, as quantities."""
        return _said(self.kind, json.dumps(self.written))

    @property
    def is_clock_unsure(self) -> bool:
        """Whether its time can hardly be right."""
        return self.taken is not None and is_clock_unsure(self.at, self.taken)

    @property
    def content(self) -> tuple[object, ...]:
        """All that two entries of one id must agree in."""
        return self.at, self.kind, dict(self.written), self.who, self.card, self.code, self.corrects


@lru_cache(maxsize=1 << 12)
def _said(kind: str, written: str) -> Said:
    """Read once what several ask: a fill tells of fuel, of exhaust fluid and of the odometer."""
    return KINDS[kind].model_validate(json.loads(written))


def is_clock_unsure(at: datetime, taken: datetime) -> bool:
    """Tell whether a time is over a day ahead of the clock that took the entry, or over two years behind."""
    earliest, latest = plausible(taken)
    return not earliest <= at <= latest


def of_unsure_clock(entries: Iterable[Entry]) -> Iterator[Entry]:
    """Those whose time can hardly be right; fast where many were taken at once."""
    for taken, together in groupby(entries, key=lambda one: one.taken):
        if taken is not None:
            earliest, latest = plausible(taken)
            yield from (one for one in together if not earliest <= one.at <= latest)


@lru_cache(maxsize=1 << 10)
def plausible(taken: datetime) -> tuple[datetime, datetime]:
    """Give the earliest and the latest time that a clock can have told; a file is taken in one moment."""
    at = taken.astimezone(UTC)
    return at - min(_BEHIND, at - _FIRST), at + min(_AHEAD, _LAST - at)


@lru_cache(maxsize=1 << 12)
def words_of_name(text: str) -> frozenset[str]:
    """Words of a name, of one or of several, whatever stands between them: a spelling never decides."""
    return frozenset(word.removesuffix("s") for word in re.findall(r"[^\W_]+", text.casefold()))


class FieldForm(NamedTuple):
    """How one field of a kind is written: what measures it, or the words it may be."""

    dimension: Dimension | None = None
    choices: tuple[str, ...] = ()
    is_truth: bool = False
    is_block: bool = False


def forms_of(kind: str) -> dict[str, FieldForm]:
    """Give how each field of a kind is written, in order."""
    return {name: _form(field.annotation, field.metadata) for name, field in KINDS[kind].model_fields.items()}


def _form(annotation: object, metadata: list[object]) -> FieldForm:
    parts = [annotation, *get_args(annotation)]
    held = [*metadata, *(extra for part in parts for extra in getattr(part, "__metadata__", ()))]
    measures = next((one for one in held if isinstance(one, Dimension)), None)
    choices = tuple(word for part in parts if get_origin(part) is Literal for word in get_args(part))
    plain = [getattr(part, "__origin__", part) for part in parts]
    is_block = any(
        one in {dict, list} or (isinstance(one, type) and issubclass(one, Record)) for one in plain
    )
    return FieldForm(measures, choices, bool in plain, is_block)
