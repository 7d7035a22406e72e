"""What is printed of a sum adds up to what is printed as its result."""

from binder.quantities import Quantity, registry
from binder.wording.measures import LOAD, Style
from binder.wording.sums import days_told, range_told, summed

US = Style("us")


def pounds(*values: float) -> list[Quantity]:
    return [registry.Quantity(value, "pound") for value in values]


def test_terms_are_told_to_a_tenth() -> None:
    assert summed(pounds(10720, 146.87, -9.75), LOAD, US) == ("10,720.0", "146.9", "-9.8")


def test_terms_whose_tenths_would_lead_elsewhere_are_told_more_finely() -> None:
    # 100.98 is 101 rounded up, and so is 101.0; 101.02 is 102, but its tenths would be 101.0 again.
    assert summed(pounds(100.06, 0.92), LOAD, US) == ("100.1", "0.9")
    assert summed(pounds(100.04, 0.98), LOAD, US) == ("100.04", "0.98")


def test_days_and_range_come_to_what_is_printed() -> None:
    gallon, mile = registry.Quantity(1.0, "gallon"), registry.Quantity(1.0, "mile")

    assert days_told(60 * gallon, 14 * gallon, "volume", US) == ("60.0 gal", "14.0 gal")
    # 31 - 13.75 is 17.25, and nine times that 155.25: 13.8 would make 154.8 of it.
    assert range_told(31 * gallon, 13.75 * gallon, 155.25 * mile, US) == ("31.00", "13.75", "9.00")
