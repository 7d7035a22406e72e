"""The page that the codes on the cards lead to: what it knows of a rig, and the files it is made of."""

import hashlib
import json
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from binder import templates_folder
from binder.assessment.assess import Assessment
from binder.assessment.entries.contradictions import ASSUMED_DIVISION
from binder.assessment.log.faults import card_of, open_faults
from binder.assessment.tires import kinds
from binder.cards.blocks import Card
from binder.cards.rig_words import AxleGroup, axle_groups, words_of
from binder.cards.ring.tires import grave, limits
from binder.log.rig_names import names_of
from binder.models.load import Profile
from binder.models.log_entries import KINDS, forms_of
from binder.models.rig import Rig
from binder.models.vehicles import Vehicle
from binder.printed.differences import moved_figures
from binder.printed.record import Printed, printed_of
from binder.problems import InputProblems, Problem
from binder.quantities import SCALE_WEIGHT, Dimension, Quantity, number_in, registry, round_down, round_up
from binder.wording.measures import FILL, LOAD, PRESSURE_LIMIT, RATING, VOLUME
from binder.wording.sentences import key_text
from binder.wording.words import Words, procedure_number

FOLDER, RIG, WORKER = "log", "rig.js", "worker.js"
_MEASURED = {
    "psi": ("pressure", ""),
    "degree_Fahrenheit": ("temperature", ""),
    "foot": ("elevation", ""),
    "inch": ("tread", ""),
    "gallon": ("volume", ""),
    "mile": ("distance", ""),
    "hour": ("", "h"),
    "pound": ("weight", ""),
}
"""How a field is asked for whose bounds are told in this unit: its measure, or a unit that all rigs have."""

_WASTE = ("gray water", "black water")
_METERS = ("odometer", "engine", "generator")


def log_page_out(profile: Profile, out: Path | None, within: Path) -> Path | None:
    """Where the page is written, for all trips and sets; None where the codes lead to no such page."""
    if not _is_web(profile.rig):
        return None
    if profile.trip_name == FOLDER and out is None:
        text = f"a trip named '{FOLDER}' would be printed among the files of the log's page"
        hint = "name the file of the trip otherwise, or a folder with --out"
        raise InputProblems([Problem(f"trips/{FOLDER}.yaml", None, "", text, hint)])
    return (out or within / profile.folder) / FOLDER


def page_files(folder: Path, assessment: Assessment, cards: Iterable[Card]) -> dict[str, bytes]:
    """Make the page of a rig whose public cards these are; none where their codes lead elsewhere."""
    if not _is_web(assessment.rig):
        return {}
    files = {file.name: file.read_bytes() for file in sorted((templates_folder() / "log").iterdir())}
    told = json.dumps(_told(assessment, cards, printed_of(folder)), indent=0).replace("<", "\\u003c")
    files[RIG] = f'"use strict";\nconst RIG = {told};\n'.encode()
    names = [name for name in files if name != WORKER]
    edition = hashlib.sha256(b"".join(files.values())).hexdigest()[:16]
    head = f'"use strict";\nconst EDITION = "{edition}";\nconst FILES = {json.dumps(names)};\n'
    return files | {WORKER: head.encode() + files[WORKER]}


def _is_web(rig: Rig) -> bool:
    return (rig.log or "").lower().startswith(("https:", "http:"))


