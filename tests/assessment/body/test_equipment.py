from datetime import date
from typing import Any

from binder.assessment.body.equipment import assess_equipment
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from tests.by_key import entered_by

ABOARD: dict[str, Any] = {
    "extinguishers": ["entry door"],
    "exits": ["entry door", "bedroom window"],
    "smoke alarm": ["bedroom"],
    "carbon monoxide alarm": ["bedroom"],
    "chocks": "4",
    "warning devices": ["tool bay, 3"],
}


def assessed(equipment: dict[str, Any], **more: Any) -> list[tuple[str, str]]:
    coach = {"kind": "motorhome", "axles": {}, "equipment": equipment} | more.pop("coach", {})
    rig = {
        "name": "x",
        "units": "us",
        "paper": "letter",
        "log": "https://log.example.org",
        "vehicles": {"coach": coach},
    } | more
    if rig["log"] is None:
        del rig["log"]
    profile = Profile("x", Rig.model_validate(rig), Located("rig.yaml", ""))
    found = entered_by(profile, date(2026, 6, 1), assess_equipment)
    return [(item.grade, item.text) for item in found.findings]


def test_a_coach_with_everything_has_no_findings() -> None:
    assert assessed(ABOARD) == []


def test_each_thing_that_is_not_noted_is_missing() -> None:
    for name in ABOARD:
        rest = {key: value for key, value in ABOARD.items() if key != name}

        assert [grade for grade, _ in assessed(rest)] == ["missing"], name


def test_a_propane_alarm_is_asked_for_where_there_is_propane() -> None:
    propane = {"tanks": {"gas": {"holds": "propane"}}}

    assert assessed(ABOARD, coach=propane) == [("missing", "The coach: propane alarm ______ fitted?")]


def test_one_way_out_is_not_enough() -> None:
    assert assessed(ABOARD | {"exits": ["entry door"]}) == [
        ("missing", "The coach: only one way out is noted.")
    ]


def test_a_spare_that_expires_by_the_last_day_is_told() -> None:
    spares = [
        {"what": "foam", "expires": "2026-05-31"},
        {"what": "cells", "expires": "2026-06-01"},
    ]

    assert assessed(ABOARD, spares=spares) == [
        ("attention", "Foam has expired on 2026-05-31, before the effective date.")
    ]


def test_a_tool_that_expires_is_told_as_a_spare_is() -> None:
    tools = [{"what": "first-aid kit", "expires": "2026-05-31"}]

    assert assessed(ABOARD, tools=tools) == [
        ("attention", "First-aid kit has expired on 2026-05-31, before the effective date.")
    ]


def test_no_log_no_codes() -> None:
    assert assessed(ABOARD, log=None) == [
        ("missing", "No address of the log is given: the cards carry no codes.")
    ]


def test_a_pickup_needs_no_smoke_alarm_for_its_doors_or_its_stove() -> None:
    pickup = {"kind": "pickup", "equipment": {"exits": ["doors"], "burners": ["bed"], "chocks": "4"}}

    found = assessed({}, coach=pickup | {"tanks": {"gas": {"holds": "propane"}}})

    assert [text for _, text in found] == ["No warning devices are noted; three are set out at a breakdown."]


def test_a_trailer_with_water_is_slept_in_and_one_without_anything_is_not() -> None:
    lived, empty = (
        assessed({}, coach={"kind": "trailer", "tanks": tanks})
        for tanks in ({"fresh": {"holds": "fresh water"}}, {})
    )

    assert ("missing", "The coach: smoke alarm ______ fitted?") in lived
    assert not [text for _, text in empty if "alarm" in text]


def test_a_stated_none_is_no_place_that_was_not_noted() -> None:
    for name, thing in (("smoke alarm", "smoke alarm"), ("extinguishers", "fire extinguisher")):
        assert assessed(ABOARD | {name: "none"}) == [("attention", f"The coach has no {thing}.")]
