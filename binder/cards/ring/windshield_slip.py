"""Card 12, the windshield slip: what must be known at a glance, and what a co-driver does first."""

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import is_coupled
from binder.assessment.figures import Figure
from binder.cards.blocks import Big, Block, Card
from binder.cards.display import Display
from binder.cards.figure_reasons import reason_of
from binder.cards.figure_values import quantity_of
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.quantities import Quantity

HEIGHT, WIDTH, LENGTH = "rig.overall_height", "rig.width_with_mirrors", "rig.combination_length"
MARGIN, WEIGHT = "route.lowest_clearance_margin", "weights.combination.heaviest.load"
_KEYS = (HEIGHT, WIDTH, LENGTH, WEIGHT, MARGIN)


def windshield_slip(assessment: Assessment) -> Card:
    """Make the slip that stands at the windshield."""
    display = Display(assessment.rig.units)
    figures = {key: figure for key in _KEYS if (figure := assessment.known(key))}
    names = {HEIGHT: "Height", WIDTH: "Width", LENGTH: "Length", WEIGHT: "Weight", MARGIN: "Lowest bridge"}
    told = tuple(reason_of(names[key], figure) for key, figure in figures.items())
    computed = {"sizes of the rig": (*_sizes(figures, assessment), *told)}
    said = said_card(card_words("windshield_slip"), assessment, computed)
    return Card(
        id="12",
        name="windshield_slip",
        title=said.title,
        sides=said.sides,
        wrong_as_soon_as=_wrong(figures, display),
        reasons=said.reasons,
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


def _wrong(figures: dict[str, Figure], display: Display) -> str:
    height, weight = quantity_of(figures.get(HEIGHT)), quantity_of(figures.get(WEIGHT))
    parts = []
    if height is not None:
        parts.append(f"the rig stands over {display.length(height)}")
    if weight is not None:
        parts.append(f"it weighs over {display.text(weight, 'weight', 'up')}")
    return ", ".join([*parts, "anything on the roof or any vehicle of the rig is changed."])
