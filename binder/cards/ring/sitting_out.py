"""Card 11, Sitting it out: read, then done, where the road is shut or the rig cannot go on.

It holds for the arrival or departure of the plan where supplies end soonest, and says which that is; other
levels stand beside it. What kills in a parked rig stands first.
"""

from collections.abc import Iterator
from dataclasses import replace

from binder.assessment.assess import Assessment
from binder.assessment.body.equipment import is_lived_in
from binder.assessment.conditions import holds
from binder.assessment.ledger import Figure, Phrase
from binder.assessment.supplies import sitting_out_kinds as kinds
from binder.assessment.supplies.sitting_out import SHARES
from binder.assessment.supplies.sitting_out_kinds import Stay
from binder.cards.blocks import Big, Blank, Block, Card, Heading, Line, Note, Ranking, Reason, Step
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.cards.resources_left import NAMES, joined, resources, stay_of
from binder.cards.rig_words import reason_of, words_of
from binder.models.vehicles import Contents
from binder.quantities import Quantity, number_in
from binder.wording.measures import LASTING, RUNNING
from binder.wording.numbers import BLANK
from binder.wording.words import Words, begun, in_days

_RESOURCES = (
    "fresh water",
    "gray water",
    "black water",
    "propane",
    "house battery",
    kinds.GENERATOR_FUEL,
    "food",
    "medicine",
)
_NAMES = {"gray water": "gray tank, room", "black water": "black tank, room"}
_LEVELS = ("fresh water", "gray water", "black water", "propane", "house battery")
_MOST_STEPS = 3  # Of stretching, so that the back has room for the levels.
_SHARES = tuple(name for name, _ in SHARES)
_PART_FULL = kinds.PART_FULL_DAYS_OF.of("fresh water")
_FROM_HOME = kinds.AT_START.ends
_AT_END = {
    "arriving": "reaching {place:town}, day {day}",
    "leaving": "leaving {place:town}, the stop of day {day}",
}


def sitting_out(assessment: Assessment) -> Card | None:
    """Make the card for sitting it out."""
    rig, words = assessment.rig, words_of(assessment)
    if not any(is_lived_in(vehicle) for vehicle in rig.vehicles.values()):
        return None
    stay = stay_of(assessment)
    from_home, part_full = _from_home(assessment), _part_full(assessment)
    computed = {
        "days left": _days_left(assessment, stay),
        "what to ration": tuple(_rationed(assessment, stay)),
        "half of its use": tuple(_half_of_its_use(assessment, stay)),
        "with the generator": tuple(_with_generator(assessment, stay)),
        "other levels": (*from_home, *part_full),
    }
    said = said_card(card_words("sitting_out"), assessment, computed)
    front, back = said.sides
    # The page of the water question holds the part fill too.
    shorter = tuple(_shorter(back.blocks, (*part_full, *from_home)))
    figures = (*_figures(assessment, stay), *assessment.ledger.of_kind(kinds.BY_LEVEL))
    return replace(
        said,
        sides=(front, replace(back, shorter=shorter)),
        reasons=(*said.reasons, *_told(assessment, stay)),
        figures=tuple(words.key(figure.key) for figure in figures),
    )


def _shorter(blocks: tuple[Block, ...], spared: tuple[Block, ...]) -> Iterator[tuple[Block, ...]]:
    """Leave out one more of what can be spared."""
    for least in spared:
        blocks = tuple(block for block in blocks if block is not least)
        yield blocks


def _figures(assessment: Assessment, stay: Stay) -> Iterator[Figure]:
    """The figures that the card prints, those that this rig has."""
    yield from _lasting(assessment, stay).values()
    ends = (
        stay.ends.days,
        stay.night_low,
        stay.with_generator.days,
        stay.generator_hours,
        stay.rationed.days,
    )
    for key in dict.fromkeys((*(kind.of() for kind in ends), _PART_FULL, _FROM_HOME.days.of())):
        figure = assessment.known(key)
        if figure is not None:
            yield figure


def _lasting(assessment: Assessment, stay: Stay) -> dict[str, Figure]:
    """How long each resource lasts, of those that this rig has."""
    found = {name: assessment.known(stay.days_of.of(name)) for name in _RESOURCES}
    return {name: figure for name, figure in found.items() if figure is not None}


def _days_left(assessment: Assessment, stay: Stay) -> tuple[Block, ...]:
    days, words = assessment.known(stay.ends.days.of()), words_of(assessment)
    if days is None:
        return (Heading("Days left"), *(Blank(name) for name in _of_rig(assessment)))
    first = resources(assessment.known(stay.ends.binding.of()))
    where = assessment.known(kinds.LEAST_PLACE.of())
    place = _place(words, where.value if where else None) or "levels at the start"
    state = f"{place}; night {words.text(assessment.quantity(stay.night_low.of()), stay.night_low.measure)}"
    lasting = _lasting(assessment, stay)
    named, detail = f"Ends first: {', '.join(first) or BLANK}", state
    if days.case == kinds.LACKING:
        named = f"Ends first of those known: {', '.join(first) or BLANK}"
        lacking = days.facts["lacking"]
        detail = f"{state}; not known: {', '.join(map(str, lacking if isinstance(lacking, tuple) else ()))}"
    soonest = next((one.quantity for name, one in lasting.items() if NAMES.get(name, name) in first), None)
    return (
        Big(named, words.text(soonest, LASTING), detail, 32),
        *_by_end(assessment, lasting, first),
    )


