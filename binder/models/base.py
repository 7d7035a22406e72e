"""What all models share: frozen records that refuse unknown keys, and the small scalars of the files."""

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Annotated, Any, ClassVar, Self, TypeAlias

from pydantic import BaseModel, ConfigDict, Field, PlainValidator, model_validator
from pydantic_core import PydanticCustomError

from binder.quantities import SHARE, VOLUME, Quantity, QuantityError, read_quantity, written_pattern

# What else is installed is not to change how a file is read; looking for plugins takes its time, too.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")


class Record(BaseModel):
    """A mapping a person wrote: frozen, unknown keys refused, empty means not known."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True, defer_build=True)
    asked: ClassVar[frozenset[str]] = frozenset()
    """Fields that, left out, are none, and written without a value are not known."""

    def is_blank(self, name: str) -> bool:
        """Tell whether a field was written and left without a value."""
        return name in self.model_fields_set and getattr(self, name) is None

    @classmethod
    def blank(cls) -> Self:
        """Make a record that says nothing, without building a validator for it alone, which is slow."""
        return cls.model_construct()


class SpacedRecord(Record):
    """A record whose keys are trade words with spaces (``roof antenna``)."""

    model_config = ConfigDict(alias_generator=lambda name: name.replace("_", " "))


class BareRecord(Record):
    """A record of which the one field that matters most may be written alone, without its name."""

    bare_field: ClassVar[str]

    @model_validator(mode="before")
    @classmethod
    def _bare_value_is_that_field(cls, value: Any) -> Any:  # noqa: ANN401 - pydantic hands over anything.
        return {cls.bare_field: value} if isinstance(value, str) or value is None else value


def entry(
    meaning: str, where: str = "", like: str = "", default: object = None, alias: str | None = None
) -> Any:  # noqa: ANN401 - a field of any type.
    """Describe a field for `binder fields` and the schema: what it is, where to read it, an example."""
    return Field(
        default=default,
        alias=alias,
        description=meaning,
        examples=[like] if like else None,
        json_schema_extra={"where": where} if where else None,
    )


def needed(meaning: str, where: str = "", like: str = "", alias: str | None = None) -> Any:  # noqa: ANN401 - as above.
    """Describe a field that must be there."""
    return entry(meaning, where, like, ..., alias)


@dataclass(frozen=True, eq=False)
class Form:
    """How a value is written: in a person's words, an example, and as JSON Schema has it."""

    words: str
    example: str
    schema: Mapping[str, object]


def as_text(words: str, example: str, pattern: str) -> Form:
    """Describe a value that is text of one pattern."""
    return Form(words, example, {"type": "string", "pattern": f"^(?:{pattern})$"})


def written_problem(text: str) -> PydanticCustomError:
    """Make the error a field raises when what was written there cannot be read."""
    return PydanticCustomError("written", "{text}", {"text": text})


def _text(value: object) -> str:
    if isinstance(value, str):
        return value
    raise written_problem("a plain word or number is needed here, not a list or a block")


def _truth(value: object) -> bool:
    text = _text(value).lower()
    if text in {"true", "yes"}:
        return True
    if text in {"false", "no"}:
        return False
    raise written_problem(f"'{value}' is neither 'true' nor 'false'")


def _count(value: object) -> int:
    text = _text(value)
    if re.fullmatch(r"[0-9]{1,6}", text):
        return int(text)
    raise written_problem(f"'{text}' is not a whole number; write it like '4'")


def _coordinate(value: object, limit: int) -> float:
    text = _text(value)
    if re.fullmatch(r"-?[0-9]{1,3}(\.[0-9]+)?", text) and abs(float(text)) <= limit:
        return float(text)
    example = "43.1245" if limit == 90 else "-116.5023"  # noqa: PLR2004 - degrees of latitude.
    raise written_problem(f"'{text}' is not in degrees from -{limit} to {limit}; write it like '{example}'")


_YEARS = range(1970, 2100)  # A vehicle's papers and a trip's days: any other year is a slip.


def _year_checked(text: str) -> str:
    if int(text[:4]) not in _YEARS:
        raise ValueError(f"the year is not of {_YEARS[0]} to {_YEARS[-1]}")
    return text


def _date(value: object) -> date:
    text = _text(value)
    try:
        if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
            return date.fromisoformat(_year_checked(text))
    except ValueError as error:
        raise written_problem(f"'{text}' is not in the calendar ({error})") from error
    raise written_problem(f"'{text}' is not a date; write it like '2026-03-30'")


