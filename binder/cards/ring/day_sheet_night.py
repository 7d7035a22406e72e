"""The end of a day sheet's back: tonight's place, and the odometer."""

from collections.abc import Mapping

from binder.assessment.figures import Figure
from binder.cards.blocks import Blank, Block, Line, Table
from binder.cards.display import Display
from binder.cards.figure_values import quantity_of, words_of
from binder.models.trip import TravelDay


def night_blocks(own: Mapping[str, Figure], plan: TravelDay, display: Display) -> tuple[Block, ...]:
    """Tell of the night after a day, below the stop it is spent at."""
    night = plan.night
    if night is None:
        return ()
    freezes = words_of(own.get("freezes"))
    told = "" if freezes is None else "freezes nothing aboard" if freezes == "nothing" else freezes
    low = display.text(quantity_of(own.get("night_low")), "temperature", "down")
    high = f" to {display.text(night.high, 'temperature', 'up')}" if night.high is not None else ""
    return (
        Line("Tonight, low to high", f"{low}{high}", told),
        *((Line("Gate", night.gate),) if night.gate else (Blank("Gate"),)),
        *((Line("Phone", night.phone),) if night.phone else (Blank("Phone"),)),
    )


def odometer_blocks(plan: TravelDay) -> tuple[Block, ...]:
    """Leave room for the odometer, which is what the log lives from."""
    fuel = (leg.to.place.split(",")[0] for leg in plan.legs if leg.to.kind == "fuel")
    headers = ("", "Leaving", *fuel, "Arrived")
    return (Table(headers, (("Odometer", *("" for _ in headers[1:])),)),)
