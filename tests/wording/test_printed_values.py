"""Values that once were printed wrong, because unit and rounding were guessed from the text of a key."""

from datetime import date

import pytest

from binder.assessment.assess import assess
from binder.assessment.ledger import Figure
from binder.assessment.road.kinds import LOWEST_OF_DAY
from binder.assessment.supplies.kinds import SHELF_LIFE
from binder.assessment.tires.kinds import LARGER, SET_POINT
from binder.models.load import load_profile
from binder.quantities import registry
from binder.wording.measures import Style
from binder.wording.record import assessment_record, explanation
from binder.wording.sentences import key_text
from binder.wording.words import Words
from tests.demos import PROFILES

ON = date(2026, 6, 1)


def test_a_posted_height_is_never_rounded_up() -> None:
    posted = Figure(LOWEST_OF_DAY.of(1), registry.Quantity(4.349, "meter"))

    assert Words(Style("metric")).value(posted) == "4.34 m"
    assert Words(Style("us")).value(posted) == "14 ft 3 in"


def test_a_shelf_life_is_told_in_months() -> None:
    lasts = Figure(SHELF_LIFE.of("coach", "exhaust fluid"), registry.Quantity(12, "month"))

    assert Words(Style("us")).value(lasts) == "12 months"


def test_a_vehicle_has_one_key_whatever_marks_its_name_holds() -> None:
    assert key_text(SET_POINT.of("car no.2", "front axle")) == "tires.car_no2.front_axle.set_point"


def test_names_that_differ_by_a_mark_alone_lose_no_number() -> None:
    assessment = assess(load_profile(PROFILES / "larkspur"), ON)
    before = assessment_record(assessment)["figures"]
    for name in ("car no.2", "car no2"):
        assessment.ledger.enter(
            Figure(
                SET_POINT.of(name, "front"),
                registry.Quantity(33, "psi"),
                case="label",
                facts={"among": LARGER},
            )
        )

    after = assessment_record(assessment)["figures"]

    assert isinstance(before, dict)
    assert isinstance(after, dict)
    assert after.keys() - before.keys() == {
        "tires.car_no2.front.set_point",
        "tires.car_no2.front.set_point_2",
    }


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("fluids.coach.coolant.margin", "58 °F"),
        ("rig.combination_length", "58 ft 2 in"),
        ("sitting_out.least.days", "0.5 days"),
        ("rig.following_gap_from_40", "7 s"),
    ],
)
def test_an_explanation_tells_peoples_units(key: str, text: str) -> None:
    assessment = assess(load_profile(PROFILES / "larkspur"), ON)

    assert explanation(assessment, key).splitlines()[0].startswith(f"{key} = {text} (")
