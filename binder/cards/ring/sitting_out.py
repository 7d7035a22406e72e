"""Card 11, Sitting it out: read, then done, where the road is shut or the rig cannot go on.

It holds for the night's place of the plan where supplies end soonest, and says which that is; another
level or place is looked up on the back. What kills in a parked rig stands first.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from binder.assessment.assessment import Assessment
from binder.assessment.body.equipment import is_lived_in
from binder.assessment.conditions import holds, tanks
from binder.assessment.figures import Figure
from binder.cards.blocks import (
    Big,
    Blank,
    Block,
    Card,
    Heading,
    Line,
    Picture,
    Reason,
    Step,
    Table,
)
from binder.cards.display import BLANK, Display
from binder.cards.drawings import DaysBar, DaysBars
from binder.cards.figure_reasons import reason_of
from binder.cards.figure_text import lasting_text
from binder.cards.figure_values import quantity_of, words_of
from binder.cards.procedures.facts import listed
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.cards.resources_left import NAMES, case_of, resources, worded
from binder.models.vehicles import Contents

LONGEST = 14.0
"""Days at the end of the bars: beyond two weeks it is no longer sat out."""

_KINDS = (
    "fresh water",
    "gray water",
    "black water",
    "propane",
    "house battery",
    "generator fuel",
    "food",
    "medicine",
)
_LEVELS = (
    ("fresh water", "fresh water"),
    ("gray water", "gray tank, room"),
    ("black water", "black tank, room"),
    ("propane", "propane"),
    ("house battery", "house battery"),
)
_MOST_STEPS = 3  # Of stretching, so that the back has room for the levels.
_SHARES = ("full", "half", "quarter")
_FROM_HOME = "Levels as left home"
_ROOM: Mapping[str, int] = {"letter": 438, "a4": 421}
"""Points for the blocks of the back, by the paper: an A5 side is lower than half a letter sheet."""


def sitting_out(assessment: Assessment) -> Card | None:
    """Make the card for sitting it out."""
    rig = assessment.rig
    if not any(is_lived_in(vehicle) for vehicle in rig.vehicles.values()):
        return None
    key = case_of(assessment)
    computed = {
        "days left": _days_left(assessment, key),
        "what to ration": tuple(_rationed(assessment, key)),
        "half of its use": tuple(_half_of_its_use(assessment, key)),
        "other levels": tuple(_looked_up(assessment)),
    }
    said = said_card(card_words("sitting_out"), assessment, computed)
    front, back = said.sides
    figures = [*_figures(assessment, key).values(), *assessment.ledger.starting_with("sitting_out.by_level.")]
    return Card(
        id="11",
        name="sitting_out",
        title=said.title,
        sides=(front, replace(back, blocks=_folded(back.blocks, _ROOM[rig.paper]))),
        wrong_as_soon_as=_wrong(assessment, key),
        reasons=(*said.reasons, *_told(assessment, key)),
        family="help",
        rig=rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(figure.key for figure in figures),
    )


def _folded(blocks: tuple[Block, ...], room: int) -> tuple[Block, ...]:
    """Leave out what the page of the water question holds too, where the side has no room for all."""
    if sum(map(_points, blocks)) > room:
        blocks = tuple(block for block in blocks if not _is_part_full(block))
    if sum(map(_points, blocks)) > room:
        blocks = tuple(block for block in blocks if getattr(block, "challenge", "") != _FROM_HOME)
    return blocks


def _is_part_full(block: Block) -> bool:
    return isinstance(block, Line) and block.challenge.startswith("Left with ")


def _points(block: Block) -> int:
    """Estimate the height a block takes."""
    if isinstance(block, Heading):
        return 28
    if isinstance(block, Table):
        return 17 * (1 + len(block.rows))
    return 18 + (12 if getattr(block, "detail", "") else 0) + (6 if isinstance(block, Blank) else 0)


def _figures(assessment: Assessment, key: str) -> dict[str, Figure]:
    """The figures of the case by what each is of, those that this rig has."""
    names = ("days", "night_low", "with_generator.days", "generator_fuel.hours", "rationed.days")
    wanted = {
        **{name: f"{key}.{name.replace(' ', '_')}.days" for name in _KINDS},
        **{name: f"{key}.{name}" for name in names},
        "part full": "sitting_out.part_full.fresh_water.days",
        "from home": "sitting_out.days",
    }
    found = {name: assessment.known(place) for name, place in wanted.items()}
    return {name: figure for name, figure in found.items() if figure is not None}


def _days_left(assessment: Assessment, key: str) -> tuple[Block, ...]:
    own = _figures(assessment, key)
    if "days" not in own:
        return (Heading("Days left"), *(Blank(name) for name in _of_rig(assessment)))
    first = worded(words_of(assessment.known(f"{key}.ends_first")))
    following = assessment.known(f"{key}.ends_next")
    after = worded(words_of(following))
    where = words_of(assessment.known("sitting_out.least.place")) if key != "sitting_out" else None
    place = f"reaching {_short(where)}" if where else "levels at the start"
    low = Display(assessment.rig.units).text(quantity_of(own.get("night_low")), "temperature", "down")
    state = f"{place}; night {low}"
    return (
        Big(f"First: {', '.join(first) or BLANK}", lasting_text(quantity_of(own["days"])), state, 32),
        Picture(_bars(own, first, state)),
        *((Line(f"Next: {', '.join(after)}", _next_days(own, after)),) if after else ()),
        *_with_generator(assessment, key, own),
    )


def _short(place: str) -> str:
    """Name a place without its state or province, which the reasons give."""
    parts = place.split(", ")
    return ", ".join([parts[0], parts[-1]])


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


def _next_days(own: dict[str, Figure], after: tuple[str, ...]) -> str:
    named = {NAMES.get(name, name): quantity_of(own[name]) for name in _KINDS if name in own}
    return lasting_text(named.get(after[0]))


def _bars(own: dict[str, Figure], first: tuple[str, ...], state: str) -> DaysBars:
    rows = []
    for resource in (name for name in _KINDS if name in own):
        value, name = quantity_of(own[resource]), NAMES.get(resource, resource)
        days = None if value is None else float(value.to("day").m)
        is_endless = value is None and own[resource].rule.endswith("nothing of it is used")
        text = "NOT USED" if is_endless else lasting_text(value)
        rows.append(DaysBar(name, days, text, name in first))
    told = "; ".join(f"{row.name} {row.text}" for row in rows)
    return DaysBars(tuple(rows), LONGEST, f"Bars of days left, {state}: {told}.")


def _with_generator(assessment: Assessment, key: str, own: dict[str, Figure]) -> tuple[Block, ...]:
    charged = own.get("with_generator.days")
    if charged is None:
        return ()
    first = resources(assessment, f"{key}.with_generator.ends_first")
    hours = quantity_of(own.get("generator_fuel.hours"))
    runs = BLANK if hours is None else f"{int(float(hours.to('hour').m) + 1e-9)}"
    return (
        Line(
            "With the generator",
            lasting_text(quantity_of(charged)),
            f"first: {first or BLANK}; its fuel over the cut-off: {runs} h at full load",
        ),
    )


def _rationed(assessment: Assessment, key: str) -> Iterator[Step]:
    words = words_of(assessment.known(f"{key}.ration_first"))
    steps = [f"{step.rstrip('.')}." for step in (words or "").split(". ") if step]
    yield from map(Step, steps[:_MOST_STEPS])


def _half_of_its_use(assessment: Assessment, key: str) -> Iterator[Line]:
    spared = assessment.known(f"{key}.rationed.days")
    if spared is not None:
        after = resources(assessment, f"{key}.rationed.ends_first")
        yield Line("Half of its use", lasting_text(quantity_of(spared)), f"then first: {after}")


def _looked_up(assessment: Assessment) -> Iterator[Block]:
    rows = []
    for resource, name in _LEVELS:
        keys = [f"sitting_out.by_level.{resource.replace(' ', '_')}.{share}" for share in _SHARES]
        found = [figure for key in keys if (figure := assessment.known(key)) is not None]
        if found and all(figure.quantity is not None for figure in found):
            rows.append((name, *(lasting_text(quantity_of(figure)) for figure in found)))
    if rows:
        low = Display(assessment.rig.units).text(
            assessment.quantity("sitting_out.night_low"), "temperature", "down"
        )
        yield Heading(f"Other levels, night {low}")
        yield Table(("left in it", *_SHARES), tuple(rows))
    home = assessment.known("sitting_out.days")
    part = assessment.known("sitting_out.part_full.fresh_water.days")
    if home is not None:
        first = resources(assessment, "sitting_out.ends_first")
        yield Line(_FROM_HOME, lasting_text(quantity_of(home)), f"first: {first or BLANK}")
    if part is not None:
        yield _part_full(assessment, part)


def _part_full(assessment: Assessment, part: Figure) -> Line:
    display = Display(assessment.rig.units)
    fill = display.text(assessment.quantity("sitting_out.part_full.held"), "volume", "down")
    return Line(f"Left with {fill} fresh", lasting_text(quantity_of(part)))


def _told(assessment: Assessment, key: str) -> Iterator[Reason]:
    names = {"days": "First", "with_generator.days": "With the generator", "part full": "Part-full tank"}
    for name, figure in _figures(assessment, key).items():
        if name in _KINDS or name in names:
            yield reason_of(names.get(name, name.capitalize()), figure)


def _wrong(assessment: Assessment, key: str) -> str:
    low = assessment.quantity(f"{key}.night_low")
    cold = Display(assessment.rig.units).text(low, "temperature", "down") if low is not None else ""
    has_tanks = any(True for _ in tanks(assessment.rig))
    parts = [
        *([f"colder than {cold}"] if cold else []),
        *(["a tank, a level"] if has_tanks else []),
        "a battery, the crew",
        "the plan",
    ]
    return f"{listed(parts)} changed."
