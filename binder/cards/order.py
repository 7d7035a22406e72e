"""The binder and the desk in order: the cards with their reasons, then what is looked up."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from binder.assessment.assess import Assessment
from binder.assessment.ledger import of_case
from binder.assessment.route.kinds import PLANNED
from binder.assessment.supplies.kinds import AS_PLANNED
from binder.assessment.tires.kinds import WARMEST_DAY
from binder.cards.blocks import BinderDocument, Card, Page, Part
from binder.cards.codes import content_code
from binder.cards.log.page import log
from binder.cards.pages.fluids import fluids
from binder.cards.pages.forms import faults_log, fuel_log, pressure_log
from binder.cards.pages.procedure_pages import (
    arriving,
    border_papers,
    driver_change,
    leaving_the_site,
    print_guide,
    questions_of_the_night,
    season_start,
    storing,
    weather,
)
from binder.cards.pages.rig_at_a_glance import rig_at_a_glance
from binder.cards.pages.service_due import service_due
from binder.cards.pages.sources import sources
from binder.cards.pages.spares import spares_by_place
from binder.cards.pages.supplies_along_trip import exhaust_fluid, supplies_along_trip
from binder.cards.pages.tire_register import load_tables, tire_register
from binder.cards.pages.weights import weights, weights_by_state
from binder.cards.pages.worksheets import contacts, read_back, scale_worksheet
from binder.cards.rig_words import words_of
from binder.cards.ring.order import card_again
from binder.cards.workings.set_points import workings
from binder.wording.record import subject_text

_PLANNED = PLANNED | {WARMEST_DAY}
_PAGES: Mapping[str, Callable[[Assessment], Page | None]] = MappingProxyType(
    {
        "rig_at_a_glance": rig_at_a_glance,
        "weights": weights,
        "supplies_along_trip": supplies_along_trip,
        "tire_register": tire_register,
        "fluids": fluids,
        "spares_by_place": spares_by_place,
        "service_due": service_due,
        "log": log,
        "arriving": arriving,
        "leaving_the_site": leaving_the_site,
        "driver_change": driver_change,
        "weather": weather,
        "questions_of_the_night": questions_of_the_night,
        "contacts": contacts,
    }
)
_DESK: Mapping[str, Callable[[Assessment], Page | None]] = MappingProxyType(
    {
        "print_guide": print_guide,
        "season_start": season_start,
        "storing": storing,
        "border_papers": border_papers,
        "scale_worksheet": scale_worksheet,
        "weights_by_state": weights_by_state,
        "workings": workings,
        "load_tables": load_tables,
        "exhaust_fluid": exhaust_fluid,
        "read_back": read_back,
        "pressure_log": pressure_log,
        "fuel_log": fuel_log,
        "faults_log": faults_log,
        "sources": sources,
    }
)

_WITHOUT: Mapping[str, str] = MappingProxyType(
    {
        "coupling": "No card 4, Coupling: nothing is towed.",
        "day_sheet": "No card 5, Day sheet: no trip is planned.",
    }
)
"""Why the ring of a rig has no such card."""


def made_again(part: Part, assessment: Assessment) -> Part | None:
    """Make a part, and no other, from another assessment; None where there is none like it."""
    if isinstance(part, Card):
        return card_again(part, assessment)
    return next(_pages(assessment, [_PAGES.get(part.name) or _DESK[part.name]]), None)


def binder_document(assessment: Assessment, cards: tuple[Card, ...]) -> BinderDocument:
    """The binder: cover lists, the cards with their reasons, and the pages that are looked up."""
    return replace(
        cover(assessment),
        without=tuple(why for name, why in _WITHOUT.items() if all(card.name != name for card in cards)),
        parts=(*cards, *_pages(assessment, _PAGES.values())),
        desk=tuple(_pages(assessment, _DESK.values())),
    )


def cover(assessment: Assessment) -> BinderDocument:
    """The binder without what is in it: what its cover says."""
    rig, trip = assessment.rig, assessment.trip
    invented = rig.invented or bool(trip and trip.invented)

    words = words_of(assessment)

    def said(grade: str) -> tuple[str, ...]:
        found = [words.found(one) for one in assessment.findings if one.grade == grade]
        return tuple(_sentences(one.text, one.helps) for one in found)

    return BinderDocument(
        title="Glovebox binder",
        rig=rig.name,
        trip=trip.name if trip else "",
        effective=assessment.on.isoformat(),
        invented="Invented for demonstration: no real vehicle. Never fill a tire from this."
        if invented
        else "",
        do_not_drive=said("do not drive"),
        not_cleared=said("not cleared"),
        attention=said("attention"),
        missing=said("missing"),
        assumed=tuple(_assumed(assessment)),
    )


def _pages(assessment: Assessment, makers: Iterable[Callable[[Assessment], Page | None]]) -> Iterator[Page]:
    """The pages that this rig has something to say on."""
    for make in makers:
        page = make(assessment)
        if page is not None:
            yield replace(page, code=content_code(page))


def _sentences(*parts: str) -> str:
    whole = (part.strip().rstrip(".") for part in parts if part.strip())
    return " ".join(f"{part[:1].upper()}{part[1:]}." for part in whole)


def _assumed(assessment: Assessment) -> Iterator[str]:
    """What was taken for want of a reading; what the owner planned is no assumption."""
    words, said = words_of(assessment), set()
    for figure in assessment.ledger.entered:
        is_plan = figure.kind in _PLANNED or of_case(figure.kind.rule, figure.case) == AS_PLANNED
        if figure.basis == "assumed" and not is_plan and (rule := words.rule(figure)) not in said:
            said.add(rule)
            yield f"{subject_text(figure.key)}: {rule}"
