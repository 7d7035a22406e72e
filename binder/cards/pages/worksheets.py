"""Pages to be filled in and read back: the scale worksheet, what was entered, contacts."""

from collections.abc import Iterator, Sequence

from binder.assessment.assess import Assessment
from binder.assessment.coupling.kinds import COUPLE_ARM
from binder.assessment.weights.resting import CARRIED, CARRYING, ON_A_DOLLY
from binder.cards.blocks import Blank, Block, Form, Heading, Line, Listing, Note, Page, Step, Table
from binder.cards.procedures.own_words import said_of
from binder.cards.rig_words import words_of
from binder.models.located_yaml import as_scalar
from binder.models.rig import Coupling, Rig
from binder.models.trip import Leg, Private
from binder.models.vehicles import Tank, Vehicle
from binder.quantities import Quantity
from binder.wording.measures import ARM, CLEARANCE, LOAD, RATING
from binder.wording.numbers import BLANK, as_written

_INTRO = (
    "A public truck scale gives axles; pads, or one side of the rig on the platform, give wheel ends, and "
    "those decide tire pressures. Follow the scale's master (practice)."
)
_PLACES = ("first", "second", "third")
"""Rows for people and heavy things aboard."""

_SUMS = (
    "Left and right must make the axle within one division of the scale; the axles must make the whole "
    "within one division for each axle after the first. If not, a wheel stood on an edge or a slope: weigh "
    "again."
)
_ONE_SIDE = (
    "One side on the platform reads true only where the ground beside it is level with it; ask the scale's "
    "master first, and weigh both sides the same way (practice)."
)


def scale_worksheet(assessment: Assessment) -> Page:
    """Make the worksheet for weighing this rig."""
    rig = assessment.rig
    weighed = {name: vehicle for name, vehicle in rig.vehicles.items() if vehicle.axles}
    carrying = [item for item in rig.couplings if item.how in CARRYING]
    blocks = (
        Heading("Before the platform"),
        *_numbered(_preparation(weighed)),
        Heading("Over the platform"),
        *_numbered(_passes(rig, weighed, carrying)),
        *_noted(rig.vehicles),
        *_axles(assessment, weighed, {item.behind for item in carrying}),
        *(block for coupling in carrying for block in _down_load(assessment, coupling)),
        *_ends(assessment, weighed),
        Heading("Into rig.yaml, under scale_tickets"),
        *(Listing(entry_lines(name, vehicle)) for name, vehicle in rig.vehicles.items()),
        Note(
            "Leave out what was not read. Weights and places with their units; levels as full, empty, a "
            "share or a volume; slides in or out; ride_height true or false; at is behind the first axle, "
            "left is from the center line. Then run binder check: it names what is missing or contradicts."
        ),
    )
    return Page("scale_worksheet", "Scale worksheet", _INTRO, blocks)


def _numbered(steps: Iterator[str]) -> Iterator[Block]:
    yield from (Step(text, str(number)) for number, text in enumerate(steps, 1))


def _preparation(weighed: dict[str, Vehicle]) -> Iterator[str]:
    yield "Load the rig as it travels: people, pets, food, tools, cargo."
    if any(vehicle.equipment.slide for vehicle in weighed.values()):
        yield "Slides IN."
    if any(vehicle.suspension == "air" for vehicle in weighed.values()):
        yield "Air suspension AT RIDE HEIGHT, engine running until it stands level."
    yield "Read every tank; write its level below."
    yield "Ask the scale's master where each axle stands and how to signal."
    yield "Keep off the platform's edge, wheels and feet."


def _loads(rig: Rig) -> dict[str, str]:
    """What stands on a vehicle, wholly or with an axle, and has a ticket of its own."""
    return {item.ahead: item.behind for item in rig.couplings if item.how in {CARRIED, ON_A_DOLLY}}


def _lifted(rig: Rig) -> list[Coupling]:
    """Where something without axles is carried: its weight is a difference."""
    return [item for item in rig.couplings if item.how == CARRIED and not rig.vehicles[item.behind].axles]


