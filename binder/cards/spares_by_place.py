"""Page "Spares by place": what lies where, in the order of the walk, and what each bay holds."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.route.days import last_day
from binder.assessment.spares import kinds
from binder.assessment.spares.stock import Stock, bay_loads, stocks, vehicle_of
from binder.cards.blocks import Block, Note, Page, Table
from binder.cards.plan import plan
from binder.models.rig import Rig
from binder.models.spares import Carried
from binder.wording.meanings import RATING
from binder.wording.numbers import BLANK
from binder.wording.words import Words

_INTRO = (
    "Bays in the order of the walk, then the other places. A blank is not noted yet: look, and write it in. "
    "Put things back where this page says they are."
)
_HEADERS = ("what", "how many", "part number", "good until")


def spares_by_place(assessment: Assessment) -> Page:
    """Make the page of spares and tools by their places."""
    tables = tuple(_tables(assessment))
    blocks = tables or (Note("No spares and tools are noted yet."),)
    return Page("spares_by_place", "Spares by place", _INTRO, (*blocks, *_bays(assessment)))


def _tables(assessment: Assessment) -> Iterator[Table]:
    rig = assessment.rig
    found = stocks(rig, last_day(assessment.profile, assessment.on)[0])
    numbered = [item for stock in found if stock.want.rule.has_part_number for item in _all(stock)]
    listed = [*rig.spares, *rig.tools]
    items = [*listed, *(item for stock in found for item in stock.items if item not in listed)]
    walk = _walk(assessment)
    places = list(dict.fromkeys(_place(rig, item) for item in items))
    for place in sorted(places, key=lambda name: (not name, walk.get(name, len(walk)))):
        rows = tuple(_row(item, has_number=item in numbered) for item in items if _place(rig, item) == place)
        caption = f"{place[:1].upper()}{place[1:]}" if place else f"Place not noted: {BLANK}"
        yield Table(_HEADERS, rows, small=True, caption=caption)


def _row(item: Carried, *, has_number: bool) -> tuple[str, ...]:
    what = f"{item.what}, for the {item.serves}" if item.serves else item.what
    number = item.part_number or (BLANK if has_number else "-")
    return what, item.quantity or BLANK, number, item.expires.isoformat() if item.expires else "-"


def _all(stock: Stock) -> tuple[Carried, ...]:
    return (*stock.items, *stock.expired)


def _place(rig: Rig, item: Carried) -> str:
    """Name of the place, with its vehicle where the rig has several; empty where it is not noted."""
    vehicle = vehicle_of(rig, item)
    if item.place is None:
        return ""
    return f"{vehicle}, {item.place}" if vehicle and len(rig.vehicles) > 1 else item.place


def _walk(assessment: Assessment) -> dict[str, int]:
    """Bays by their names as printed, each with its turn on the walk; without a drawing as listed."""
    rig = assessment.rig
    drawn = [name for name, entry in rig.vehicles.items() if entry.axles]
    turns = [(drawn[place.vehicle], place.name) for _, place in plan(assessment).numbered]
    turns += [(name, bay) for name, entry in rig.vehicles.items() for bay in entry.bays]
    several = len(rig.vehicles) > 1
    names = [f"{vehicle}, {bay}" if several else bay for vehicle, bay in dict.fromkeys(turns)]
    return {name: turn for turn, name in enumerate(names)}


def _bays(assessment: Assessment) -> Iterator[Block]:
    words, rows = Words(assessment.rig.units), []
    several = len(assessment.rig.vehicles) > 1
    for found in bay_loads(assessment.rig):
        load = assessment.known(kinds.BAY_LOAD.of(*found.subject))
        margin = assessment.known(kinds.BAY_MARGIN.of(*found.subject))
        rows.append(
            (
                f"{found.vehicle}, {found.name}" if several else found.name,
                words.value(load),
                words.text(found.bay.rating, RATING),
                words.value(margin, "-"),
                words.slack(load) or "-",
            )
        )
    if rows:
        headers = ("bay", "noted in it", "rated", "left", "not counted")
        yield Table(headers, tuple(rows), small=True, caption="Weight by bay")
        yield Note(
            "Only what is entered with a weight. What came aboard after the weighing is counted in the loads "
            "of axles and tires too; the rest was on the scale."
        )
