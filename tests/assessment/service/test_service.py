"""What falls due before the trip ends: by date, by distance, by running hours, and what is not known."""

from datetime import date
from typing import Any

import pytest

from binder.assessment.assess import assess
from binder.assessment.service.meters import RigMeters
from binder.models.load import Profile, load_profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from binder.models.trip import Trip
from binder.quantities import registry
from tests.by_key import ByKey
from tests.demos import PROFILES

ON = date(2026, 5, 25)
DATED = [{"what": what, "on": "2030-01-01"} for what in ("license", "insurance", "registration")]
COACH: dict[str, Any] = {
    "kind": "motorhome",
    "axles": {"front": {"at": "0 in", "fitment": "single", "wheels": "wheels"}},
    "engine": {},
    "generator": {},
}


def leg(distance: str | None, driving: str | None = "2 h") -> dict[str, Any]:
    stated = {"distance": distance, "driving": driving}
    return {"to": {"place": "Camp"}} | {name: text for name, text in stated.items() if text}


def trip(*legs: dict[str, Any], **use: str) -> Trip:
    days = [
        {"leave": f"2026-06-{number:02d} 09:00", "legs": [one]} for number, one in enumerate(legs, start=1)
    ]
    return Trip.model_validate({"name": "Trip", "days": days, "use": use})


def judged(*service: dict[str, Any], plan: Trip | None = None, on: date = ON, **entries: Any) -> ByKey:
    written = {
        "name": "x",
        "units": "us",
        "paper": "letter",
        "vehicles": {"coach": COACH},
        "service": list(service),
        "readings": [{"on": "2026-05-20", "in": "coach", "odometer": "34150 mi", "engine": "1100 h"}],
        "expires": DATED,
    }
    rig = Rig.model_validate(written | entries)
    places = Located("rig.yaml", "")
    trip_places = Located("trip.yaml", "") if plan else None
    return ByKey(assess(Profile("x", rig, places, plan, trip_places), on))


def item(every: list[str], last: dict[str, Any], what: str = "oil", **more: str) -> dict[str, Any]:
    return {"what": what, "every": every, "last": last} | more


def told(assessment: ByKey, start: str = "service.") -> list[tuple[str, str]]:
    return [(one.grade, one.text) for one in assessment.findings if one.key.startswith(start)]


TWO_DAYS = trip(leg("100 mi"), leg("150 mi"))


@pytest.mark.parametrize(
    ("done", "state"),
    [
        ("2025-11-30", "overdue since 2026-05-30"),
        ("2025-12-01", "due on 2026-06-01, day 1"),
        ("2025-12-02", "due on 2026-06-02, day 2"),
        ("2025-12-03", "in time"),
    ],
)
def test_a_date_is_overdue_before_departure_and_due_up_to_the_last_day(done: str, state: str) -> None:
    found = judged(item(["6 months"], {"on": done}), plan=TWO_DAYS)

    assert found.figure("service.oil.state").value == state


@pytest.mark.parametrize(
    ("at", "state"),
    [
        ("28100 mi", "overdue by 50 mi at departure"),
        ("28150 mi", "overdue now"),
        ("28250 mi", "due on day 1, at 34,250 mi"),
        ("28251 mi", "due on day 2, at 34,251 mi"),
        ("28400 mi", "due on day 2, at 34,400 mi"),
        ("28401 mi", "in time"),
    ],
)
def test_a_distance_is_counted_on_by_the_legs_of_the_trip(at: str, state: str) -> None:
    found = judged(item(["6000 mi"], {"at": at}), plan=TWO_DAYS)

    assert found.figure("service.oil.state").value == state


def test_hours_of_the_engine_are_counted_on_by_driving_time() -> None:
    found = judged(item(["250 h"], {"at": "853 h"}), plan=TWO_DAYS)

    assert found.figure("service.oil.state").value == "due on day 2, at 1,103 h"
    assert found.figure("service.oil.due_at_hours").value == registry.Quantity(1103.0, "hour")


