"""Spares: what this rig should carry against what it does, what each bay holds, and what lacks.

What lacks is told in a few lines: thirty lines are read by nobody.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date

from binder.assessment.ledger import OF_THOSE_KNOWN, Fact, Figure, Finding, FindingKind, Input, Ledger, Phrase
from binder.assessment.route.days import last_day
from binder.assessment.spares import kinds
from binder.assessment.spares.stock import (
    BayLoad,
    Stock,
    amount_of,
    bay_loads,
    is_on_ticket,
    size_of,
    stocks,
    vehicle_of,
)
from binder.assessment.spares.used import Change, Inventory, inventory
from binder.assessment.weights.states import levels_ticket_of
from binder.models.load import Profile
from binder.models.rig import Carried, Rig, ScaleTicket

_NAMED = 8  # Own choice: so many names are still read as a list, more as counts.


def assess_spares(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter what is wanted and what is carried, the load of each bay, and find what lacks."""
    rig = profile.rig
    left, loads = inventory(profile), bay_loads(rig)
    found = stocks(left.rig, last_day(profile, on)[0])
    for stock in found:
        _enter_stock(stock, left, ledger)
    for load in loads:
        _enter_bay(load, ledger)
    for finding in (
        *_lacking(rig, found),
        *_without_place(rig),
        *_without_part_number(found),
        *_without_weight(rig),
        *_over(loads),
        *_unlisted(left),
    ):
        ledger.find(finding)


def _enter_stock(stock: Stock, left: Inventory, ledger: Ledger) -> None:
    want, short = stock.want, stock.short
    key, reason = want.key(kinds.WANTED, kinds.VEHICLE_WANTED), {"reason": want.rule.reason}
    size = size_of(want, left.rig, ledger)
    ledger.enter(Figure(key, amount_of(want.quantity).value, facts=reason, slack=size))
    key, value = want.key(kinds.CARRIED, kinds.VEHICLE_CARRIED), stock.carried and stock.carried.value
    slack = Phrase(kinds.SHORT_OF, {"short": short.text, "usual": want.quantity}) if short else None
    items = (*stock.items, *stock.expired)
    changes = [_changed(one) for item in items for one in left.of(item)]
    inputs = (*(_noted(left.as_noted(item)) for item in items), *changes)
    ledger.enter(Figure(key, value, inputs, "log" if changes else "", slack=slack))


def _changed(change: Change) -> Input:
    facts: dict[str, Fact] = {"what": change.what, "word": change.word, "on": change.on}
    return Input(kinds.CHANGED, change.amount, facts=facts)


def _noted(item: Carried) -> Input:
    kind = kinds.NOTED_UNTIL if item.expires else kinds.NOTED
    noted = item.quantity or kinds.NUMBER_NOT_NOTED
    return Input(kind, facts={"what": item.what, "noted": noted, "until": item.expires})


def _enter_bay(found: BayLoad, ledger: Ledger) -> None:
    key, rating = kinds.BAY_LOAD.of(*found.subject), found.bay.rating
    lacking = tuple(
        Phrase(text["one" if count == 1 else ""], {"count": count})
        for text, count in ((kinds.WITHOUT_WEIGHT, found.unweighed), (kinds.WITHOUT_PLACE, found.unplaced))
        if count
    )
    case, slack = (OF_THOSE_KNOWN, Phrase(kinds.LACKING, {"lacking": lacking})) if lacking else ("", None)
    ledger.enter(Figure(key, found.load, case=case, slack=slack))
    inputs = (Input(kinds.BAY_RATING, rating), Input(kinds.NOTED_IN_BAY, found.load, key))
    margin = None if rating is None else rating - found.load
    ledger.enter(Figure(kinds.BAY_MARGIN.of(*found.subject), margin, inputs, case))


def _lacking(rig: Rig, found: Sequence[Stock]) -> Iterator[Finding]:
    missing = [stock for stock in found if stock.status == "missing"]
    facts: dict[str, Fact] = {"usual": len(found), "count": len(missing), "names": _named_or_counted(missing)}
    if found and not rig.spares and not rig.tools:
        yield Finding(kinds.NONE_NOTED, kinds.NONE_NOTED.of(), facts)
        return
    if missing:
        yield Finding(kinds.MISSING, kinds.MISSING.of(), facts)
    few = tuple(
        Phrase(kinds.SHORT, {"spare": stock.want.words, "short": stock.short.text})
        for stock in found
        if stock.status == "few" and stock.short
    )
    uncounted = tuple(stock.want.words for stock in found if stock.status == "uncounted")
    for kind, names in ((kinds.TOO_FEW, few), (kinds.NOT_COUNTED, uncounted)):
        if names:
            yield Finding(kind, kind.of(), {"names": names})


def _named_or_counted(missing: Sequence[Stock]) -> tuple[Phrase, ...]:
    if len(missing) <= _NAMED:
        return tuple(stock.want.words for stock in missing)
    groups = Counter(stock.want.rule.group for stock in missing)
    return tuple(Phrase(kinds.OF_GROUP, {"group": group, "count": count}) for group, count in groups.items())


def _unlisted(left: Inventory) -> Iterator[Finding]:
    names = tuple(
        Phrase(kinds.UNLISTED, {"what": one.what, "amount": one.amount, "word": one.word, "on": one.on})
        for one in left.unlisted
    )
    if names:
        yield Finding(kinds.NOT_LISTED, kinds.NOT_LISTED.of(), {"names": names})


def _without_place(rig: Rig) -> Iterator[Finding]:
    yield from _listed(
        kinds.NO_PLACE, [item.what for item in (*rig.spares, *rig.tools) if item.place is None]
    )


def _without_part_number(found: Sequence[Stock]) -> Iterator[Finding]:
    names = [
        stock.want.words
        for stock in found
        if stock.want.rule.has_part_number
        and stock.items
        and not any(item.part_number for item in stock.items)
    ]
    yield from _listed(kinds.NO_PART_NUMBER, names)


def _listed(kind: FindingKind, names: Sequence[str | Phrase]) -> Iterator[Finding]:
    if names:
        facts: dict[str, Fact] = {"names": tuple(names), "count": len(names)}
        yield Finding(kind, kind.of(), facts, "" if len(names) <= _NAMED else "many")


def _without_weight(rig: Rig) -> Iterator[Finding]:
    """Weights that are on no scale ticket, or may be, and cannot be counted as they are."""
    lost, since, unknown = [], [], []
    for item in (*rig.spares, *rig.tools):
        vehicle = vehicle_of(rig, item)
        ticket = levels_ticket_of(rig, vehicle) if vehicle else None
        if item.weight is not None and not vehicle:
            lost.append(item.what)
        elif item.weight is not None and item.since is None:
            since.append(item.what)
        elif item.weight is None and _came_later(item, ticket):
            unknown.append(item.what)
    for kind, names in ((kinds.NO_VEHICLE, lost), (kinds.NO_DAY, since), (kinds.NO_WEIGHT, unknown)):
        if names:
            yield Finding(kind, kind.of(), {"names": tuple(names)})


def _came_later(item: Carried, ticket: ScaleTicket | None) -> bool:
    return ticket is not None and item.since is not None and not is_on_ticket(item, ticket)


def _over(loads: Sequence[BayLoad]) -> Iterator[Finding]:
    for found in loads:
        rating = found.bay.rating
        if rating is not None and found.load > rating:
            facts = {"load": found.load, "rating": rating}
            yield Finding(kinds.BAY_OVER, kinds.BAY_MARGIN.of(*found.subject), facts)
