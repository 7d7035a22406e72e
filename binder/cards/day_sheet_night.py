"""The end of a day sheet's back: tonight's place, and the odometer."""

from collections.abc import Mapping

from binder.assessment.figures import Figure
from binder.cards.blocks import Blank, Block, Line, Table
from binder.cards.display import Display
from binder.cards.figure_values import quantity_of, words_of
from binder.models.trip import TravelDay


def night_blocks(own: Mapping[str, Figure], plan: TravelDay, display: Display) -> tuple[Block, ...]:
    """Tell of the night after a day, below the stop it is spent at.

    Args:
        own: figures of the day by the last word of their keys [figure].
        plan: of the day.
        display: of the rig [display].

    Returns:
        Lows and what they freeze, gate and telephone; nothing where the plan has no night.

    Sources:
        trip plan; the figures' own.

    Example:
        >>> plan = TravelDay.model_validate({"leave": "2026-06-01 09:00", "legs": [{"to": {"place": "x"}}]})
        >>> night_blocks({}, plan, Display("us"))
        ()
    """
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
    """Leave room for the odometer, which is what the log lives from.

    Args:
        plan: of the day.

    Returns:
        A table with room for leaving, for each fuel stop, and for arriving.

    Sources:
        Design.

    Example:
        >>> plan = TravelDay.model_validate({"leave": "2026-06-01 09:00", "legs": [{"to": {"place": "x"}}]})
        >>> odometer_blocks(plan)[0].headers
        ('', 'Leaving', 'Arrived')
    """
    fuel = (leg.to.place.split(",")[0] for leg in plan.legs if leg.to.kind == "fuel")
    headers = ("", "Leaving", *fuel, "Arrived")
    return (Table(headers, (("Odometer", *("" for _ in headers[1:])),)),)