def _moment(value: object) -> datetime:
    text = _text(value)
    try:
        if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2} [0-9]{2}:[0-9]{2}", text):
            return datetime.fromisoformat(_year_checked(text))  # Local time; the place has the zone.
    except ValueError as error:
        raise written_problem(f"'{text}' is not in the calendar ({error})") from error
    raise written_problem(f"'{text}' is not a date with a time; write it like '2026-06-01 09:00'")


_DAY = r"(?:19[7-9]|20[0-9])[0-9]-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])"
_TRUTHS = "|".join(
    "".join(f"[{letter.upper()}{letter}]" for letter in word) for word in ("true", "yes", "false", "no")
)
_DEGREES = r"-?[0-9]{1,3}(\.[0-9]+)?"


def _degrees(words: str, example: str, limit: int) -> Form:
    number = {"type": ["number", "string"], "minimum": -limit, "maximum": limit, "pattern": f"^{_DEGREES}$"}
    return Form(words, example, number)


Text: TypeAlias = Annotated[
    str, PlainValidator(_text), Form("words", "", {"type": ["string", "number", "boolean"]})
]
Truth: TypeAlias = Annotated[
    bool,
    PlainValidator(_truth),
    Form("true or false", "true", {"type": ["boolean", "string"], "pattern": f"^(?:{_TRUTHS})$"}),
]
Count: TypeAlias = Annotated[
    int,
    PlainValidator(_count),
    Form("a count", "4", {"type": ["integer", "string"], "minimum": 0, "pattern": "^[0-9]{1,6}$"}),
]
Latitude: TypeAlias = Annotated[
    float, PlainValidator(lambda value: _coordinate(value, 90)), _degrees("degrees", "43.1245", 90)
]
Longitude: TypeAlias = Annotated[
    float, PlainValidator(lambda value: _coordinate(value, 180)), _degrees("degrees", "-116.5023", 180)
]
Day: TypeAlias = Annotated[date, PlainValidator(_date), as_text("a date", "2026-03-30", _DAY)]
Moment: TypeAlias = Annotated[
    datetime,
    PlainValidator(_moment),
    as_text("a date with a time", "2026-06-01 09:00", rf"{_DAY} (?:[01][0-9]|2[0-3]):[0-5][0-9]"),
]


@dataclass(frozen=True)
class LevelValue:
    """How full a tank is: a share of its capacity, or a volume; and how it was written."""

    written: str
    share: float | None = None
    volume: Quantity | None = None


def read_level(value: object) -> LevelValue:
    """Read a level a person wrote."""
    text = _text(value)
    if text in {"full", "empty"}:
        return LevelValue(text, share=1.0 if text == "full" else 0.0)
    if match := re.fullmatch(r"([0-9]+)/([0-9]+)", text):
        above, below = int(match[1]), int(match[2])
        if below == 0 or above > below:
            raise written_problem(f"'{text}' is not a part of a tank; write it like '3/4'")
        return LevelValue(text, share=above / below)
    try:
        if text.endswith("%"):
            return _share_level(text)
        volume = read_quantity(text, VOLUME)
    except QuantityError as error:
        raise written_problem(f"{error}, '3/4', '60 %', 'full' or 'empty'") from error
    if volume.magnitude < 0:
        raise written_problem(f"'{text}' is below zero; a tank holds nothing or more, like '25 gal'")
    return LevelValue(text, volume=volume)


def _share_level(text: str) -> LevelValue:
    share = float(read_quantity(text, SHARE).to("").magnitude)
    if not 0 <= share <= 1:
        raise written_problem(f"'{text}' is not between 0 % and 100 %")
    return LevelValue(text, share=share)


Level: TypeAlias = Annotated[
    LevelValue,
    PlainValidator(read_level),
    as_text(
        "a level: full, empty, a part, a share or a volume",
        "3/4",
        rf"full|empty|[0-9]+/[0-9]+|{written_pattern(SHARE)}|{written_pattern(VOLUME)}",
    ),
]


@dataclass(frozen=True)
class ShareOfValue:
    """A share of another use: ``2.5 % of diesel``."""

    share: float
    of: str


def _share_of(value: object) -> ShareOfValue:
    text = _text(value)
    if match := re.fullmatch(r"([0-9]+(?:\.[0-9]+)?) ?% of (.+)", text):
        return ShareOfValue(float(match[1]) / 100, match[2])
    raise written_problem(f"'{text}' is not a share of a fuel; write it like '2.5 % of diesel'")


_SHARE_OF = r"[0-9]+(?:\.[0-9]+)? ?% of "
ShareOf: TypeAlias = Annotated[
    ShareOfValue,
    PlainValidator(_share_of),
    as_text("a share of a fuel", "2.5 % of diesel", f"{_SHARE_OF}.+"),
]
