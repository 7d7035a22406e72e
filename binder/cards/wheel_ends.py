"""The heaviest wheel end of each axle, on the page of weights."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.assessment.weights.kinds import HEAVIER_END
from binder.assessment.weights.resting import rolling_axles
from binder.assessment.weights.states import trip_states
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Note, Table
from binder.cards.display import BLANK
from binder.wording.sentences import key_text, sentence

_HEADERS = (
    "axle",
    "heavier end",
    "in state",
    "half the rating",
    "room under it",
    "load on one tire",
    "tire's slack",
)

_UNDER, _OVER = " under half the axle's rating", " over half the axle's rating"


def wheel_end_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the table of the heaviest wheel ends."""
    rows, hows = [], []
    for vehicle_name, _, axle_name, _ in rolling_axles(assessment.rig):
        row, how = _row(assessment, vehicle_name, axle_name)
        rows.append(row)
        hows.append(f"{vehicle_name.capitalize()}, {axle_name}: {how}")
    if rows:
        yield Table(_HEADERS, tuple(rows), small=True, caption="Heaviest wheel end of each axle")
        yield Note("No published limit compares left and right; the tires and half the axle's rating judge.")
        yield Note(" ".join(hows))


def _row(assessment: Assessment, vehicle: str, axle: str) -> tuple[tuple[str, ...], str]:
    display = display_of(assessment)
    found = _heaviest(assessment, vehicle, axle)
    tire = assessment.known(f"tires.{vehicle}.{axle}.load_per_tire".replace(" ", "_"))
    load = display.text(tire.quantity if tire else None, "weight", "up")
    # The label may rule over the row: what the set-point leaves is the room that counts.
    point = assessment.known(f"tires.{vehicle}.{axle}.set_point".replace(" ", "_"))
    slack = point.slack if point and point.slack else "-"
    if found is None:
        return (f"{vehicle}, {axle}", BLANK, BLANK, BLANK, BLANK, load, slack), "not known."
    figure, title = found
    half = next((item.text for item in figure.inputs if item.name.startswith("half")), BLANK)
    room = figure.slack.removesuffix(_UNDER)
    room = f"{room.removesuffix(_OVER)} OVER" if room.endswith(_OVER) else room or "-"
    cells = (display.text(figure.quantity, "weight", "up"), title, half, room)
    rule = figure.rule.removeprefix("The heavier wheel end ")
    return (f"{vehicle}, {axle}", *cells, load, slack), rule.replace("(", "", 1).replace(")", " end", 1)


def _heaviest(assessment: Assessment, vehicle: str, axle: str) -> tuple[Figure, str] | None:
    known = [
        (figure, sentence(state.title, {}, assessment.rig.units))
        for state in trip_states(assessment.profile)
        if (figure := assessment.known(key_text(HEAVIER_END.of(vehicle, axle, state.key))))
        and figure.quantity is not None
    ]
    return max(known, key=lambda pair: _pounds(pair[0]), default=None)


def _pounds(figure: Figure) -> float:
    return 0.0 if figure.quantity is None else float(figure.quantity.to("pound").magnitude)
