import pytest

from binder.calculations.warning_devices import paces
from binder.quantities import registry

q = registry.Quantity


def test_part_of_a_pace_is_a_whole_one() -> None:
    assert paces(q(10.1, "foot"), q(2.5, "foot")) == 5


def test_paces_do_not_depend_on_the_unit() -> None:
    assert paces(q(100 * 0.3048, "meter"), q(2.5, "foot")) == 40


def test_a_pace_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="longer than nothing"):
        paces(q(10, "foot"), q(0, "foot"))
