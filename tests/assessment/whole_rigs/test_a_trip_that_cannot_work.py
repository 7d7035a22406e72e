"""A plan with one fault gives one finding more, with what to do, and the day's card says it too."""

from collections.abc import Iterator

import pytest

from binder.cards.blocks import Big, Line
from binder.cards.ring.day_sheet import day_sheets
from binder.printing.build import printable_cards
from binder.rendering.html import ring_html
from binder.rendering.pdf import render
from tests.assessment.conftest import Assessed
from tests.assessment.edited_demos import Change
from tests.by_key import ByKey, ReadFinding

_STANLEY = (
    "arriving: {coach: {diesel: 83 gal, exhaust fluid: 14.6 gal, fresh: 86 gal, gray: 4 gal, black: 2 gal}}"
)
_TWIN = (
    "arriving: {coach: {diesel: 59 gal, exhaust fluid: 14.1 gal, fresh: 56 gal, gray: 29 gal, black: 9 gal}}"
)
FUEL_NOT_STATED: tuple[Change, ...] = (
    ("fill: [diesel, exhaust fluid]", "fill: [exhaust fluid]"),
    ("levels: {coach: {diesel: full, exhaust fluid: full}}", "levels: {coach: {exhaust fluid: full}}"),
    ("          arriving: {coach: {diesel: 84 gal, exhaust fluid: 14.3 gal}}\n", ""),
    (_STANLEY, _STANLEY.replace("diesel: 83 gal, ", "")),
    ("levels: {coach: {diesel: 77 gal, fresh: 60 gal", "levels: {coach: {fresh: 60 gal"),
    (
        (
            "          arriving: {coach: {diesel: 69 gal, exhaust fluid: 14.4 gal}}\n"
            "          levels: {coach: {diesel: 69 gal}}\n"
        ),
        "",
    ),
    (_TWIN, _TWIN.replace("diesel: 59 gal, ", "")),
)
"""Nothing is filled at Boise, and the plan states no level that hides it."""

BRIDGE = "{what: bridge at the north end of Ketchum, posted: 14 ft 2 in, after: 60 mi}"


def more(found: ByKey, than: ByKey) -> list[ReadFinding]:
    return [one for one in found.findings if one not in than.findings]


def lines(found: ByKey, day: int) -> Iterator[Line]:
    card = day_sheets(found.assessment)[day - 1]
    return (block for side in card.sides for block in side.blocks if isinstance(block, Line))


@pytest.mark.parametrize(
    ("changes", "key", "text", "helps", "day", "killer"),
    [
        pytest.param(
            (*FUEL_NOT_STATED, ("diesel: 8.0 mpg", "diesel: 3.5 mpg")),
            "supplies.coach.diesel.day_3.stop_1.arriving",
            "Day 3, on the way to Twin Falls, Idaho: the diesel ends, 9 gal short.",
            "Fill at Boise, Idaho (day 2), the last place before it, or plan a stop in between.",
            3,
            ("NOT ENOUGH", "DIESEL"),
            id="fuel gap",
        ),
        pytest.param(
            (*FUEL_NOT_STATED, ("diesel: 8.0 mpg", "diesel: 3.5 mpg")),
            "supplies.coach.diesel.day_3.stop_1.arriving",
            "Day 3, on the way to Twin Falls, Idaho: the diesel ends, 9 gal short.",
            "Fill at Boise, Idaho (day 2), the last place before it, or plan a stop in between.",
            2,
            ("MUST FILL", "DIESEL"),
            id="fuel gap, where it can be filled",
        ),
        pytest.param(
            (("propane: 0.9 gal/day", "propane: {50 degF: 0.9 gal/day, 20 degF: 14 gal/day}"),),
            "supplies.coach.propane.day_2.stop_2.leaving",
            "Day 2, at Stanley, Idaho: the propane ends, 3 gal short: it lasts 91 % of the time.",
            "Plan a place to fill it before, stay shorter, or use less.",
            2,
            ("NOT ENOUGH", "PROPANE"),
            id="propane gap",
        ),
        pytest.param(
            (("water: 14 gal/day", "water: 41 gal/day"),),
            "supplies.coach.gray.day_2.stop_2.leaving",
            "Day 2, at Stanley, Idaho: the gray tank overflows by 5 gal.",
            "Dump at Ontario, Oregon (day 1), dump sooner after it, or use less water.",
            2,
            ("TOO FULL", "GRAY"),
            id="waste overflow",
        ),
        pytest.param(
            (("leave: 2026-06-02 09:00", "leave: 2026-06-02 18:30"),),
            "route.day_2.daylight_left",
            "Day 2: arrival at Stanley, Idaho is 2 h 28 min after sunset.",
            "Leave earlier, or stop short; arrive with light to see branches and cords.",
            2,
            ("Sunset, to spare", "9:17 pm MDT, NONE"),
            id="arrival after dark",
        ),
        pytest.param(
            ((BRIDGE, BRIDGE.replace("14 ft 2 in", "12 ft 6 in")),),
            "route.day_3.lowest_clearance_margin",
            "Day 3: bridge at the north end of Ketchum, posted 12 ft 6 in: this rig is 2 in too high for it; "
            "6 in under is wanted.",
            "Take another road, or measure the height again as it stands and correct the profile.",
            3,
            ("Bridge at the north end of Ketchum", "12 ft 6 in, TOO LOW"),
            id="low bridge",
        ),
        pytest.param(
            (("driving: 3.25 h", "driving: 4.5 h"),),
            "route.day_2.driving_time",
            "Day 2: driving is 30 min over your longest day.",
            "Split the day, or stop earlier.",
            2,
            None,
            id="hours over the limit",
        ),
    ],
)
def test_one_fault_is_one_finding_and_stands_on_its_card(  # noqa: PLR0913, PLR0917 - a row of a table.
    assessed: Assessed,
    larkspur: ByKey,
    changes: tuple[Change, ...],
    key: str,
    text: str,
    helps: str,
    day: int,
    killer: tuple[str, str] | None,
) -> None:
    found = assessed("larkspur", trip=changes)

    assert [(one.key, one.text, one.what_helps) for one in more(found, larkspur)] == [(key, text, helps)]
    said = {(line.challenge, line.answer) for line in lines(found, day) if line.killer}
    assert said >= ({killer} if killer else set())
    before = {(line.challenge, line.answer) for line in lines(larkspur, day) if line.killer}
    assert before == set()


