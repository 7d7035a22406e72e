"""The register: every mounted tire by its position, with its age on the last day this must hold."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.ledger import FigureKind
from binder.assessment.tires import register_kinds as kinds
from binder.assessment.tires.axle import rolling_tire_axles
from binder.assessment.tires.register import is_spare, positions_of
from binder.cards.axle_words import words_of
from binder.cards.blocks import Block, Note, Table
from binder.models.tires import MountedTire, Tires
from binder.wording.as_written import as_written
from binder.wording.meanings import AGE, TREAD
from binder.wording.numbers import BLANK
from binder.wording.procedure_numbers import procedure_number

_MOUNTED = (kinds.MADE, kinds.AGE, kinds.TREAD)
_SPARE = (kinds.SPARE_MADE, kinds.SPARE_AGE, kinds.SPARE_TREAD)
_HEADERS = ("position", "size, load range", "date code", "made, week of", "age", "tread", "around", "mounted")


def register_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the table of mounted tires, the spare last."""
    rows = [*_mounted(assessment), *_spares(assessment)]
    if not rows:
        return
    yield Table(_HEADERS, tuple(rows), small=True, caption="Every tire")
    ages = (*assessment.ledger.of_kind(kinds.AGE), *assessment.ledger.of_kind(kinds.SPARE_AGE))
    rule = words_of(assessment).rule(next(iter(ages), None))
    steering, elsewhere, diameter, around, tread = (
        procedure_number(name, assessment.rig.units)
        for name in ("tread steering", "tread elsewhere", "pair diameter", "pair around", "pair tread")
    )
    yield Note(
        f"{rule} Date code: week and year, the last figures of the number that starts with DOT. Least tread: "
        f"{steering} on a steering axle, {elsewhere} elsewhere (49 CFR 393.75). Pairs match within "
        f"{diameter} of diameter, {around} around and {tread} of tread (S45; S48)."
    )


def _mounted(assessment: Assessment) -> Iterator[tuple[str, ...]]:
    for axle in rolling_tire_axles(assessment.rig, ()):
        for position in positions_of(axle):
            mounted = axle.tires.mounted.get(position.name) or MountedTire()
            yield (
                f"{axle.vehicle_name}, {position.name}",
                *_tire(axle.tires, mounted),
                *_found(assessment, _MOUNTED, *axle.subject, position.name),
                *_measured(mounted),
            )


def _spares(assessment: Assessment) -> Iterator[tuple[str, ...]]:
    found = False
    for name, tires in assessment.rig.tires.items():
        for position, mounted in tires.mounted.items():
            if is_spare(position):
                found = True
                yield (
                    f"{position}, {name}",
                    *_tire(tires, mounted),
                    *_found(assessment, _SPARE, name, position),
                    *_measured(mounted),
                )
    if not found:
        yield ("spare", "none noted", *("-" for _ in _HEADERS[2:]))


def _found(assessment: Assessment, of: tuple[FigureKind, ...], *subject: str) -> tuple[str, str, str]:
    """Made in the week of, age, tread."""
    words, (made, age, tread) = words_of(assessment), (kind.of(*subject) for kind in of)
    week = assessment.known(made)
    return (
        str(week.value) if week and week.value else BLANK,
        words.text(assessment.quantity(age), AGE),
        words.text(assessment.quantity(tread), TREAD),
    )


def _tire(tires: Tires, mounted: MountedTire) -> tuple[str, str]:
    size = f"{tires.size or BLANK}, {tires.load_range or BLANK}"
    return size, mounted.date_code or BLANK


def _measured(mounted: MountedTire) -> tuple[str, str]:
    around = as_written(mounted.circumference) if mounted.circumference is not None else "-"
    return around, mounted.mounted_on.isoformat() if mounted.mounted_on else BLANK
