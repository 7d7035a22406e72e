"""The small scalars of the files: counts, truths, dates, coordinates, levels, shares."""

from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from binder.models import base

_COUNT: TypeAdapter[int] = TypeAdapter(base.Count)
_TRUTH: TypeAdapter[bool] = TypeAdapter(base.Truth)
_DAY: TypeAdapter[date] = TypeAdapter(base.Day)
_MOMENT: TypeAdapter[datetime] = TypeAdapter(base.Moment)
_LATITUDE: TypeAdapter[float] = TypeAdapter(base.Latitude)
_LONGITUDE: TypeAdapter[float] = TypeAdapter(base.Longitude)
_LEVEL: TypeAdapter[base.LevelValue] = TypeAdapter(base.Level)
_SHARE_OF: TypeAdapter[base.ShareOfValue] = TypeAdapter(base.ShareOf)


def test_scalars_are_read() -> None:
    assert _COUNT.validate_python("007") == 7
    assert [_TRUTH.validate_python(word) for word in ("true", "Yes", "false", "NO")] == [
        True,
        True,
        False,
        False,
    ]
    assert _DAY.validate_python("2028-02-29") == date(2028, 2, 29)
    assert _MOMENT.validate_python("2026-06-01 09:05") == datetime(2026, 6, 1, 9, 5)  # noqa: DTZ001 - local.
    assert _LATITUDE.validate_python("-90") == -90
    assert _LONGITUDE.validate_python("-116.5023") == -116.5023
    assert _SHARE_OF.validate_python("2.5 % of diesel") == base.ShareOfValue(0.025, "diesel")


@pytest.mark.parametrize(
    ("reader", "text"),
    [
        (_COUNT, "4.0"),
        (_COUNT, "-4"),
        (_COUNT, "1_0"),
        (_COUNT, " 7"),
        (_COUNT, "\u0667"),
        (_TRUTH, "1"),
        (_DAY, "2026-02-29"),
        (_DAY, "20260330"),
        (_DAY, "2026-3-30"),
        (_DAY, "\uff12026-03-30"),
        (_MOMENT, "2026-06-01T09:00"),
        (_MOMENT, "2026-06-01 24:00"),
        (_MOMENT, "2026-06-01"),
        (_LATITUDE, "90.01"),
        (_LATITUDE, "45 N"),
        (_LATITUDE, "45,5"),
        (_LONGITUDE, "-180.5"),
        (_LONGITUDE, "nan"),
        (_LEVEL, "101 %"),
        (_LEVEL, "-1 %"),
        (_LEVEL, "5/4"),
        (_LEVEL, "1/0"),
        (_LEVEL, "Full"),
        (_LEVEL, "-1 gal"),
        (_LEVEL, "25"),
        (_LEVEL, "25 lb"),
        (_SHARE_OF, "2.5 %"),
        (_SHARE_OF, "2,5 % of diesel"),
    ],
)
def test_scalars_that_cannot_be_read_are_refused(reader: TypeAdapter[object], text: str) -> None:
    with pytest.raises(ValidationError) as raised:
        reader.validate_python(text)

    (error,) = raised.value.errors()
    assert error["type"] in {"written", "value_error"}
    assert f"'{text}'" in error["msg"]


@given(st.integers(0, 999), st.integers(1, 999))
def test_a_fraction_of_a_tank_is_between_empty_and_full(above: int, below: int) -> None:
    text = f"{above}/{below}"
    if above > below:
        with pytest.raises(ValidationError, match="is not a part of a tank"):
            _LEVEL.validate_python(text)
        return

    assert _LEVEL.validate_python(text).share == above / below