def _told(assessment: Assessment, cards: Iterable[Card], printed: Printed) -> dict[str, Any]:
    """All that the page knows; nothing of ``private.yaml``, of which these cards are free."""
    rig, trip, words = assessment.rig, assessment.trip, words_of(assessment)
    return {
        "rig": rig.name,
        "invented": rig.invented or bool(trip and trip.invented),
        "trip": trip.name if trip else "",
        "unit": words.unit(FILL),
        "rest": procedure_number("cold rest", words.style),
        "again": procedure_number("read again", words.style),
        "vehicles": list(rig.vehicles),
        "axles": list(_axles(assessment, words)),
        "tanks": [
            {"vehicle": name, "tank": tank, "capacity": _in(words, one.capacity, "volume")}
            for name, vehicle in rig.vehicles.items()
            for tank, one in vehicle.tanks.items()
            if one.holds not in _WASTE
        ],
        "meters": {name: _meters(assessment, name, one, words) for name, one in rig.vehicles.items()},
        "service": list(dict.fromkeys(one.what for one in rig.service)),
        "spares": list(dict.fromkeys(one.what for one in rig.spares)),
        "measures": {kind: _measures(kind, words) for kind in KINDS},
        "weighing": _weighing(assessment.rig, words),
        "faults": [
            {"id": one.id, "at": one.at.isoformat(), "card": card_of(one), **one.written}
            for one in open_faults(assessment.profile)
        ],
        "cards": list(_cards(assessment, cards, printed)),
    }


def _axles(assessment: Assessment, words: Words) -> Iterator[dict[str, Any]]:
    """The axles of the rig with the limits of the tires card, and tires that stand on none of them."""
    names, groups = names_of(assessment.rig), axle_groups(assessment)
    standing: set[tuple[str, str]] = set()
    for group in groups:
        known = _limits(group, words)
        for axle in group.axle_names:
            places = [f"{axle} {place}" for place in group.vehicle.axles[axle].tire_places]
            standing |= {(group.vehicle_name, place) for place in places}
            whose = f"{group.vehicle_name}, {axle}" if len(names.vehicles) > 1 else axle
            yield {"vehicle": group.vehicle_name, "name": whose, "tires": places, **known}
    others = [(name, place) for name, held in names.positions.items() for place in held]
    others += [("", place) for place in names.spares]
    left: dict[str, list[str]] = {}
    for name, place in others:
        if (name, place) not in standing:
            left.setdefault(name, []).append(place)
    for name, places in left.items():
        yield {"vehicle": name, "name": name or "spare", "tires": places}


def _limits(group: AxleGroup, words: Words) -> dict[str, Any]:
    fill, flat, leave, _ = limits(group, words)
    forbidding = grave(group)
    alarm = next((kind for kind in (kinds.MONITOR_SETTING, kinds.LOW_ALARM) if group.value(kind)), None)
    hot = {"hotFlat": kinds.HOT_FLAT, "apart": kinds.HOT_MATES_APART, "alarm": alarm}
    told = {name: words.number(group.value(kind), kind.measure) for name, kind in hot.items() if kind}
    texts = {"fill": fill, "flat": flat, "leave": leave} | told
    texts["most"] = words.number(group.known_limit, PRESSURE_LIMIT)
    return {
        **{name: number for name, text in texts.items() if (number := _number(text)) is not None},
        "unread": group.unread_parts,
        "isTruck": group.tires.family in {"truck", None},
        "forbidden": words.found(forbidding[0]).brief if forbidding else "",
    }


def _number(text: str) -> float | None:
    """A printed number as one to compare with; None for a blank."""
    try:
        number = float(text.replace(",", ""))
    except ValueError:
        return None
    return int(number) if number.is_integer() else number


def _in(words: Words, quantity: Quantity | None, measure: str) -> float | None:
    return None if quantity is None else _number(words.number(quantity, measure))


def _meters(assessment: Assessment, name: str, vehicle: Vehicle, words: Words) -> dict[str, float | None]:
    """The meters of a vehicle with what each read last; a drawn vehicle has none."""
    has = {
        "odometer": vehicle.engine is not None or vehicle.kind in {"motorhome", "pickup", "car"},
        "engine": vehicle.engine is not None,
        "generator": vehicle.generator is not None,
    }
    known: dict[str, float | None] = {meter: None for meter, there in has.items() if there}
    for reading in sorted(assessment.rig.readings, key=lambda one: str(one.on or "")):
        for meter in _METERS if reading.vehicle == name else ():
            value = getattr(reading, meter)
            if value is not None:
                is_way = meter == "odometer"
                known[meter] = _in(words, value, "distance down") if is_way else number_in(value, "hour")
    return known


