"""The lines of coupling and uncoupling for every way of coupling, each with the ways it belongs to.

They are read and then done, so they keep the order of the hands; nearly every line is a killer line, and
taking those first would break the order in which the parts can be joined.
"""

from dataclasses import replace

from binder.assessment.conditions import (
    BREAKAWAY,
    DISTRIBUTION,
    ELECTRIC_BRAKES,
    LAMP_IN_CAB,
    ON_A_HITCH,
    SUPPLEMENTAL_BRAKE,
    TOWED_CAR,
    Condition,
    carried,
    coupled_by,
    driven,
    either,
    equipped,
    every,
    never,
    towed,
)
from binder.cards.held_down import carries_a_car
from binder.cards.procedure_lines import ProcedureLine, Wording, listed, with_number
from binder.models.rig import Rig


def _behind(rig: Rig) -> str:
    """What stands alone and could roll before it is coupled: of a car and its dolly the dolly."""
    names = [name for name, _ in towed(rig)]
    return next((name for name, vehicle in towed(rig) if vehicle.kind == "dolly"), names[-1])


def _parking_brake(rig: Rig) -> str:
    return f"Parking brake, {driven(rig)[0]}"


def _chocks(rig: Rig) -> str:
    return f"Chocks, {_behind(rig)}"


def _lights(rig: Rig) -> str:
    """On a dolly the car's rear is the rear of the rig, and its lights are often a set of their own."""
    return "Lights, dolly, car" if _DOLLY(rig) else "Lights, each one"


def _tongue(rig: Rig) -> str:
    return f"Tongue, lifted by {'hand' if _DOLLY(rig) else 'jack'}"


def _on_the_trailer(rig: Rig) -> str:
    names = [name for name, vehicle in carried(rig) if vehicle.axles]
    return f"{listed(names).capitalize()}, on the trailer"


def _straps(rig: Rig) -> str:
    names = [name for name, vehicle in carried(rig) if vehicle.axles]
    return f"Straps, {', '.join(names)}, all wheels"


def _killer(
    challenge: Wording, answer: Wording, place: str, needs: Condition, reason: str = ""
) -> ProcedureLine:
    return ProcedureLine(
        challenge, answer, place, needs, killer=True, consequence="do not move", reason=reason
    )


def _tight(challenge: Wording, needs: Condition, reason: str) -> ProcedureLine:
    again = with_number("again after {}, then at every stop", "straps again")
    return replace(_killer(challenge, "TIGHT", "tie", needs, reason), detail=again)


_BAR, _DOLLY = coupled_by("tow bar"), coupled_by("dolly")
_BALL, _FIFTH, _GOOSE = coupled_by("ball"), coupled_by("fifth wheel"), coupled_by("gooseneck")
_TONGUE = coupled_by("ball", "gooseneck")
_IN_THE_BED = coupled_by("fifth wheel", "gooseneck")
_ANY = coupled_by("tow bar", "dolly", *ON_A_HITCH)
_HITCHED = every(coupled_by(*ON_A_HITCH), never(_DOLLY))
"""A trailer hangs on its hitch; a dolly hangs there too, and has lines of its own where they differ."""

_ON_A_JACK = every(_TONGUE, never(_DOLLY))
"""A dolly's tongue is lifted by hand."""


def _not_told(rig: Rig) -> bool:
    """The maker's words say how to prepare; only what proves the coupling is said beside them."""
    return not any(vehicle.towing and vehicle.towing.as_its_maker_says for _, vehicle in towed(rig))


def _over_a_tailgate(rig: Rig) -> bool:
    return _IN_THE_BED(rig) and driven(rig)[1].kind == "pickup"


def _undone(challenge: Wording, answer: Wording, needs: Condition, reason: str = "") -> ProcedureLine:
    return ProcedureLine(
        challenge, answer, "uncouple", needs, consequence="", killer=bool(reason), reason=reason
    )


