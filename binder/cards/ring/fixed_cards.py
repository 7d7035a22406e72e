"""Cards whose lines are nearly all fixed: leaving, every stop, coupling, breakdown, windshield slip."""

from collections.abc import Iterator
from dataclasses import replace

from binder.assessment.assess import Assessment
from binder.assessment.body.kinds import PACES_FROM_REAR, TAIL_SWING, WIDTH_WITH_MIRRORS
from binder.assessment.conditions import carried, driven, is_coupled, tanks, towed
from binder.assessment.ledger import OF_THOSE_KNOWN, Figure, Key
from binder.assessment.road.kinds import MARGIN_OF_TRIP
from binder.assessment.supplies import kinds
from binder.assessment.weights.resting import carrier_of, rolling_axles
from binder.cards.blocks import Big, Blank, Block, Card, Heading, Line, Picture, Reason, Step
from binder.cards.drawings import WarningDevice, WarningDevices, WarningRoad
from binder.cards.pages.plan_places import millimeters
from binder.cards.pages.supplies_along_trip import exhaust_fluid_tank
from binder.cards.procedures.conditions import ON_WHEELS, TRAILERS, is_so, makers_words
from binder.cards.procedures.facts import rear_of, steps_to
from binder.cards.procedures.lines import Part, said_card
from binder.cards.procedures.reading import card_words
from binder.cards.rig_words import (
    HEIGHT,
    LENGTH,
    WEIGHT,
    length_of_all,
    on_cap,
    overall_height,
    reason_of,
    weight_of_all,
    words_of,
)
from binder.models.rig import Rig
from binder.models.vehicles import Vehicle
from binder.wording.measures import CLEARANCE, LOAD, NEEDED_VOLUME, SIZE, SPAN
from binder.wording.numbers import BLANK, beside
from binder.wording.words import Words, begun


def leaving(assessment: Assessment) -> Card:
    """Card 1: done from memory, then confirmed line by line before the wheels turn."""
    return said_card(card_words("leaving"), assessment)


_FLUID = {
    "Carried can": kinds.CONTAINER_WORTH,
    "Exhaust fluid, topped up": kinds.TOP_UP,
    "Exhaust fluid, full to the reserve": kinds.FLUID_RANGE,
    "Exhaust fluid keeps": kinds.SHELF_LIFE,
}
"""Figures of the exhaust fluid that the reasons of card 2 tell; their values stand with the supplies."""
_WRONG_FLUID = (
    "In the wrong tank it is harmless until the key is turned: then the pump carries it everywhere."
)


def every_stop(assessment: Assessment) -> Card:
    """Card 2: one walk at each halt, a column of tick cells for each, and fueling behind."""
    tank, named = exhaust_fluid_tank(assessment), {"Canopy": HEIGHT, "Tail swing": TAIL_SWING.of()}
    named |= {name: kind.of(*tank) for name, kind in _FLUID.items()} if tank else {}
    words, computed = card_words("every_stop"), {"fillers": tuple(_fillers(assessment))}
    is_fueled = is_so("fueled at a pump", assessment)
    return said_card(words, assessment, computed, _known(assessment, named) if is_fueled else {})


def _known(assessment: Assessment, named: dict[str, Key]) -> dict[str, Figure]:
    return {name: figure for name, key in named.items() if (figure := assessment.known(key))}


def _fillers(assessment: Assessment) -> Iterator[Part]:
    """A line for each filler that is reached at a pump."""
    tanks = driven(assessment.rig)[1].tanks
    for name, tank in tanks.items():
        if tank.holds in {"diesel", "gasoline", "exhaust fluid"}:
            alone = sum(other.holds == tank.holds for other in tanks.values()) == 1
            challenge = f"{begun(on_cap(tank.holds if alone else name))} filler"
            where = (tank.filler or BLANK).upper()
            if tank.holds == "exhaust fluid":
                yield Line(challenge, f"{where}, BLUE CAP", _apart(assessment))
                yield Reason(challenge, _WRONG_FLUID, "practice")
            else:
                yield Line(challenge, where)


def _apart(assessment: Assessment) -> str:
    """Say how far the exhaust fluid's filler is from the fuel's, where both are on one side."""
    tank = exhaust_fluid_tank(assessment)
    apart = assessment.quantity(kinds.FILLERS_APART.of(*tank)) if tank else None
    if apart is None:
        return ""
    return f"{words_of(assessment).text(apart, SPAN)} from the fuel filler: pull ahead, or use the jug"


