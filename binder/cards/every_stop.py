"""Card 2, Every stop: one walk at each halt, a column of tick cells for each, and fueling behind.

The list is confirmed after the walk, in the order of the hands; what forbids moving on stands first in
its group. Fueling begins with the two things that cannot be undone under a roof: height and tail swing.
"""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import (
    DUALS,
    coupled_by,
    driven,
    equipped,
    every,
    holds,
    is_coupled,
    never,
    towed,
)
from binder.assessment.figures import Figure
from binder.cards.blocks import Block, Box, Card, End, Side
from binder.cards.both_systems import both_lengths
from binder.cards.display import BLANK, Display
from binder.cards.exhaust_fluid_rows import exhaust_fluid_start
from binder.cards.figure_reasons import reason_of
from binder.cards.figure_values import quantity_of
from binder.cards.held_down import carries_a_car, held_down, is_held_down
from binder.cards.procedure_lines import (
    Group,
    ProcedureLine,
    group_blocks,
    listed,
    reasons_of,
    with_number,
)
from binder.cards.rig_words import overall_height
from binder.models.rig import Rig

HEIGHT, TAIL_SWING = "rig.overall_height", "rig.tail_swing"
_FLUID = {
    "Carried can": "container_worth",
    "Exhaust fluid, topped up": "top_up",
    "Exhaust fluid, full tank": "range",
    "Exhaust fluid keeps": "shelf_life",
}
"""Figures of the exhaust fluid that the card's reasons tell; their values stand with the supplies."""
_WRONG_FLUID = (
    "In the wrong tank it is harmless until the key is turned: then the pump carries it everywhere."
)

STOPS = 4
"""Tick columns: a day of driving has seldom more halts, and cells stay over 8 mm wide."""


def _doors(rig: Rig) -> str:
    return "Doors, steps" if equipped("entry_step")(rig) else "Doors, by hand"


def _doors_state(rig: Rig) -> str:
    return "LOCKED, IN" if equipped("entry_step")(rig) else "LOCKED"


LINES = (
    ProcedureLine(
        "Monitor, moving",
        "NO ALARM",
        "wheels",
        equipped("tire_monitor"),
        reason="Read before stopping: the moving values are the ones that compare.",
    ),
    ProcedureLine(
        "Hubs, near the hand",
        "MATES ALIKE",
        "wheels",
        consequence="do not move",
        detail=with_number("limit {} over its mate", "hub over its mate"),
        reason="Smoke, smell, or a hub that much hotter than its mate: a bearing or a brake. "
        "Hand near, not on; or an infrared reading.",
    ),
    ProcedureLine("Tires", "NO BULGE, NO CUT", "wheels", consequence="do not move"),
    ProcedureLine("Between duals", "NO STONE", "wheels", DUALS),
    ProcedureLine(
        "Pins, cables, cord",
        "IN",
        "coupling",
        coupled_by("tow bar"),
        killer=True,
        consequence="do not move",
    ),
    ProcedureLine(
        "Handle pin, cord",
        "IN",
        "coupling",
        coupled_by("fifth wheel"),
        killer=True,
        consequence="do not move",
    ),
    ProcedureLine(
        "Latch, chains, cord",
        "PINNED",
        "coupling",
        coupled_by("ball", "gooseneck"),
        killer=True,
        consequence="do not move",
    ),
    ProcedureLine(
        held_down,
        "TIGHT",
        "coupling",
        is_held_down,
        killer=True,
        consequence="do not move",
        reason="Straps and turnbuckles work loose on the road; what they hold then rolls, slides or tips.",
    ),
    ProcedureLine(
        "Coupling welds",
        "NO RUST LINE",
        "coupling",
        is_coupled,
        killer=True,
        consequence="do not move",
        reason="Bar, receiver, base plate, rails, pin box: popped paint or a thin line of rust is a crack "
        "that opens.",
    ),
    ProcedureLine(
        "Push with the foot",
        "NO CLUNK",
        "coupling",
        # Where a car stands on what is towed, a push only tells of its springs: its straps are felt.
        every(coupled_by("tow bar", "ball"), never(coupled_by("dolly")), never(carries_a_car)),
        killer=True,
        consequence="do not move",
        reason="A firm push: no lift and no clunk, or something has worked loose.",
    ),
    ProcedureLine(
        "Pin plate on the head",
        "NO GAP",
        "coupling",
        coupled_by("fifth wheel"),
        killer=True,
        consequence="do not move",
        reason="Light between plate and head: the pin has ridden up in the jaws, or the head has tilted.",
    ),
    ProcedureLine(
        "Coupler on its ball",
        "NO GAP",
        "coupling",
        coupled_by("gooseneck"),
        killer=True,
        consequence="do not move",
        reason="A coupler that has lifted off its ball hangs on its latch alone.",
    ),
    ProcedureLine(_doors, _doors_state, "round"),
    ProcedureLine("Roof line, by eye", "NOTHING UP", "round"),
    ProcedureLine("Under the rig", "NO DRIPS", "round"),
    ProcedureLine("Glass, mirrors, lamps", "CLEAN", "round", reason="Last, with clean hands."),
)

