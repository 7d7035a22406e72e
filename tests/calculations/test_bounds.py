from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.bounds import value_between, value_not_above, values_around

TABLE = [(0.0, 10.0), (10.0, 4.0), (30.0, 8.0)]
places = st.floats(-20, 50, allow_nan=False)


@given(places)
def test_value_between_lies_between_the_rows_around(place: float) -> None:
    around, value = values_around(TABLE, place), value_between(TABLE, place)

    assert (value is None) == (not around)
    assert value is None or min(around) <= value <= max(around)


@given(places)
def test_nothing_is_read_outside_the_table(place: float) -> None:
    is_outside = place < -1e-7 or place > 30 + 1e-7

    assert (values_around(TABLE, place) == ()) == is_outside
    assert (value_not_above(TABLE, place) is None) == (place < -1e-7)


def test_a_place_off_a_row_by_the_last_bits_stands_on_it() -> None:
    assert values_around(TABLE, 10 + 1e-12) == (4.0,)
    assert value_not_above(TABLE, 10 - 1e-12) == 4.0
