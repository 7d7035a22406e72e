"""The newest pressure and tread of each tire by the log, beside what the profile says."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure, FigureKind, Subject
from binder.assessment.log import kinds
from binder.assessment.tires import register_kinds
from binder.assessment.tires.kinds import SET_POINT
from binder.cards.blocks import Block, small_table
from binder.cards.rig_words import words_of
from binder.wording.words import Words

_HEADERS = ("position", "pressure", "read", "on", "cold fill", "tread", "on", "tread in rig.yaml")
_NONE = "-"
_KINDS = (
    (register_kinds.TREAD, kinds.LAST_PRESSURE, kinds.LAST_TREAD),
    (register_kinds.SPARE_TREAD, kinds.SPARE_LAST_PRESSURE, kinds.SPARE_LAST_TREAD),
)


def newest_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the table of what was read last; nothing where the log has none of it."""
    yield from small_table("Read last, by the log", _HEADERS, _rows(assessment), kinds.NEWEST_NOTE)


def _rows(assessment: Assessment) -> Iterator[tuple[str, ...]]:
    for register, *last in _KINDS:
        for one in assessment.ledger.of_kind(register):
            pressure, tread = (assessment.known(kind.of(*one.key.subject)) for kind in last)
            if pressure or tread:
                yield _row(assessment, one, pressure, tread)


def _row(
    assessment: Assessment, register: Figure, pressure: Figure | None, tread: Figure | None
) -> tuple[str, ...]:
    words, subject = words_of(assessment), register.key.subject
    fill = assessment.known(SET_POINT.of(*subject[:2]))
    written = words.given(register, register_kinds.TREAD_INPUT)
    return (
        _name(register.kind, subject),
        words.value(pressure, _NONE),
        words.said(kinds.HOW_READ, pressure.facts) if pressure else _NONE,
        _day(pressure, words),
        words.value(fill, _NONE),
        words.value(tread, _NONE),
        _day(tread, words),
        written.text if written else words.value(register, _NONE),
    )


def _name(kind: FigureKind, subject: Subject) -> str:
    first, *_, last = subject
    return f"{first}, {last}" if kind is register_kinds.TREAD else f"{last}, {first}"


def _day(figure: Figure | None, words: Words) -> str:
    return words.said(kinds.READ_ON, figure.facts) if figure else _NONE
