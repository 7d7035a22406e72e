"""Page of the rig at a glance: the plan view, then dimensions, ratings, brakes, engine, tanks, shut-offs."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Literal

from binder.assessment.assess import Assessment
from binder.assessment.body import kinds
from binder.assessment.coupling.kinds import COMBINATION_LENGTH
from binder.cards.blocks import Block, Note, Page, Picture, Table, small_table
from binder.cards.pages.plan import Plan, plan
from binder.cards.rig_words import words_of
from binder.models.equipment import Equipment, Exit, Extinguisher, ShutOff, Spot
from binder.models.vehicles import Tank, Vehicle
from binder.wording.measures import SIZE
from binder.wording.numbers import BLANK, as_written, both_as_written, both_lengths

_WHOLE = (
    ("Overall height", kinds.OVERALL_HEIGHT),
    ("Width with mirrors", kinds.WIDTH_WITH_MIRRORS),
    ("Length, all coupled", COMBINATION_LENGTH),
    ("Tail swing, wheel hard over", kinds.TAIL_SWING),
)
_YES = {True: "yes", False: "NO", None: BLANK}
Row = tuple[str, Callable[[Vehicle], str]]


def dimension_tables(assessment: Assessment) -> Iterator[Block]:
    """Make the tables of dimensions: of the whole rig with slack, and of each vehicle."""
    words, rows = words_of(assessment), []
    for name, kind in _WHOLE:
        figure = assessment.known(kind.of())
        text = words.value(figure, words.text(None, SIZE))
        both = both_lengths(figure.quantity if figure else None, text, words.style)
        rows.append((name, both, figure.basis if figure else "-", words.slack(figure) or "-"))
    yield from small_table("Dimensions of the whole rig", ("", "value", "how known", "slack"), rows)

    def in_both(field: str) -> Callable[[Vehicle], str]:
        def text(vehicle: Vehicle) -> str:
            length = getattr(vehicle.size, field)
            return both_lengths(length, words.text(length, SIZE), words.style)

        return text

    yield _by_vehicle(
        assessment,
        "Dimensions of each vehicle",
        (
            ("height", in_both("overall_height")),
            ("height measured on", _measured_on),
            ("in this state", lambda vehicle: _measured(vehicle, "state")),
            ("highest thing", lambda vehicle: _measured(vehicle, "highest")),
            ("length", in_both("overall_length")),
            ("width, without mirrors", in_both("overall_width")),
            ("front overhang", lambda vehicle: words.text(vehicle.size.front_overhang, SIZE)),
            ("rear overhang", lambda vehicle: words.text(vehicle.size.rear_overhang, SIZE)),
        ),
    )


def _measured_on(vehicle: Vehicle) -> str:
    measured = vehicle.size.height_measured
    return measured.on.isoformat() if measured and measured.on else BLANK


def _measured(vehicle: Vehicle, field: str) -> str:
    measured = vehicle.size.height_measured
    return (getattr(measured, field) if measured else None) or BLANK


def _by_vehicle(assessment: Assessment, caption: str, rows: tuple[Row, ...]) -> Table:
    """A column for each vehicle."""
    vehicles = assessment.rig.vehicles
    cells = tuple((name, *(text(vehicle) for vehicle in vehicles.values())) for name, text in rows)
    return Table(("", *vehicles), cells, small=True, caption=caption)


def rating_table(assessment: Assessment) -> Iterator[Block]:
    """Make the table of ratings, as the labels state them."""

    def rated(field: str) -> Callable[[Vehicle], str]:
        return lambda vehicle: both_as_written(getattr(vehicle.label, field))

    rows: list[Row] = [
        ("gross vehicle weight rating (GVWR)", rated("gross_vehicle_weight_rating")),
        ("gross combination weight rating (GCWR)", rated("gross_combination_weight_rating")),
        ("unloaded vehicle weight (UVW)", rated("unloaded_vehicle_weight")),
        ("occupant and cargo carrying capacity (OCCC)", rated("occupant_and_cargo_carrying_capacity")),
        ("cargo carrying capacity (CCC)", rated("cargo_carrying_capacity")),
        ("may tow without brakes", rated("towing_limit_without_brakes")),
        ("seats", lambda vehicle: BLANK if vehicle.label.seats is None else str(vehicle.label.seats)),
    ]
    vehicles = assessment.rig.vehicles.values()
    # A line that no vehicle of the rig states says nothing.
    said = [row for row in rows if any(row[1](vehicle) != BLANK for vehicle in vehicles)]
    axles = max((len(vehicle.axles) for vehicle in vehicles), default=0)
    said += [
        (f"axle {number + 1} from the front (GAWR)", partial(_axle, number=number)) for number in range(axles)
    ]
    yield _by_vehicle(assessment, "Ratings, as the labels state them", tuple(said))


def _axle(vehicle: Vehicle, number: int) -> str:
    entries = list(vehicle.axles.items())
    if number >= len(entries):
        return "-"
    name, axle = entries[number]
    return f"{name} {both_as_written(axle.rating)}"


def brake_table(assessment: Assessment) -> Iterator[Block]:
    """Make the table of brakes and suspension."""
    towed = {coupling.behind for coupling in assessment.rig.couplings}
    names = {id(vehicle): name for name, vehicle in assessment.rig.vehicles.items()}

    def towing(field: str) -> Callable[[Vehicle], str]:
        def text(vehicle: Vehicle) -> str:
            if names[id(vehicle)] not in towed:
                return "-"
            return _YES[getattr(vehicle.towing, field) if vehicle.towing else None]

        return text

    rows: list[Row] = [
        ("service brake", lambda vehicle: (vehicle.brakes.service if vehicle.brakes else None) or BLANK),
        ("retarder", _retarder),
        ("suspension", lambda vehicle: vehicle.suspension or BLANK),
    ]
    if towed:
        rows += [
            ("brake worked from the cab while towed", towing("supplemental_brake")),
            ("breakaway brake", towing("breakaway")),
            ("brake lamp in the cab", towing("brake_lamp_in_cab")),
        ]
    yield _by_vehicle(assessment, "Brakes and suspension", tuple(rows))


def _retarder(vehicle: Vehicle) -> str:
    brakes = vehicle.brakes
    if brakes is None or (brakes.retarder is None and not brakes.exhaust_brake):
        return "none noted"
    power = as_written(brakes.retarder) if brakes.retarder is not None else ""
    return ", ".join(text for text in (power, "exhaust brake" if brakes.exhaust_brake else "") if text)


_PLACES: tuple[tuple[str, Callable[[Equipment], Sequence[object] | Literal[False] | None]], ...] = (
    ("shut-offs", lambda equipment: equipment.shut_offs),
    ("extinguishers", lambda equipment: equipment.extinguishers),
    ("exits", lambda equipment: equipment.exits),
    ("jacking points", lambda equipment: equipment.jacking_points),
    ("lift points", lambda equipment: equipment.lift_points),
    ("tow eyes", lambda equipment: equipment.tow_eyes),
    ("air for a wrecker", lambda equipment: [equipment.air_port] if equipment.air_port else None),
    ("spare wheel", lambda equipment: equipment.spare_wheel and [equipment.spare_wheel]),
    ("chocks", lambda equipment: equipment.chock_places),
    ("leveling jacks", lambda equipment: equipment.leveling_jacks),
    ("warning devices", lambda equipment: equipment.warning_devices),
    ("vests", lambda equipment: equipment.vests),
    ("smoke alarms", lambda equipment: equipment.smoke_alarm),
    ("carbon monoxide alarms", lambda equipment: equipment.carbon_monoxide_alarm),
    ("propane alarms", lambda equipment: equipment.propane_alarm),
)


def _told_place(one: object) -> str:
    if isinstance(one, Exit):
        return f"{one.place} ({one.opens})" if one.opens else one.place
    if isinstance(one, Extinguisher):
        return f"{one.place} ({one.type})" if one.type else one.place
    if isinstance(one, ShutOff):
        return (f"{one.stops}, " if one.stops else "") + one.place + (f" ({one.how})" if one.how else "")
    return one.place if isinstance(one, Spot) else str(one)


def place_table(assessment: Assessment) -> Iterator[Block]:
    """Make the table of places that must be found at once."""
    rows = [
        (f"{name}: {what}", "none" if found is False else "; ".join(map(_told_place, found)) or BLANK)
        for what, listed in _PLACES
        for name, vehicle in assessment.rig.vehicles.items()
        if (found := listed(vehicle.equipment)) is not None
    ]
    yield from small_table("To be found at once", ("what", "where"), rows)


def engine_tables(assessment: Assessment) -> Iterator[Block]:
    """Make the tables of machinery and tanks of every vehicle that has them."""
    for name, vehicle in assessment.rig.vehicles.items():
        yield from small_table(f"Engine and generator, {name}", ("", "as noted"), _machinery(vehicle))
        tanks = (_tank(what, tank) for what, tank in vehicle.tanks.items())
        headers = ("tank", "holds", "capacity", "usable", "filler", "valve")
        yield from small_table(f"Tanks, {name}", headers, tanks)


def _machinery(vehicle: Vehicle) -> Iterator[tuple[str, str]]:
    engine, generator = vehicle.engine, vehicle.generator
    if engine:
        cylinders = BLANK if engine.cylinders is None else str(engine.cylinders)
        size = f"{as_written(engine.power)}, {as_written(engine.displacement)}, {cylinders} cylinders"
        belts = f"; belts: {', '.join(belt or BLANK for belt in engine.belts)}" if engine.belts else ""
        yield "engine", f"{size}, {engine.place or BLANK}{belts}"
    if vehicle.transmission:
        yield "towed with its wheels down", vehicle.transmission.tow_with_wheels_down or BLANK
    if generator:
        yield "generator", f"{as_written(generator.power)}, {generator.place or BLANK}"


def _tank(name: str, tank: Tank) -> tuple[str, ...]:
    valve = tank.valve or "-"
    if tank.holds == "propane":
        valve = f"{tank.valve or BLANK}; {tank.valve_while_driving.upper()} while driving"
    usable = "-" if tank.usable is None else both_as_written(tank.usable)
    return name, tank.holds, both_as_written(tank.capacity), usable, tank.filler or "-", valve


_INTRO = (
    "To scale, front at the left, right side above. Large figures: cold set-points. Small numbers: the walk, "
    "once round from the entry door. Bold: ways out. Labels on the vehicle and its maker's manual come first."
)


def rig_at_a_glance(assessment: Assessment) -> Page:
    """Make the page of the rig at a glance."""
    laid = plan(assessment)
    blocks: tuple[Block, ...] = (
        *_drawing(laid),
        *_walk_table(laid),
        *dimension_tables(assessment),
        *rating_table(assessment),
        *place_table(assessment),
        *brake_table(assessment),
        *engine_tables(assessment),
    )
    return Page("rig_at_a_glance", "Rig at a glance", _INTRO, blocks)


def _drawing(laid: Plan) -> Iterator[Block]:
    if laid.view:
        yield Picture(laid.view)
    else:
        yield Note(f"No plan view to scale: not known: {', '.join(laid.lacking)}.")
    if laid.assumed:
        yield Note(" ".join(laid.assumed))


def _walk_table(laid: Plan) -> Iterator[Block]:
    rows = (
        (number, place.name, place.where, place.lock or "-", ", ".join(place.holds) or "-")
        for number, place in laid.numbered
    )
    headers = ("walk", "place", "side", "lock", "found there")
    yield from small_table("The walk, from the entry door back to it", headers, rows)