def test_hours_of_the_generator_are_counted_on_by_the_plan() -> None:
    read = [{"in": "coach", "generator": "438 h"}]
    plan = trip(leg("100 mi"), leg("150 mi"), generator="3 h/day")
    found = judged(item(["150 h"], {"at": "292 h"}, "generator oil"), plan=plan, readings=read)

    assert found.figure("service.meters.coach.generator_at_end").value == registry.Quantity(444.0, "hour")
    assert found.figure("service.generator_oil.state").value == "due on day 2, at 442 h"


def test_the_meter_may_be_named_where_the_item_is_not() -> None:
    read = [{"in": "coach", "generator": "438 h", "engine": "1100 h"}]
    found = judged(item(["150 h"], {"at": "200 h"}, "small engine", meter="generator"), readings=read)

    assert found.figure("service.small_engine.state").value == "overdue by 88 h at the effective date"


def test_whichever_interval_ends_first_decides() -> None:
    found = judged(item(["12 months", "6000 mi"], {"on": "2026-03-01", "at": "28300 mi"}), plan=TWO_DAYS)

    assert found.figure("service.oil.state").value == "due on day 2, at 34,300 mi"
    assert found.figure("service.oil.due_on").value == date(2027, 3, 1)
    assert found.figure("service.oil.distance_left").value == registry.Quantity(-100.0, "mile")


def test_of_two_intervals_of_one_kind_the_shorter_counts() -> None:
    found = judged(item(["1 year", "6 months"], {"on": "2025-12-02"}), plan=TWO_DAYS)

    assert found.figure("service.oil.due_on").value == date(2026, 6, 2)


def test_what_is_overdue_is_told_once_with_what_helps() -> None:
    assert told(judged(item(["6 months"], {"on": "2025-11-12"}), plan=TWO_DAYS)) == [
        ("attention", "Service overdue since 2026-05-12: oil.")
    ]


def test_many_are_told_together() -> None:
    items = [item(["6 months"], {"on": "2025-11-12"}, what) for what in ("oil", "belts", "hoses", "filters")]

    assert told(judged(*items, plan=TWO_DAYS)) == [
        (
            "attention",
            (
                "Service overdue by departure, 4 items: oil, since 2026-05-12; belts, since 2026-05-12; "
                "hoses, since 2026-05-12; filters, since 2026-05-12."
            ),
        )
    ]


def test_an_interval_a_last_time_and_a_reading_that_are_not_noted_are_missing() -> None:
    items = (
        item([], {"on": "2026-01-01"}, "belts"),
        item(["6 months"], {}, "hoses"),
        item(["150 h"], {"at": "300 h"}, "generator oil"),
    )

    assert told(judged(*items, plan=TWO_DAYS)) == [
        ("missing", "Service, how often is not noted: belts."),
        ("missing", "Service, when last done is not noted, by each of its intervals: hoses."),
        (
            "missing",
            "Service, the meter's reading, or what the trip adds to it, is not known: generator oil.",
        ),
    ]


def test_a_leg_without_a_distance_leaves_the_odometer_at_the_end_unknown() -> None:
    found = judged(item(["6000 mi"], {"at": "30000 mi"}), plan=trip(leg("100 mi"), leg(None)))

    assert found.figure("service.meters.coach.odometer_at_end").value is None
    assert found.figure("service.oil.distance_left").value is None
    assert found.figure("service.oil.state").value == "not known"


def test_what_is_overdue_now_is_told_though_the_trip_adds_an_unknown_distance() -> None:
    found = judged(item(["6000 mi"], {"at": "20000 mi"}), plan=trip(leg(None)))

    assert found.figure("service.oil.state").value == "overdue by 8,150 mi at departure"


