"""Card 6, Breakdown, first minutes: read, then done; what to say to whom stands on the back.

The steps keep the order in which they save lives: out of the lane, seen, out of the way. Devices come
after people, and are counted in steps, since nobody carries a tape on a shoulder.
"""

from binder.assessment.assessment import Assessment
from binder.assessment.procedure_numbers import procedure_constant, procedure_number
from binder.cards.blocks import Blank, Block, Box, Card, End, Heading, Line, Reason, Side, Step, Table
from binder.cards.breakdown_words import what_we_are
from binder.cards.conditions import equipped, holds, towed
from binder.cards.procedure_lines import listed
from binder.models.rig import Rig

CONTACT_LINES = 3
"""Contacts on the card; the binder's page has room for all."""

_USE = "Read, then do. One reads aloud, one does. Place lost: start again."
_USE_BACK = "Read this aloud to whoever answers."


def breakdown(assessment: Assessment) -> Card:
    """Make the card for the first minutes of a breakdown.

    Args:
        assessment: this rig on this trip [assessment].

    Returns:
        The card: what to do on the front, what to say behind.

    Sources:
        49 CFR 392.22 for the devices; practice for the rest.

    Example:
        >>> breakdown.__name__
        'breakdown'
    """
    rig = assessment.rig
    facts, figures = what_we_are(assessment)
    back = (
        Heading("Whom to call"),
        Line("Emergency, US / EU", _emergency(rig)),
        *_contacts(assessment),
        Heading("Say where"),
        Blank("Road, direction, marker"),
        Blank("Latitude, longitude"),
        Blank("What, people, pets"),
        Heading("Say what"),
        *facts,
        End("Breakdown: complete"),
    )
    return Card(
        id="6",
        name="breakdown",
        title="Breakdown, first minutes",
        sides=(Side(_USE, _front(rig)), Side(_USE_BACK, back)),
        wrong_as_soon_as=_wrong(rig),
        reasons=_reasons(rig),
        family="help",
        rig=rig.name,
        effective=assessment.on.isoformat(),
        figures=figures,
    )


def _front(rig: Rig) -> tuple[Block, ...]:
    dressed = "Vest on" if equipped("vests")(rig) else "Something bright on"
    return (
        Step("Off the road, as far as it goes.", "1"),
        Step("Flashers on.", "2"),
        Step("Parking brake on. Drums smoke: chocks.", "3"),
        Box(f"{dressed} before any door opens.", (), "DANGER"),
        Step("Everyone out, away from traffic.", "4"),
        Step("Everyone behind the rail.", "5"),
        Step("Fuel or gas leaking:"),
        Step("No flame, no flare. Then card 9.", indent=True),
        Step("No safe way to the rear:"),
        Step("Stay behind the rail. Flashers only.", indent=True),
        *_devices(rig),
        Step("Call: turn this card over.", "7" if equipped("warning_devices")(rig) else "6"),
    )


def _devices(rig: Rig) -> tuple[Block, ...]:
    if not equipped("warning_devices")(rig):
        return ()
    last = towed(rig)[-1][0] if rig.couplings else "rig"
    near, far, farthest = (
        procedure_number(f"steps {name}", rig.units).split()[0] for name in ("near", "far", "farthest")
    )
    hidden = procedure_number("steps out of sight", rig.units).split()[0]
    return (
        Step(f"Devices, facing traffic. Steps behind the {last}:", "6"),
        Table(
            ("Road", "1st, traffic side", "2nd", "3rd"),
            (("Two-way", near, far, f"{far} ahead"), ("Divided, one-way", near, far, farthest)),
        ),
        Step(f"Hill or curve within {procedure_number('device out of sight', rig.units)}:"),
        Step(f"Device on that side: {far} to {hidden} steps.", indent=True),
    )


def _emergency(rig: Rig) -> str:
    american, european = (
        procedure_number(f"emergency call, {place}", rig.units)
        for place in ("United States", "European Union")
    )
    return f"{american} / {european}"


def _contacts(assessment: Assessment) -> tuple[Block, ...]:
    private = assessment.profile.private
    known = [contact for contact in private.contacts if contact.phone] if private else []
    lines = tuple(Line(contact.who, contact.phone or "") for contact in known[:CONTACT_LINES])
    return (
        lines
        + tuple(Blank(name) for name in ("Roadside, towing", "Tire service", "Who to tell"))[len(lines) :]
    )


def _reasons(rig: Rig) -> tuple[Reason, ...]:
    near, far, farthest, hidden = (
        procedure_number(f"device {name}", rig.units) for name in ("near", "far", "farthest", "out of sight")
    )
    step = procedure_constant("steps far").reason
    found = [
        Reason("No flame", "A flare lights what has leaked.", "49 CFR 392.22"),
        Reason(
            "Devices",
            f"{near} on the traffic side, {far} and, where traffic comes from one side only, {farthest}; "
            f"counted from the rear of the last vehicle, {step}. No time limit holds for people: first the "
            "rail, then devices, and only where the way is safe.",
            "49 CFR 392.22; practice",
        ),
        Reason(
            "Hill or curve",
            f"A hill, curve or obstruction within {hidden} hides the rig: the device on that side goes "
            f"{far} to {hidden} out.",
            "49 CFR 392.22",
        ),
    ]
    shown = found if equipped("warning_devices")(rig) else found[:1]
    return (
        Reason("Away from traffic", "The lane side of a parked rig is where people are hit.", "practice"),
        Reason("Drums smoke", "A brake set hard on smoking drums may crack them or lock.", "practice"),
        *shown,
        Reason("Emergency numbers", "Elsewhere another number may hold: write it down.", "W34; W35"),
    )


def _wrong(rig: Rig) -> str:
    parts = [
        "height, length, weight",
        "tires",
        *(["propane"] if holds("propane")(rig) else []),
        *[f"the {name} behind" for name, _ in towed(rig)],
    ]
    return f"{listed([*parts, 'a number to call'])} changed."
