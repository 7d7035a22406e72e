"""The newest readings in the register, beside what the profile says: the worse of both counts."""

from datetime import timedelta

import pytest

from binder.models.load import load_profile
from binder.models.log_entries import Entry
from tests.assessment.log.logs import START, by_key, entry, tire
from tests.by_key import ByKey, ReadFinding
from tests.demos import PROFILES

STEER = "tires.coach.steer.steer_left"


def tread(found: ByKey, key: str = f"{STEER}.tread") -> float:
    value = found.quantity(key)
    assert value is not None
    return round(float(value.m_as("inch")) * 32, 3)


def register(found: ByKey) -> list[ReadFinding]:
    return [one for one in found.findings if one.order == 5]


def read(thirty_seconds: int, day: float = 100, position: str = "steer left") -> Entry:
    return tire(position, day, tread=f"{thirty_seconds}/32 in")


def off(one: Entry) -> Entry:
    """The same by a clock that is years ahead."""
    return one._replace(at=one.at + timedelta(days=4000))


def test_the_newest_pressure_is_told_with_its_day_and_how_it_was_read() -> None:
    early = tire("steer left", 90, pressure="99 psi")
    late = tire("steer left", 100, pressure="104 psi", state="cold", by="gauge")
    figure = by_key(early, late).figure(f"{STEER}.last_pressure")

    assert figure.quantity is not None
    assert figure.quantity.m_as("psi") == 104
    assert figure.rule == "The newest of the log, cold."
    assert figure.inputs[0].origin == "log, gauge by Ann"


def test_air_added_is_a_reading_too() -> None:
    air = entry("air", 101, {"position": "steer left", "before": "99 psi", "after": "106 psi"})
    figure = by_key(tire("steer left", 100, pressure="99 psi"), air).figure(f"{STEER}.last_pressure")

    assert figure.quantity is not None
    assert figure.quantity.m_as("psi") == 106


def test_a_worn_tread_of_the_log_forbids_to_drive_though_the_profile_has_more() -> None:
    found = by_key(read(3))
    (worn,) = register(found)

    assert worn.grade == "do not drive"
    assert worn.text == ("Coach, steer left: tread 3/32 in, read on 2026-04-15 by Ann, is under 4/32 in.")
    assert [one.origin for one in found.figure(f"{STEER}.tread").inputs][-1] == "log by Ann"


def test_a_better_tread_makes_no_tire_better() -> None:
    assert tread(by_key(read(15))) == 13


def test_of_two_readings_the_newer_counts_though_it_is_better() -> None:
    assert tread(by_key(read(6, 90), read(10, 100))) == 10


def test_a_reading_by_a_clock_that_is_off_counts_only_where_it_is_worse() -> None:
    assert tread(by_key(read(10), off(read(11, 101)))) == 10
    assert tread(by_key(read(10), off(read(8, 101)))) == 8


def test_a_worn_tread_by_a_clock_that_is_off_clears_nothing_and_forbids_nothing() -> None:
    (found,) = register(by_key(off(read(3))))

    assert found.grade == "not cleared"
    assert "by a clock that can hardly be right" in found.text


def test_what_was_read_before_the_tire_was_mounted_is_of_another() -> None:
    before = read(3)._replace(at=START - timedelta(days=1000), taken=START - timedelta(days=1000))

    assert register(by_key(before)) == []


@pytest.mark.parametrize(("thirty_seconds", "told"), [(9, 0), (7, 1)])
def test_a_pair_is_told_to_differ_at_once(thirty_seconds: int, told: int) -> None:
    """Outer and inner have 12/32 and 13/32 in by the profile; over 4/32 in apart they are no pair (S45)."""
    found = register(by_key(read(thirty_seconds, position="drive left outer")))

    assert [one.text for one in found] == ["Coach, drive: the left pair does not match: tread."] * told


def test_a_spare_is_read_too() -> None:
    read = entry("tire", 100, {"position": "spare", "tread": "2/32 in", "pressure": "60 psi"})
    found = by_key(read, profile=load_profile(PROFILES / "kestrel"))
    keys = [one for one in found.keys if one.endswith(".last_tread")]

    assert len(keys) == 1
    assert tread(found, keys[0].replace("last_tread", "tread")) == 2


def test_entries_of_positions_this_rig_lacks_say_nothing() -> None:
    found = by_key(tire("tag left", 100, tread="1/32 in", pressure="20 psi"))

    assert register(found) == []
    assert [one for one in found.keys if "last_" in one] == []