def test_a_plan_with_every_fault_still_fits_its_cards(assessed: Assessed) -> None:
    """What cannot work is printed: no card of it is refused for being too long."""
    found = assessed(
        "larkspur",
        trip=(
            *FUEL_NOT_STATED,
            ("diesel: 8.0 mpg", "diesel: 3.5 mpg"),
            ("propane: 0.9 gal/day", "propane: 14 gal/day"),
            ("water: 14 gal/day", "water: 60 gal/day"),
            ("leave: 2026-06-02 09:00", "leave: 2026-06-02 18:30"),
            (BRIDGE, BRIDGE.replace("14 ft 2 in", "12 ft 6 in")),
            ("weight: 80000 lb", "weight: 20000 lb"),
        ),
    )
    cards = [card for card in printable_cards(found.assessment) if card.name == "day_sheet"]
    sides = sum(len(card.sides) for card in cards)

    assert len(cards) == 5
    assert render(ring_html(cards, "letter"), sides).page_count == sides


def test_the_day_of_too_many_hours_says_by_how_much(assessed: Assessed) -> None:
    long = assessed("larkspur", trip=(("driving: 3.25 h", "driving: 4.5 h"),))
    driving = next(line for line in lines(long, 2) if line.challenge == "Driving, breaks not counted")

    assert (driving.answer, driving.detail) == ("5 h 30 min", "185 mi; 30 min over your longest day")


def test_the_lowest_clearance_is_a_killer_line_when_it_is_too_low(assessed: Assessed) -> None:
    low = assessed("larkspur", trip=((BRIDGE, BRIDGE.replace("14 ft 2 in", "12 ft 6 in")),))
    blocks = day_sheets(low.assessment)[2].sides[0].blocks
    at, lowest = next(
        (at, block) for at, block in enumerate(blocks) if isinstance(block, Big) and "Lowest" in block.name
    )
    bar = blocks[at + 1]

    assert (lowest.name, lowest.value, lowest.detail) == ("Lowest clearance", "12 ft 6 in", "")
    assert isinstance(bar, Line)
    assert (bar.challenge, bar.answer, bar.detail, bar.killer) == (
        "Lowest clearance",
        "TOO LOW",
        "2 in too high for bridge at the north end of Ketchum; take another road",
        True,
    )


def test_a_clearance_whose_name_ends_that_of_a_lower_one_is_not_called_too_low(assessed: Assessed) -> None:
    """The name of the low one ends in the whole name of the one that is high enough."""
    both = (
        "{what: old road bridge, posted: 12 ft 6 in, after: 60 mi}\n"
        "          - {what: road bridge, posted: 15 ft 0 in, after: 60 mi}"
    )
    found = lines(assessed("larkspur", trip=((BRIDGE, both),)), 3)

    killers = [(line.challenge, line.answer) for line in found if line.killer]
    assert killers == [
        ("Lowest clearance", "TOO LOW"),
        ("Old road bridge", "12 ft 6 in, TOO LOW"),
    ]


def test_a_limit_that_is_exceeded_is_a_killer_line(assessed: Assessed) -> None:
    heavy = assessed("larkspur", trip=(("weight: 80000 lb", "weight: 20000 lb"),))
    killers = [(line.answer, line.detail) for line in lines(heavy, 3) if line.killer]

    assert killers == [("20,000 lb, TOO LITTLE", "13,112 lb too heavy")]
