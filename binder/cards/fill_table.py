"""What to fill to today for every cold morning of the trip, by the temperature of the tire."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure
from binder.assessment.tires import kinds
from binder.cards.blocks import Block, Line, Table
from binder.cards.rig_words import AxleGroup, axle_groups, words_of
from binder.wording.measures import FILL, TEMPERATURE
from binder.wording.numbers import BLANK
from binder.wording.words import Words, begun, town


def fill_table(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Block]:
    """Set what to fill to today, by the temperature of the tire; nothing where the plan gives no morning."""
    words = words_of(assessment)
    every = [(group, cells) for group in groups if (cells := _cells(assessment, group))]
    with_table = [(group, cells) for group, cells in every if not _is_full(group, cells)]
    for found in assessment.findings:
        if found.kind is kinds.MORNINGS_UNKNOWN:
            yield Line("Fill for the cold mornings", BLANK, detail=words.found(found).text)
    temperatures = _temperatures(assessment, every)
    shown = [one for one in temperatures if any(_is_more(*pair, one) for pair in with_table)]
    if shown:
        rows = (
            (begun(group.short_name), *(_filled(group, cells, one, words) for one in shown))
            for group, cells in with_table
            if not all(_is_capped(cells, one) for one in shown)
        )
        unit = words.unit(TEMPERATURE)
        yield Table(
            (f"tire temp.; fill, {words.unit(FILL)}", *(f"{one} {unit}" for one in shown)), tuple(rows)
        )
    for group, cells in every:
        capped = [one for one in temperatures if _is_capped(cells, one)]
        if capped:
            yield _topped_up(group, cells, capped, words)


def _is_more(group: AxleGroup, cells: dict[int, Figure], temperature: int) -> bool:
    figure = cells.get(temperature)
    return figure is not None and figure.value != group.value(kinds.SET_POINT)


def _is_capped(cells: dict[int, Figure], temperature: int) -> bool:
    return temperature in cells and cells[temperature].value is None


def _filled(group: AxleGroup, cells: dict[int, Figure], temperature: int, words: Words) -> str:
    if temperature not in cells:
        return ""
    return _now(group, cells, words) if _is_capped(cells, temperature) else words.bare(cells[temperature])


def _now(group: AxleGroup, cells: dict[int, Figure], words: Words) -> str:
    """The most that may be filled now: the cap; where a part was never read, no more than a cell has."""
    point, limit = group.value(kinds.SET_POINT), group.known_limit
    if limit is not None and not group.unread_parts:
        return words.fill(limit, limit)
    known = [figure.quantity for figure in cells.values() if figure.quantity is not None]
    return words.fill(max([*known, *([] if point is None else [point])], default=None), limit)


def _topped_up(group: AxleGroup, cells: dict[int, Figure], capped: list[int], words: Words) -> Line:
    """Where to add what the cap leaves no room for today."""
    worst = words.given(cells[capped[0]], kinds.WORST_MORNING)
    place = (town(worst.origin) if worst else "") or "coldest stop"
    name = begun(group.short_name)
    if not _is_full(group, cells):
        name = f"{name} from {capped[0]} {words.unit(TEMPERATURE)}"
    point = words.fill(group.value(kinds.SET_POINT), group.known_limit)
    return Line(name, f"{_now(group, cells, words)} now; {place}: add to {point} {words.unit(FILL)}")


def _is_full(group: AxleGroup, cells: dict[int, Figure]) -> bool:
    """The set-point is the cap, so that at no tire temperature more may be filled today."""
    is_at_cap = group.value(kinds.SET_POINT) == group.known_limit
    return is_at_cap and all(cell.value is None for cell in cells.values())


def _temperatures(assessment: Assessment, every: list[tuple[AxleGroup, dict[int, Figure]]]) -> list[int]:
    """Columns up to the warmest day of the plan: a tire in the shade is no warmer than the day."""
    warmest = assessment.quantity(kinds.WARMEST_DAY.of())
    temperatures = sorted({one for _, cells in every for one in cells})
    if warmest is None:
        return temperatures
    limit = words_of(assessment).drawn(warmest, TEMPERATURE)
    return temperatures[: sum(one < limit for one in temperatures) + 1]


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