def _passes(rig: Rig, weighed: dict[str, Vehicle], carrying: list[Coupling]) -> Iterator[str]:
    """Which axles stand on a platform in which pass; the coupled passes first, as the rig arrives."""
    loads = _loads(rig)
    for item in _lifted(rig):
        yield f"The {item.ahead} with the {item.behind} on it: whole on one platform."
    for coupling in carrying:
        load = loads.get(coupling.behind)
        behind = f"{coupling.behind}, without the {load}," if load else coupling.behind
        where = f"the {coupling.ahead}'s axles on the platform, the {behind} off it."
        if coupling.distribution is None:
            yield f"Coupled: {where}"
        else:
            yield f"Coupled, bars ON: {where}"
            yield "Take the bars off by their maker's manual, level, wheels chocked."
            yield f"Coupled, bars OFF: {where}"
    behind_names = {coupling.behind for coupling in carrying}
    for name, vehicle in weighed.items():
        level = f" without the {loads[name]}, level" if name in loads else " apart and level"
        apart = level if len(rig.vehicles) > 1 else ""
        axles = _listed(list(vehicle.axles))
        if name in behind_names:
            yield f"The {name}{apart}: {axles}, its coupler or jack off the platform."
        else:
            yield f"The {name}{apart}: {axles}, each in the middle of a platform."
    yield "Wheel ends: each on a pad, or one side on the platform; ask before that."


def _listed(axles: list[str]) -> str:
    return " and ".join([", ".join(axles[:-1]), axles[-1]]) if len(axles) > 1 else axles[0]


