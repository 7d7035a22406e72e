"""The page of tires: every position, every limit, the typed table digit by digit."""

import math

from binder.assessment.assess import Assessment
from binder.cards.blocks import Page
from binder.cards.pages.tire_register import load_tables, tire_register
from tests.by_key import ByKey
from tests.cards.binder_rigs import coach, demo, notes, rig, row, table


def tables_of(assessment: Assessment) -> Page:
    page = load_tables(assessment)
    assert page is not None
    return page


def test_the_answer_of_an_axle_stands_in_one_row() -> None:
    found = row(table(tire_register(demo("larkspur")), "The answer"), "coach, steer")

    # Typed table: 5,744 lb needs the row of 5,775 lb, 100 psi; 5 psi of margin; the valve was never read.
    assert (found["row, psi"], found["SET-POINT, psi"], found["cap, psi"]) == (
        "100",
        "105",
        "______",
    )
    # 80 % of 105 psi.
    assert found["run flat at or under, psi"] == "84"
    assert found["room on one tire"] == "31 lb to next row"


def test_every_position_is_in_the_register_outer_before_inner() -> None:
    found = [cells[0] for cells in table(tire_register(demo("larkspur")), "Every tire").rows]

    assert found[:6] == [
        "coach, steer left",
        "coach, steer right",
        "coach, drive left outer",
        "coach, drive left inner",
        "coach, drive right inner",
        "coach, drive right outer",
    ]
    assert found[-1] == "spare"


def test_a_tire_has_its_age_on_the_last_day() -> None:
    found = row(table(tire_register(demo("larkspur")), "Every tire"), "coach, steer left")

    # Week 14 of 2023 begins on April 3 (ISO 8601); to June 6, 2026 that is 1,160 days, 3.18 years.
    assert (found["made, week of"], found["age"]) == ("2023-04-03", "3.2 years")
    assert (found["tread"], found["date code"], found["around"]) == ("13/32 in", "1423", "125.5 in")


def test_a_spare_is_listed_with_its_date_code() -> None:
    found = row(table(tire_register(demo("kestrel")), "Every tire"), "spare, coach tires")

    # ISO week 36 of 2023 begins on September 4.
    assert (found["date code"], found["made, week of"], found["tread"]) == ("3623", "2023-09-04", "13/32 in")


def test_a_tire_nobody_noted_has_blanks() -> None:
    vehicle = coach(
        axles={"steer": {"at": "0 in", "fitment": "single", "tires": "mine"}},
    )
    assessment = rig(vehicles={"coach": vehicle}, tires={"mine": {"size": "235/80R17"}})
    page = tire_register(assessment)
    found = row(table(page, "Every tire"), "coach, steer left")

    assert found["size, load range"] == "235/80R17, ______"
    assert (found["date code"], found["made, week of"], found["age"]) == ("______", "______", "______ years")
    assert found["tread"] == "______/32 in"
    assert "No load table is given: mine." in notes(tables_of(assessment).blocks)


def test_an_unknown_valve_is_a_blank() -> None:
    found = row(table(tire_register(demo("larkspur")), "Limits of wheels"), "coach wheels")

    assert (found["valve"], found["load"], found["nuts, torque"]) == (
        "______",
        "7,400 lb (3,356 kg)",
        "475 ft·lb (644 N·m)",
    )


def test_the_typed_table_is_printed_digit_by_digit() -> None:
    typed = demo("larkspur").rig.tires["coach tires"].table
    found = table(tables_of(demo("larkspur")), "Load table of the coach tires")

    assert typed is not None
    assert typed.single is not None
    assert len(found.rows) == len(typed.single)
    assert found.rows[0][:3] == ("70 psi", "4,500", "4,135")
    assert found.rows[-1][:3] == ("110 psi", "6,175", "5,675")


def test_half_pounds_of_a_typed_table_are_kept() -> None:
    found = table(tables_of(demo("kestrel")), "Load table of the coach tires")

    assert row(found, "50 psi")["dual, lb"] == "2,007.5"


def test_the_rows_used_are_marked_in_words() -> None:
    found = table(tables_of(demo("larkspur")), "Load table of the coach tires")
    used = {cells[0]: cells[3] for cells in found.rows if cells[3]}

    assert used == {
        "90 psi": "ROW USED: coach, drive (dual)",
        "100 psi": "ROW USED: coach, steer (single)",
    }


def test_the_room_on_a_trailers_tire_is_that_of_its_axle_and_not_of_its_table() -> None:
    """Half of 3,500 lb is 1,750 lb; its label of 65 psi would carry 2,540 lb a tire."""
    found = row(table(tire_register(demo("sandpiper")), "The answer"), "trailer, first")

    load = ByKey(demo("sandpiper")).quantity("tires.trailer.first.load_per_tire")
    assert load is not None
    assert (
        found["room on one tire"] == f"{math.floor(1750 - load.to('pound').m)} lb to half the axle's rating"
    )
