import pytest

from binder.calculations.coupling import Link, coupling_limit, limit_without_brakes
from binder.quantities import Quantity, registry

q = registry.Quantity


def pounds(value: float) -> Quantity:
    return q(value, "pound")


def test_a_tie_names_every_part_also_across_units() -> None:
    chain = coupling_limit(
        [
            Link("receiver", pounds(10000)),
            Link("tow bar", q(8000 * 0.45359237, "kg")),
            Link("base plate", pounds(8000)),
        ]
    )

    assert chain.weakest == ("tow bar", "base plate")


def test_a_part_without_a_rating_is_named_and_does_not_count_as_strong() -> None:
    chain = coupling_limit([Link("tow bar", pounds(8000)), Link("pins", None)])

    assert chain.limit == pounds(8000)
    assert chain.unknown == ("pins",)


def test_nothing_known_gives_no_limit_and_no_margin() -> None:
    chain = coupling_limit([Link("tow bar", None)])

    assert chain.limit is None
    assert chain.margin(pounds(4000)) is None


def test_margin_is_negative_when_over() -> None:
    chain = coupling_limit([Link("tow bar", pounds(3500))])

    assert chain.margin(pounds(4000)) == pounds(-500)


def test_a_limit_below_zero_is_the_weakest() -> None:
    chain = coupling_limit([Link("combination rating", pounds(-200)), Link("tow bar", pounds(8000))])

    assert chain.weakest == ("combination rating",)


@pytest.mark.parametrize(("brakes_work", "counts"), [(True, False), (False, True), (None, True)])
def test_limit_without_brakes_counts_unless_the_brakes_are_known_to_work(
    *, brakes_work: bool | None, counts: bool
) -> None:
    assert (limit_without_brakes(pounds(1500), brakes_work=brakes_work) is not None) is counts
