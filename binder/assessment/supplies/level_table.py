"""How long each resource lasts with its tank full, half and a quarter full: to look up with today's level."""

from collections.abc import Iterator

from binder.assessment.figures import Figure, Ledger
from binder.assessment.supplies.lasting_resources import Lasting, Levels, SittingPlace, battery_at, tanks_at
from binder.assessment.supplies.walk import SupplyWalk
from binder.assessment.wording import Wording
from binder.quantities import Temperature

SHARES = (("full", 1.0), ("half", 0.5), ("quarter", 0.25))
"""What is left: of what a tank holds when full, and in a waste tank of its room."""

_SOURCE = "profile; trip plan; practice; arithmetic"
_WASTE = frozenset({"gray water", "black water"})


def enter_level_table(walk: SupplyWalk, low: Temperature | None, wording: Wording, ledger: Ledger) -> None:
    """Enter how long each resource lasts at each of the shares."""
    for share, part in SHARES:
        for item in _lasting(walk, part, low, wording):
            key = f"sitting_out.by_level.{item.name.replace(' ', '_')}.{share}"
            rule = f"with {share} left of what its tank holds, at the use of the plan"
            if item.name in _WASTE:
                rule = f"with {share} left of the room in its tank, at the use of the plan"
            if item.name == "house battery":
                rule = f"with {share} left of the part that may be drawn, at the use of the plan"
            ledger.add(Figure(key, item.lasts, "calculated", rule, _SOURCE, item.inputs))


def _lasting(walk: SupplyWalk, part: float, low: Temperature | None, wording: Wording) -> Iterator[Lasting]:
    waste = {*walk.tanks.chains.gray, *walk.tanks.chains.black}
    levels: Levels = {
        name: None if item.full is None else item.full * (1 - part if name in waste else part)
        for name, item in walk.tanks.tanks.items()
    }
    battery = walk.tanks.battery
    place = (
        SittingPlace("", levels, low)
        if battery is None
        else SittingPlace("", levels, low, battery.usable * (1 - part))
    )
    yield from tanks_at(walk, place, wording)
    found = battery_at(walk, place)
    if found is not None:
        yield found
