"""Cards 5.1, 5.2 ...: one day sheet for each travel day."""

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.cards.blocks import Big, Block, Card, End, Line, Side
from binder.cards.display import BLANK, Display, clock, day
from binder.cards.elevation import elevation_picture, profile_reason
from binder.cards.figure_reasons import reason_of
from binder.cards.figure_text import value_text
from binder.cards.figure_values import moment_of, quantity_of, words_of
from binder.cards.ring.day_sheet_night import night_blocks, odometer_blocks
from binder.cards.ring.day_sheet_road import road_blocks
from binder.models.trip import TravelDay
from binder.wording.both_systems import beside
from binder.wording.meanings import SIZE
from binder.wording.procedure_numbers import procedure_number

HEIGHT = "rig.overall_height"
GAP = "rig.following_gap_from_40"
WIND, GUSTS = "route.wind_sustained", "route.wind_gusts"
_OF_RIG = {HEIGHT: "Overall height", GAP: "Gap ahead", WIND: "Wind", GUSTS: "Gusts"}
"""Figures that are the same on every day: the first sheet alone gives their reasons."""

_EXPLAINED = {
    "lowest_clearance_margin": "Lowest clearance",
    "arrival": "Arrive",
    "leave_by": "Leave by",
    "sunset": "Sunset, light left",
    "freezes": "What freezes",
}
"""Figures of a day with a rule of their own; the others are as planned, or a sum that is seen."""

_OF_DAY = (
    "lowest_clearance",
    "lowest_clearance_margin",
    "distance",
    "driving_time",
    "departure",
    "leave_by",
    "arrival",
    "sunset",
    "daylight_left",
    "last_fuel",
    "last_fuel_distance",
    "night_low",
    "freezes",
)


def day_sheets(assessment: Assessment) -> tuple[Card, ...]:
    """Make a day sheet for each travel day of the trip."""
    if assessment.trip is None:
        return ()
    return tuple(
        _day_sheet(assessment, number, plan) for number, plan in enumerate(assessment.trip.days, start=1)
    )


def _day_sheet(assessment: Assessment, number: int, plan: TravelDay) -> Card:
    display = Display(assessment.rig.units)
    own = _own_figures(assessment, number)
    of_rig = [figure for key in _OF_RIG if (figure := assessment.known(key))]
    used = [*of_rig, *own.values()]
    below = (*night_blocks(own, plan, display), *odometer_blocks(plan), End("Day sheet: complete"))
    road = road_blocks(assessment, number, plan, below)
    if road.is_too_long:  # The odometer's table is the only thing below that can be written elsewhere.
        below = tuple(block for block in below if block.kind != "table")
    return Card(
        id=f"5.{number}",
        name="day_sheet",
        title=f"Day {number}, {day(plan.leave.date())}",
        sides=(
            Side(f"To {plan.legs[-1].to.place}. Read before leaving.", _front(assessment, number, own)),
            Side("In the order it is met.", (*road.blocks, *below)),
        ),
        wrong_as_soon_as=_wrong(assessment.known(HEIGHT), own, display),
        reasons=(
            *(reason_of(_OF_RIG[figure.key], figure) for figure in of_rig if number == 1),
            *(reason_of(name, own[key]) for key, name in _EXPLAINED.items() if key in own),
            *road.reasons,
            *(profile_reason(assessment, number) if number == 1 else ()),
        ),
        family="drive",
        rig=assessment.rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(dict.fromkeys([*(figure.key for figure in used), *road.figures])),
    )


def _own_figures(assessment: Assessment, number: int) -> dict[str, Figure]:
    found = {key: assessment.known(f"route.day_{number}.{key}") for key in _OF_DAY}
    return {key: figure for key, figure in found.items() if figure}


def _front(assessment: Assessment, number: int, own: dict[str, Figure]) -> tuple[Block, ...]:
    display, height = Display(assessment.rig.units), assessment.known(HEIGHT)
    distance = display.text(quantity_of(own.get("distance")), "distance", "up")
    driving = display.duration(quantity_of(own.get("driving_time")))
    leave, arrive = (moment_of(own.get(key)) for key in ("departure", "arrival"))
    picture = elevation_picture(assessment, number)
    return (
        Big("Overall height", display.length(quantity_of(height)), _measured(height, display), 32),
        _lowest(own, display, is_too_low=_is_too_low(assessment, number)),
        Line("Distance, driving", f"{distance}, {driving}", _slack(own, "driving_time")),
        Line("Leave, arrive", f"{clock(leave)}, {clock(arrive)}", _leave_by(own)),
        _light(own),
        _fuel(own, display),
        *_gap(assessment),
        *_wind(assessment, display),
        *([picture] if picture else []),
    )