_WHEELS = Group("wheels", "Each wheel", STOPS)
_COUPLING = Group("coupling", "Coupling", STOPS)
_ROUND = Group("round", "Round, to the door", STOPS)
_LANE = Group("lane", "Before the lane")
_PUMP = Group("pump", "At the pump")
_AFTER = Group("after", "Before moving")
WALK = (_WHEELS, _COUPLING, _ROUND)
FUEL = (_LANE, _PUMP, _AFTER)

_USE = "Do, then confirm. One column a stop. Interrupted: say the line."


def every_stop(assessment: Assessment) -> Card:
    """Make the card that is ticked at each halt, with fueling on its back."""
    rig = assessment.rig
    fuel_lines = tuple(fueling(assessment))
    named = {"Canopy": HEIGHT, "Tail swing": TAIL_SWING} if fuel_lines else {}
    fluid = exhaust_fluid_start(assessment)
    named |= {words: f"{fluid}.{key}" for words, key in _FLUID.items()} if fluid and fuel_lines else {}
    figures = {name: figure for name, key in named.items() if (figure := assessment.known(key))}
    sides = [Side(_USE, (*_blocks(WALK, LINES, rig), End("Every stop: complete")))]
    if fuel_lines:
        sides.append(Side("Do, then confirm, at each fuel stop.", _fuel_blocks(fuel_lines, rig)))
    return Card(
        id="2",
        name="every_stop",
        title="Every stop",
        sides=tuple(sides),
        wrong_as_soon_as=_wrong(assessment),
        reasons=(
            *reasons_of(WALK, LINES, rig),
            *reasons_of(FUEL, fuel_lines, rig),
            *(reason_of(name, figure) for name, figure in figures.items()),
        ),
        family="stop",
        rig=rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(figure.key for figure in figures.values()),
    )


def fueling(assessment: Assessment) -> Iterator[ProcedureLine]:
    """List the lines of a fuel stop, from the tanks of the vehicle that drives."""
    fuels = [
        tank for tank in driven(assessment.rig)[1].tanks.values() if tank.holds in {"diesel", "gasoline"}
    ]
    if not fuels:
        return
    yield from _before_the_lane(assessment)
    yield from _fillers(assessment)
    yield ProcedureLine("Caps", "ON, TIGHT", "after")
    yield ProcedureLine("Back to the vehicle", "EYES UP", "after", consequence="")
    yield ProcedureLine("Doors", "LOCKED", "after", consequence="")


def _before_the_lane(assessment: Assessment) -> Iterator[ProcedureLine]:
    display = Display(assessment.rig.units)
    needed = assessment.quantity("rig.clearance_needed")
    tall = overall_height(assessment)
    height = both_lengths(tall, display.length(tall), display.system)
    swing = quantity_of(assessment.known(TAIL_SWING))
    yield ProcedureLine(
        "Canopy, posted",
        f"OVER {display.length(needed)}",
        "lane",
        killer=True,
        consequence="do not move",
        detail=f"this rig stands {height}",
        reason="A canopy that is not posted is not known to be higher.",
    )
    yield ProcedureLine(
        "Tail swing past the pumps",
        f"{display.text(swing, 'inches', 'up')} CLEAR",
        "lane",
        killer=True,
        consequence="do not move",
        reason="The rear overhang swings out on the first turn away from the pump; a trailer's more than the "
        "towing vehicle's.",
    )
    yield ProcedureLine(
        "Burners, heaters",
        "OFF",
        "lane",
        holds("propane"),
        consequence="do not move",
        reason="Flames and igniters, before the lane and not in it.",
        source="W45",
    )


