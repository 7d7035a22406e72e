"""What people write about one thing carried: a spare, a supply or a tool."""

import re
from typing import Annotated, Any, TypeAlias

from pydantic import Field, PlainValidator, model_validator

from binder.models.base import Day, Record, Text, written_problem
from binder.quantities import Mass


def _amount(value: object) -> str:
    if isinstance(value, str) and re.fullmatch(r"[0-9]+(\.[0-9]+)?( [^\W\d].*)?", value):
        return value
    raise written_problem(f"'{value}' is not a number of something; write it like '2', '1 set' or '2.5 gal'")


Amount: TypeAlias = Annotated[str, PlainValidator(_amount)]


class Carried(Record):
    """One thing carried; a bare text is what it is, and nothing else of it is known.

    ``names`` is the name in the list of what belongs aboard, where ``what`` is another; ``serves`` the
    vehicle it is for, ``vehicle`` the one it lies in; ``weight`` is of all of them together; ``since``
    the day it came aboard.
    """

    what: Text
    names: Text | None = Field(default=None, alias="is")
    serves: Text | None = Field(default=None, alias="for")
    quantity: Amount | None = None
    part_number: Text | None = None
    place: Text | None = None
    vehicle: Text | None = Field(default=None, alias="in")
    expires: Day | None = None
    weight: Mass | None = None
    since: Day | None = None

    @model_validator(mode="before")
    @classmethod
    def _bare_text_is_what_it_is(cls, value: Any) -> Any:  # noqa: ANN401 - pydantic hands over anything.
        return {"what": value} if isinstance(value, str) else value
