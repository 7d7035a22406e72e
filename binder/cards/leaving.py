"""Card 1, Leaving: done from memory, then confirmed line by line before the wheels turn.

The walk goes once round from the entry door and is read back at the door, so a group can have its
killer lines first and its other lines in reach order, with no second walk.
"""

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import driven, equipped, holds, towed
from binder.cards.blocks import Block, Card, End, Side
from binder.cards.grave_words import grave_findings
from binder.cards.leaving_lines import LINES
from binder.cards.procedure_lines import Group, group_blocks, listed, reasons_of, with_number
from binder.models.rig import Rig

_CHANGES = {"slide": "slides", "awning": "awning", "leveling_jacks": "jacks"}
_INSIDE = Group("inside", "Inside")
_WALK = Group("walk", "Walk, from the door")
_WHEELS = Group("wheels", "Same walk, wheels")
_SEAT = Group("seat", "Seat")
_MOVING = Group("moving", with_number("First {}, then stop", "first stretch"))
_SEASON = Group("season", "Season start")
GROUPS = (_INSIDE, _WALK, _WHEELS, _SEAT, _MOVING, _SEASON)

_USE = (
    "Do, then confirm. Walk once round, read each group back at its end. "
    "Interrupted: say the line you hold at. Place lost: start again."
)

_USE_GRAVE = (
    "DO NOT DRIVE: see the first list of the binder. Do, then confirm. Walk once round. "
    "Interrupted: say the line you hold at."
)


def leaving(assessment: Assessment) -> Card:
    """Make the card that is confirmed before the rig moves."""
    rig = assessment.rig
    front = _blocks((_INSIDE, _WALK), rig)
    back = (*_blocks((_WHEELS, _SEAT, _MOVING, _SEASON), rig), End("Leaving: complete"))
    return Card(
        id="1",
        name="leaving",
        title="Leaving",
        sides=(Side(_USE_GRAVE if grave_findings(assessment, "") else _USE, front), Side("", back)),
        wrong_as_soon_as=_wrong(rig),
        reasons=reasons_of(GROUPS, LINES, rig),
        family="drive",
        rig=rig.name,
        effective=assessment.on.isoformat(),
    )


def _blocks(groups: tuple[Group, ...], rig: Rig) -> tuple[Block, ...]:
    return tuple(block for group in groups for block in group_blocks(group, LINES, rig))


def _wrong(rig: Rig) -> str:
    _, vehicle = driven(rig)
    parts = [
        *[word for name, word in _CHANGES.items() if equipped(name)(rig)],
        *(["propane rule"] if holds("propane")(rig) else []),
        *([f"{vehicle.brakes.service} brakes"] if vehicle.brakes and vehicle.brakes.service else []),
        *[f"the {name} behind" for name, _ in towed(rig)],
    ]
    return f"{listed(parts or ['anything that opens'])} changed."