def _fillers(assessment: Assessment) -> Iterator[ProcedureLine]:
    rig = assessment.rig
    tanks = driven(rig)[1].tanks
    for name, tank in tanks.items():
        if tank.holds in {"diesel", "gasoline", "exhaust fluid"}:
            alone = sum(other.holds == tank.holds for other in tanks.values()) == 1
            where = (tank.filler or BLANK).upper()
            is_fluid = tank.holds == "exhaust fluid"
            yield ProcedureLine(
                f"Filler, {tank.holds if alone else name}",
                f"{where}, BLUE CAP" if is_fluid else where,
                "pump",
                consequence="",
                detail=_apart(assessment) if is_fluid else "",
                reason=_WRONG_FLUID if is_fluid else "",
            )
    yield from _carried(assessment)


def _apart(assessment: Assessment) -> str:
    """Say how far the exhaust fluid's filler is from the fuel's, where both are on one side."""
    start = exhaust_fluid_start(assessment)
    apart = assessment.quantity(f"{start}.fillers_apart") if start else None
    if apart is None:
        return ""
    span = Display(assessment.rig.units).text(apart, "span", "up")
    return f"{span} from the fuel's: pull ahead, or use the can"


def _carried(assessment: Assessment) -> Iterator[ProcedureLine]:
    """The container of exhaust fluid: filled at the pump where only it reaches there, else kept full."""
    rig, start = assessment.rig, exhaust_fluid_start(assessment)
    worth = assessment.known(f"{start}.container_worth") if start else None
    detail = _worth(worth, rig) if worth and worth.quantity is not None else ""
    fuel, fluid = _sides(rig, "diesel"), _sides(rig, "exhaust fluid")
    if fuel and fluid and fuel.isdisjoint(fluid):
        reason = "The two fillers are on different sides: the hose reaches one of them."
        name = "Carried can, at the pump"
        yield ProcedureLine(name, "FILLED", "pump", consequence="go", detail=detail, reason=reason)
    elif detail:
        yield ProcedureLine("Carried can", "FULL", "pump", consequence="go", detail=detail)


def _worth(worth: Figure, rig: Rig) -> str:
    held = next((item.text for item in worth.inputs if item.name == "held"), BLANK)
    return f"{held} is worth {Display(rig.units).text(worth.quantity, 'distance', 'down')}"


def _sides(rig: Rig, contents: str) -> set[str]:
    words = (
        (tank.filler or "").lower().split()
        for tank in driven(rig)[1].tanks.values()
        if tank.holds == contents
    )
    return {word for filler in words for word in filler if word in {"left", "right"}}


def _blocks(groups: tuple[Group, ...], lines: tuple[ProcedureLine, ...], rig: Rig) -> tuple[Block, ...]:
    return tuple(block for group in groups for block in group_blocks(group, lines, rig))


def _fuel_blocks(lines: tuple[ProcedureLine, ...], rig: Rig) -> tuple[Block, ...]:
    wrong_fluid = Box("Wrong fluid in? Do not turn the key.", (), "WARNING")
    return (
        *group_blocks(_LANE, lines, rig),
        wrong_fluid,
        *group_blocks(_PUMP, lines, rig),
        Box("A stranger asks? Look for the second.", (), "CAUTION"),
        *group_blocks(_AFTER, lines, rig),
        End("Fuel: complete"),
    )


def _wrong(assessment: Assessment) -> str:
    height = overall_height(assessment)
    over = Display(assessment.rig.units).length(height)
    parts = [
        *([f"higher than {over}"] if height is not None else []),
        "a tank, a filler",
        *[f"the {behind}" for behind, _ in towed(assessment.rig)],
    ]
    return f"{listed(parts)} changed."
