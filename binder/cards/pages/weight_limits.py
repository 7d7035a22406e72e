"""What else limits weights: wheel ends, the coupling chain, labels; federal law for comparison."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.coupling import kinds as chain
from binder.assessment.ledger import OF_THOSE_KNOWN, Figure, Phrase
from binder.assessment.tires import kinds as tires
from binder.assessment.weights import kinds
from binder.assessment.weights.limits import axle_groups
from binder.assessment.weights.resting import CARRIED, rolling_axles
from binder.assessment.weights.states import trip_states
from binder.cards.blocks import Block, Note, small_table
from binder.cards.rig_words import words_of
from binder.models.rig import Coupling
from binder.quantities import number_in
from binder.wording.measures import APART, RATING
from binder.wording.numbers import BLANK
from binder.wording.words import Words, procedure_number

_ENDS = (
    "axle",
    "heavier end",
    "in state",
    "half the rating",
    "room under it",
    "load on one tire",
    "tire's slack",
)
_BRIEF = {kinds.ROOM_UNDER: kinds.ROOM_BRIEF, kinds.ROOM_OVER: kinds.OVER_BRIEF}


def wheel_end_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the table of the heaviest wheel ends."""
    rows, hows = [], []
    for vehicle_name, _, axle_name, _ in rolling_axles(assessment.rig):
        row, how = _end_row(assessment, vehicle_name, axle_name)
        rows.append(row)
        hows.append(f"{vehicle_name.capitalize()}, {axle_name}: {how}")
    note = "No published limit compares left and right; the tires and half the axle's rating judge."
    yield from small_table("Heaviest wheel end of each axle", _ENDS, rows, note, " ".join(hows))


def _end_row(assessment: Assessment, vehicle: str, axle: str) -> tuple[tuple[str, ...], str]:
    words = words_of(assessment)
    found = _heaviest_end(assessment, vehicle, axle)
    tire = assessment.quantity(tires.LOAD_PER_TIRE.of(vehicle, axle))
    load = words.text(tire, tires.LOAD_PER_TIRE.measure)
    # The label may rule over the row: what the set-point leaves is the room that counts.
    slack = words.slack(assessment.known(tires.SET_POINT.of(vehicle, axle))) or "-"
    if found is None:
        return (f"{vehicle}, {axle}", BLANK, BLANK, BLANK, BLANK, load, slack), "not known."
    end, title = found
    half = words.given(end, kinds.HALF_RATING_INPUT)
    room = words.said(_BRIEF[end.slack.text], end.slack.facts) if end.slack else "-"
    cells = (words.value(end), title, half.text if half else BLANK, room)
    return (f"{vehicle}, {axle}", *cells, load, slack), words.said(kinds.END_BRIEF, end.facts)


def _heaviest_end(assessment: Assessment, vehicle: str, axle: str) -> tuple[Figure, str] | None:
    words, known = words_of(assessment), []
    for state in trip_states(assessment.profile):
        figure = assessment.known(kinds.HEAVIER_END.of(vehicle, axle, state.key))
        if figure is None or figure.quantity is None:
            # The heaviest of the moments that are known may not be the heaviest of all.
            return None
        known.append((number_in(figure.quantity, "pound"), figure, words.said(state.title)))
    heaviest = max(known, key=lambda one: one[0], default=None)
    return heaviest[1:] if heaviest else None