def _measures(kind: str, words: Words) -> dict[str, Any]:
    """The fields of a kind that are numbers with a unit: which, and the least and the most it can be."""
    every = ((name, _bounds(form.dimension, words)) for name, form in forms_of(kind).items())
    return {name: bounds for name, bounds in every if bounds}


def _bounds(dimension: Dimension | None, words: Words) -> dict[str, Any]:
    if dimension is None or dimension.ends is None:
        return {}
    least, most, unit = dimension.ends
    measure, word = _MEASURED[unit]
    own = words.style.printed(measure).unit if measure else unit
    ends = [registry.Quantity(float(end), unit).to(own).magnitude for end in (least, most)]
    return {
        "unit": word or words.unit(measure),
        "least": round(float(round_up(ends[0], 0.1)), 1),
        "most": round(float(round_down(ends[1], 0.1)), 1),
    }


def _weighing(rig: Rig, words: Words) -> dict[str, Any]:
    """What is asked at a scale: all that can stand on it with its rating, and what its tanks hold."""
    asked = {
        "coupled": bool(rig.couplings),
        "slides": any(one.equipment.slide for one in rig.vehicles.values()),
        "ride_height": any(one.suspension == "air" for one in rig.vehicles.values()),
    }
    return {
        "each": _bounds(SCALE_WEIGHT, words),
        "step": _exact(words, ASSUMED_DIVISION, LOAD),
        "state": [name for name, is_asked in asked.items() if is_asked],
        "vehicles": [
            {
                "vehicle": name,
                "rating": _exact(words, one.label.gross_vehicle_weight_rating, RATING),
                "axles": [
                    {"axle": axle, "rating": _exact(words, held.rating, RATING)}
                    for axle, held in one.axles.items()
                ],
                "tanks": [
                    {"tank": tank, "holds": _exact(words, held.capacity, VOLUME)}
                    for tank, held in one.tanks.items()
                ],
            }
            for name, one in rig.vehicles.items()
        ],
    }


def _exact(words: Words, quantity: Quantity | None, measure: str) -> float | None:
    """A quantity in the unit it is printed in, not rounded: what is typed is compared with it."""
    return None if quantity is None else round(words.drawn(quantity, measure), 6)


def _cards(assessment: Assessment, cards: Iterable[Card], printed: Printed) -> Iterator[dict[str, Any]]:
    """Every card with its code, and the codes that were in hand before; last those there are no more."""
    old = _superseded(assessment, printed)
    for card in cards:
        was = {code: told for code, told in old.pop(card.id, {}).items() if code != card.code}
        yield {"id": card.id, "name": card.name, "title": card.title, "code": card.code, "was": was}
    for card_id, was in old.items():
        title = next(iter(was.values()))["title"].partition(" ")[2]
        yield {"id": card_id, "name": "", "title": title, "code": "", "was": was}


def _superseded(assessment: Assessment, printed: Printed) -> dict[str, dict[str, dict[str, Any]]]:
    """Codes of cards that are or were in hand, by card; of what is in hand, which figures moved since."""
    figures = {key_text(one.key): one for one in assessment.ledger.entered}
    found: dict[str, dict[str, dict[str, Any]]] = {}
    for one in printed.superseded:
        if one.title[:1].isdigit():
            told = {"title": one.title, "until": one.until.isoformat(), "moved": []}
            found.setdefault(one.title.partition(" ")[0], {})[one.code] = told
    for printing in printed.printings:
        for key, held in printing.parts.items():
            if key.startswith("card-"):
                moved = moved_figures(printing, held, figures, assessment)
                known = {
                    "title": held.title,
                    "of": printing.date.isoformat(),
                    "moved": [[item.name, item.was, item.now] for item in moved],
                }
                found.setdefault(key.removeprefix("card-"), {})[held.code] = known
    return found