def _boxes(caption: str, headers: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> Form:
    """A small table whose empty cells are boxes."""
    return Form(headers, tuple(rows), small=True, caption=caption)


def _noted(vehicles: dict[str, Vehicle]) -> Iterator[Block]:
    headers = ("date", "scale, place", "its division", "outside air")
    yield _boxes("Noted first", ("of the weighing", *headers), [("noted", "", "", "", "")])
    tanks = [
        (f"{name}, {tank_name}", as_written(tank.capacity), "")
        for name, vehicle in vehicles.items()
        for tank_name, tank in vehicle.tanks.items()
    ]
    if tanks:
        yield _boxes("Levels", ("tank", "holds", "level now"), tanks)
    rows = [(place, "", "", "", "") for place in _PLACES]
    headers = ("who or what", "weight", "behind the first axle", "left or right")
    yield _boxes("People and heavy things aboard", ("aboard", *headers), rows)


def _axles(assessment: Assessment, weighed: dict[str, Vehicle], trailers: set[str]) -> Iterator[Block]:
    words, rows = words_of(assessment), []
    for name, vehicle in weighed.items():
        for axle, entry in vehicle.axles.items():
            rows.append((f"{name}, {axle}", "", words.text(entry.rating, RATING)))
        rating = words.text(vehicle.label.gross_vehicle_weight_rating, RATING)
        is_trailer, several = name in trailers, len(vehicle.axles) > 1
        if several:
            rows.append((f"{name}: sum of its axles", "", "-"))
        whole = "all axles on one platform" if is_trailer else "whole on one platform"
        if several or not is_trailer:
            rows.append((f"{name}: {whole}", "", "-" if is_trailer else rating))
        if is_trailer:
            rows.append((f"{name}: axles and down load from below", "", rating))
    for item in _lifted(assessment.rig):
        label = assessment.rig.vehicles[item.behind].label.gross_vehicle_weight_rating
        rows.append((f"{item.ahead} with the {item.behind}: whole", "", "-"))
        difference = f"{item.behind}: that, less the {item.ahead} alone"
        rows.append((difference, "", words.text(label, RATING)))
    caption = "Axle by axle" if len(weighed) == 1 else "Axle by axle, each vehicle apart"
    yield _boxes(caption, ("axle", f"weight, {words.unit(LOAD)}", "rated"), rows)


def _down_load(assessment: Assessment, coupling: Coupling) -> Iterator[Block]:
    """What the trailer presses on the coupling: on a pad, or as a difference of the towing vehicle."""
    ahead = assessment.rig.vehicles[coupling.ahead]
    first, *others = ahead.axles
    headers = ("weighed", first, *others, "all axles")
    empty = ("",) * (len(others) + 2)
    bars = coupling.distribution is not None
    off = f"coupled{', bars off' if bars else ''}"
    rows = [(off, *empty), ("apart, from above", *empty), ("less apart; last box: down load", *empty)]
    if bars:
        rows += [("coupled, bars on", *empty), ("bars on, less bars off", *empty)]
    caption = f"{coupling.ahead.capitalize()} with the {coupling.behind} coupled"
    yield _boxes(caption, headers, rows)
    arm = assessment.known(COUPLE_ARM.of(coupling.ahead, coupling.behind))
    if bars and arm is not None:
        yield Note(
            f"Couple of the bars: the {first} axle's box in the last row, times "
            f"{words_of(assessment).text(arm.quantity, ARM)}; enter it under couple."
        )


def _ends(assessment: Assessment, weighed: dict[str, Vehicle]) -> Iterator[Block]:
    rows = [(f"{name}, {axle}", *("",) * 4) for name, vehicle in weighed.items() for axle in vehicle.axles]
    unit = words_of(assessment).unit(LOAD)
    headers = ("left end", "right end", "left + right", "axle, from above")
    yield _boxes("Wheel end by wheel end", ("axle", *(f"{header}, {unit}" for header in headers)), rows)
    yield Note(_SUMS)
    yield Note(_ONE_SIDE)


def entry_lines(name: str, vehicle: Vehicle) -> tuple[str, ...]:
    """Entry of one vehicle under ``scale_tickets`` with its own names, every figure a blank."""
    own = as_scalar(name)
    lines = ["- on: ____", "  division: ____", "  weights:", f"    {own}:"]
    for axle in vehicle.axles:
        lines += _under(as_scalar(axle), ("left: ____", "right: ____", "axle: ____"), " " * 6)
    aboard = (*(f"{blank}: ____" for blank in ("what", "weight", "at", "left")), f"in: {own}")
    lines += ["      total: ____", "  aboard:", *_in_braces("    - ", aboard)]
    if vehicle.tanks:
        levels = tuple(f"{as_scalar(tank)}: ____" for tank in vehicle.tanks)
        lines += ["  levels:", *_under(own, levels, " " * 4)]
    return (*lines, "  state: {slides: ____, ride_height: ____, coupled: false}")


def _under(key: str, items: tuple[str, ...], indent: str) -> list[str]:
    """A mapping in braces beside its key, or below it where it is longer than a row."""
    beside = _in_braces(f"{indent}{key}: ", items)
    return beside if len(beside) == 1 else [f"{indent}{key}:", *_in_braces(f"{indent}  ", items)]


def _in_braces(head: str, items: tuple[str, ...]) -> list[str]:
    """A mapping in braces on as many rows as keep its items whole."""
    rows = [f"{head}{{{items[0]}"]
    for item in items[1:]:
        if len(rows[-1]) + len(item) + len(", }") <= _ROW:
            rows[-1] += f", {item}"
        else:
            rows[-1] += ","
            rows.append(f"{' ' * len(head)} {item}")
    return [*rows[:-1], f"{rows[-1]}}}"]


_ROW = 100
"""Letters of a row of the entry: at 9 points so many mostly have room on either paper; wider ones wrap."""

_READ_BACK_INTRO = (
    "A wrong digit, side or unit that still looks likely is found by no check. Read each figure where it "
    'stands, not from memory, and mark it under "read". Typed load tables: in the tire register.'
)
_READ = "____"


def read_back(assessment: Assessment) -> Page:
    """Make the page of entered figures."""
    tables = (_labels, _slips, _tanks, _parts, _road, _own_words)
    blocks = tuple(block for table in tables for block in table(assessment))
    return Page("read_back", "Entered figures, to be read back", _READ_BACK_INTRO, blocks)


def _table(caption: str, headers: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> Iterator[Block]:
    if rows:
        marked = tuple((*row, _READ) for row in rows)
        yield Table((*headers, "read"), marked, small=True, caption=caption)


def _labels(assessment: Assessment) -> Iterator[Block]:
    rows = []
    for name, vehicle in assessment.rig.vehicles.items():
        label = vehicle.label
        for words, rating in (
            ("gross vehicle weight rating", label.gross_vehicle_weight_rating),
            ("gross combination weight rating", label.gross_combination_weight_rating),
        ):
            if rating is not None:
                rows.append((name, words, as_written(rating), "-"))
        for axle_name, axle in vehicle.axles.items():
            pressure = as_written(axle.label_pressure)
            rows.append((name, f"{axle_name} axle", as_written(axle.rating), pressure))
    headers = ("vehicle", "what", "rating", "cold pressure")
    return _table("On the labels of the vehicle", headers, rows)


def _slips(assessment: Assessment) -> Iterator[Block]:
    rows = [
        (f"{vehicle}, {axle}", str(ticket.on), *(_or_dash(end) for end in (ends.left, ends.right, ends.axle)))
        for ticket in assessment.rig.scale_tickets
        for vehicle, weights in ticket.weights.items()
        for axle, ends in weights.axles.items()
    ]
    return _table("On the scale slip", ("axle", "slip of", "left end", "right end", "axle whole"), rows)


def _tanks(assessment: Assessment) -> Iterator[Block]:
    rows = [
        (f"{vehicle_name}, {name}", as_written(tank.capacity), _lengthwise(tank), _sideways(tank))
        for vehicle_name, vehicle in assessment.rig.vehicles.items()
        for name, tank in vehicle.tanks.items()
    ]
    headers = ("tank", "capacity", "middle, from the first axle", "from the center line")
    return _table("At the tanks, with a tape", headers, rows)


def _lengthwise(tank: Tank) -> str:
    return _placed(tank.at, "BEHIND", "AHEAD")


def _sideways(tank: Tank) -> str:
    return _placed(tank.left, "to the LEFT", "to the RIGHT")


def _placed(place: Quantity | None, positive: str, negative: str) -> str:
    if place is None or place.m == 0:
        return as_written(place)
    distance: Quantity = place if place.m > 0 else place * -1
    return f"{as_written(distance)} {positive if place.m > 0 else negative}"


def _parts(assessment: Assessment) -> Iterator[Block]:
    rows = [
        (f"{coupling.ahead} to {coupling.behind}, {name}", as_written(part.towed), _or_dash(part.down))
        for coupling in assessment.rig.couplings
        for name, part in coupling.parts.items()
    ]
    return _table("Stamped on the coupling", ("part", "may tow", "may carry down"), rows)


def _or_dash(rating: Quantity | None) -> str:
    return "-" if rating is None else as_written(rating)


def _limits(leg: Leg) -> Iterator[tuple[str, str]]:
    for limit in leg.limits:
        for words in ("weight", "width", "length", "ground_clearance"):
            posted: Quantity | None = getattr(limit, words)
            if posted is not None:
                yield f"{limit.what}, {words.replace('_', ' ')}", as_written(posted)


def _grades(leg: Leg) -> Iterator[tuple[str, str]]:
    for grade in leg.grades:
        signs = (grade.slope, grade.length, grade.posted_truck_speed)
        yield f"{grade.what}, {grade.goes}", ", ".join(as_written(sign) for sign in signs)


def _road(assessment: Assessment) -> Iterator[Block]:
    words, rows = words_of(assessment), []
    for number, day in enumerate(assessment.trip.days if assessment.trip else (), 1):
        rows += [
            (f"day {number}", clearance.what, words.text(clearance.posted, CLEARANCE))
            for leg in day.legs
            for clearance in leg.clearances
        ]
        rows += [(f"day {number}", *told) for leg in day.legs for told in (*_limits(leg), *_grades(leg))]
        if day.night is not None:
            rows.append(
                (f"day {number}", f"low of the night, {day.legs[-1].to.place}", as_written(day.night.low))
            )
    return _table("On signs, atlas and forecast", ("when", "what", "entered"), rows)


def _own_words(assessment: Assessment) -> Iterator[Block]:
    """What the owner wrote in the folder cards: lines of the ring's cards, and cards."""
    files = [one.words for one in assessment.profile.own_cards]
    rows = [(f"{own.card}, {line.name}", said_of(line)) for own in files for line in own.lines]
    cards = [(f"{own.number} {own.title}", side) for own in files for side in own.sides]
    rows += [(card, said_of(line)) for card, side in cards for group in side.groups for line in group.lines]
    return _table("In the folder cards", ("card, line", "what it says"), rows)


_CONTACTS = (
    ("Roadside, towing", ("Company", "Phone", "Member number")),
    ("Tire service", ("Company", "Phone")),
    ("Workshop, rig's maker", ("Company", "Phone")),
    ("Insurance", ("Company", "Phone", "Policy")),
    ("Family, who to tell", ("Name", "Phone", "Name", "Phone")),
    ("Medical", ("Doctor, phone", "Medicines", "Allergies")),
)
"""What a stranger with the keys has to find; each with its ruled lines."""

_CONTACTS_INTRO = "Fill in by hand, in pencil. What is written here stays in this binder."


def contacts(assessment: Assessment) -> Page:
    """Make the page of contacts."""
    private = assessment.profile.private
    entries = _entries(private) if private else ()
    ruled: list[Block] = []
    for heading, names in _CONTACTS:
        ruled += [Heading(heading), *(Blank(name) for name in names)]
    intro = "Private: not for a set that is handed on." if entries else _CONTACTS_INTRO
    return Page("contacts", "Contacts", intro, (*entries, *ruled))


def _entries(private: Private) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if private.contacts:
        blocks.append(Heading("To call"))
        blocks += [
            Line(contact.who, contact.phone or BLANK, contact.note or "") for contact in private.contacts
        ]
    for heading, texts in (("Medical notes", private.medical), ("Policies", private.policies)):
        if texts:
            blocks.append(Heading(heading))
            blocks += [Note(text) for text in texts]
    return tuple(blocks)
