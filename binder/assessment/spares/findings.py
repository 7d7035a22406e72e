"""What lacks among spares and tools, told in a few lines: thirty lines are read by nobody."""

from collections import Counter
from collections.abc import Iterator, Sequence

from binder.assessment.figures import Finding
from binder.assessment.spares.cargo import is_on_ticket
from binder.assessment.spares.carried import Stock
from binder.assessment.spares.places import BayLoad, vehicle_of
from binder.assessment.weights.states import levels_ticket_of
from binder.assessment.wording import Wording
from binder.models.load import Profile
from binder.models.rig import Rig, ScaleTicket
from binder.models.spares import Carried

_ORDER = 10
_NAMED = 8  # Own choice: so many names are still read as a list, more as counts.


def spare_findings(profile: Profile, found: Sequence[Stock], loads: Sequence[BayLoad]) -> Iterator[Finding]:
    """Find what is missing, too few, without place, part number or weight, and bays over their rating."""
    rig = profile.rig
    yield from _lacking(rig, found)
    yield from _unplaced(rig)
    yield from _without_part_number(found)
    yield from _uncounted(rig)
    for load in loads:
        yield from _over(load, Wording(rig.units))


def _lacking(rig: Rig, found: Sequence[Stock]) -> Iterator[Finding]:
    missing = [stock for stock in found if stock.status == "missing"]
    if found and not rig.spares and not rig.tools:
        text = f"No spares and tools are noted; {len(missing)} belong to this equipment (practice)."
        helps = "The shopping list names them; note what is carried under spares: and tools:."
        yield Finding("missing", _ORDER, "spares.listed", text, helps)
        return
    if missing:
        text = (
            f"Of {len(found)} spares and tools usual for this equipment (practice), "
            f"{len(missing)} not noted: {_named_or_counted(missing)}."
        )
        helps = "Buy them by the shopping list, or note where they are."
        yield Finding("missing", _ORDER, "spares.missing", text, helps)
    few = [stock for stock in found if stock.status == "too few" and stock.short]
    if few:
        names = ", ".join(
            f"{stock.want.words} {stock.short.text} short" for stock in few if stock.short is not None
        )
        text = f"Fewer than usual are carried (practice): {names}."
        yield Finding("missing", _ORDER, "spares.too_few", text, "They stand on the shopping list.")
    uncounted = [stock.want.words for stock in found if stock.status == "not counted"]
    if uncounted:
        text = f"How many are carried is not noted, or not in the measure wanted: {', '.join(uncounted)}."
        yield Finding("missing", _ORDER, "spares.not_counted", text, "Count them, and note it.")


def _named_or_counted(missing: Sequence[Stock]) -> str:
    if len(missing) <= _NAMED:
        return ", ".join(stock.want.words for stock in missing)
    groups = Counter(stock.want.rule.group for stock in missing)
    return ", ".join(f"{group} {count}" for group, count in groups.items())


def _unplaced(rig: Rig) -> Iterator[Finding]:
    names = [item.what for item in (*rig.spares, *rig.tools) if item.place is None]
    if names:
        listed = ", ".join(names) if len(names) <= _NAMED else f"{len(names)} spares and tools"
        text = f"The place is not noted: {listed}."
        yield Finding("missing", _ORDER, "spares.place", text, "Note where each lies.")


def _without_part_number(found: Sequence[Stock]) -> Iterator[Finding]:
    names = [
        stock.want.words
        for stock in found
        if stock.want.rule.has_part_number
        and stock.items
        and not any(item.part_number for item in stock.items)
    ]
    if names:
        listed = ", ".join(names) if len(names) <= _NAMED else f"{len(names)} spares"
        text = f"The part number is not noted: {listed}."
        yield Finding("missing", _ORDER, "spares.part_number", text, "Read it off the part or its box.")


def _uncounted(rig: Rig) -> Iterator[Finding]:
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
    key = "spares.weight"
    if lost:
        text = f"These weigh something and are counted nowhere, since no vehicle is named: {', '.join(lost)}."
        yield Finding("missing", _ORDER, key, text, "Enter in: with the vehicle, or the bay as the place.")
    if since:
        text = f"These are counted as not on the scale ticket, to be safe: {', '.join(since)}."
        yield Finding("missing", _ORDER, key, text, "Enter since: with the day each came aboard.")
    if unknown:
        text = f"These came aboard after the weighing and have no weight: {', '.join(unknown)}."
        yield Finding("missing", _ORDER, key, text, "Weigh them on a kitchen scale; enter weight:.")


def _came_later(item: Carried, ticket: ScaleTicket | None) -> bool:
    return ticket is not None and item.since is not None and not is_on_ticket(item, ticket)


def _over(found: BayLoad, wording: Wording) -> Iterator[Finding]:
    rating = found.bay.rating
    if rating is None or found.load <= rating:
        return
    text = (
        f"The {found.name} of the {found.vehicle} holds {wording.weight(found.load, 'up')} and is "
        f"rated {wording.weight(rating, 'down')}."
    )
    yield Finding("attention", _ORDER, f"{found.key}.bay_margin", text, "Move some of it to another bay.")
