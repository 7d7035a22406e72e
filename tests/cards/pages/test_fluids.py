"""Page of fluids: as written, with how cold each holds, and a blank for what is not known."""

from binder.cards.blocks import Box
from binder.cards.pages.fluids import fluids
from binder.wording.numbers import BLANK
from tests.cards.binder_rigs import coach, demo, notes, rig, row, table


def test_fluids_stand_in_the_units_they_were_written_in() -> None:
    found = table(fluids(demo("larkspur")), "Fluids, coach")

    assert row(found, "generator oil")["capacity"] == "3.5 qt (3.3 L)"
    assert row(found, "engine oil")["top up"] == "2 qt, tool bay"
    assert row(found, "washer fluid")["specification"] == "methanol, to -20 °F"


def test_each_says_down_to_where_it_protects_and_what_that_leaves() -> None:
    us = table(fluids(demo("larkspur")), "Fluids, coach")
    metric = table(fluids(demo("tamarack")), "Fluids, truck")

    oil = row(us, "engine oil")
    assert (oil["protects to"], oil["to spare at 24 °F"]) == ("-4 °F", "28 °F")
    assert row(metric, "engine oil")["to spare at -2 °C"] == "18 °C"
    assert row(us, "hub oil")["protects to"] == "-"


def test_the_towed_car_has_its_own_table() -> None:
    oil = row(table(fluids(demo("larkspur")), "Fluids, car"), "transfer case oil")

    assert oil["capacity"] == "2 qt (1.8 L)"


def test_without_a_trip_nothing_is_compared() -> None:
    engine = {"engine oil": {"specification": "SAE 5W-30", "capacity": "6 qt", "check": "stick"}}
    found = table(fluids(rig(vehicles={"coach": coach(fluids=engine)})), "Fluids, coach")

    assert found.headers[-1] == "protects to"
    assert row(found, "engine oil")["protects to"] == "-22 °F"


def test_what_the_equipment_implies_and_nobody_listed_is_a_row_of_blanks() -> None:
    found = table(fluids(rig(vehicles={"coach": coach()})), "Fluids, coach")

    assert row(found, "coolant") == {
        "fluid": "coolant",
        "specification": BLANK,
        "capacity": BLANK,
        "where and how it is read": BLANK,
        "top up": BLANK,
        "protects to": "-",
    }


def test_what_it_has_not_is_said_and_left_alone() -> None:
    none = {"battery water": {"specification": "none, sealed"}}
    found = table(fluids(rig(vehicles={"coach": coach(fluids=none)})), "Fluids, coach")

    assert set(row(found, "battery water").values()) == {"battery water", "none, sealed", "-"}


def test_the_page_warns_of_a_hot_cooling_system_and_defers_to_the_makers_chart() -> None:
    page = fluids(demo("kestrel"))

    (box,) = [block for block in page.blocks if isinstance(block, Box)]
    assert (box.word, box.title) == (
        "WARNING",
        "Cooling system hot? Never open its cap or bottle: it scalds.",
    )
    assert "engine maker's chart" in page.intro
    assert "that is for qualified people" in notes(page.blocks)
