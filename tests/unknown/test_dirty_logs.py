"""Logs of any entries at all: nothing breaks, and nothing reaches farther or lasts longer than it may."""

from datetime import timedelta
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from binder.assessment.assess import Assessment, assess
from binder.assessment.supplies import kinds as supplies
from binder.assessment.supplies.rate_kinds import FULL_TO_FULL
from binder.assessment.supplies.sitting_out_kinds import AT_START, LEAST
from binder.cards.log.page import log
from binder.cards.pages.service_due import service_due
from binder.cards.pages.spares import spares_by_place
from binder.cards.ring.order import ring
from binder.log.in_force import in_force
from binder.models.log_entries import KINDS, Entry
from binder.quantities import number_in
from binder.wording.record import assessment_record
from tests.assessment.logged import FIRST, TAKEN, larkspur

_WITHOUT = assess(larkspur(()), TAKEN.date())
_NAMES = st.sampled_from(
    [
        "fuel filter",
        "fuses",
        "hose, clamp",
        "engine oil and filter",
        "generator oil",
        "alarms tested",
        "čaj 水 🚐",
        "a",
    ]
)
_VEHICLE = st.sampled_from([None, "coach", "car"])
_ODOMETER = st.none() | st.integers(0, 90_000).map("{} mi".format) | st.just("55,000 km")
_HOURS = st.none() | st.integers(0, 9_000).map("{} h".format)
_TANK = st.sampled_from(["diesel", "exhaust fluid", "fresh", "propane"])
_GALLONS = st.integers(0, 900).map("{} gal".format) | st.just("95 L")
_PRESSURE = st.integers(0, 300).map("{} psi".format)
_TIRE = st.sampled_from(["steer left", "steer right", "drive left inner", "drive right outer"])
_AMBIENT = st.none() | st.integers(-40, 120).map("{} degF".format)
_SAID: dict[str, st.SearchStrategy[dict[str, Any]]] = {
    "fill": st.fixed_dictionaries(
        {
            "tank": _TANK,
            "vehicle": st.just("coach"),
            "amount": _GALLONS,
            "full": st.sampled_from([None, "true", "true", "false"]),
            "odometer": _ODOMETER,
            "hours": _HOURS,
        }
    ),
    "meter": st.fixed_dictionaries(
        {"vehicle": st.just("coach"), "odometer": _ODOMETER, "engine": _HOURS, "generator": _HOURS}
    ),
    "service": st.fixed_dictionaries(
        {"what": _NAMES, "vehicle": _VEHICLE, "odometer": _ODOMETER, "hours": _HOURS}
    ),
    "spare": st.fixed_dictionaries(
        {
            "change": st.sampled_from(["used", "bought"]),
            "what": _NAMES,
            "quantity": st.sampled_from([None, "1", "2.5 gal", "3 sets", "0"]),
            "vehicle": _VEHICLE,
        }
    ),
    "tire": st.fixed_dictionaries(
        {
            "position": _TIRE,
            "vehicle": st.just("coach"),
            "pressure": _PRESSURE,
            "state": st.sampled_from([None, "cold", "hot"]),
            "by": st.sampled_from([None, "gauge", "sensor"]),
            "ambient": _AMBIENT,
        }
    ),
    "air": st.fixed_dictionaries(
        {"position": _TIRE, "vehicle": st.just("coach"), "before": _PRESSURE, "after": _PRESSURE}
    ),
    "fault": st.fixed_dictionaries({"what": _NAMES, "vehicle": _VEHICLE}),
    "repair": st.fixed_dictionaries({"what": _NAMES}),
    "note": st.fixed_dictionaries({"text": _NAMES}),
}


@st.composite
def entries(draw: st.DrawFn) -> Entry:
    """Any entry, of the season or of a clock that is years off."""
    kind = draw(st.sampled_from(sorted(_SAID)))
    written = {name: text for name, text in draw(_SAID[kind]).items() if text is not None}
    days = draw(st.integers(-300, 54) | st.sampled_from([-4000, 3000]))
    own_id = f"{draw(st.integers(0, 16**12 - 1)):012x}"
    KINDS[kind].model_validate(written)
    at = FIRST + timedelta(days=days, minutes=draw(st.integers(0, 1400)))
    return Entry(f"019d0000-0000-7000-8000-{own_id}", at, kind, written, taken=TAKEN)


def miles(assessment: Assessment) -> float:
    """How far the fuel reaches to the reserve."""
    reach = assessment.quantity(supplies.RANGE.of("coach", "diesel"))
    assert reach is not None
    return number_in(reach, "mile")


def days_left(assessment: Assessment) -> list[float]:
    """Days until the first supply ends, at the start and where it is shortest."""
    found = (assessment.quantity(one.ends.days.of()) for one in (AT_START, LEAST))
    return [number_in(days, "day") for days in found if days is not None]


@settings(max_examples=15, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(entries(), max_size=20))
def test_no_log_breaks_a_printing_or_is_more_hopeful_than_plan_and_evidence(made: list[Entry]) -> None:
    found = assess(larkspur(in_force({one.id: one for one in made}.values())), TAKEN.date())

    assert assessment_record(found)["figures"]
    assert ring(found)
    assert all(
        page is None or page.blocks for page in (service_due(found), spares_by_place(found), log(found))
    )
    sure = [one.quantity for one in found.ledger.of_kind(FULL_TO_FULL) if one.case == "" and one.quantity]
    # 75 gallons lie over the reserve.
    best = max((75 / number_in(use, "gallon / mile") for use in sure), default=0.0)
    assert miles(found) <= max(miles(_WITHOUT), best) * (1 + 1e-9)
    assert len(days_left(found)) == 2
    assert all(now <= before for now, before in zip(days_left(found), days_left(_WITHOUT), strict=True))
