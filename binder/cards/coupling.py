"""Card 4, Coupling and uncoupling: read, then done, in the order in which the parts can be joined."""

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import (
    TOWED_CAR,
    carried,
    coupled_by,
    either,
    is_coupled,
    towed,
)
from binder.cards.blocks import Blank, Block, Card, End, Heading, Note, Side, Step
from binder.cards.coupling_lines import LINES
from binder.cards.grave_words import grave_findings, stop_words
from binder.cards.held_down import carries_a_car
from binder.cards.procedure_lines import Group, group_blocks, listed, reasons_of, with_number
from binder.models.rig import Rig
from binder.models.vehicles import Vehicle

_ON_WHEELS, _TRAILERS = ("car", "pickup"), ("trailer", "dolly")
_stands_on_what_is_towed = either(coupled_by("dolly"), carries_a_car)


def _connect_heading(rig: Rig) -> str:
    """Where a trailer's maker says how it is joined, the lines after it are what must be seen then."""
    return "Joined: see each" if makers_words(rig, _TRAILERS) else "Connect"


_CONNECT = Group("connect", _connect_heading, killers_first=False)
_TIE = Group("tie", "Latch, tie, plug", killers_first=False)
_PROVE = Group("prove", "Prove it, every time", killers_first=False)
_STRETCH = Group("stretch", with_number("First {}, then stop", "first stretch"), killers_first=False)
_UNCOUPLE = Group("uncouple", "Uncouple: chock first", killers_first=False)
GROUPS = (_CONNECT, _TIE, _PROVE, _STRETCH, _UNCOUPLE)

BLANK_STEPS = 4
"""Ruled lines for the maker's procedure where the profile does not give it; most have four to six steps."""

_USE = (
    "Read, then do. Level, straight ground. Interrupted: say the line you hold at. Place lost: start again."
)
_USE_GRAVE = "Read, then do."


def coupling(assessment: Assessment) -> Card | None:
    """Make the card for joining what is towed, and for parting it."""
    rig = assessment.rig
    if not is_coupled(rig):
        return None
    cars, stands = makers_words(rig, _ON_WHEELS), _stands_on_what_is_towed(rig)
    front = (
        # A trailer's maker joins it from the first chock on; a car is set up once it hangs on its bar, or
        # once it is strapped to its dolly or trailer.
        *makers_words(rig, _TRAILERS),
        *group_blocks(_CONNECT, LINES, rig),
        *(() if stands else cars),
        *group_blocks(_TIE, LINES, rig),
        *(cars if stands else ()),
    )
    back = (
        *group_blocks(_PROVE, LINES, rig),
        *group_blocks(_STRETCH, LINES, rig),
        *group_blocks(_UNCOUPLE, LINES, rig),
        *_notes(rig),
        End("Coupling: complete"),
    )
    grave = grave_findings(assessment, "coupling.", "weights.combination.")
    use = f"{stop_words('DO NOT TOW', grave)} {_USE_GRAVE}" if grave else _USE
    return Card(
        id="4",
        name="coupling",
        title="Coupling and uncoupling",
        sides=(Side(use, front), Side("", back)),
        wrong_as_soon_as=_wrong(rig),
        reasons=reasons_of(GROUPS, LINES, rig),
        family="drive",
        rig=rig.name,
        effective=assessment.on.isoformat(),
    )


def makers_words(rig: Rig, kinds: tuple[str, ...]) -> tuple[Block, ...]:
    """Set the steps a towed vehicle needs, as its maker says them; for a car, ruled lines for them.

    Why: a car cannot be towed without its maker's steps; a trailer's words stand beside lines that hold
    for every trailer, and are left out where they are not given.
    """
    return tuple(
        block
        for name, vehicle in (*towed(rig), *carried(rig))
        if vehicle.kind in kinds
        for block in _makers_steps(name, vehicle, is_needed=(name, vehicle) in towed(rig))
    )


def _makers_steps(name: str, vehicle: Vehicle, *, is_needed: bool) -> tuple[Block, ...]:
    words = (vehicle.towing.as_its_maker_says or []) if vehicle.towing else []
    if not words and not (is_needed and vehicle.kind in _ON_WHEELS):
        return ()
    steps = tuple(Step(text, str(number), killer=True) for number, text in enumerate(words, 1))
    blanks = tuple(Blank(str(number)) for number in range(1, BLANK_STEPS + 1))
    return (Heading(f"{name[:1].upper()}{name[1:]}, in its maker's words"), *(steps or blanks))


def _notes(rig: Rig) -> tuple[Block, ...]:
    on_wheels = TOWED_CAR(rig) and not coupled_by("dolly")(rig)
    battery = "The battery of a towed car drains: it may not start. " if on_wheels else ""
    often = "Have the coupling serviced at least twice a year when traveling much."
    return (Note(battery + often),)


def _wrong(rig: Rig) -> str:
    links = [
        f"the {link.how} between {link.ahead} and {link.behind}"
        for link in rig.couplings
        if link.behind in dict(towed(rig)) and link.how != "dolly"
    ]
    parts = [*links, *[f"the {name}" for name, _ in (*towed(rig), *carried(rig))]]
    brakes = ", its brake or its maker's procedure" if TOWED_CAR(rig) else " or its brakes"
    return f"{listed(parts)}{brakes} is changed."