def _gap(assessment: Assessment) -> tuple[Block, ...]:
    fast = assessment.known(GAP)
    if fast is None:
        return ()
    if quantity_of(fast) is None:
        return (Line("Gap ahead", f"{BLANK} s"),)
    display = Display(assessment.rig.units)
    speed = procedure_number("gap speed", assessment.rig.units)
    return (Line(f"Gap ahead, {speed} and over", value_text(fast, display)),)


def _wind(assessment: Assessment, display: Display) -> tuple[Block, ...]:
    sustained, gusts = assessment.known(WIND), assessment.known(GUSTS)
    if sustained is None or gusts is None:
        return ()
    steady, gust = (display.text(quantity_of(figure), "speed", "down") for figure in (sustained, gusts))
    is_own = sustained.source == gusts.source == "trip plan"
    told = "your own limit" if is_own else "practice, no source: choose your own"
    return (Line("Wind: park over", f"{steady}, GUSTS {gust}", told),)


def _measured(height: Figure | None, display: Display) -> str:
    told = {item.name: item.text for item in reversed(height.inputs)} if height else {}
    other = beside(quantity_of(height), SIZE, display.system)
    parts = (other, told.get("measured on"), told.get("state"), told.get("highest thing"))
    return ", ".join(part for part in parts if part)


def _is_too_low(assessment: Assessment, number: int) -> bool:
    key = f"route.day_{number}.lowest_clearance_margin"
    return any(found.key == key and found.grade == "do not drive" for found in assessment.findings)


def _lowest(own: dict[str, Figure], display: Display, *, is_too_low: bool) -> Line:
    lowest = quantity_of(own.get("lowest_clearance"))
    if lowest is None:
        return Line("Lowest clearance", BLANK, "none is posted in the plan: watch every sign")
    height = display.length(lowest, "down")
    told = _slack(own, "lowest_clearance_margin")
    return Line(
        "Lowest clearance", f"{height}, TOO LOW" if is_too_low else height, told, "", killer=is_too_low
    )


def _slack(own: dict[str, Figure], key: str) -> str:
    return own[key].slack if key in own else ""


def _leave_by(own: dict[str, Figure]) -> str:
    latest = moment_of(own.get("leave_by"))
    return f"by {clock(latest)} to arrive with light" if latest else ""


def _light(own: dict[str, Figure]) -> Line:
    words = words_of(own.get("sunset"))
    if words:
        return Line("Sun", words.removeprefix("the sun ").upper())
    left, sunset = quantity_of(own.get("daylight_left")), clock(moment_of(own.get("sunset")))
    if left is None:
        return Line("Sunset, light left", f"{sunset}, {BLANK} h")
    is_dark = left.magnitude < 0
    told = "NONE" if is_dark else Display.duration(left, "down")
    # The line says how much; the detail only what it counts to, where that is not sunset, or how late.
    why = _slack(own, "daylight_left")
    detail = "" if not is_dark and why.endswith("before sunset") else why
    return Line("Sunset, light left", f"{sunset}, {told}", detail, "", is_dark)


def _fuel(own: dict[str, Figure], display: Display) -> Line:
    place, left = words_of(own.get("last_fuel")), quantity_of(own.get("last_fuel_distance"))
    if place is None:
        return Line("Last fuel", BLANK, "no fuel stop in the plan so far")
    is_there = left is not None and left.magnitude == 0
    then = (
        "at the end of the day"
        if is_there
        else f"then {display.text(left, 'distance', 'up')} to the day's end"
    )
    return Line("Last fuel", place, then)


def _wrong(height: Figure | None, own: dict[str, Figure], display: Display) -> str:
    parts = []
    tall, latest = quantity_of(height), moment_of(own.get("leave_by"))
    low = quantity_of(own.get("night_low"))
    if tall is not None:
        parts.append(f"the rig stands over {display.length(tall)}")
    if latest is not None:
        parts.append(f"you leave after {clock(latest)}")
    if low is not None:
        parts.append(f"the forecast is under {display.text(low, 'temperature', 'down')}")
    return ", ".join([*parts, "or the road, a stop or the date changes."])
