"""The ring and the binder in order: which cards a rig has, each with its content code and its address."""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import TypeAlias

from binder.assessment.assess import Assessment
from binder.assessment.ledger import of_case
from binder.assessment.route.kinds import PLANNED
from binder.assessment.supplies.kinds import AS_PLANNED
from binder.assessment.tires.kinds import WARMEST_DAY
from binder.cards.blocks import BinderDocument, Card, Page, Part
from binder.cards.codes import content_code
from binder.cards.log.on_cards import open_faults, with_log
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
from binder.cards.procedures.lines import said_card
from binder.cards.procedures.own_words import own_cards
from binder.cards.rig_words import words_of
from binder.cards.ring.brakes_and_grades import brakes_and_grades
from binder.cards.ring.day_sheet import day_sheets
from binder.cards.ring.fire import fire
from binder.cards.ring.fixed_cards import breakdown, coupling, every_stop, leaving, windshield_slip
from binder.cards.ring.sitting_out import sitting_out
from binder.cards.ring.tire_failure import tire_failure
from binder.cards.ring.tires import tires
from binder.cards.ring.towing import towing
from binder.cards.workings.set_points import workings
from binder.wording.record import subject_text

_Made: TypeAlias = Card | tuple[Card, ...] | None
RING: Mapping[str, Callable[[Assessment], _Made]] = MappingProxyType(
    {
        "leaving": leaving,
        "every_stop": every_stop,
        "tires": tires,
        "coupling": coupling,
        "day_sheet": day_sheets,
        "breakdown": breakdown,
        "towing": towing,
        "tire_failure": tire_failure,
        "fire": fire,
        "brakes_and_grades": brakes_and_grades,
        "sitting_out": sitting_out,
        "windshield_slip": windshield_slip,
    }
)
"""Names of the cards in the order of the ring, with what makes each; a rig may lack some."""

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


def ring(assessment: Assessment) -> tuple[Card, ...]:
    """Cards of the ring in order, finished: code, address, rig and effective date."""
    return tuple(_finished(card, assessment) for card in with_log(_cards(assessment), assessment))


def made_again(part: Part, assessment: Assessment) -> Part | None:
    """Make a part, and no other, from another assessment; None where there is none like it."""
    if isinstance(part, Card):
        made: Iterable[Card]
        if open_faults(assessment):
            # Which card tells of one depends on which cards there are.
            made = with_log(_cards(assessment), assessment)
        else:
            made = _made(RING[part.name], assessment) if part.name in RING else _own_cards(assessment)
        return next((_finished(card, assessment) for card in made if card.id == part.id), None)
    return next(_pages(assessment, [_PAGES.get(part.name) or _DESK[part.name]]), None)


def _cards(assessment: Assessment) -> Iterator[Card]:
    for make in RING.values():
        yield from _made(make, assessment)
    yield from _own_cards(assessment)


def _made(make: Callable[[Assessment], _Made], assessment: Assessment) -> tuple[Card, ...]:
    made = make(assessment)
    return (made,) if isinstance(made, Card) else made or ()


def _own_cards(assessment: Assessment) -> Iterator[Card]:
    for own, words in own_cards(assessment.profile):
        card = said_card(words, assessment)
        sides = tuple(side for side in card.sides if side.blocks)
        if sides:
            yield replace(card, sides=sides, sets=tuple(own.sets))


def _finished(card: Card, assessment: Assessment) -> Card:
    named = replace(card, rig=assessment.rig.name)
    code = content_code(named)
    log = assessment.rig.log
    target = log_target(log, card.id, code) if log else ""
    return replace(named, code=code, target=target, effective=assessment.on.isoformat())


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


_PLAIN = re.compile(r"[0-9A-Za-z.]+")


class AddressUnfit(ValueError):  # noqa: N818 - the name says what is wrong.
    """The address cannot be marked with a card and its code."""


def log_target(address: str, card_id: str, code: str) -> str:
    """Give the address a card's code opens, marked with the card and its content code.

    Web addresses take the mark as fragment, mail as subject; a telephone number and a place have
    no room for one and stay as they are. Scheme and host, which mean the same in capitals, are
    written in capitals, since a QR code holds those in fewer modules; all else keeps its case.
    """
    if not address.isascii() or not address.isprintable() or " " in address:
        raise AddressUnfit(f"{address!r} has letters an address cannot hold; write them as %XX or xn--")
    scheme, colon, rest = address.partition(":")
    way = _WAYS.get(scheme.lower() + colon)
    if way is None or not rest.removeprefix("//"):
        raise AddressUnfit(f"{address!r} is no address for a code; start it with one of {', '.join(_WAYS)}")
    mark = f"{card_id}.{code}"
    if not _PLAIN.fullmatch(mark):
        raise AddressUnfit(f"{mark!r} is no mark; letters, digits and points only")
    return scheme.upper() + ":" + way(rest, mark)


def _web(rest: str, mark: str) -> str:
    if not rest.startswith("//") or "#" in rest:
        raise AddressUnfit(
            f"{rest!r} must start with // and have no # of its own; the card's mark goes there"
        )
    authority, path = re.fullmatch(r"//([^/?]*)(.*)", rest).groups()  # type: ignore[union-attr] # It fits any.
    user, at, host = authority.rpartition("@")
    if not host:
        raise AddressUnfit(f"{rest!r} names no host")
    slash = "" if path.startswith("/") else "/"
    return f"//{user}{at}{host.upper()}{slash}{path}#{mark}"


def _mail(rest: str, mark: str) -> str:
    if "#" in rest or re.search(r"[?&]subject=", rest, re.IGNORECASE):
        raise AddressUnfit(f"{rest!r} has a subject of its own; the card's mark goes there")
    return f"{rest}{'&' if '?' in rest else '?'}subject={mark}"


def _unmarked(rest: str, _mark: str) -> str:
    return rest


_WAYS: dict[str, Callable[[str, str], str]] = {
    "https:": _web,
    "http:": _web,
    "mailto:": _mail,
    "tel:": _unmarked,
    "geo:": _unmarked,
}
