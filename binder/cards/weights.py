"""Page of weights: the heaviest moment of everything, what limits it, every state of the trip."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.weights.states import ticket_of
from binder.cards.axle_words import words_of
from binder.cards.blocks import Block, Heading, Line, Note, Page, Picture, Table
from binder.cards.drawings import MarginBar, MarginBars
from binder.cards.weighed_things import WeighedThing, weighed_things
from binder.cards.weight_limits import coupling_blocks, label_blocks, weight_law_blocks, wheel_end_blocks
from binder.models.rig import AxleWeights
from binder.wording.meanings import LOAD
from binder.wording.numbers import BLANK
from binder.wording.words import Words

_COLUMNS = 4
"""Things in one table of states: each takes two columns, and more would not be read at 9 points."""

_BARS_WIDTH = 177.0
"""Millimeters of the bars: the text of an A4 page is 177.8 wide, of a letter page 183.4."""

_INTRO = (
    "Loads are rounded up, margins down. Bold upright mark: the rating. Weigh again after a change; labels "
    "on the vehicles, makers' manuals and local law come first."
)


def weights(assessment: Assessment) -> Page:
    """Make the page of weights."""
    things = weighed_things(assessment)
    blocks: tuple[Block, ...] = (
        *_bars(things),
        *wheel_end_blocks(assessment),
        *coupling_blocks(assessment),
        *label_blocks(assessment),
        *_state_tables(things, words_of(assessment)),
        *_known_blocks(assessment),
        *weight_law_blocks(assessment),
    )
    return Page("weights", "Weights", _INTRO, blocks)


def _bars(things: tuple[WeighedThing, ...]) -> Iterator[Block]:
    yield Heading("Heaviest moment of each")
    known = [thing for thing in things if thing.is_known]
    unknown = [thing for thing in things if not thing.is_known]
    rows = tuple(
        MarginBar(
            thing.name,
            thing.share_used,
            f"{thing.heaviest_text}, {thing.heaviest_state}",
            f"rating {thing.rating_text}",
            thing.margin_words,
            thing.is_over,
        )
        for thing in known
    )
    if rows:
        told = "; ".join(f"{row.name}: {row.load}, {row.rating}, {row.margin}" for row in rows)
        yield Picture(MarginBars(rows, f"Bars of load against rating. {told}.", _BARS_WIDTH))
    for thing in unknown:
        yield Line(thing.name, f"load {thing.heaviest_text}, rating {thing.rating_text}")


def _state_tables(things: tuple[WeighedThing, ...], words: Words) -> Iterator[Block]:
    changing = [thing for thing in things if thing.changes]
    for chosen in _tables_of(changing):
        vehicles = {thing.vehicle for thing in chosen if thing.vehicle}
        # Short headers leave room for the names of places.
        names = [thing.short_name if len(vehicles) == 1 else thing.name for thing in chosen]
        headers = tuple(f"{name} {what}" for name in names for what in ("load", "margin"))
        whose = " and ".join(sorted(vehicles)) or "whole rig"
        yield Table(
            ("state of the trip", *headers),
            tuple(_state_row(chosen, key, title, words) for key, title in chosen[0].states),
            small=True,
            caption=f"Every state of the trip: {whose}, {words.unit(LOAD)}",
        )
    if changing:
        yield Note("A margin below zero is over the rating. The bars above name the heaviest state of each.")
    steady = [thing for thing in things if not thing.changes]
    if steady:
        rows = tuple(
            (thing.name, thing.heaviest_text, thing.rating_text, thing.margin_text) for thing in steady
        )
        yield Table(
            ("the same in every state", "load", "rating", "margin"),
            rows,
            small=True,
            caption="What stays as it is",
        )


def _tables_of(things: list[WeighedThing]) -> Iterator[list[WeighedThing]]:
    """A table for each vehicle; the whole rig stands with the last one where there is room."""
    chosen: list[WeighedThing] = []
    for thing in things:
        is_next = bool(chosen) and thing.vehicle not in {chosen[0].vehicle, ""}
        if is_next or len(chosen) == _COLUMNS:
            yield chosen
            chosen = []
        chosen.append(thing)
    if chosen:
        yield chosen


def _state_row(things: list[WeighedThing], key: str, title: str, words: Words) -> tuple[str, ...]:
    cells = []
    for thing in things:
        cells.append(words.number(thing.load_in(key), thing.kinds.load.measure))
        cells.append(words.number(thing.margin_in(key), thing.kinds.margin.measure))
    return (title, *cells)


def _known_blocks(assessment: Assessment) -> Iterator[Block]:
    words, rows = words_of(assessment), []
    for name, vehicle in assessment.rig.vehicles.items():
        ticket = ticket_of(assessment.rig, name)
        readings = ticket.weights[name].axles if ticket else {}
        for axle in vehicle.axles:
            reading = readings.get(axle)
            rows.append(
                (
                    f"{name}, {axle}",
                    *_reading(reading, words),
                    ticket.on.isoformat() if ticket else BLANK,
                    _how_known(reading),
                )
            )
    if rows:
        headers = ("axle", "left", "right", "axle", "ticket of", "known by")
        yield Table(headers, tuple(rows), small=True, caption="On the scale")
        yield Note(
            "Wheel ends weighed: the heavier end is measured. Axle weighed: the heavier end is assumed, half "
            "the axle and an allowance (common practice, no source). Not weighed: its rating stands in."
        )


def _reading(reading: AxleWeights | None, words: Words) -> tuple[str, str, str]:
    if reading is None:
        return (BLANK, BLANK, BLANK)
    left, right, axle = (
        words.text(value, LOAD) if value is not None else "-"
        for value in (reading.left, reading.right, reading.axle)
    )
    return (left, right, axle)


def _how_known(reading: AxleWeights | None) -> str:
    if reading is None:
        return "not weighed"
    if reading.left is not None and reading.right is not None:
        return "wheel ends weighed"
    return "axle weighed; ends assumed" if reading.axle is not None else "not weighed"
