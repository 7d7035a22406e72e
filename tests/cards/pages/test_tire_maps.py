"""Every mounted tire stands on its map with its age and tread, and says what it asks for."""

from binder.cards.blocks import Picture
from binder.cards.drawings import TireMap
from binder.cards.pages.tire_drawings import tire_map_blocks
from tests.cards.binder_rigs import coach, demo, rig


def maps(name: str) -> list[TireMap]:
    views = [block.view for block in tire_map_blocks(demo(name)) if isinstance(block, Picture)]
    return [view for view in views if isinstance(view, TireMap)]


def test_tires_stand_from_the_right_side_to_the_left_outer_before_inner_on_the_right() -> None:
    steer, drive = maps("larkspur")[0].columns

    assert [tire.position for tire in steer.tires] == ["right", "left"]
    assert [tire.position for tire in drive.tires] == [
        "right outer",
        "right inner",
        "left inner",
        "left outer",
    ]


def test_each_tire_has_its_own_age_and_tread() -> None:
    steer = maps("larkspur")[0].columns[0]

    # Week 14 of 2023 to the sixth of June 2026 by the calendar: a little over three years.
    assert [(tire.age, tire.tread) for tire in steer.tires] == [("3.2 years", "13/32 in")] * 2


def test_a_spare_stands_with_the_vehicle_its_tires_are_on() -> None:
    truck, trailer = maps("tamarack")

    for view in (truck, trailer):
        assert [column.is_spare for column in view.columns] == [False, False, True]
    (spare,) = trailer.columns[-1].tires
    assert (spare.position, spare.tread) == ("spare", "8.0 mm")


def test_a_tire_in_order_asks_for_nothing() -> None:
    assert {tire.call for view in maps("larkspur") for column in view.columns for tire in column.tires} == {
        ""
    }


def test_a_tire_of_which_nothing_is_known_is_blank_and_asks_to_be_read() -> None:
    (picture,) = (
        block for block in tire_map_blocks(rig(vehicles={"coach": coach()})) if isinstance(block, Picture)
    )
    assert isinstance(picture.view, TireMap)
    tires = [tire for column in picture.view.columns for tire in column.tires]

    assert len(tires) == 6
    assert {(tire.age, tire.call) for tire in tires} == {("______ years", "READ IT")}


def test_a_worn_and_an_old_tire_say_replace() -> None:
    worn = {
        "mounted": {
            "steer left": {"date_code": "1423", "tread": "1/32 in"},
            "steer right": {"date_code": "0110", "tread": "9/32 in"},
        }
    }
    axles = {"steer": {"at": "0 in", "fitment": "single", "tires": "made up"}}
    assessment = rig(vehicles={"coach": {"kind": "motorhome", "axles": axles}}, tires={"made up": worn})
    (view,) = (block.view for block in tire_map_blocks(assessment) if isinstance(block, Picture))
    assert isinstance(view, TireMap)

    assert [(tire.position, tire.call) for tire in view.columns[0].tires] == [
        ("right", "REPLACE"),
        ("left", "REPLACE"),
    ]
