"""Card 12, the windshield slip: what must be known at a glance, and what a co-driver does first."""

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import driven, is_coupled
from binder.assessment.figures import Figure
from binder.cards.blocks import Big, Block, Card, End, Heading, Reason, Side, Step
from binder.cards.display import Display
from binder.cards.figure_reasons import reason_of
from binder.cards.figure_values import quantity_of
from binder.quantities import Quantity

HEIGHT, WIDTH, LENGTH = "rig.overall_height", "rig.width_with_mirrors", "rig.combination_length"
MARGIN, WEIGHT = "route.lowest_clearance_margin", "weights.combination.heaviest.load"
_KEYS = (HEIGHT, WIDTH, LENGTH, WEIGHT, MARGIN)

_CO_DRIVER = Reason(
    "Driver unwell",
    "Flashers first, then a straight stop off the road; the words are those beside the control. "
    "Practice it once, standing. 911 in the United States and Canada, 112 in Europe.",
    "practice; W34; W35",
)
# Practice; the words are those beside the control.
_PARKING_BRAKE = {
    "air": "Parking brake: PULL the yellow knob.",
    "hydraulic": "Parking brake: SET, selector in park.",
}


def windshield_slip(assessment: Assessment) -> Card:
    """Make the slip that stands at the windshield."""
    display = Display(assessment.rig.units)
    figures = {key: figure for key in _KEYS if (figure := assessment.known(key))}
    names = {HEIGHT: "Height", WIDTH: "Width", LENGTH: "Length", WEIGHT: "Weight", MARGIN: "Lowest bridge"}
    return Card(
        id="12",
        name="windshield_slip",
        title="Windshield slip",
        sides=(
            Side("Read at a glance, from the seat.", (*_sizes(figures, assessment), *_co_driver(assessment))),
        ),
        wrong_as_soon_as=_wrong(figures, display),
        reasons=(*(reason_of(names[key], figure) for key, figure in figures.items()), _CO_DRIVER),
        family="help",
        rig=assessment.rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(figures),
    )


def _sizes(figures: dict[str, Figure], assessment: Assessment) -> tuple[Block, ...]:
    display = Display(assessment.rig.units)
    height, width, length, weight = (quantity_of(figures.get(key)) for key in (HEIGHT, WIDTH, LENGTH, WEIGHT))
    room = quantity_of(figures.get(MARGIN))
    other = Display("metric" if display.system == "us" else "us")
    return (
        Big("Height", display.length(height), _joined(_also(height, other), _spare(room, display)), 40),
        Big("Width, mirrors out", display.length(width), _also(width, other), 32),
        Big(
            "Length, coupled" if is_coupled(assessment.rig) else "Length",
            display.length(length),
            _also(length, other),
            32,
        ),
        Big("Weight, all of it", display.text(weight, "weight", "up"), _heavy(weight, other), 32),
    )


def _also(quantity: Quantity | None, other: Display) -> str:
    return "" if quantity is None else other.length(quantity)


def _heavy(quantity: Quantity | None, other: Display) -> str:
    return "" if quantity is None else f"{other.text(quantity, 'weight', 'up')}, at its heaviest"


def _spare(room: Quantity | None, display: Display) -> str:
    if room is None:
        return ""
    if room.magnitude < 0:
        return "TOO HIGH: card 5"
    return f"{display.length(room, 'down')} to spare"


def _joined(*parts: str) -> str:
    return ", ".join(part for part in parts if part)


def _co_driver(assessment: Assessment) -> tuple[Block, ...]:
    _, vehicle = driven(assessment.rig)
    service = vehicle.brakes.service if vehicle.brakes else None
    brake = _PARKING_BRAKE.get(service or "", "Parking brake: SET.")
    return (
        Heading("Driver unwell? Co-driver"),
        Step("Flashers: ON.", "1"),
        Step("Wheel straight, brake firm, off the road.", "2"),
        Step(brake, "3"),
        Step("Call 911 (Europe: 112). Place: card 6.", "4"),
        End("Windshield slip: complete"),
    )


def _wrong(figures: dict[str, Figure], display: Display) -> str:
    height, weight = quantity_of(figures.get(HEIGHT)), quantity_of(figures.get(WEIGHT))
    parts = []
    if height is not None:
        parts.append(f"the rig stands over {display.length(height)}")
    if weight is not None:
        parts.append(f"it weighs over {display.text(weight, 'weight', 'up')}")
    return ", ".join([*parts, "anything on the roof or any vehicle of the rig is changed."])