_BLANK_STEPS = 4
"""Ruled lines for the maker's procedure where the profile does not give it; most have four to six steps."""


def coupling(assessment: Assessment) -> Card | None:
    """Card 4: read, then done, in the order in which the parts can be joined."""
    computed = {
        "trailer in its maker's words": _in_makers_words(assessment.rig, TRAILERS),
        "car in its maker's words": _in_makers_words(assessment.rig, ON_WHEELS),
        "car set back in its maker's words": tuple(_set_back(assessment.rig)),
    }
    is_made = is_coupled(assessment.rig)
    return said_card(card_words("coupling"), assessment, computed) if is_made else None


def _in_makers_words(rig: Rig, kinds: tuple[str, ...]) -> tuple[Block, ...]:
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
    words = makers_words(vehicle)
    if not words and not (is_needed and vehicle.kind in ON_WHEELS):
        return ()
    steps = tuple(Step(text, str(number), killer=True) for number, text in enumerate(words, 1))
    blanks = tuple(Blank(str(number)) for number in range(1, _BLANK_STEPS + 1))
    return (Heading(f"{begun(name)}, in its maker's words"), *(steps or blanks))


def _set_back(rig: Rig) -> Iterator[Block]:
    """Set the steps that make a towed car drivable again; the others read backwards are not these."""
    for name, vehicle in towed(rig):
        if vehicle.kind in ON_WHEELS:
            words = (vehicle.towing.uncoupling_as_its_maker_says if vehicle.towing else None) or [BLANK]
            yield Line(f"{begun(name)}, to drive it", "AS ITS MAKER SAYS", "; ".join(words))


_NO_CONTACT = ("Roadside, towing", "Tire service", "Who to tell")
"""Contacts on card 6, ruled where they are not known; the binder's page has room for all."""


def breakdown(assessment: Assessment) -> Card:
    """Card 6: read, then done; what to say to whom stands on the back.

    The steps keep the order in which they save lives: out of the lane, seen, out of the way. Devices come
    after people, and are counted in steps, since nobody carries a tape on a shoulder.
    """
    length_name = "Length, coupled" if towed(assessment.rig) else "Length"
    computed = {
        "steps to devices": (_steps_to_devices(assessment),),
        "contacts": _contacts(assessment),
        "what the rig is": tuple(_what_we_are(assessment, length_name)),
    }
    named = {"Height": HEIGHT, length_name: LENGTH, "Weight": WEIGHT}
    return said_card(card_words("breakdown"), assessment, computed, _known(assessment, named))


_LENGTH_DRAWN = 12_000.0
"""Millimeters drawn for a vehicle whose length is not noted: own choice, drawing only."""

_GAP_DRAWN = 1_200.0
_DRAWN_AT = (3_048.0, 30_480.0, 60_960.0)
"""Millimeters behind the rear at which the law's 10, 100 and 200 ft are drawn: 49 CFR 392.22."""


def _steps_to_devices(assessment: Assessment) -> Picture:
    """Where devices stand on both kinds of roads, each with its steps."""
    rig, words = assessment.rig, words_of(assessment)
    near, far, farthest = (steps_to(name, rig) for name in ("near", "far", "farthest"))
    from_rear = assessment.known(PACES_FROM_REAR.of("two_way", "ahead"))
    ahead = f"{words.value(from_rear)} ahead" if from_rear else f"{far} past front"
    rolling = {name: vehicle for name, vehicle in rig.vehicles.items() if not carrier_of(rig, name)}
    sizes = (vehicle.size.overall_length for vehicle in rolling.values())
    lengths = tuple(_LENGTH_DRAWN if size is None else millimeters(size) for size in sizes)
    front = -sum(lengths) - _GAP_DRAWN * (len(lengths) - 1)
    behind = tuple(WarningDevice(at, said) for at, said in zip(_DRAWN_AT, (near, far, farthest), strict=True))
    count_from = f"steps from {rear_of(rig)}"
    roads = (
        WarningRoad("Two-way", count_from, (WarningDevice(front - _DRAWN_AT[1], ahead), *behind[:2])),
        WarningRoad("One-way", "or divided", behind),
    )
    said = f"Two-way road: {ahead}, {near}, {far}; one-way or divided: {near}, {far}, {farthest}"
    return Picture(WarningDevices(roads, lengths, _GAP_DRAWN, f"{said}; {count_from}.", 117.6))


