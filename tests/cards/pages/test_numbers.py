"""How each number was found: every figure has its entry, and none is told twice."""

import pytest

from binder.cards.blocks import Table
from binder.cards.pages.numbers import numbers, printed_entries
from binder.wording.sentences import key_text
from binder.wording.words import all_procedure_constants
from tests.cards.binder_rigs import coach, demo, rig, row, table


@pytest.mark.parametrize("name", ["larkspur", "kestrel"])
def test_every_figure_but_those_of_middle_states_and_stops_has_one_entry(name: str) -> None:
    assessment = demo(name)
    told = [one.told.key for entry in printed_entries(assessment) for one in entry.figures]
    left = {key_text(figure.key) for figure in assessment.ledger.entered} - set(told)

    assert len(told) == len(set(told))
    assert {key.split(".")[0] for key in left} <= {"weights", "supplies"}
    assert all(".day_" in key for key in left if key.startswith("supplies."))
    assert not [key for key in left if ".departure." in key or ".heaviest." in key]


@pytest.mark.parametrize("name", ["larkspur", "kestrel"])
def test_subject_owner_and_name_make_up_the_key(name: str) -> None:
    for entry in printed_entries(demo(name)):
        for told in entry.figures:
            parts = {*told.told.key.split(".")}

            assert parts == {*entry.topic.split("."), *told.whose.split("."), *entry.name.split(".")} - {""}


def test_one_entry_holds_one_rule_kind_and_source() -> None:
    for entry in printed_entries(demo("larkspur")):
        shared = {(one.told.rule, one.figure.basis, one.told.sources) for one in entry.figures}

        assert len(shared) == 1


def test_an_entry_tells_kind_rule_source_value_and_inputs() -> None:
    found = table(numbers(demo("larkspur")), "tires")
    (text,) = (cells[1] for cells in found.rows if cells[0] == "load_per_tire" and "coach" in cells[1])

    assert text.startswith("Calculated. The heavier wheel end in the heaviest state of the trip")
    assert "From: statics; S58." in text
    assert "coach.steer: 5,744 lb; 31 lb to next row (left end 5,744 lb, tires on that end 1)" in text


def test_numbers_of_the_route_found_alike_are_worked_out_once() -> None:
    found = table(numbers(demo("larkspur")), "route")
    (text,) = (cells[1] for cells in found.rows if cells[0] == "driving_time" and "leg_1" in cells[1])

    assert text.count("(") == 1
    assert text.count("day_") == 10


def test_every_axle_is_worked_out() -> None:
    found = table(numbers(demo("larkspur")), "tires")
    (text,) = (cells[1] for cells in found.rows if cells[0] == "load_per_tire" and "coach" in cells[1])

    assert text.count("tires on that end") == 2


def test_a_figure_without_value_says_none() -> None:
    found = row(table(numbers(rig(vehicles={"coach": coach()})), "tires"), "set_point")

    assert "coach.steer, coach.drive: none" in found["how it was found"]


def test_axles_that_read_alike_are_told_once() -> None:
    found = table(numbers(demo("larkspur")), "tires")
    (text,) = (cells[1] for cells in found.rows if cells[0] == "label_pressure" and "car" in cells[1])

    assert text.endswith("car.front, car.rear: 33 psi (label 33 psi).")


def test_every_fixed_number_stands_with_its_reason() -> None:
    found = table(numbers(demo("larkspur")), "Fixed numbers")

    assert len(found.rows) == len(all_procedure_constants("us"))
    assert all(all(cells) for cells in found.rows)


def test_no_table_is_without_rows() -> None:
    tables = [block for block in numbers(demo("kestrel")).blocks if isinstance(block, Table)]

    assert tables
    assert all(found.rows for found in tables)
