"""Card 6, Breakdown, first minutes: read, then done; what to say to whom stands on the back.

The steps keep the order in which they save lives: out of the lane, seen, out of the way. Devices come
after people, and are counted in steps, since nobody carries a tape on a shoulder.
"""

from collections.abc import Mapping

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import carried, equipped, holds, towed
from binder.assessment.figures import Figure
from binder.assessment.procedure_numbers import procedure_number, procedure_reason
from binder.cards.blocks import Blank, Block, Box, Card, End, Heading, Line, Reason, Side, Step, Table
from binder.cards.breakdown_words import length_of_all, weight_of_all, what_we_are
from binder.cards.display import Display
from binder.cards.figure_reasons import reason_of
from binder.cards.procedure_lines import listed
from binder.cards.rig_words import overall_height
from binder.models.rig import Rig

AHEAD_FROM_REAR = "rig.warning_devices.two_way.ahead.paces_from_rear"

CONTACT_LINES = 3
"""Contacts on the card; the binder's page has room for all."""

LONGEST_NAME = 8
"""Letters of a vehicle's name that leave the line of the devices on one line of an A5 card."""

_USE = "Read, then do. Place lost: start again. Then call: other side."
_USE_BACK = "Read this aloud to whoever answers."


def breakdown(assessment: Assessment) -> Card:
    """Make the card for the first minutes of a breakdown."""
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
        sides=(Side(_USE, _front(assessment)), Side(_USE_BACK, back)),
        wrong_as_soon_as=_wrong(assessment),
        reasons=_reasons(assessment, figures),
        family="help",
        rig=rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(figure.key for figure in figures.values()),
    )


def _front(assessment: Assessment) -> tuple[Block, ...]:
    rig = assessment.rig
    dressed = "Vest on" if equipped("vests")(rig) else "Something bright on"
    return (
        Step("Off the road, as far as it goes.", "1"),
        Step("Flashers on.", "2"),
        Step("Parking brake on.", "3"),
        Step("Brakes smoking: chocks instead."),
        Box(f"{dressed} before any door opens.", (), "DANGER"),
        Step("Everyone out, away from traffic.", "4"),
        Step("Everyone behind the rail.", "5"),
        Step("Fuel or gas leaking:"),
        Step("No flame, no flare, no switch.", indent=True),
        Step("No safe way to the rear:"),
        Step("Stay behind the rail. Flashers only.", indent=True),
        *_devices(assessment),
    )


def _devices(assessment: Assessment) -> tuple[Block, ...]:
    rig = assessment.rig
    if not equipped("warning_devices")(rig):
        return ()
    near, far, farthest, hidden = (
        procedure_number(f"steps {name}", rig.units).split()[0]
        for name in ("near", "far", "farthest", "out of sight")
    )
    from_rear = assessment.known(AHEAD_FROM_REAR)
    ahead = f"{from_rear.value:.0f} ahead" if from_rear else f"{far} past front"
    return (
        Step(f"Devices, facing traffic. Steps from {_rear(rig)}:", "6"),
        Table(
            ("Road", "1st, traffic side", "2nd", "3rd"),
            (("Two-way", near, far, ahead), ("Divided, one-way", near, far, farthest)),
        ),
        Step(f"Hill or curve within {procedure_number('device out of sight', rig.units)}:"),
        Step(f"Device on that side: {far} to {hidden} steps.", indent=True),
    )


def _rear(rig: Rig) -> str:
    """Name where the steps begin: the rear of the last vehicle, in words that keep to one line."""
    last = towed(rig)[-1][0] if towed(rig) else "rig"
    return f"{last} rear" if len(last) <= LONGEST_NAME else "the very rear"


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


def _reasons(assessment: Assessment, figures: Mapping[str, Figure]) -> tuple[Reason, ...]:
    rig = assessment.rig
    devices = _device_reasons(rig) if equipped("warning_devices")(rig) else ()
    return (
        Reason("Away from traffic", "The lane side of a parked rig is where people are hit.", "practice"),
        Reason("Brakes smoking", "Set hard, hot drums may crack or lock.", "practice"),
        Reason("No flame", "A flare lights what has leaked.", "49 CFR 392.22"),
        *devices,
        Reason("Emergency numbers", "Elsewhere another number may hold: write it down.", "W34; W35"),
        *(reason_of(name, figure) for name, figure in figures.items()),
    )


def _device_reasons(rig: Rig) -> tuple[Reason, ...]:
    near, far, farthest, hidden = (
        procedure_number(f"device {name}", rig.units) for name in ("near", "far", "farthest", "out of sight")
    )
    step = procedure_reason("steps far", rig.units)
    return (
        Reason(
            "Devices",
            f"{near} on the traffic side, {far}, and {farthest} where all traffic comes from behind; {step}. "
            "Ahead means past the front. No time limit holds for people: first the rail, then devices, and "
            "only where the way is safe.",
            "49 CFR 392.22; practice",
        ),
        Reason(
            "Hill or curve",
            f"A hill, curve or obstruction within {hidden} hides the rig: the device on that side goes "
            f"{far} to {hidden} out.",
            "49 CFR 392.22",
        ),
    )


def _wrong(assessment: Assessment) -> str:
    rig, shown = assessment.rig, Display(assessment.rig.units)
    over = {
        "higher than": shown.length(height) if (height := overall_height(assessment)) is not None else "",
        "longer than": shown.length(length) if (length := length_of_all(assessment)) is not None else "",
        "heavier than": (
            shown.text(weight, "weight", "up") if (weight := weight_of_all(assessment)) is not None else ""
        ),
    }
    parts = [
        *(f"{words} {limit}" for words, limit in over.items() if limit),
        "tires",
        *(["propane"] if holds("propane")(rig) else []),
        *[f"the {name}" for name, _ in (*towed(rig), *carried(rig))],
    ]
    return f"{listed([*parts, 'a number to call'])} changed."
