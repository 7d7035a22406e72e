"""What the log's meters and services change: a service is never less due by what cannot be sure."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.cards.pages.service_due import service_due
from binder.models.load import Profile
from binder.models.log_entries import Entry
from binder.quantities import number_in
from tests.assessment.logged import by_key, larkspur, logged
from tests.by_key import ByKey

ODOMETER, GREASED = "service.meters.coach.odometer", "service.chassis_greased"
NOTED = 34_150.0
"""Miles on the odometer of the demo on 2026-05-20; the first of April is day 0."""


def read(miles: float, day: float = 52, *, clock_off: bool = False, **hours: str) -> Entry:
    said = {"vehicle": "coach", "odometer": f"{miles:g} mi", **hours}
    return logged("meter", day, clock_off=clock_off, **said)


def greased(day: float, *, clock_off: bool = False, **said: str) -> Entry:
    return logged("service", day, clock_off=clock_off, what="Chassis, greased", **said)


def miles(found: ByKey, key: str) -> float:
    value = found.quantity(key)
    assert value is not None
    return number_in(value, "mile")


def found(*entries: Entry) -> ByKey:
    return by_key(larkspur(entries))


def read_on(one: ByKey) -> tuple[str, str]:
    given = one.figure(ODOMETER).inputs[0]
    return given.text, given.origin


def test_the_highest_reading_of_the_log_counts_if_it_is_higher_than_the_profile_s() -> None:
    assert (miles(found(read(34_162)), ODOMETER), read_on(found(read(34_162)))) == (
        34_162,
        ("2026-05-23", "log"),
    )
    lower = found(read(33_900, 10))
    assert (miles(lower, ODOMETER), read_on(lower)) == (NOTED, ("2026-05-20", "rig.yaml readings"))


def test_fills_and_services_are_readings_too() -> None:
    fill = logged("fill", 52, tank="diesel", vehicle="coach", amount="5 gal", odometer="34170 mi")
    done = logged("service", 53, what="generator oil and filter", hours="441 h")

    assert miles(found(fill), ODOMETER) == 34_170
    hours = found(done).quantity("service.meters.coach.generator")
    assert hours is not None
    assert number_in(hours, "hour") == 441


@pytest.mark.parametrize("later", [read(33_000, 53), read(34_155, 53)])
def test_a_reading_that_falls_makes_nothing_less_due_and_is_told(later: Entry) -> None:
    told = found(read(34_162), later)

    assert miles(told, ODOMETER) == 34_162
    (finding,) = [one for one in told.findings if "less in the log" in one.text]
    assert "The highest, 34,162 mi, counts." in finding.text
    assert "2026-05-24" in finding.text


def test_a_reading_by_a_clock_years_off_counts_and_takes_no_day_of_the_trip_off() -> None:
    told = found(read(34_200, clock_off=True))

    assert (miles(told, ODOMETER), read_on(told)[0]) == (34_200, "2026-05-20")


def test_on_the_way_only_the_days_to_come_are_added() -> None:
    on_the_way = found(read(34_500, 64)._replace(taken=None))  # The fourth of June.

    assert miles(on_the_way, f"{ODOMETER}_added") < miles(found(), f"{ODOMETER}_added")


def test_a_service_done_by_the_log_begins_the_interval_anew() -> None:
    told = found(greased(38, odometer="34085 mi"))

    assert told.figure(f"{GREASED}.due_on").value == date(2026, 11, 9)
    assert miles(told, f"{GREASED}.due_at") == 40_085
    assert told.figure(f"{GREASED}.due_on").inputs[0].origin == "log"
    assert "greased" in str([one.text for one in found().findings])
    assert "greased" not in str([one.text for one in told.findings])
    assert "'2026-05-09', '34,085 mi'" in str(service_due(told.assessment))


def test_without_an_odometer_it_was_done_at_the_last_reading_before_it() -> None:
    told = found(read(34_010, 30), read(34_120, 45), greased(38))

    assert miles(told, f"{GREASED}.due_at") == 40_010


@pytest.mark.parametrize(
    "entry",
    [
        greased(-200, odometer="32000 mi"),  # Before what the profile says.
        greased(38, clock_off=True, odometer="34085 mi"),
        greased(38, vehicle="car"),
        logged("service", 38, what="chassis greased, front"),
    ],
    ids=["older", "clock", "other vehicle", "other words"],
)
def test_what_is_older_unsure_or_of_something_else_begins_nothing_anew(entry: Entry) -> None:
    assert miles(found(entry), f"{GREASED}.due_at") == 38_900
    assert found(entry).figure(f"{GREASED}.due_on").inputs[0].origin == "rig.yaml service"


def test_a_service_of_no_item_is_told() -> None:
    told = found(logged("service", 38, what="greased the chassis, front half"))

    assert "greased the chassis, front half" in str([one.text for one in told.findings])
    assert not [one for one in found(greased(38)).findings if "no such name" in one.text]


def test_of_two_items_of_one_name_none_begins_anew() -> None:
    profile = larkspur([greased(38)])
    item = next(one for one in profile.rig.service if one.what == "chassis greased")
    twice = replace(profile, rig=profile.rig.model_copy(update={"service": [*profile.rig.service, item]}))

    assert by_key(twice).figure(f"{GREASED}.due_on").inputs[0].origin == "rig.yaml service"
    assert [one for one in by_key(twice).findings if "under several" in one.text]


def drawn(entry: tuple[str, int, int, bool]) -> Entry:
    kind, at, day, clock_off = entry
    if kind == "meter":
        return read(at, day, clock_off=clock_off)
    return greased(day, clock_off=clock_off, odometer=f"{at} mi")


def left(profile: Profile) -> float:
    return miles(by_key(profile), f"{GREASED}.distance_left")


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["meter", "service"]),
            st.integers(0, 60_000),
            st.integers(-300, 54),
            st.booleans(),
        ),
        max_size=8,
    )
)
def test_no_log_leaves_more_miles_than_an_interval_less_the_trip(
    made: list[tuple[str, int, int, bool]],
) -> None:
    profile = larkspur(map(drawn, made))
    without = replace(profile, log=tuple(one for one in profile.log if one.kind != "service"))

    # Without a service nothing is less due than by the profile; with one it has no more than its interval.
    assert left(without) <= left(replace(profile, log=()))
    assert left(profile) <= 6_000
    assert miles(by_key(profile), ODOMETER) >= NOTED
