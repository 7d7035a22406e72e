"""Card 6, Breakdown, first minutes: read, then done; what to say to whom stands on the back.

The steps keep the order in which they save lives: out of the lane, seen, out of the way. Devices come
after people, and are counted in steps, since nobody carries a tape on a shoulder.
"""

from collections.abc import Iterator, Mapping

from binder.assessment.assess import Assessment
from binder.assessment.body.kinds import PACES_FROM_REAR
from binder.assessment.conditions import carried, driven, holds, tanks, towed
from binder.assessment.ledger import Figure
from binder.assessment.weights.resting import rolling_axles
from binder.cards.blocks import Blank, Block, Card, Line, Table
from binder.cards.procedures.facts import listed, steps_to
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import (
    HEIGHT,
    LENGTH,
    WEIGHT,
    length_of_all,
    overall_height,
    reason_of,
    weight_of_all,
    words_of,
)
from binder.models.rig import Rig
from binder.wording.measures import LOAD, NEEDED_VOLUME, SIZE
from binder.wording.numbers import BLANK
from binder.wording.words import Words

CONTACT_LINES = 3
"""Contacts on the card; the binder's page has room for all."""


def breakdown(assessment: Assessment) -> Card:
    """Make the card for the first minutes of a breakdown."""
    rig, words = assessment.rig, words_of(assessment)
    told, figures = _what_we_are(assessment)
    computed = {
        "table of steps": (_table_of_steps(assessment),),
        "contacts": _contacts(assessment),
        "what the rig is": told,
    }
    said = said_card(card_words("breakdown"), assessment, computed)
    return Card(
        id="6",
        name="breakdown",
        title=said.title,
        sides=said.sides,
        wrong_as_soon_as=_wrong(assessment),
        reasons=(*said.reasons, *(reason_of(name, words.told(figure)) for name, figure in figures.items())),
        family="help",
        rig=rig.name,
        effective=assessment.on.isoformat(),
        figures=tuple(words.key(figure.key) for figure in figures.values()),
    )


def _table_of_steps(assessment: Assessment) -> Table:
    near, far, farthest = (steps_to(name, assessment.rig) for name in ("near", "far", "farthest"))
    from_rear = assessment.known(PACES_FROM_REAR.of("two_way", "ahead"))
    ahead = f"{words_of(assessment).value(from_rear)} ahead" if from_rear else f"{far} past front"
    return Table(
        ("Road", "1st, traffic side", "2nd", "3rd"),
        (("Two-way", near, far, ahead), ("Divided, one-way", near, far, farthest)),
    )


def _contacts(assessment: Assessment) -> tuple[Block, ...]:
    private = assessment.profile.private
    known = [contact for contact in private.contacts if contact.phone] if private else []
    lines = tuple(Line(contact.who, contact.phone or "") for contact in known[:CONTACT_LINES])
    return (
        lines
        + tuple(Blank(name) for name in ("Roadside, towing", "Tire service", "Who to tell"))[len(lines) :]
    )


def _wrong(assessment: Assessment) -> str:
    rig, words = assessment.rig, words_of(assessment)
    over = {
        "higher than": (overall_height(assessment), SIZE),
        "longer than": (length_of_all(assessment), SIZE),
        "heavier than": (weight_of_all(assessment), LOAD),
    }
    parts = [
        *(
            f"{how} {words.text(limit, meaning)}"
            for how, (limit, meaning) in over.items()
            if limit is not None
        ),
        "tires",
        *(["propane"] if holds("propane")(rig) else []),
        *[f"the {name}" for name, _ in (*towed(rig), *carried(rig))],
    ]
    return f"{listed([*parts, 'a number to call'])} changed."


def _what_we_are(assessment: Assessment) -> tuple[tuple[Line, ...], Mapping[str, Figure]]:
    """What whoever comes to help needs to know of this rig, and the figures it is told by."""
    rig, words = assessment.rig, words_of(assessment)
    length_name = "Length, coupled" if towed(rig) else "Length"
    keys = {"Height": HEIGHT, length_name: LENGTH, "Weight": WEIGHT}
    lines = (
        Line("Height", words.text(overall_height(assessment), SIZE)),
        Line(length_name, words.text(length_of_all(assessment), SIZE)),
        Line("Weight", words.text(weight_of_all(assessment), LOAD)),
        Line("Fuel, brakes", f"{_fuel(rig)}, {_brakes(rig)}"),
        *_tires(rig),
        *(Line("Towed", f"{name.upper()} ATTACHED") for name, _ in towed(rig)[-1:]),
        *_propane(rig, words),
    )
    return lines, {name: figure for name, key in keys.items() if (figure := assessment.known(key))}


def _fuel(rig: Rig) -> str:
    held = (tank.holds for tank in driven(rig)[1].tanks.values())
    return next((fuel.upper() for fuel in held if fuel in {"diesel", "gasoline"}), BLANK)


def _brakes(rig: Rig) -> str:
    brakes = driven(rig)[1].brakes
    return (brakes.service or BLANK).upper() if brakes else BLANK


def _tires(rig: Rig) -> Iterator[Line]:
    mounted: dict[str, dict[str, None]] = {}
    for name, _, _, axle in rolling_axles(rig):
        size = rig.tires[axle.tires].size if axle.tires in rig.tires else None
        mounted.setdefault(name, {})[size or BLANK] = None
    said = {name: ", ".join(sizes) for name, sizes in mounted.items()}
    first, *others = said
    yield Line(f"Tires, {first}", said[first])
    # Two that are towed, a dolly and its car, share a line: there is room for one.
    if others:
        yield Line(f"Tires, {', '.join(others)}", ", ".join(said[name] for name in others))


def _propane(rig: Rig, words: Words) -> Iterator[Line]:
    held = [tank for tank in tanks(rig) if tank.holds == "propane"]
    if held:
        # A full propane tank holds its usable volume: the rest is kept free for the liquid to expand.
        volumes = [words.number(tank.usable or tank.capacity, NEEDED_VOLUME) for tank in held]
        yield Line("Propane aboard", f"{' + '.join(volumes)} {words.unit(NEEDED_VOLUME)}")