def test_the_latest_reading_counts_and_the_days_before_it_are_on_it() -> None:
    read = [
        {"on": "2026-06-02", "in": "coach", "odometer": "34260 mi"},
        {"on": "2026-05-20", "in": "coach", "odometer": "34150 mi"},
    ]
    found = judged(item(["6000 mi"], {"at": "30000 mi"}), plan=TWO_DAYS, readings=read, on=date(2026, 6, 2))

    assert found.figure("service.meters.coach.odometer_at_end").value == registry.Quantity(34410.0, "mile")


def test_last_done_beyond_the_meter_or_in_days_to_come_is_doubted() -> None:
    items = (
        item(["6000 mi"], {"on": "2026-03-12", "at": "43400 mi"}),
        item(["12 months"], {"on": "2027-03-12"}, "belts"),
    )

    assert told(judged(*items)) == [
        ("attention", "Service last done on 2027-03-12, which is yet to come: belts."),
        ("attention", "Service last done at more than its meter reads: oil."),
    ]


def test_meters_read_in_days_to_come_are_doubted() -> None:
    read = [{"on": "2027-05-20", "in": "coach", "odometer": "34150 mi"}]

    assert told(judged(OIL, readings=read)) == [
        ("attention", "The meters of the coach were read on 2027-05-20, which is yet to come.")
    ]


def test_a_service_done_after_the_reading_is_not_doubted() -> None:
    assert told(judged(item(["6000 mi"], {"on": "2026-05-24", "at": "34600 mi"}))) == []


def test_a_trailer_counts_the_miles_of_the_vehicle_ahead() -> None:
    profile = load_profile(PROFILES / "tamarack")

    found = ByKey(assess(profile, ON)).figure("service.trailer_wheel_bearings.distance_left")

    assert found.quantity is not None
    assert round(found.quantity.to("kilometer").magnitude) == 117600 + 20000 - 118400 - 1400


def test_no_service_is_one_line_that_names_what_is_usual() -> None:
    ((grade, text),) = told(judged())

    assert grade == "missing"
    assert text.startswith(
        "No service is listed. Usual for this equipment (practice): engine oil and filter;"
    )
    assert "generator oil and filter" in text


TOWED: dict[str, Any] = {
    "vehicles": {
        "coach": COACH,
        "car": {"kind": "car", "axles": {"front": {"at": "0 in", "fitment": "single"}}},
    },
    "couplings": [{"ahead": "coach", "behind": "car", "how": "tow bar"}],
}


@pytest.mark.parametrize(
    ("what", "every", "expected"),
    [
        ("oil", "6 months", [("missing", "No service of the coupling is listed.")]),
        ("tow bar inspected", "6 months", []),
        (
            "tow bar inspected",
            "12 months",
            [("attention", "The coupling is serviced less often than every 6 months.")],
        ),
    ],
)
def test_the_coupling_is_serviced_twice_a_year(
    what: str, every: str, expected: list[tuple[str, str]]
) -> None:
    found = judged(item([every], {"on": "2026-05-01"}, what), **TOWED)

    assert told(found) == expected


def test_an_overdue_coupling_is_among_the_fourth_findings_and_no_reason_not_to_drive() -> None:
    found = judged(item(["6 months"], {"on": "2025-10-01"}, "tow bar inspected"), plan=TWO_DAYS, **TOWED)

    (finding,) = [one for one in found.findings if one.key.startswith("service.")]
    assert (finding.grade, finding.order) == ("attention", 4)


def wheels(**entries: Any) -> dict[str, Any]:
    return {"wheels": {"wheels": {"nut_torque": "140 ft*lb"} | entries}}


OIL = item(["12 months"], {"on": "2026-05-01"})