LINES = (
    # Connect: level, straight ground.
    _killer(_parking_brake, "ON", "connect", either(_BAR, _DOLLY)),
    _killer(
        _chocks, "IN", "connect", _ANY, "A vehicle that is not coupled yet rolls onto whoever kneels there."
    ),
    ProcedureLine("Bar on base plate", "CONNECTED", "connect", _BAR),
    ProcedureLine("Tailgate, to back under", "DOWN", "connect", every(_over_a_tailgate, _not_told)),
    ProcedureLine(
        "Jaws, before backing", "OPEN", "connect", every(_FIFTH, _not_told), consequence="do not move"
    ),
    ProcedureLine(
        "Pin plate, at the head",
        "LOWER",
        "connect",
        every(_FIFTH, _not_told),
        consequence="do not move",
        detail="a little: the head lifts it",
        reason="The head lifts the plate as it backs under; a pin that rides high sits on top of the jaws.",
    ),
    _killer(_parking_brake, "ON", "connect", _HITCHED),
    _killer("Coupler on the ball", "DOWN", "connect", _ON_A_JACK),
    _killer("Latch", "CLOSED, PINNED", "connect", _TONGUE),
    _killer(
        _tongue,
        "BALL HOLDS",
        "connect",
        _BALL,
        "A coupler that sits on top of the ball lets go here and not on the road.",
    ),
    _killer(
        "Jaws, with a light",
        "CLOSED ON PIN",
        "connect",
        _FIFTH,
        "The handle can lock over jaws that missed the pin: only the eye tells.",
    ),
    _killer("Handle", "LOCKED, CLIPPED", "connect", _FIFTH),
    # Latch, tie and plug.
    _killer("Arms, both", "LATCHED", "tie", _BAR),
    _killer("Pins, clips", "COUNTED, IN", "tie", _BAR),
    ProcedureLine(
        "Bar, off level",
        with_number("UNDER {}", "bar level"),
        "tie",
        _BAR,
        reason="A bar farther out of level pushes the towed car up or down when braking.",
    ),
    _killer(
        "Spring bars, tongue lifted",
        "ON",
        "tie",
        DISTRIBUTION,
        "The loads of this rig are reckoned with bars on; the receiver's lower rating holds without them. "
        "The jack lifts tongue and hitch, so that no bar is forced.",
    ),
    ProcedureLine("Safety cables", "CLIPPED", "tie", _BAR, consequence="do not move"),
    ProcedureLine("Safety chains", "CROSSED, CLIPPED", "tie", _BALL, consequence="do not move"),
    ProcedureLine("Safety chains", "CLIPPED", "tie", _GOOSE, consequence="do not move"),
    ProcedureLine(
        "Cord",
        "IN, DRIP LOOP",
        "tie",
        _ANY,
        reason="A loop lower than the plug keeps rain out of it, and gives length in turns.",
    ),
    ProcedureLine(
        "Breakaway cable", "CLIPPED, SLACK", "tie", every(BREAKAWAY, _BAR), consequence="do not move"
    ),
    _killer(
        "Breakaway cable",
        "CLIPPED, SLACK",
        "tie",
        every(BREAKAWAY, coupled_by(*ON_A_HITCH)),
        "On the towing vehicle's frame and not on the hitch: it must stay behind when the hitch lets go.",
    ),
    _killer(
        "Pull, trailer brakes on",
        "HOLDS",
        "tie",
        _IN_THE_BED,
        "A gentle pull forward, legs just off the ground and chocks in: the coupling must hold.",
    ),
    _killer("Jack", "UP", "tie", _ON_A_JACK),
    _killer("Legs", "UP, PINNED", "tie", _FIFTH),
    ProcedureLine("Tailgate", "UP", "tie", every(_over_a_tailgate, _not_told)),
    # Only now the car: a dolly that is not coupled tips as the car climbs it.
    ProcedureLine("Car on the dolly", "CENTERED", "tie", _DOLLY),
    _tight(
        "Straps, both wheels",
        _DOLLY,
        "A strap settles on its tire and goes slack in the first miles; a car whose strap is off climbs out "
        "of the dolly.",
    ),
    _killer(
        _on_the_trailer,
        "AT MARK",
        "tie",
        carries_a_car,
        "The tongue's load is reckoned for that place alone; farther back the trailer sways.",
    ),
    _tight(
        _straps,
        carries_a_car,
        "They settle in the first miles; a car on slack straps rolls or slides.",
    ),
    # Prove it, every time.
    _killer(
        "Breakaway pin, pulled",
        "BRAKE ON",
        "prove",
        BREAKAWAY,
        "The pin is pulled by hand, the brake applies, the pin goes back and the brake lets go.",
    ),
    _killer("Breakaway pin", "IN, RESET", "prove", BREAKAWAY),
    _killer("Supplemental brake", "PEDAL MOVES", "prove", SUPPLEMENTAL_BRAKE),
    _killer("Brake lamp in the cab", "LIT", "prove", LAMP_IN_CAB),
    _killer(
        "Controller, by hand", "BRAKES HOLD", "prove", every(ELECTRIC_BRAKES, equipped("brake_controller"))
    ),
    ProcedureLine(
        _lights,
        "LIT",
        "prove",
        _ANY,
        consequence="do not move",
        detail="alone: phone camera, a reflection, a stick on the pedal",
        reason="Running, left, right, brake: proved every time, since a plug that is in may still be dead.",
    ),
    # The first stretch.
    ProcedureLine("Chocks", "OUT, STOWED", "stretch", _ANY, consequence="do not move"),
    _killer("Towed wheels", "ALL TURNING", "stretch", _ANY),
    ProcedureLine("Gentle brake", "STRAIGHT, NO CLUNK", "stretch", _ANY, consequence="do not move"),
    ProcedureLine(
        "Backing up, coupled",
        "NEVER",
        "stretch",
        either(_BAR, _DOLLY),
        consequence="",
        killer=True,
        reason="The towed wheels turn across and the bar or the axle bends: uncouple first.",
    ),
    # Uncouple: the other way round, chock first.
    _killer(_chocks, "IN", "uncouple", _ANY),
    _killer(_parking_brake, "ON", "uncouple", _ANY),
    _undone("Tailgate, to drive out", "DOWN", _over_a_tailgate),
    _undone("Car, maker's words", "UNDONE, LAST FIRST", _DOLLY),
    _undone(
        "Straps, then car", "OFF", _DOLLY, "The car's brake holds it first: a car without straps rolls off."
    ),
    _undone("Cord, chains, cable", "OFF, STOWED", _DOLLY),
    _undone("Cord, cables", "OFF, STOWED", _BAR),
    _undone("Jack", "DOWN, LOADED", _ON_A_JACK, "The weight must stand on the jack before anything opens."),
    _undone("Legs", "DOWN, LOADED", _FIFTH, "Jaws that open too early drop the pin on the bed."),
    _undone(
        "Spring bars, tongue lifted",
        "OFF",
        DISTRIBUTION,
        "A bar under load strikes whoever opens its bracket: first the jack lifts tongue and hitch, until "
        "the bars are slack.",
    ),
    _undone("Cord", "OFF, STOWED", _HITCHED),
    _undone("Breakaway cable", "OFF", every(BREAKAWAY, _HITCHED)),
    _undone("Safety chains", "OFF", _ON_A_JACK),
    _undone("Arms, both", "UNLATCHED", _BAR),
    _undone("Bar", "OFF, STOWED", _BAR),
    _undone("Latch", "OPEN", _TONGUE),
    _undone("Jaws", "OPEN", _FIFTH),
    _undone("Car, maker's words", "UNDONE, LAST FIRST", every(TOWED_CAR, never(_DOLLY))),
)
