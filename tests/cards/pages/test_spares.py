"""The pages of spares: what lies where, and what is to be bought."""

from typing import Any

from binder.cards.blocks import Heading, Line, Page, Table
from binder.cards.pages.spares import spares_by_place
from tests.cards.binder_rigs import coach, demo, notes, rig, row, table

BAYS = {
    "left bay": {"at": "150 in", "side": "left", "rating": "50 lb"},
    "right bay": {"at": "100 in", "side": "right"},
}


def small(*spares: dict[str, str], **entries: Any) -> Page:
    vehicle = coach(bays=BAYS, **entries)
    return spares_by_place(rig(vehicles={"coach": vehicle}, spares=list(spares)))


def lines(page: Page) -> dict[str, Line]:
    return {block.challenge: block for block in page.blocks if isinstance(block, Line)}


def test_places_follow_the_walk_and_what_has_none_comes_last() -> None:
    page = spares_by_place(demo("larkspur"))
    captions = [block.caption for block in page.blocks if isinstance(block, Table)]

    assert captions[:2] == ["Coach, tool bay", "Coach, pass-through bay"]
    assert captions.index("Coach, entry bay") > captions.index("Coach, heater bay")
    assert captions[-2:] == ["Place not noted: ______", "Weight by bay"]


def test_an_entry_stands_with_its_number_and_its_part_number() -> None:
    found = table(spares_by_place(demo("larkspur")), "Coach, tool bay")

    assert row(found, "fuel filter") == {
        "what": "fuel filter",
        "how many": "2",
        "part number": "LK-1107",
        "good until": "-",
    }
    assert row(found, "engine oil")["how many"] == "2 qt"
    assert row(table(spares_by_place(demo("larkspur")), "Coach, entry bay"), "fuses, for the car")


def test_what_is_not_known_is_a_blank() -> None:
    page = small({"what": "wiper blade", "place": "left bay"}, equipment={"wipers": []})
    found = row(table(page, "Left bay"), "wiper blade")

    assert (found["how many"], found["part number"], found["good until"]) == ("______", "______", "-")


def test_two_like_entries_are_both_listed() -> None:
    belt = {"what": "fan belt", "quantity": "1", "place": "left bay"}

    assert len(table(small(belt, belt), "Left bay").rows) == 2


def test_the_weight_of_a_bay_is_held_against_its_rating() -> None:
    jack = {"what": "jack", "place": "left bay", "weight": "30.2 lb", "since": "2026-01-01"}
    rope = {"what": "rope", "place": "right bay", "weight": "4 lb", "since": "2026-01-01"}
    found = table(small(jack, rope, {"what": "tape", "place": "left bay"}), "Weight by bay")

    assert row(found, "left bay")["noted in it"] == "31 lb"
    assert row(found, "left bay")["left"] == "19 lb"
    assert row(found, "left bay")["not counted"] == "1 entry without a weight"
    assert (row(found, "right bay")["rated"], row(found, "right bay")["left"]) == ("______ lb", "-")


def test_a_rig_without_spares_says_so() -> None:
    assert "No spares and tools are noted yet." in notes(small().blocks)


def test_the_shopping_list_has_what_is_missing_and_what_is_short_with_a_box_to_tick() -> None:
    found = lines(spares_by_place(demo("larkspur")))

    assert {name: line.answer for name, line in found.items()} == {
        "Air conditioner belt": "1",
        "Valve cores": "2",
    }
    assert found["Valve cores"].detail.startswith("4 usual")
    assert all(line.ticks == 1 for line in found.values())


def test_what_runs_out_on_the_trip_is_on_the_list_with_its_day() -> None:
    found = lines(spares_by_place(demo("tamarack")))

    assert "expires 2026-09-12" in found["First-aid kit"].detail
    assert found["Fuses, trailer"].answer == "1 box"


def test_the_size_or_kind_is_said_where_the_profile_has_it() -> None:
    vehicle = coach(
        tanks={"fuel": {"holds": "diesel"}}, fluids={"engine oil": {"specification": "SAE 15W-40"}}
    )
    filters = {"what": "fuel filter", "quantity": "1", "part_number": "A-1"}
    found = lines(spares_by_place(rig(vehicles={"coach": vehicle}, spares=[filters])))

    assert (found["Engine oil"].answer, found["Engine oil"].detail.split(" · ")[0]) == ("2 qt", "SAE 15W-40")
    assert found["Fuel filter"].detail.startswith("part number A-1")


def test_what_no_rule_asks_for_is_listed_once_it_is_out_of_date() -> None:
    flares = {"what": "flares", "quantity": "6", "expires": "2026-05-01", "part_number": "B-2"}
    page = spares_by_place(rig(vehicles={"coach": coach()}, spares=[flares]))

    assert [block.text for block in page.blocks if isinstance(block, Heading)][-1] == "Out of date"
    assert lines(page)["Flares"] == Line("Flares", "6", "part number B-2 · expired 2026-05-01", ticks=1)


def test_what_was_not_counted_is_counted_before_buying() -> None:
    valves = {"what": "valve cores"}
    page = spares_by_place(rig(vehicles={"coach": coach()}, spares=[valves]))

    assert "Valve cores" not in lines(page)
    assert notes(page.blocks).endswith("Count before buying: valve cores.")


def test_with_everything_aboard_the_list_is_one_line() -> None:
    page = spares_by_place(demo("sandpiper"))

    assert lines(page) == {}
    assert "Nothing to buy" in notes(page.blocks[-1:])
