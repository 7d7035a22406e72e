"""Each working is redone from its printed numbers alone, and comes to the result printed elsewhere."""

from dataclasses import replace

import pytest

from binder.assessment.assess import assess
from binder.assessment.coupling.kinds import MARGIN
from binder.assessment.road import kinds as road_kinds
from binder.assessment.supplies.kinds import RANGE_LEFT
from binder.assessment.supplies.sitting_out_kinds import LEAST
from binder.assessment.tires import kinds
from binder.cards.blocks import Page, Reckoning
from binder.cards.rig_words import words_of
from binder.cards.workings.set_points import workings
from binder.models.load import load_profile
from tests.cards.binder_rigs import ON, coach, demo, kind_of_rig, notes, rig
from tests.demos import PROFILES
from tests.paper.reckoned import Working, workings_of

DEMOS = ("larkspur", "kestrel", "tamarack", "sandpiper")


def page_of(name: str) -> Page:
    page = workings(demo(name))
    assert page is not None
    return page


@pytest.mark.parametrize("name", DEMOS)
def test_every_set_point_follows_from_the_numbers_printed_above_it(name: str) -> None:
    found = {one.title: one for one in workings_of(page_of(name))}
    assessment = demo(name)
    words = words_of(assessment)
    figures = [figure for figure in assessment.ledger.of_kind(kinds.SET_POINT) if figure.quantity]

    assert figures
    for figure in figures:
        vehicle, axle = map(str, figure.key.subject)
        working = found[f"{vehicle.capitalize()}, {axle}: why {words.value(figure)}"]
        others = (kinds.LOAD_PER_TIRE, kinds.RUN_FLAT_BELOW, kinds.LOW_ALARM)
        for one in (figure, *(assessment.known(kind.of(vehicle, axle)) for kind in others)):
            assert one is None or one.quantity is None or words.value(one) in working.boxes


@pytest.mark.parametrize(
    "name", ["car_on_trailer", "dolly", "slide_in_camper", "tag_axle", "three_axle_trailer"]
)
def test_each_way_of_joining_can_be_followed(name: str) -> None:
    page = workings(kind_of_rig(name))

    assert page is not None
    assert len(list(workings_of(page))) >= 3


@pytest.mark.parametrize("name", DEMOS)
def test_what_decides_beside_the_tires_comes_to_what_is_printed_of_it(name: str) -> None:
    assessment = demo(name)
    words, ledger = words_of(assessment), assessment.ledger
    boxes = {box for one in workings_of(page_of(name)) for box in one.boxes}
    room = assessment.quantity(road_kinds.MARGIN_OF_TRIP.of())
    ranges = [one.quantity for one in ledger.of_kind(RANGE_LEFT.at_stop) if one.quantity is not None]
    held = {one.quantity: one for one in ledger.of_kind(road_kinds.HOLDING_POWER) if one.quantity is not None}
    worst = held[max(held)]

    assert {words.value(one) for one in ledger.of_kind(MARGIN)} <= boxes
    assert words.text(room, "inches down") in boxes
    assert words.text(min(ranges), "distance down") in boxes
    assert words.value(ledger.known(LEAST.ends.days.of())) in boxes
    assert words.value(worst) in boxes
    results = {block.result for block in page_of(name).blocks if isinstance(block, Reckoning)}
    subject = worst.key.subject
    assert words.value(ledger.known(road_kinds.RETARDER_MARGIN.of(*subject)), "______ kW") in results
    share = ledger.known(road_kinds.RETARDER_SHARE.of(*subject))
    assert share is None or share.quantity is None or words.value(share) in boxes


def test_a_box_that_nothing_above_leads_to_is_told() -> None:
    with pytest.raises(AssertionError):
        Working("wrong").reckoning(Reckoning("100 psi", "+ 5 psi margin =", "105 psi"))


def test_a_working_that_does_not_add_up_is_told() -> None:
    wrong = Reckoning("5,744 lb", "÷ 2 tires =", "2,873 lb")

    with pytest.raises(AssertionError):
        Working("wrong", numbers={5744.0}).reckoning(wrong)
    Working("right", numbers={5744.0}).reckoning(Reckoning("5,744 lb", "÷ 2 tires =", "2,872 lb"))


def test_an_axle_that_was_never_weighed_says_what_is_missing_and_stops_with_a_blank() -> None:
    page = workings(rig(vehicles={"coach": coach()}))

    assert page is not None
    assert "Missing: Coach: no scale ticket" in notes(page.blocks)
    lines = [block for block in page.blocks if isinstance(block, Reckoning)]
    assert lines[0].result == "______ lb"
    assert all("______" in line.result for line in lines)


def test_what_is_blank_in_the_plan_is_named_and_leaves_a_blank() -> None:
    profile = load_profile(PROFILES / "larkspur")
    assert profile.trip is not None
    use = profile.trip.use.model_copy(update={"diesel": None, "water": None})
    blank = replace(profile, trip=profile.trip.model_copy(update={"use": use}))
    page = workings(assess(blank, ON))

    assert page is not None
    assert {one.result for one in page.blocks if isinstance(one, Reckoning)} >= {"______ mi", "______"}
    assert "Not counted, since not known: fresh water" in notes(page.blocks)
    assert list(workings_of(page))


def test_an_axle_not_weighed_is_taken_at_half_its_rating() -> None:
    axles = {"steer": {"at": "0 in", "fitment": "single", "rating": "9000 lb"}}
    page = workings(rig(vehicles={"coach": {"kind": "motorhome", "axles": axles}}))

    assert page is not None
    line = next(block for block in page.blocks if isinstance(block, Reckoning))
    assert (line.text, line.result) == ("not weighed, so half of its rating, 9,000 lb ÷ 2 =", "4,500 lb")
