"""Page "Service due": the meters, every service item, wheel nuts, and what carries a date."""

from collections.abc import Iterator
from datetime import date

from binder.assessment.assess import Assessment
from binder.assessment.ledger import FigureKind, Phrase
from binder.assessment.service import kinds
from binder.assessment.service.items import ServiceItem, expiries, service_items, undated
from binder.assessment.service.meters import METERS, RigMeters, meter_keys
from binder.assessment.service.service import usual_service
from binder.cards.blocks import Block, Note, Page, small_table
from binder.cards.rig_words import words_of
from binder.models.service import LastDone
from binder.wording.numbers import BLANK, as_written, both_as_written
from binder.wording.words import procedure_number, style_of

_INTRO = (
    "Each maker's manual comes first. Whichever of an item's intervals ends first counts. What was done is "
    "written at the right, and entered under service in rig.yaml before the next printing."
)
_DUE = (kinds.DUE_ON, kinds.DUE_AT, kinds.DUE_AT_HOURS)
_LEFT = (kinds.DAYS_LEFT, kinds.DISTANCE_LEFT, kinds.HOURS_LEFT)
_NUTS_DUE = (kinds.NUTS_DUE_FROM, kinds.NUTS_DUE_BY)
_ROOM = BLANK * 2
"""Room for a date and a reading."""


def service_due(assessment: Assessment) -> Page:
    """Make the page of service."""
    blocks = (*_service(assessment), *_meters(assessment), *_wheel_nuts(assessment), *_dates(assessment))
    return Page("service_due", "Service due", _INTRO, blocks)


def _service(assessment: Assessment) -> Iterator[Block]:
    end = "at the trip's end" if assessment.trip else "today"
    headers = ("item", "every", "last on", "at", "due", f"left {end}", "done on, at")
    items = service_items(RigMeters(assessment.profile), assessment.on)
    rows = [_item(assessment, item) for item in items]
    caption = "Service, what is due first"
    if not items:
        rows = [(what, *(BLANK,) * 5, _ROOM) for what in usual_service(assessment.profile)]
        caption = "No service is listed. Usual for this equipment (practice)"
    yield from small_table(caption, headers, rows)
    if assessment.rig.couplings:
        often = procedure_number("coupling service", style_of(assessment))
        yield Note(
            f"The coupling and all its parts: every {often} or sooner when traveling much (practice); its "
            "maker's manual comes first."
        )


def _item(assessment: Assessment, item: ServiceItem) -> tuple[str, ...]:
    every = " or ".join(as_written(part.quantity) if part else BLANK for part in item.entry.every)
    due = " or ".join(_values(assessment, item.name, _DUE))
    left = ", ".join(_values(assessment, item.name, _LEFT))
    if item.when:
        left = words_of(assessment).said(kinds.STATE_WHEN, {"state": item.state.upper(), "when": item.when})
    last = item.entry.last
    done = last.on.isoformat() if last and last.on else BLANK
    at = _read_at(last) or (BLANK if _is_metered(item) else "-")
    return item.entry.what, every or BLANK, done, at, due or BLANK, left or BLANK, _ROOM


def _is_metered(item: ServiceItem) -> bool:
    return any(part.time is None for part in item.entry.intervals)


def _values(assessment: Assessment, name: str, asked: tuple[FigureKind, ...]) -> Iterator[str]:
    words = words_of(assessment)
    for kind in asked:
        figure = assessment.known(kind.of(name))
        if figure is not None:
            # A date stands without its weekday: it is months away.
            yield figure.value.isoformat() if isinstance(figure.value, date) else words.value(figure)


def _last_done(last: LastDone | None) -> str:
    if last is None:
        return BLANK
    at = _read_at(last)
    return ", ".join((last.on.isoformat() if last.on else BLANK, *([at] if at else [])))


def _read_at(last: LastDone | None) -> str:
    at = last.at if last else None
    meters = [part for part in (at.odometer, at.running) if part is not None] if at else []
    return ", ".join(as_written(part) for part in meters)


def _meters(assessment: Assessment) -> Iterator[Block]:
    words, rows = words_of(assessment), []
    for vehicle in assessment.rig.vehicles:
        for name in METERS:
            figures = [assessment.known(key) for key in meter_keys(vehicle, name)]
            read = figures[0].given(kinds.READ_ON) if figures[0] else None
            if read is None:
                continue
            meter = "odometer" if name == "odometer" else f"hours of the {name}"
            read_on = read.value.isoformat() if isinstance(read.value, date) else BLANK
            rows.append((f"{vehicle}, {meter}", read_on, *(words.value(figure) for figure in figures), BLANK))
    headers = ("meter", "read on", "reads", "the trip adds", "at the trip's end", "now")
    note = "What is driven or run between the reading and the trip is not counted: read them again."
    yield from small_table("Meters", headers, rows, note)


def _wheel_nuts(assessment: Assessment) -> Iterator[Block]:
    words, rows = words_of(assessment), []
    for name, wheels in assessment.rig.wheels.items():
        between = " to ".join(_values(assessment, name, _NUTS_DUE))
        state = assessment.known(kinds.NUTS_STATE.of(name))
        again = f"{between}: {words.value(state)}" if state and between else BLANK
        rows.append(
            (
                name,
                both_as_written(wheels.nut_torque),
                f"{wheels.socket or BLANK}, {wheels.thread or BLANK}",
                _last_done(wheels.fitted),
                again,
                _last_done(wheels.nuts_checked),
            )
        )
    headers = ("wheels", "torque", "socket, thread", "fitted on, at", "due again", "torqued again on, at")
    note = (
        f"Torque them again {procedure_number('nuts again', style_of(assessment))} after fitting; the "
        "maker's manual comes first. Heavy wheels are work for a tire service."
    )
    yield from small_table("Wheel nuts after a wheel was fitted", headers, rows, note)


def _dates(assessment: Assessment) -> Iterator[Block]:
    words, rows = words_of(assessment), []
    for name, entry in expiries(assessment.profile):
        if entry.on is not None:
            state = assessment.known(kinds.EXPIRES_STATE.of(name))
            is_good = state is not None and state.value == Phrase(kinds.EXPIRES_STATES["good"])
            said = words.value(state) if is_good else words.value(state).upper()
            rows.append((entry.what, entry.on.isoformat(), said, BLANK))
    rows += [(what, BLANK, BLANK, BLANK) for what in undated(assessment.profile)]
    when = "on the trip" if assessment.trip else "today"
    headers = ("carries a date", "good until", when, "renewed until")
    yield from small_table("Alarms, extinguishers, propane and papers", headers, rows)
