"""The back of a day sheet: stops, clearances, grades and tunnels in the order they are met."""

from collections.abc import Iterator
from dataclasses import dataclass

from binder.assessment.assessment import Assessment
from binder.cards.blocks import Block, Heading, Line
from binder.cards.display import BLANK, Display, clock
from binder.cards.figure_values import moment_of, quantity_of
from binder.models.base import LevelValue
from binder.models.trip import Clearance, Grade, Leg, Stop, TravelDay, Tunnel
from binder.quantities import registry

_ROOM = 300
"""Points a back has for the road beside title, odometer and foot; longer roads fold their clearances."""


@dataclass(frozen=True)
class Road:
    """Blocks of a day's road, and the keys of the figures in them."""

    blocks: tuple[Block, ...]
    figures: tuple[str, ...]


def road_blocks(assessment: Assessment, number: int, plan: TravelDay) -> Road:
    """Set one group for each leg: what is met on it, then the stop at its end.

    Args:
        assessment: this rig on this trip.
        number: of the travel day [count].
        plan: of that day.

    Returns:
        The blocks and the figures they use.

    Sources:
        trip plan; the figures' own.

    Example:
        >>> from datetime import date
        >>> from pathlib import Path
        >>> from binder.assessment.assess import assess
        >>> from binder.models.load import load_profile
        >>> assessment = assess(load_profile(Path("profiles/larkspur")), date(2026, 6, 1))
        >>> road_blocks(assessment, 1, assessment.trip.days[0]).blocks[0].text
        '96 mi, 2 h'
    """
    whole = _road(assessment, number, plan, folded=False)
    return whole if _points(whole.blocks) <= _ROOM else _road(assessment, number, plan, folded=True)


def _points(blocks: tuple[Block, ...]) -> int:
    """Estimate the height of lines: 20 pt a row of 13 pt, 12 pt a row of 9 pt, 28 pt a heading."""
    lines = [block for block in blocks if isinstance(block, Line)]
    details = sum(12 * -(-len(line.detail) // 60) for line in lines)
    return 28 * (len(blocks) - len(lines)) + 20 * len(lines) + details


def _road(assessment: Assessment, number: int, plan: TravelDay, *, folded: bool) -> Road:
    display = Display(assessment.rig.units)
    blocks: list[Block] = []
    keys: list[str] = []
    for leg_number, leg in enumerate(plan.legs, start=1):
        start = f"route.day_{number}.leg_{leg_number}"
        used = [f"{start}.{key}" for key in ("distance", "driving_time", "arrival")]
        distance, driving, arrival = (assessment.known(key) for key in used)
        keys += [key for key in used if assessment.known(key)]
        miles = display.text(quantity_of(distance), "distance", "up")
        hours = display.duration(quantity_of(driving))
        blocks += [
            Heading(f"{miles}, {hours}"),
            *_on_the_way(leg, display, folded=folded),
            Line(leg.to.place, clock(moment_of(arrival)), _stop_detail(leg.to)),
            *_at_stop(leg.to),
        ]
    return Road(tuple(blocks), tuple(keys))


def _on_the_way(leg: Leg, display: Display, *, folded: bool) -> Iterator[Block]:
    yield from _folded(leg, display) if folded else (_clearance(item, display) for item in leg.clearances)
    if not leg.clearances:
        yield Line("Clearances", "NONE GIVEN", "watch every sign, ask the way")
    yield from (_grade(item, display) for item in leg.grades)
    yield from (_tunnel(item) for item in leg.tunnels)


def _folded(leg: Leg, display: Display) -> Iterator[Line]:
    """Keep the lowest clearance of a leg and those whose figure is not known, and count the others."""
    known = [item for item in leg.clearances if item.posted is not None]
    yield from (_clearance(item, display) for item in leg.clearances if item.posted is None)
    if known:
        lowest = _clearance(min(known, key=lambda item: item.posted or registry.Quantity(0, "inch")), display)
        more = f"the lowest of {len(known)} on this leg" if len(known) > 1 else ""
        yield Line(lowest.challenge, lowest.answer, more)


def _first_capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _clearance(item: Clearance, display: Display) -> Line:
    return Line(_first_capital(item.what), display.length(item.posted, "down"))


def _grade(item: Grade, display: Display) -> Line:
    slope = f"{float(item.slope.to('percent').magnitude):.0f} %" if item.slope is not None else f"{BLANK} %"
    speed = display.text(item.posted_truck_speed, "speed", "down")
    brakes = f"; test brakes: {item.test_brakes_at}" if item.test_brakes_at else ""
    length = display.text(item.length, "distance", "up")
    return Line(_first_capital(item.what), f"{slope}, {length}", f"posted for trucks: {speed}{brakes}")


def _tunnel(item: Tunnel) -> Line:
    if item.propane:
        return Line(_first_capital(item.what), "TUNNEL", f"propane: {item.propane}")
    return Line(_first_capital(item.what), "ASK", "propane: ask the operator before")


def _stop_detail(stop: Stop) -> str:
    stay = Display.duration(stop.stay) if stop.stay is not None else ""
    kind = {"fuel": "fuel", "rest": "rest", "site": "site for the night", "start": ""}.get(
        stop.kind or "", ""
    )
    return ", ".join(part for part in (kind, f"stay {stay}" if stay else "") if part)


def _at_stop(stop: Stop) -> Iterator[Block]:
    # The first level in the plan is the one that is acted on: the others stand small below it.
    first, *others = [*_levels(stop.arriving), ""]
    if first:
        yield Line("Expected", first, ", ".join(others[:-1]))
    if stop.fill:
        yield Line("Fill", ", ".join(stop.fill).upper())
    if stop.dump:
        yield Line("Dump", "BLACK, THEN GRAY")


def _levels(levels: dict[str, dict[str, LevelValue]]) -> Iterator[str]:
    for vehicle, tanks in levels.items():
        owner = f"{vehicle} " if len(levels) > 1 else ""
        for tank, level in tanks.items():
            yield f"{owner}{tank} {level.written}"
