"""The list of checks is the tests: nothing here is left out of it, and there are enough of them."""

import re
import subprocess
import sys
from collections import defaultdict
from pathlib import Path

import pytest

from binder.reference.sources import source_ids
from tests.published.kinds import KINDS

ABOUT_CHECKS = {
    "published/test_fluids.py::test_every_published_case_is_tried",
    "published/test_tires.py::test_every_printed_check_has_a_case",
    "published/test_tires.py::test_source_of_a_case_is_known_and_graded_alike",
}
"""Tests of this folder that check the checks themselves, beside those of this file."""
LEAST = 45


@pytest.fixture(scope="module")
def listed(root: Path) -> list[list[str]]:
    """Lines of ``python -m tests.published`` in their four columns."""
    command = [sys.executable, "-m", "tests.published"]
    result = subprocess.run(command, cwd=root, capture_output=True, text=True, check=True)
    return [line.split("\t") for line in result.stdout.splitlines() if "\t" in line]


def test_every_test_of_this_folder_is_in_the_list(listed: list[list[str]]) -> None:
    unmarked = {test for kind, _, _, test in listed if kind == "no check"}

    assert unmarked - ABOUT_CHECKS == {f"published/{Path(__file__).name}::{name}" for name in own_tests()}
    assert unmarked >= ABOUT_CHECKS


def own_tests() -> list[str]:
    return re.findall(r"^def (test_\w+)", Path(__file__).read_text(encoding="utf-8"), flags=re.MULTILINE)


def test_there_are_enough_even_where_a_table_counts_once(listed: list[list[str]]) -> None:
    tests = {test for kind, _, _, test in listed if kind in {"published", "library"}}

    assert len(tests) >= LEAST


def test_every_check_has_a_kind_and_a_source_of_the_bibliography(listed: list[list[str]]) -> None:
    sources: dict[str, set[str]] = defaultdict(set)
    for kind, source, _, _ in listed:
        if kind != "no check":
            sources[kind] |= set(source_ids(source))

    assert set(sources) <= set(KINDS)
    assert {name[:4] for name in sources["library"]} >= {"LIB-"}
    assert not sources["published"] & {"practice", "memory"}


def test_every_case_of_the_reference_data_has_a_test(listed: list[list[str]]) -> None:
    """O1 to O10 of weights_checks.csv, each where its numbers are computed."""
    by_case = {
        "O1": "test_occupants_water_and_tongue_come_out_of_a_motor_homes_label",
        "O2": "test_water_comes_out_of_a_trailers_label_and_propane_does_not",
        "O3": "test_o3_axles_2_to_5_of_a_rig_of_five",
        "O5": "test_a_load_between_the_axles",
        "O6": "test_a_load_behind_the_rear_axle_lifts_the_front",
        "O7": "test_following_gap_is_the_drivers_manuals",
        "O8": "test_three_devices_on_a_two_way_road",
        "O9": "test_o9_license_group_follows_the_definitions",
        "O10": "test_the_weakest_link_of_a_tow_chain",
    }
    known = {test.rpartition("::")[2] for _, _, _, test in listed}
    text = (Path(__file__).parent / "weights_checks.csv").read_text(encoding="utf-8")
    cases = re.findall(r"^(O\d+),", text, flags=re.MULTILINE)

    # O4, the design stopping distance of cars, is not printed and so not computed.
    assert set(by_case) == set(cases) - {"O4"}
    assert set(by_case.values()) <= known
