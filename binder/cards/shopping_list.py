"""Page "Shopping list": what is missing, too few or out of date, to be ticked off in a shop."""

from collections.abc import Iterator
from itertools import groupby

from binder.assessment.assess import Assessment
from binder.assessment.route.days import last_day
from binder.assessment.spares import kinds
from binder.assessment.spares.stock import Stock, extra_items, has_expired, stocks
from binder.cards.axle_words import words_of
from binder.cards.blocks import Block, Heading, Line, Note, Page
from binder.models.spares import Carried
from binder.wording.numbers import BLANK
from binder.wording.words import begun

_INTRO = (
    "What is usual for this equipment and not noted, too few, or out of date by the trip's last day. "
    "Practice, no source: makers' manuals come first. Take the old part or its number along."
)
_NOTHING = "Nothing to buy: all that is usual for this equipment is noted, and in date."


def shopping_list(assessment: Assessment) -> Page:
    """Make the page of what is to be bought."""
    last = last_day(assessment.profile, assessment.on)[0]
    found = stocks(assessment.rig, last)
    expired = [item for item in extra_items(assessment.rig) if has_expired(item, last)]
    blocks = (*_wanted(assessment, found), *_replaced(assessment, expired), *_to_count(assessment, found))
    return Page("shopping_list", "Shopping list", _INTRO, blocks or (Note(_NOTHING),))


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


def _to_count(assessment: Assessment, found: tuple[Stock, ...]) -> Iterator[Block]:
    words = words_of(assessment)
    names = [words.said(stock.want.words) for stock in found if stock.status == "uncounted"]
    if names:
        yield Note(f"Count before buying: {', '.join(names)}.")
