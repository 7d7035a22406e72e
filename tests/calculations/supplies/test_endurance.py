import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.supplies.endurance import (
    EMERGENCY_STORE,
    GeneratorUse,
    Resource,
    battery_lasting,
    endurance,
    filling,
    generator_lasting,
    lasting,
    water_needs,
)
from binder.quantities import Quantity, registry
from tests.published.kinds import check

q = registry.Quantity


@check("S-FEMA", "published")
def test_one_person_needs_a_gallon_a_day_in_an_emergency() -> None:
    """S-FEMA: a gallon a person and day."""
    need = water_needs()[EMERGENCY_STORE].a_person

    assert float(need.least.to("gallon / day").m) == pytest.approx(1, abs=0.001)
    assert need.least == need.most


def test_every_need_names_its_source() -> None:
    assert {need.source for need in water_needs().values()} == {"S-FEMA", "S-SPHERE", "S-EPAWS"}


days = st.one_of(st.none(), st.floats(0, 400))


def in_days(time: Quantity | None) -> float:
    assert time is not None
    return float(time.to("day").m)


def resources(times: list[float | None]) -> list[Resource]:
    return [Resource(f"{n}", None if time is None else q(time, "day")) for n, time in enumerate(times)]


@given(st.lists(days, max_size=8))
def test_the_binding_resource_is_the_least_and_the_next_comes_after(times: list[float | None]) -> None:
    found = endurance(resources(times))
    known = [time for time in times if time is not None]

    assert (found.binding is None) == (not known)
    if found.binding is not None:
        assert in_days(found.binding.time) == pytest.approx(min(known))
    if found.binding is not None and found.following is not None:
        assert found.following.time > found.binding.time


@given(st.lists(days, max_size=8))
def test_every_resource_that_ends_is_told_once(times: list[float | None]) -> None:
    told = [name for end in endurance(resources(times)).ends for name in end.names]

    assert sorted(told) == sorted(str(n) for n, time in enumerate(times) if time is not None)


def test_resources_that_end_together_stand_together() -> None:
    found = endurance(
        [
            Resource("propane", q(48, "hour")),
            Resource("gray water", q(2, "day")),
            Resource("food", q(3, "day")),
        ]
    )

    assert found.binding is not None
    assert found.binding.names == ("propane", "gray water")
    assert found.following is not None
    assert found.following.names == ("food",)


def test_tanks_last_as_long_as_their_quotients() -> None:
    assert in_days(lasting(q(90, "gallon"), q(14, "gallon / day"))) == pytest.approx(90 / 14)
    assert in_days(filling(q(60, "gallon"), q(60, "gallon"), q(10, "gallon / day"))) == 0
    assert in_days(battery_lasting(q(220, "Ah"), q(5, "ampere"))) == pytest.approx(44 / 24)
    assert lasting(q(90, "gallon"), q(0, "gallon / day")) is None


@pytest.mark.parametrize(("held", "expected"), [(75, 25), (25, 0), (10, 0)])
def test_generator_draws_nothing_under_its_cut_off(held: float, expected: float) -> None:
    use = GeneratorUse(q(0.5, "gallon / hour"), q(4, "hour / day"))

    assert in_days(generator_lasting(q(held, "gallon"), q(25, "gallon"), use)) == pytest.approx(expected)


@given(st.floats(0, 100), st.floats(0, 100), st.floats(0.1, 30))
def test_more_held_never_ends_sooner(one: float, other: float, use: float) -> None:
    less, more = (lasting(q(value, "gallon"), q(use, "gallon / day")) for value in sorted((one, other)))

    assert in_days(less) <= in_days(more)


def test_amounts_below_zero_are_refused() -> None:
    with pytest.raises(ValueError, match="below zero"):
        filling(q(60, "gallon"), q(61, "gallon"), q(10, "gallon / day"))
    with pytest.raises(ValueError, match="below zero"):
        lasting(q(60, "gallon"), q(-1, "gallon / day"))
