"""Forms for the desk that are filled in by hand: pressures, fuel, faults."""

from binder.assessment.assess import Assessment
from binder.assessment.conditions import driven
from binder.assessment.ledger import Key
from binder.assessment.tires.axle import positions_of, rolling_tire_axles
from binder.assessment.tires.kinds import SET_POINT
from binder.cards.blocks import Form, Page
from binder.cards.rig_words import known_limit, on_cap, words_of
from binder.wording.measures import FILL, VOLUME, WAY
from binder.wording.numbers import BLANK

_READINGS, _ROWS = 6, 26
"""Readings of all tires beside each other, and lines to write on: each fills a sheet."""


def pressure_log(assessment: Assessment) -> Page:
    """Make the log of cold pressures: a row for each tire, a column for each morning."""
    words = words_of(assessment)
    blank = ("",) * _READINGS
    heads = tuple((name, "-", *blank) for name in ("date, hour", "place", "air, in the shade"))
    tires = tuple(
        (f"{axle.vehicle_name}, {position.name}", _set_point(assessment, SET_POINT.of(*axle.subject)), *blank)
        for axle in rolling_tire_axles(assessment.rig, ())
        for position in positions_of(axle)
    )
    intro = "Cold: parked in shade three hours, or before sunrise. One that loses more than its mates leaks."
    headers = ("tire", f"set, {words.unit(FILL)}", *("reading",) * _READINGS)
    form = Form(headers, (*heads, *tires), small=True)
    return Page("pressure_log", "Pressure log", intro, (form,) * max(1, _ROWS // len(form.rows)))


def _set_point(assessment: Assessment, key: Key) -> str:
    pressure = assessment.quantity(key)
    return BLANK if pressure is None else words_of(assessment).fill(pressure, known_limit(assessment, key))


def fuel_log(assessment: Assessment) -> Page | None:
    """Make the log of what was filled; none where nothing burns fuel."""
    words = words_of(assessment)
    held = {tank.holds for tank in driven(assessment.rig)[1].tanks.values()}
    fuels = [fuel for fuel in ("diesel", "gasoline", "exhaust fluid") if fuel in held]
    if not fuels:
        return None
    filled = [f"{on_cap(fuel)}, {words.unit(VOLUME)}" for fuel in fuels]
    headers = ("date, place", f"odometer, {words.unit(WAY)}", *filled, "to the brim", "paid", "remarks")
    intro = "Use is read from brim to brim: the distance, and all that was filled after the first."
    return _log("fuel_log", "Fuel log", intro, headers)


def faults_log(_assessment: Assessment) -> Page:
    """Make the log of faults: what was seen, and what was done."""
    headers = ("date, odometer", "what, where", "cold or hot, speed, lamp", "done, by whom", "done on")
    intro = "Written when it is seen, not when it is mended: what comes and goes is found by its dates."
    return _log("faults_log", "Faults log", intro, headers)


def _log(name: str, title: str, intro: str, headers: tuple[str, ...]) -> Page:
    return Page(name, title, intro, (Form(headers, (("",) * len(headers),) * _ROWS, small=True),))