@pytest.mark.parametrize(
    ("fitted", "checked", "state"),
    [
        ("34140 mi", None, "due on day 1"),
        ("34050 mi", None, "overdue"),
        ("34140 mi", "34190 mi", "done"),
        ("34140 mi", "34150 mi", "due on day 1"),
        ("34360 mi", None, "not on this trip"),
    ],
)
def test_wheel_nuts_are_torqued_again_after_fitting(fitted: str, checked: str | None, state: str) -> None:
    entries = {"fitted": {"at": fitted}} | ({"nuts_checked": {"at": checked}} if checked else {})
    found = judged(OIL, plan=TWO_DAYS, **wheels(**entries))

    assert found.figure("service.wheel_nuts.wheels.state").value == state
    told_of = told(found, "service.wheel_nuts")
    assert [grade for grade, _ in told_of] == ([] if state in {"done", "not on this trip"} else ["attention"])


def test_wheels_fitted_on_a_day_without_a_reading_are_missing_until_their_nuts_are_checked() -> None:
    fitted = {"fitted": {"on": "2026-05-02"}}
    checked = fitted | {"nuts_checked": {"on": "2026-05-03"}}

    assert told(judged(OIL, **wheels(**fitted)), "service.wheel_nuts") == [
        ("missing", "The wheels: fitted on 2026-05-02; that their nuts were torqued again is not noted.")
    ]
    assert told(judged(OIL, **wheels(**checked)), "service.wheel_nuts") == []


def test_what_expires_before_the_last_day_is_told_and_on_its_last_day_it_is_good() -> None:
    papers = [
        {"what": "insurance", "on": "2026-05-31"},
        {"what": "license", "on": "2026-06-01"},
        {"what": "registration", "on": "2026-06-02"},
    ]

    assert told(judged(OIL, plan=TWO_DAYS, expires=papers), "expires.") == [
        ("attention", "Expired by departure: insurance, 2026-05-31."),
        ("attention", "Expires before the end of the trip: license, 2026-06-01."),
    ]


def test_what_should_carry_a_date_and_has_none_is_one_line() -> None:
    alarms = {"equipment": {"smoke alarm": ["bedroom"], "extinguishers": ["door"]}}
    coach = COACH | alarms | {"tanks": {"gas": {"holds": "propane"}}}
    papers = [{"what": "insurance card"}, {"what": "license", "on": "2030-01-01"}]

    found = told(judged(OIL, vehicles={"coach": coach}, expires=papers), "expires.")

    assert found == [
        (
            "missing",
            (
                "No date is noted for: insurance card, registration, extinguishers, smoke alarm, "
                "propane system or cylinders."
            ),
        )
    ]


def test_what_is_looked_at_in_service_needs_no_date() -> None:
    coach = COACH | {"equipment": {"extinguishers": ["door"]}, "tanks": {"gas": {"holds": "propane"}}}
    served = [
        item(["12 months"], {"on": "2026-05-01"}, what)
        for what in ("extinguishers inspected", "propane system leak tested")
    ]

    assert told(judged(*served, vehicles={"coach": coach}), "expires.") == []


@pytest.mark.parametrize("rig", ["larkspur", "kestrel", "tamarack", "sandpiper"])
def test_the_demos_lack_nothing_and_at_most_one_thing_falls_due(rig: str) -> None:
    found = ByKey(assess(load_profile(PROFILES / rig), ON))

    grades = [grade for grade, _ in [*told(found), *told(found, "expires.")]]
    assert grades in ([], ["attention"])


def test_a_towed_car_gains_no_hours_of_its_engine_and_all_miles() -> None:
    read = [{"in": "car", "odometer": "1000 mi", "engine": "50 h"}]
    rig = Rig.model_validate({"name": "x", "units": "us", "paper": "letter", "readings": read, **TOWED})
    profile = Profile("x", rig, Located("rig.yaml", ""), TWO_DAYS, Located("trip.yaml", ""))

    assert RigMeters(profile).run("car", "odometer").at_end == registry.Quantity(1250.0, "mile")
    assert RigMeters(profile).run("car", "engine").at_end == registry.Quantity(50.0, "hour")