def _contacts(assessment: Assessment) -> tuple[Block, ...]:
    private = assessment.profile.private
    known = [contact for contact in private.contacts if contact.phone] if private else []
    lines = [Line(contact.who, contact.phone or "") for contact in known[: len(_NO_CONTACT)]]
    return (*lines, *map(Blank, _NO_CONTACT[len(lines) :]))


def _what_we_are(assessment: Assessment, length_name: str) -> Iterator[Line]:
    """What whoever comes to help needs to know of this rig."""
    rig, words = assessment.rig, words_of(assessment)
    yield Line("Height", words.text(overall_height(assessment), SIZE))
    yield Line(length_name, words.text(length_of_all(assessment), SIZE))
    yield Line("Weight", words.text(weight_of_all(assessment), LOAD))
    vehicle = driven(rig)[1]
    held = (tank.holds for tank in vehicle.tanks.values())
    fuel = next((fuel.upper() for fuel in held if fuel in {"diesel", "gasoline"}), BLANK)
    service = vehicle.brakes.service if vehicle.brakes else None
    yield Line("Fuel, brakes", f"{fuel}, {(service or BLANK).upper()}")
    yield from _tires(rig)
    yield from (Line("Towing", f"{name.upper()}, STILL HITCHED") for name, _ in towed(rig)[-1:])
    propane = [tank for tank in tanks(rig) if tank.holds == "propane"]
    if propane:
        # A full propane tank holds its usable volume: the rest is kept free for the liquid to expand.
        volumes = [words.number(tank.usable or tank.capacity, NEEDED_VOLUME) for tank in propane]
        yield Line("Propane aboard", f"{' + '.join(volumes)} {words.unit(NEEDED_VOLUME)}")


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


_WIDTH, _MARGIN = WIDTH_WITH_MIRRORS.of(), MARGIN_OF_TRIP.of()
_SIZES = {"Height": HEIGHT, "Width": _WIDTH, "Length": LENGTH, "Weight": WEIGHT, "Lowest bridge": _MARGIN}


def windshield_slip(assessment: Assessment) -> Card:
    """Card 12: what must be known at a glance, and what a co-driver does first."""
    words, figures = words_of(assessment), _known(assessment, _SIZES)
    reasons = [reason_of(name, words.told(figure)) for name, figure in figures.items()]
    computed = {"sizes of the rig": (*_sizes(assessment), *reasons)}
    card = said_card(card_words("windshield_slip"), assessment, computed)
    keys = tuple(words.key(figure.key) for figure in figures.values())
    return replace(card, wrong_as_soon_as=_wrong(assessment), figures=keys)


def _sizes(assessment: Assessment) -> Iterator[Block]:
    words = words_of(assessment)
    height, width, length, weight, _ = (assessment.quantity(key) for key in _SIZES.values())
    room = assessment.known(_MARGIN)
    other, heavy = beside(height, SIZE, words.style), beside(weight, LOAD, words.style)
    yield Big("Height", words.text(height, SIZE), other, 40)
    yield from _spare(room, words)
    yield Big("Width, mirrors out", words.text(width, SIZE), beside(width, SIZE, words.style), 32)
    length_name = "Length, coupled" if is_coupled(assessment.rig) else "Length"
    yield Big(length_name, words.text(length, SIZE), beside(length, SIZE, words.style), 32)
    yield Big("Weight, all loaded", words.text(weight, LOAD), heavy and f"{heavy}, at its heaviest", 32)


def _spare(figure: Figure | None, words: Words) -> Iterator[Line]:
    """What the lowest bridge of the trip leaves, and which that is."""
    if figure is None:
        return
    name, room = "Lowest bridge leaves", figure.quantity
    if room is None or figure.slack is None:
        yield Line(name, BLANK, "no bridge of the plan is posted, or the height is not known")
        return
    known = ", the lowest of those known" if figure.case == OF_THOSE_KNOWN else ""
    told = "TOO HIGH: card 5" if room.m < 0 else words.text(room, CLEARANCE)
    yield Line(name, told, f"{figure.slack.facts['what']}{known}")


def _wrong(assessment: Assessment) -> str:
    words, parts = words_of(assessment), []
    height, weight = assessment.quantity(HEIGHT), assessment.quantity(WEIGHT)
    if height is not None:
        parts.append(f"the rig stands over {words.text(height, SIZE)}")
    if weight is not None:
        parts.append(f"it weighs over {words.text(weight, LOAD)}")
    return ", ".join([*parts, "anything on the roof or any vehicle of the rig is changed."])
