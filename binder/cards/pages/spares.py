"""Pages of spares: what lies where, and what is to be bought."""

from collections.abc import Iterator
from itertools import groupby

from binder.assessment.assess import Assessment
from binder.assessment.route.days import last_day
from binder.assessment.spares import kinds
from binder.assessment.spares.stock import Stock, bay_loads, extra_items, has_expired, stocks, vehicle_of
from binder.assessment.spares.used import Change, Inventory, inventory
from binder.cards.blocks import Block, Heading, Line, Note, Page, Table, small_table
from binder.cards.pages.plan import plan
from binder.cards.rig_words import words_of
from binder.models.rig import Carried, Rig
from binder.wording.measures import RATING
from binder.wording.numbers import BLANK
from binder.wording.words import Words, begun, style_of

_INTRO = (
    "What is usual for this equipment and not noted, too few, or out of date by the trip's last day. "
    "Practice, no source: makers' manuals come first. Take the old part or its number along."
)
_NOTHING = "Nothing to buy: all that is usual for this equipment is noted, and in date."


def _shopping(assessment: Assessment) -> tuple[Block, ...]:
    """What is to be bought."""
    last = last_day(assessment.profile, assessment.on)[0]
    left = inventory(assessment.profile)
    found = stocks(left.rig, last)
    expired = [item for item in extra_items(left.rig) if has_expired(item, last)]
    listed = (*_wanted(assessment, found), *_replaced(assessment, expired), *_used(left, found))
    blocks = (*listed, *_to_count(assessment, found))
    return blocks or (Note(_NOTHING),)


def _wanted(assessment: Assessment, found: tuple[Stock, ...]) -> Iterator[Block]:
    short = [stock for stock in found if stock.short]
    for group, stocked in groupby(short, key=lambda stock: stock.want.rule.group):
        yield Heading(begun(group))
        yield from (_line(assessment, stock) for stock in stocked)


def _line(assessment: Assessment, stock: Stock) -> Line:
    want, words = stock.want, words_of(assessment)
    wanted = assessment.known(want.key(kinds.WANTED, kinds.VEHICLE_WANTED))
    numbers = dict.fromkeys(item.part_number for item in (*stock.items, *stock.expired) if item.part_number)
    details = [
        f"part number {', '.join(numbers)}" if numbers else "",
        words.slack(wanted),
        _status(assessment, stock),
        want.rule.reason,
    ]
    name = f"{begun(want.name)}, {want.vehicle}" if want.vehicle else begun(want.name)
    answer = stock.short.text if stock.short else BLANK
    return Line(name, answer, " · ".join(detail for detail in details if detail), ticks=1)


def _status(assessment: Assessment, stock: Stock) -> str:
    if stock.expired:
        return _dated(assessment, min(stock.expired, key=_ends))
    return f"{stock.want.quantity} usual" if stock.status == "few" else ""


def _ends(item: Carried) -> str:
    return item.expires.isoformat() if item.expires else ""


def _dated(assessment: Assessment, item: Carried) -> str:
    verb = "expired" if has_expired(item, assessment.on) else "expires"
    return f"{verb} {_ends(item)}"


def _replaced(assessment: Assessment, expired: list[Carried]) -> Iterator[Block]:
    if not expired:
        return
    yield Heading("Out of date")
    for item in expired:
        number = f"part number {item.part_number} · " if item.part_number else ""
        detail = f"{number}{_dated(assessment, item)}"
        yield Line(begun(item.what), item.quantity or BLANK, detail, ticks=1)


def _used(left: Inventory, found: tuple[Stock, ...]) -> Iterator[Block]:
    """What was used and not bought again, where it is not listed as too few."""
    short = [item for stock in found if stock.short for item in (*stock.items, *stock.expired)]
    lines = [
        Line(begun(item.what), lacking, _detail(item, left.of(item)[-1]), ticks=1)
        for item in left.rig.spares
        if item not in short and (lacking := left.lacking(item))
    ]
    lines += [
        Line(begun(one.what), one.amount, f"{_used_on(one)} · not among the spares that are noted", ticks=1)
        for one in left.unlisted
        if one.word == "used"
    ]
    if lines:
        yield Heading("Used, by the log")
        yield from lines


def _detail(item: Carried, change: Change) -> str:
    number = f"part number {item.part_number} · " if item.part_number else ""
    return f"{number}{_used_on(change)} · {item.quantity} left"


def _used_on(change: Change) -> str:
    return f"{change.word} {change.on.isoformat()}"


def _to_count(assessment: Assessment, found: tuple[Stock, ...]) -> Iterator[Block]:
    words = words_of(assessment)
    names = [words.said(stock.want.words) for stock in found if stock.status == "uncounted"]
    if names:
        yield Note(f"Count before buying: {', '.join(names)}.")


_SPARES_BY_PLACE_INTRO = (
    "Bays in the order of the walk, then the other places. A blank is not noted yet: look, and write it in. "
    "Put things back where this page says they are."
)
_HEADERS = ("what", "how many", "part number", "good until")


def spares_by_place(assessment: Assessment) -> Page:
    """Make the page of spares and tools by their places."""
    tables = tuple(_tables(assessment))
    blocks: tuple[Block, ...] = tables or (Note("No spares and tools are noted yet."),)
    wanted = (Heading("Shopping list"), Note(_INTRO), *_shopping(assessment))
    blocks = (*blocks, *_bays(assessment), *wanted)
    return Page("spares_by_place", "Spares by place", _SPARES_BY_PLACE_INTRO, blocks)


def _tables(assessment: Assessment) -> Iterator[Table]:
    rig = inventory(assessment.profile).rig
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
    words, rows = Words(style_of(assessment)), []
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
    headers = ("bay", "noted in it", "rated", "left", "not counted")
    note = (
        "Only what is entered with a weight. What came aboard after the weighing is counted in the loads of "
        "axles and tires too; the rest was on the scale."
    )
    yield from small_table("Weight by bay", headers, rows, note)
