"""What the vehicle that drives weighs with nothing on its coupling."""

from binder.assessment.weights.kinds import AXLE, AXLE_ALONE, TOTAL_ALONE
from binder.quantities import number_in
from tests.cards.binder_rigs import demo


def pounds(name: str, kind: object, *subject: str) -> float:
    quantity = demo(name).quantity(kind.of(*subject))  # type: ignore[attr-defined] # A kind of figure.
    assert quantity is not None
    return number_in(quantity, "pound")


def test_a_load_behind_the_axles_lifts_the_front_and_loads_the_rear() -> None:
    """Statics: 860 lb on a ball 66 in behind a rear axle, 145 in wheelbase; bars give some of it back."""
    front = pounds("sandpiper", AXLE_ALONE, "truck", "steer") - pounds(
        "sandpiper", AXLE.heaviest, "truck", "steer"
    )
    rear = pounds("sandpiper", AXLE_ALONE, "truck", "drive") - pounds(
        "sandpiper", AXLE.heaviest, "truck", "drive"
    )

    assert front > 100
    assert rear < -500


def test_axles_alone_sum_to_the_vehicle_alone() -> None:
    axles = sum(pounds("tamarack", AXLE_ALONE, "truck", axle) for axle in ("steer", "drive"))

    assert abs(axles - pounds("tamarack", TOTAL_ALONE, "truck")) < 0.01


def test_where_nothing_presses_there_is_no_load_of_its_own() -> None:
    assert list(demo("larkspur").ledger.of_kind(AXLE_ALONE)) == []