def _place(words: Words, value: object) -> str:
    """Name an arrival or departure of the plan; nothing where it is none."""
    if not isinstance(value, Phrase) or "end" not in value.facts:
        return ""
    return words.said(_AT_END[str(value.facts["end"])], value.facts)


def _of_rig(assessment: Assessment) -> Iterator[str]:
    rig = assessment.rig
    named: tuple[tuple[Contents, str], ...] = (
        ("fresh water", "Fresh water"),
        ("gray water", "Gray tank full"),
        ("black water", "Black tank full"),
        ("propane", "Propane"),
    )
    yield from (name for contents, name in named if holds(contents)(rig))
    yield from ("House battery", "Food", "Medicine")


def _by_end(assessment: Assessment, lasting: dict[str, Figure], first: tuple[str, ...]) -> Iterator[Block]:
    """What ends first, first: before it what is not known, since that may, and last what is not used."""

    def order(name: str) -> tuple[int, float]:
        figure = lasting[name]
        if figure.quantity is None:
            return (2 if figure.case == kinds.UNUSED else 0), 0.0
        return 1, number_in(figure.quantity, "day")

    ordered = sorted(lasting, key=order)
    rows = tuple(_row(assessment, name, lasting[name]) for name in ordered)
    marked = tuple(at for at, name in enumerate(ordered) if NAMES.get(name, name) in first)
    yield Ranking(("days left, gauge at", "today", *_SHARES), rows, first=marked)
    low = kinds.AT_START.night_low
    night = words_of(assessment).text(assessment.quantity(low.of()), low.measure)
    yield Note(f"{', '.join(_SHARES).capitalize()}: of what it holds, or of the room in it; night {night}.")


def _row(assessment: Assessment, resource: str, figure: Figure) -> tuple[str, ...]:
    """How long one resource lasts today and at other levels, in days where it does not say hours."""
    words = words_of(assessment)

    def days(time: Quantity | None) -> str:
        return in_days(words.text(time, LASTING))

    by_level = [days(assessment.quantity(kinds.BY_LEVEL.of(resource, share))) for share in _SHARES]
    return (
        _NAMES.get(resource, resource),
        "NOT USED" if figure.case == kinds.UNUSED else days(figure.quantity),
        *(by_level if resource in _LEVELS else [""] * len(_SHARES)),
    )


def _with_generator(assessment: Assessment, stay: Stay) -> Iterator[Line]:
    charged, words = assessment.known(stay.with_generator.days.of()), words_of(assessment)
    if charged is None:
        return
    first = ", ".join(resources(assessment.known(stay.with_generator.binding.of())))
    runs = words.text(assessment.quantity(stay.generator_hours.of()), RUNNING)
    least, case = assessment.known(kinds.LEAST_PLACE.of()), charged.given(kinds.CASE)
    where = _place(words, case.value if case else None)
    told = f"{where}; " if least and where != _place(words, least.value) else ""
    yield Line(
        "With the generator running",
        words.text(charged.quantity, LASTING),
        f"{told}then ends first: {first or BLANK}; the generator's fuel: {runs} at full load",
    )


def _rationed(assessment: Assessment, stay: Stay) -> Iterator[Step]:
    for number, step in enumerate(joined(assessment.known(stay.ration_first.of()), "steps")[:_MOST_STEPS], 1):
        yield Step(step, str(number))


def _half_of_its_use(assessment: Assessment, stay: Stay) -> Iterator[Line]:
    spared = assessment.known(stay.rationed.days.of())
    if spared is not None:
        after = ", ".join(resources(assessment.known(stay.rationed.binding.of())))
        lasts = words_of(assessment).text(spared.quantity, LASTING)
        yield Line("Use half as much of that", lasts, f"then ends first: {after}")


def _from_home(assessment: Assessment) -> tuple[Line, ...]:
    home = assessment.known(_FROM_HOME.days.of())
    if home is None:
        return ()
    first = ", ".join(resources(assessment.known(_FROM_HOME.binding.of())))
    lasts = words_of(assessment).text(home.quantity, LASTING)
    return (Line("As full as on leaving home", lasts, f"ends first: {first or BLANK}"),)


def _part_full(assessment: Assessment) -> tuple[Line, ...]:
    part, words = assessment.known(_PART_FULL), words_of(assessment)
    if part is None:
        return ()
    fill = words.value(assessment.known(kinds.PART_FULL_HELD.of()))
    return (Line(f"With {fill} fresh only", words.text(part.quantity, LASTING)),)


def _told(assessment: Assessment, stay: Stay) -> Iterator[Reason]:
    words = words_of(assessment)
    ends = {
        "First": stay.ends.days.of(),
        "With the generator": stay.with_generator.days.of(),
        "Part-full tank": _PART_FULL,
    }
    named = {begun(name): figure for name, figure in _lasting(assessment, stay).items()}
    for name, figure in {**named, **{name: assessment.known(key) for name, key in ends.items()}}.items():
        if figure is not None:
            yield reason_of(name, words.told(figure))