def coupling_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make a table of each coupling: its parts with their ratings, the weakest named, what is left."""
    # What is carried hangs on no part that tows: its weight stands with the vehicle that carries it.
    for coupling in (one for one in assessment.rig.couplings if one.how != CARRIED):
        yield from _chain(assessment, coupling)


def _chain(assessment: Assessment, coupling: Coupling) -> Iterator[Block]:
    words, pair = words_of(assessment), (coupling.ahead, coupling.behind)
    down, share = (assessment.known(kind.of(*pair)) for kind in (chain.DOWN_LOAD, chain.DOWN_SHARE))
    rows = list(_towing_rows(assessment, pair))
    if down:
        text = words.text(down.quantity, down.kind.measure)
        rows.append(("down load on the coupling", text, words.slack(down)))
        rows += [(f"{name}, may carry down", rating, "") for name, rating in _ratings(down, words)]
    if share:
        spread, usual = (
            words.said(text, share.slack.facts) if share.slack else ""
            for text in (chain.SHARE_RANGE, chain.USUAL)
        )
        rows.append(("share of the trailer on the coupling", spread or f"{BLANK} %", usual))
    caption = f"{coupling.ahead.capitalize()} to {coupling.behind}, by {coupling.how}: what each part may tow"
    note = (
        "The combination rating counts as a part: what it leaves for the towed vehicle behind the loaded "
        "towing one. Repairs and welds of a coupling belong to qualified people."
    )
    cautions = words.cautions(share) if share else ()
    yield from small_table(caption, ("part", "may tow", "which"), rows, note, *cautions)


def _towing_rows(assessment: Assessment, pair: tuple[str, str]) -> Iterator[tuple[str, str, str]]:
    words = words_of(assessment)
    limit, weakest = (assessment.known(kind.of(*pair)) for kind in (chain.LIMIT, chain.WEAKEST_PART))
    named = weakest.value.facts["parts"] if weakest and isinstance(weakest.value, Phrase) else ()
    names = named if isinstance(named, tuple) else ()
    for name, rating in _ratings(limit, words) if limit else ():
        yield name, rating, "weakest part" if name in names else ""
    towed, margin = (
        words.text(assessment.quantity(kind.of(*pair)), kind.measure) for kind in (chain.TOWED, chain.MARGIN)
    )
    yield "towed, at its heaviest", towed, ""
    part = "part known" if limit and limit.case == OF_THOSE_KNOWN else "part"
    yield f"left under the weakest {part}", margin, words.value(weakest, "")


def _ratings(figure: Figure, words: Words) -> Iterator[tuple[str, str]]:
    """Parts of a coupling with their ratings, which are the inputs of a figure."""
    for given, told in zip(figure.inputs, words.told(figure).inputs, strict=True):
        yield told.name, BLANK if given.value is None else told.text


def label_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the table of what the labels leave for cargo."""
    words, rows = words_of(assessment), []
    for name, vehicle in assessment.rig.vehicles.items():
        used, left = (assessment.known(kind.of(name)) for kind in (kinds.LABEL_USED, kinds.LABEL_LEFT))
        if used is None or left is None:
            continue
        capacity = vehicle.label.occupant_and_cargo_carrying_capacity or vehicle.label.cargo_carrying_capacity
        counted = "; ".join(f"{one.name} {one.text}" for one in words.told(used).inputs)
        together, for_cargo = (words.text(figure.quantity, figure.kind.measure) for figure in (used, left))
        rows.append((name, words.text(capacity, RATING), counted, together, for_cargo))
    person, water = (procedure_number(f"label {what}", words.style) for what in ("person", "water"))
    headers = ("vehicle", "capacity on its label", "taken out of it", "together", "left for cargo")
    note = (
        f"The arithmetic of the labels: {person} a person and {water} of fresh water, the tank full. What "
        "was added since the label was printed counts as cargo. The scale is the better judge."
    )
    yield from small_table("What the labels leave for cargo", headers, rows, note)


def weight_law_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the table of axle groups under federal law and the line of the license groups."""
    words, rows = words_of(assessment), []
    for group in axle_groups(assessment.rig):
        if assessment.known(group.kinds.limit.of(*group.subject)) is None:
            continue
        limit, load, margin = (
            words.text(assessment.quantity(kind.of(*group.subject)), kind.measure)
            for kind in (group.kinds.limit, group.kinds.load, group.kinds.margin)
        )
        rows.append((words.said(group.name), words.text(group.apart, APART), load, limit, margin))
    headers = ("axle group", "first to last", "heaviest together", "federal limit", "left")
    caption = "Axle groups and the federal bridge formula, information only"
    note = (
        "A federal rule for freight on Interstate highways, shown for comparison. Local law differs; a "
        "bridge's own sign decides."
    )
    yield from small_table(caption, headers, rows, note)
    license_group = assessment.known(kinds.LICENSE_GROUP.of())
    if license_group is not None:
        value = words.value(license_group, "not known, a rating is missing")
        yield Note(
            f"License, federal groups, comparison only: {value}. {words.rule(license_group)} Local law "
            "differs, also for recreational vehicles; ask your licensing office."
        )
