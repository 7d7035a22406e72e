"""The page of weights: expected numbers are worked by hand from the demo's scale ticket and labels."""

import pytest

from binder.cards.blocks import Line, Table
from binder.cards.pages.weights import weights, weights_by_state
from tests.cards.binder_rigs import bars, coach, demo, notes, rig, row, table


def test_every_axle_vehicle_and_the_whole_rig_has_a_bar() -> None:
    names = [bar.name for bar in bars(weights(demo("larkspur"))).rows]

    assert names == [
        "coach, steer",
        "coach, drive",
        "coach, total",
        "car, front",
        "car, rear",
        "car, total",
        "whole rig",
    ]


def test_a_bar_tells_load_rating_and_what_is_left() -> None:
    (bar,) = (bar for bar in bars(weights(demo("larkspur"))).rows if bar.name == "car, front")

    # Its ticket: 2,230 lb, as it is towed; its label: 2,600 lb.
    assert (bar.load, bar.rating, bar.margin) == ("2,230 lb, as weighed", "rating 2,600 lb", "370 lb left")
    assert bar.share == pytest.approx(2230 / 2600)
    assert not bar.is_over


def test_an_axle_over_its_rating_is_said_in_words() -> None:
    axles = {"steer": {"at": "0 in", "fitment": "single", "rating": "9000 lb"}}
    ticket = {"on": "2026-05-01", "weights": {"coach": {"steer": {"axle": "9100.5 lb"}}}}
    page = weights(rig(vehicles={"coach": {"kind": "motorhome", "axles": axles}}, scale_tickets=[ticket]))

    (bar, *_) = bars(page).rows
    assert (bar.margin, bar.is_over) == ("101 lb OVER", True)


def test_what_is_not_known_is_a_blank_and_no_bar() -> None:
    page = weights(rig(vehicles={"coach": coach()}))

    lines = [block for block in page.blocks if isinstance(block, Line)]
    assert lines[0] == Line("coach, steer", "load ______ lb, rating ______ lb")
    assert len(lines) == 3


def test_every_state_of_the_trip_has_a_row_with_load_and_margin() -> None:
    found = table(weights_by_state(demo("larkspur")), "Every state of the trip: coach")

    # As weighed, departure, two stops a day for five days, each arriving and leaving, everything full.
    assert len(found.rows) == 1 + 1 + 5 * 2 * 2 + 1
    weighed = row(found, "as weighed")
    assert (weighed["steer load"], weighed["steer margin"]) == ("10,720", "1,280")
    assert (weighed["total load"], weighed["total margin"]) == ("27,200", "3,300")


def test_departure_adds_what_the_ticket_did_not_have() -> None:
    found = row(table(weights_by_state(demo("larkspur")), "Every state of the trip: coach"), "departure")

    # 25 gal diesel at 7.05, 5 gal exhaust fluid at 9.1, 65 gal fresh, 10 gal gray and 4 gal black at
    # 8.33 lb/gal, 9.6 gal propane at 4.24, camp gear 300 lb, a bar of 40 lb; two people as weighed.
    added = 25 * 7.05 + 5 * 9.1 + (65 - 10 - 4) * 8.33 + 9.6 * 4.24 + 300 + 40
    assert float(found["total load"].replace(",", "")) == pytest.approx(27200 + added, abs=1)
    assert float(found["total load"].replace(",", "")) >= 27200 + added


def test_what_is_the_same_in_every_state_is_told_once() -> None:
    found = table(weights_by_state(demo("larkspur")), "What stays as it is")

    assert found.rows[2] == ("car, total", "4,060 lb", "4,850 lb", "790 lb")


def test_the_weakest_part_of_the_coupling_is_named() -> None:
    found = table(weights(demo("larkspur")), "Coach to car, by tow bar")

    assert row(found, "tow bar") == {"part": "tow bar", "may tow": "8,000 lb", "which": "weakest part"}
    assert row(found, "base plate")["which"] == "weakest part"
    assert row(found, "receiver")["which"] == ""
    assert row(found, "left under the weakest part")["may tow"] == "3,940 lb"


def test_the_label_leaves_what_people_and_water_do_not_take() -> None:
    found = row(table(weights(demo("larkspur")), "What the labels leave"), "coach")

    # 49 CFR 571.120 S10.4.2: 150 lb a person, 8.3 lb/gal: 2 x 150 + 90 x 8.3 = 1,047 lb of 5,130 lb.
    assert (found["together"], found["left for cargo"]) == ("1,047 lb", "4,083 lb")


def test_how_each_axle_is_known_is_told() -> None:
    found = table(weights_by_state(demo("larkspur")), "On the scale")

    assert row(found, "coach, drive")["known by"] == "wheel ends weighed"
    assert row(found, "car, rear")["known by"] == "axle weighed; ends assumed"
    assert "10 % (practice, assumed)" in notes(weights(demo("larkspur")).blocks)


def test_a_rig_that_was_never_weighed_says_so() -> None:
    found = table(weights_by_state(rig(vehicles={"coach": coach()})), "On the scale")

    assert row(found, "coach, steer")["known by"] == "not weighed"
    assert row(found, "coach, steer")["ticket of"] == "______"


def test_the_heaviest_end_of_an_axle_stands_with_its_slack() -> None:
    found = row(table(weights(demo("larkspur")), "Heaviest wheel end"), "car, front")

    # 2,230 lb / 2 and 10 % more = 1,226.5 lb; half of 2,600 lb is 1,300 lb.
    assert (found["heavier end"], found["half the rating"], found["room under it"]) == (
        "1,227 lb",
        "1,300 lb",
        "73 lb",
    )


def test_a_single_vehicle_has_no_second_line_for_the_whole_rig() -> None:
    names = [bar.name for bar in bars(weights(demo("kestrel"))).rows]

    assert names == ["coach, steer", "coach, drive", "coach, total"]


def test_each_vehicle_whose_loads_change_has_a_table_of_its_own() -> None:
    tanks = {"fresh": {"holds": "fresh water", "capacity": "40 gal", "at": "10 in"}}
    axles = {name: {"at": f"{40 * place} in", "fitment": "single"} for place, name in enumerate("abcd")}
    readings = {name: {"axle": "2000 lb"} for name in axles}
    shared = {"equalized": "yes"}
    towed = {name: axle | shared for name, axle in axles.items()}
    page = weights_by_state(
        rig(
            vehicles={
                "coach": coach(tanks=tanks),
                "trailer": {"kind": "trailer", "axles": towed, "tanks": tanks},
            },
            couplings=[
                {
                    "ahead": "coach",
                    "behind": "trailer",
                    "how": "ball",
                    "at": "300 in",
                    "at_behind": "-200 in",
                    "down_load": "500 lb",
                }
            ],
            scale_tickets=[
                {
                    "on": "2026-05-01",
                    "weights": {
                        "coach": {"steer": {"axle": "5000 lb"}, "drive": {"axle": "9000 lb"}},
                        "trailer": readings,
                    },
                    "levels": {"coach": {"fresh": "empty"}, "trailer": {"fresh": "empty"}},
                }
            ],
        )
    )
    captions = [block.caption for block in page.blocks if isinstance(block, Table)]
    told = [caption.split(": ")[1] for caption in captions if caption.startswith("Every state")]

    # Four axles fill a table; their total goes on to the next, with the whole rig.
    assert told == ["coach, lb", "trailer, lb", "trailer, lb"]
