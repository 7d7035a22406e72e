"""The rig at a glance: what is drawn where, what stands in the tables, what is missing said."""

import pytest

from binder.cards.blocks import Table
from binder.cards.pages.rig_at_a_glance import rig_at_a_glance
from tests.cards.binder_rigs import coach, demo, hauler, notes, plan_view, rig, row, table


def test_axles_carry_their_set_points_to_scale() -> None:
    motorhome, car = plan_view(rig_at_a_glance(demo("larkspur"))).vehicles

    assert [(axle.set_point, axle.fitment) for axle in motorhome.axles] == [("105", "single"), ("95", "dual")]
    assert motorhome.length == pytest.approx(460 * 25.4)
    assert motorhome.axles[1].position == pytest.approx(252 * 25.4)
    # 295/75R22.5: 22.5 in and twice 75 % of 295 mm.
    assert motorhome.axles[0].tire_diameter == pytest.approx(22.5 * 25.4 + 2 * 0.75 * 295)
    assert car.coupling is not None
    # The receiver is 376 in behind the first axle, itself 88 in behind the front.
    assert car.coupling.behind_front_ahead == pytest.approx((376 + 88) * 25.4)


def test_the_walk_starts_at_the_entry_door_and_goes_by_the_front() -> None:
    page = rig_at_a_glance(demo("larkspur"))
    found = [cells[1] for cells in table(page, "The walk").rows]

    assert found == [
        "entry door",
        "diesel filler",
        "tool bay",
        "pass-through bay",
        "service bay",
        "exhaust fluid filler",
        "engine bay",
        "tow bar",
        "heater bay",
        "propane bay",
        "entry bay",
    ]
    walked = [thing.walk for thing in plan_view(page).things if thing.walk]
    assert walked == [str(number) for number in range(1, 12)]


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "sandpiper", "tamarack"])
def test_the_plan_view_has_everything_a_stranger_must_find(name: str) -> None:
    """Whatever of it is measured, or lies at a door or bay that is."""
    drawn = ", ".join(thing.label for thing in plan_view(rig_at_a_glance(demo(name))).things)

    for wanted in ("EXIT", "extinguisher", "propane OFF", "battery OFF", "jack", "filler"):
        assert wanted in drawn, wanted


def test_what_is_at_a_numbered_place_shares_its_label() -> None:
    labels = [thing.label for thing in plan_view(rig_at_a_glance(demo("larkspur"))).things]

    assert "entry door, EXIT, extinguisher" in labels
    assert "propane bay, propane OFF" in labels


def test_what_is_found_at_a_place_stands_with_it() -> None:
    found = table(rig_at_a_glance(demo("larkspur")), "The walk")
    by_place = {cells[1]: cells[4] for cells in found.rows}

    assert by_place["tool bay"] == "extinguisher, warning devices"
    assert "shut-off" in by_place["propane bay"]
    assert by_place["entry door"] == "extinguisher, exit, vests"


def test_a_bay_named_within_another_keeps_its_own_contents() -> None:
    bays = {
        "rear bay": {"at": "100 in", "side": "left"},
        "right rear bay": {"at": "100 in", "side": "right"},
    }
    size = {"overall_length": "300 in", "overall_width": "96 in"}
    vehicle = coach(size=size, bays=bays, equipment={"extinguishers": ["right rear bay"]})
    found = {
        cells[1]: cells[4]
        for cells in table(rig_at_a_glance(rig(vehicles={"coach": vehicle})), "The walk").rows
    }

    assert found == {"rear bay": "-", "right rear bay": "extinguisher"}


def test_height_has_its_date_state_and_highest_thing() -> None:
    found = table(rig_at_a_glance(demo("larkspur")), "Dimensions of each vehicle")

    assert row(found, "height")["coach"] == "12 ft 8 in (3.87 m)"
    assert row(found, "height measured on")["coach"] == "2026-03-30"
    assert row(found, "highest thing") == {
        "": "highest thing",
        "coach": "front air conditioner",
        "car": "______",
    }


def test_the_height_of_the_whole_rig_has_its_slack() -> None:
    found = row(table(rig_at_a_glance(demo("larkspur")), "Dimensions of the whole rig"), "Overall height")

    # The lowest figure posted on the trip is 14 ft 2 in: 18 in over 12 ft 8 in.
    assert found["slack"].startswith("1 ft 6 in under")


def test_ratings_stand_as_the_labels_state_them() -> None:
    found = table(rig_at_a_glance(demo("larkspur")), "Ratings")

    assert row(found, "gross vehicle weight rating (GVWR)") == {
        "": "gross vehicle weight rating (GVWR)",
        "coach": "30,500 lb (13,834 kg)",
        "car": "4,850 lb (2,199 kg)",
    }
    assert row(found, "axle 2 from the front (GAWR)")["car"] == "rear 2,450 lb (1,111 kg)"


def test_without_its_dimensions_a_rig_is_not_drawn_and_says_what_is_lacking() -> None:
    page = rig_at_a_glance(rig(vehicles={"coach": coach()}))

    assert "length of the coach, width of the coach" in notes(page.blocks)
    assert not [block for block in page.blocks if block.kind == "picture"]


def test_a_kingpin_lies_within_its_trailer() -> None:
    _, trailer = plan_view(rig_at_a_glance(hauler(at_behind="-210 in"))).vehicles

    assert trailer.coupling is not None
    assert trailer.coupling.kind == "kingpin"
    # 400 in less 110 in behind and 34 in between the axles: the first axle is 256 in behind the front.
    assert trailer.front_overhang == pytest.approx(256 * 25.4)
    assert trailer.coupling.behind_own_front == pytest.approx((256 - 210) * 25.4)


def test_what_must_be_found_at_once_says_how_it_is_worked() -> None:
    equipment = {
        "exits": [{"place": "bedroom window", "opens": "push both levers"}, "entry door"],
        "shut offs": [{"place": "left bay", "stops": "propane", "how": "clockwise"}],
        "smoke alarm": "none",
    }
    page = rig_at_a_glance(rig(vehicles={"coach": coach(equipment=equipment)}))
    rows = {row[0]: row[1] for block in page.blocks if isinstance(block, Table) for row in block.rows}

    assert rows["coach: exits"] == "bedroom window (push both levers); entry door"
    assert rows["coach: shut-offs"] == "propane, left bay (clockwise)"
    assert rows["coach: smoke alarms"] == "none"


def test_a_coupling_of_unknown_place_is_said() -> None:
    page = rig_at_a_glance(hauler())

    assert "place of the coupling ahead of the trailer" in notes(page.blocks)


def test_an_axle_without_a_pressure_is_drawn_with_a_question() -> None:
    first, _ = plan_view(rig_at_a_glance(hauler(at_behind="-210 in"))).vehicles

    assert [axle.set_point for axle in first.axles] == ["?", "?"]
