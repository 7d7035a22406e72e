"""What to fill to today for the coldest morning of the trip, by the temperature of the tire."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.cards.axle_words import AxleGroup, axle_groups, display_of
from binder.cards.blocks import Block, Line, Note, Table
from binder.cards.display import Display


def fill_table(assessment: Assessment, groups: tuple[AxleGroup, ...]) -> Iterator[Block]:
    """Set what to fill to today, by the temperature of the tire; nothing where the plan gives no morning."""
    display = display_of(assessment)
    every = [(group, cells) for group in groups if (cells := _cells(assessment, group))]
    with_table = [(group, cells) for group, cells in every if not _is_full(group, cells)]
    for group, _ in every:
        if _is_full(group, _):
            yield Line(group.name, "ADD ON THE COLD MORNING", detail="filled to its limit: no more today")
    if not with_table:
        return
    rows = []
    for temperature in _temperatures(assessment, with_table[0][1]):
        texts = [_cell(cells.get(temperature), display) for _, cells in with_table]
        is_news = any(
            temperature in cells and cells[temperature].value != group.value("set_point")
            for group, cells in with_table
        )
        if is_news:
            rows.append((f"{temperature} {display.measure('temperature').word}", *texts))
    unit = display.measure("pressure").word
    headers = (f"tire temperature; fill, {unit}", *(short_name(group) for group, _ in with_table))
    yield Table(headers, tuple(rows))
    if any(cell == _COLD_MORNING for row in rows for cell in row):
        yield Note(
            f"\u201c{_COLD_MORNING.capitalize()}\u201d: the tire's limit is in the way; add air there, then."
        )


def _is_full(group: AxleGroup, cells: dict[str, Figure]) -> bool:
    """The set-point is the cap, so that at no tire temperature more may be filled today."""
    is_at_cap = group.value("set_point") == group.value("leave_up_to")
    return is_at_cap and all(cell.value is None for cell in cells.values())


_COLD_MORNING = "cold morning"


def _temperatures(assessment: Assessment, cells: dict[str, Figure]) -> list[str]:
    """Rows up to the warmest day of the plan: a tire in the shade is no warmer than the day."""
    warmest = assessment.quantity("route.warmest_day")
    if warmest is None:
        return list(cells)
    unit = display_of(assessment).measure("temperature").unit
    limit = float(warmest.to(unit).magnitude)
    temperatures = sorted(cells, key=float)
    cooler = [one for one in temperatures if float(one) < limit]
    return temperatures[: len(cooler) + 1]


def _cells(assessment: Assessment, group: AxleGroup) -> dict[str, Figure]:
    start = group.key("fill_at.")
    return {
        key.removeprefix(start).replace("minus_", "-"): figure
        for key, figure in assessment.ledger.figures.items()
        if key.startswith(start)
    }


def _cell(figure: Figure | None, display: Display) -> str:
    if figure is None:
        return ""
    value = figure.quantity
    return _COLD_MORNING if value is None else display.number(value, "pressure", "up")


def first_cell(assessment: Assessment) -> Figure | None:
    """Find the first figure of the table; each names the morning it is for."""
    groups = axle_groups(assessment)
    return next((figure for group in groups for figure in _cells(assessment, group).values()), None)


def coldest_morning(assessment: Assessment) -> str:
    """Tell the morning that the table is for."""
    figure = first_cell(assessment)
    given = {entry.name: entry for entry in (figure.inputs if figure else ())}
    coldest, elevation = given["coldest morning"], given["its elevation"]
    return f"{coldest.text} at {elevation.text}, {coldest.origin}"


def short_name(group: AxleGroup) -> str:
    """Name an axle at the head of a column: the vehicle is named where it is not the first."""
    return group.axle_names[0] if group.is_first_vehicle else group.vehicle_name
