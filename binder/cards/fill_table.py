"""What to fill to today for every cold morning of the trip, by the temperature of the tire."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure
from binder.assessment.tires import kinds
from binder.cards.blocks import Block, Line, Note, Table
from binder.cards.rig_words import AxleGroup, axle_groups, words_of
from binder.wording.measures import FILL, TEMPERATURE
from binder.wording.numbers import BLANK

_COLD_MORNING = "cold morning"


def fill_table(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Block]:
    """Set what to fill to today, by the temperature of the tire; nothing where the plan gives no morning."""
    words = words_of(assessment)
    every = [(group, cells) for group in groups if (cells := _cells(assessment, group))]
    with_table = [(group, cells) for group, cells in every if not _is_full(group, cells)]
    for group, cells in every:
        if _is_full(group, cells):
            yield Line(group.name, "ADD ON THE COLD MORNING", detail="filled to its limit: no more today")
    for found in assessment.findings:
        if found.kind is kinds.MORNINGS_UNKNOWN:
            yield Line("Fill for the cold mornings", BLANK, detail=words.found(found).text)
    if not with_table:
        return
    rows = []
    for temperature in _temperatures(assessment, with_table[0][1]):
        figures = [cells.get(temperature) for _, cells in with_table]
        set_points = [group.value(kinds.SET_POINT) for group, _ in with_table]
        if any(one and one.value != point for one, point in zip(figures, set_points, strict=True)):
            texts = ("" if one is None else words.bare(one, _COLD_MORNING) for one in figures)
            rows.append((f"{temperature} {words.unit(TEMPERATURE)}", *texts))
    headers = (f"tire temperature; fill, {words.unit(FILL)}", *(group.short_name for group, _ in with_table))
    yield Table(headers, tuple(rows))
    if any(cell == _COLD_MORNING for row in rows for cell in row):
        yield Note(
            f"\u201c{_COLD_MORNING.capitalize()}\u201d: the tire's limit is in the way; add air there, then."
        )


def _is_full(group: AxleGroup, cells: dict[int, Figure]) -> bool:
    """The set-point is the cap, so that at no tire temperature more may be filled today."""
    is_at_cap = group.value(kinds.SET_POINT) == group.known_limit
    return is_at_cap and all(cell.value is None for cell in cells.values())


def _temperatures(assessment: Assessment, cells: dict[int, Figure]) -> list[int]:
    """Rows up to the warmest day of the plan: a tire in the shade is no warmer than the day."""
    warmest = assessment.quantity(kinds.WARMEST_DAY.of())
    if warmest is None:
        return list(cells)
    limit = words_of(assessment).drawn(warmest, TEMPERATURE)
    temperatures = sorted(cells)
    cooler = [one for one in temperatures if one < limit]
    return temperatures[: len(cooler) + 1]


def _cells(assessment: Assessment, group: AxleGroup) -> dict[int, Figure]:
    found = assessment.ledger.of_kind(kinds.FILL_AT, group.vehicle_name, group.axle_names[0])
    return {int(figure.key.subject[-1]): figure for figure in found}


def first_cell(assessment: Assessment) -> Figure | None:
    """Find the first figure of the table; each names the morning it is for."""
    groups = axle_groups(assessment)
    return next((figure for group in groups for figure in _cells(assessment, group).values()), None)


def worst_morning(assessment: Assessment) -> str:
    """Tell the morning that asks for most."""
    figure, words = first_cell(assessment), words_of(assessment)
    worst, elevation = (words.given(figure, kind) for kind in (kinds.WORST_MORNING, kinds.ITS_ELEVATION))
    if worst is None or elevation is None:
        return ""
    return f"{worst.text} at {elevation.text}, {worst.origin}"
