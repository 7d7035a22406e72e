"""Each figure a scale ticket does not have is told, with what the gap costs."""

import pytest

from tests.assessment.conftest import Assessed
from tests.assessment.edited_demos import Change
from tests.by_key import ByKey


def told(assessment: ByKey, about: str) -> list[tuple[str, int, str, str]]:
    return [
        (found.grade, found.order, found.text, found.what_helps)
        for found in assessment.findings
        if found.key == f"weights.{about}"
    ]


def test_a_ticket_with_every_figure_has_no_gap(kestrel: ByKey) -> None:
    assert told(kestrel, "coach") == []


def test_a_vehicle_that_was_never_weighed(assessed: Assessed) -> None:
    after = assessed(
        "larkspur",
        ("      car:\n        front: {axle: 2230 lb}\n        rear: {axle: 1830 lb}\n", "      coach:\n"),
        ("        total: 4060 lb", "        total: 27200 lb"),
    )

    assert told(after, "car") == [
        ("missing", 6, "Car: no scale ticket.", "Weigh it, each wheel end, loaded for travel.")
    ]


def test_an_axle_without_ends_costs_the_allowance(larkspur: ByKey) -> None:
    """10 % of half of 2,230 lb at the front, 15 % of half of 1,830 lb at the rear: 111.5 and 137.25 lb."""
    helps = "Weigh each wheel end; until then the heavier end counts over half the axle by "

    assert told(larkspur, "car") == [
        (
            "missing",
            6,
            "Car: its wheel ends were not weighed (front, rear).",
            f"{helps}112 lb (front), 138 lb (rear).",
        )
    ]
    cost = larkspur.quantity("weights.car.rear.end_allowance")
    assert cost is not None
    assert cost.to("pound").m == pytest.approx(137.25)


def test_an_axle_the_ticket_leaves_out_has_no_load_and_is_taken_at_half_its_rating(
    assessed: Assessed,
) -> None:
    """What is taken helps nobody: it is named as taken, and is no load on paper."""
    after = assessed("larkspur", ("        front: {axle: 2230 lb}\n", ""))
    end = after.figure("weights.car.front.departure.heavier_end")

    assert ("missing", 6, "Car: not on the ticket of 2026-03-30: front.") in [
        entry[:3] for entry in told(after, "car")
    ]
    assert end.value is None
    assert "taken at half the axle's rating" in end.rule
    assert after.quantity("tires.car.front.load_per_tire") is None


def test_one_end_alone_is_no_axle(assessed: Assessed) -> None:
    after = assessed("larkspur", ("front: {axle: 2230 lb}", "front: {left: 1120 lb}"))

    assert "Car: not on the ticket of 2026-03-30: front." in [entry[2] for entry in told(after, "car")]


def test_one_end_and_the_axle_make_the_other_end(assessed: Assessed) -> None:
    after = assessed("larkspur", ("front: {axle: 2230 lb}", "front: {left: 1120 lb, axle: 2230 lb}"))

    assert [entry[2] for entry in told(after, "car")] == ["Car: its wheel ends were not weighed (rear)."]


@pytest.mark.parametrize(
    ("changes", "lacking"),
    [
        ((("        total: 4060 lb\n", ""),), "its total"),
        ((("    division: 10 lb\n", ""),), "the scale's division"),
        (
            (
                ("        total: 4060 lb\n", ""),
                (
                    "aboard: []\n    state: {ride_height: true, coupled: false}",
                    "aboard: []\n    state: {ride_height: true}",
                ),
            ),
            "its total and whether it stood coupled",
        ),
    ],
)
def test_what_the_ticket_does_not_give_is_named(
    assessed: Assessed, changes: tuple[Change, ...], lacking: str
) -> None:
    assert (
        "missing",
        6,
        f"Car: the ticket of 2026-03-30 does not give {lacking}.",
        "Type it in: by it a misread figure is found.",
    ) in told(assessed("larkspur", *changes), "car")


def test_a_figure_between_two_divisions_is_told(assessed: Assessed) -> None:
    after = assessed("larkspur", ("front: {axle: 2230 lb}", "front: {axle: 2232 lb}"))

    assert [found.text for found in after.findings if found.key == "weights.car.ticket"] == [
        "Car: the scale reads in steps of 10 lb, but not so: front."
    ]
