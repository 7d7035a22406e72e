"""Cards 5.1, 5.2 ...: one day sheet for each travel day."""

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.cards.blocks import Big, Blank, Block, Card, End, Heading, Line, Side
from binder.cards.both_systems import length_beside
from binder.cards.day_sheet_road import road_blocks
from binder.cards.display import BLANK, Display, clock, day
from binder.cards.figure_reasons import reason_of
from binder.cards.figure_values import moment_of, quantity_of, words_of
from binder.models.trip import TravelDay

HEIGHT = "rig.overall_height"
_NAMES = {
    "lowest_clearance": "Lowest clearance",
    "lowest_clearance_margin": "Room under it",
    "distance": "Distance",
    "driving_time": "Driving",
    "departure": "Leave",
    "leave_by": "Leave by",
    "arrival": "Arrive",
    "sunset": "Sunset",
    "daylight_left": "Daylight left",
    "last_fuel": "Last fuel",
    "last_fuel_distance": "Miles after the last fuel",
    "night_low": "Low",
    "freezes": "What freezes",
}


def day_sheets(assessment: Assessment) -> tuple[Card, ...]:
    """Make a day sheet for each travel day of the trip.

    Args:
        assessment: this rig on this trip.

    Returns:
        The cards 5.1, 5.2 ...; none without a trip. What is not known is a blank.

    Sources:
        The figures' own; trip plan.

    Example:
        >>> from datetime import date
        >>> from pathlib import Path
        >>> from binder.assessment.assess import assess
        >>> from binder.models.load import load_profile
        >>> assessment = assess(load_profile(Path("profiles/larkspur")), date(2026, 6, 1))
        >>> [card.title for card in day_sheets(assessment)][:1]
        ['Day 1, Mon 2026-06-01']
    """
    if assessment.trip is None:
        return ()
    return tuple(
        _day_sheet(assessment, number, plan) for number, plan in enumerate(assessment.trip.days, start=1)
    )


def _day_sheet(assessment: Assessment, number: int, plan: TravelDay) -> Card:
    display = Display(assessment.rig.units)
    own = _own_figures(assessment, number)
    height = assessment.known(HEIGHT)
    used = ([height] if height else []) + list(own.values())
    names = {f"route.day_{number}.{key}": name for key, name in _NAMES.items()} | {HEIGHT: "Overall height"}
    road = road_blocks(assessment, number, plan)
    return Card(
        id=f"5.{number}",
        name="day_sheet",
        title=f"Day {number}, {day(plan.leave.date())}",
        sides=(
            Side(f"To {plan.legs[-1].to.place}. Read before leaving.", _front(height, own, plan, display)),
            Side("In the order it is met.", (*road.blocks, *_odometer(plan), End("Day sheet: complete"))),
        ),
        wrong_as_soon_as=_wrong(height, own, display),
        reasons=tuple(reason_of(names[figure.key], figure) for figure in used),
        family="drive",
        rig=assessment.rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(dict.fromkeys([*(figure.key for figure in used), *road.figures])),
    )


def _own_figures(assessment: Assessment, number: int) -> dict[str, Figure]:
    found = {key: assessment.known(f"route.day_{number}.{key}") for key in _NAMES}
    return {key: figure for key, figure in found.items() if figure}


def _front(
    height: Figure | None, own: dict[str, Figure], plan: TravelDay, display: Display
) -> tuple[Block, ...]:
    distance = display.text(quantity_of(own.get("distance")), "distance", "up")
    driving = display.duration(quantity_of(own.get("driving_time")))
    return (
        Big("Overall height", display.length(quantity_of(height)), _measured(height, display), 32),
        _lowest(own, display),
        Line("Distance, driving", f"{distance}, {driving}", _slack(own, "driving_time")),
        Line("Leave", clock(moment_of(own.get("departure"))), _leave_by(own)),
        Line("Arrive", clock(moment_of(own.get("arrival")))),
        *_light(own),
        *_fuel(own, display),
        *_tonight(own, plan, display),
    )


def _measured(height: Figure | None, display: Display) -> str:
    told = {item.name: item.text for item in reversed(height.inputs)} if height else {}
    other = length_beside(quantity_of(height), "up", display.system)
    parts = (other, told.get("measured on"), told.get("state"), told.get("highest thing"))
    return ", ".join(part for part in parts if part)


def _lowest(own: dict[str, Figure], display: Display) -> Line:
    lowest = quantity_of(own.get("lowest_clearance"))
    if lowest is None:
        return Line("Lowest clearance", BLANK, "none is posted in the plan: watch every sign")
    return Line("Lowest clearance", display.length(lowest, "down"), _slack(own, "lowest_clearance_margin"))


def _slack(own: dict[str, Figure], key: str) -> str:
    return own[key].slack if key in own else ""


def _leave_by(own: dict[str, Figure]) -> str:
    latest = moment_of(own.get("leave_by"))
    return f"by {clock(latest)} to arrive with light" if latest else ""


def _light(own: dict[str, Figure]) -> tuple[Block, ...]:
    words = words_of(own.get("sunset"))
    if words:
        return (Line("Sun", words.removeprefix("the sun ").upper()),)
    left = quantity_of(own.get("daylight_left"))
    sunset = Line("Sunset", clock(moment_of(own.get("sunset"))))
    if left is None:
        return (sunset, Line("Daylight left", f"{BLANK} h"))
    dark = left.magnitude < 0
    return (sunset, Line("Daylight left", "NONE" if dark else _slack(own, "daylight_left"), "", "", dark))


def _fuel(own: dict[str, Figure], display: Display) -> tuple[Block, ...]:
    place, left = words_of(own.get("last_fuel")), quantity_of(own.get("last_fuel_distance"))
    if place is None:
        return (Line("Last fuel", BLANK, "no fuel stop in the plan so far"),)
    is_there = left is not None and left.magnitude == 0
    then = (
        "at the end of the day"
        if is_there
        else f"then {display.text(left, 'distance', 'up')} to the day's end"
    )
    return (Line("Last fuel", place, then),)


def _tonight(own: dict[str, Figure], plan: TravelDay, display: Display) -> tuple[Block, ...]:
    night = plan.night
    if night is None:
        return ()
    low = quantity_of(own.get("night_low"))
    freezes = words_of(own.get("freezes"))
    told = "" if freezes is None else "freezes nothing aboard" if freezes == "nothing" else freezes
    high = f" to {display.text(night.high, 'temperature', 'up')}" if night.high is not None else ""
    return (
        Heading("Tonight"),
        Line("Low to high", f"{display.text(low, 'temperature', 'down')}{high}", told),
        *((Line("Hookups", night.hookups.upper()),) if night.hookups else (Blank("Hookups"),)),
        *((Line("Gate", night.gate),) if night.gate else (Blank("Gate"),)),
        *((Line("Phone", night.phone),) if night.phone else (Blank("Phone"),)),
    )


def _odometer(plan: TravelDay) -> tuple[Block, ...]:
    return (
        Heading("Odometer"),
        Blank("Leaving"),
        *(Blank(f"Fuel, {leg.to.place}") for leg in plan.legs if leg.to.kind == "fuel"),
        Blank("Arrived"),
    )


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
