"""The register: every mounted tire by its position, with its age on the last day this must hold."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.procedure_numbers import procedure_number
from binder.assessment.tires.axle import rolling_tire_axles
from binder.assessment.tires.register import SPARE, positions_of
from binder.cards.as_written import as_written
from binder.cards.axle_words import display_of
from binder.cards.blocks import Block, Note, Table
from binder.cards.display import BLANK
from binder.cards.figure_text import age_text, tread_text
from binder.models.tires import MountedTire, Tires

_HEADERS = ("position", "size, load range", "date code", "made, week of", "age", "tread", "around", "mounted")


def register_blocks(assessment: Assessment) -> Iterator[Block]:
    """Make the table of mounted tires, the spare last."""
    rows = [*_mounted(assessment), *_spares(assessment)]
    if not rows:
        return
    yield Table(_HEADERS, tuple(rows), small=True, caption="Every tire")
    rule = next(
        (figure.rule for figure in assessment.ledger.starting_with("tires.") if figure.key.endswith(".age")),
        "",
    )
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
    display = display_of(assessment)
    for axle in rolling_tire_axles(assessment.rig, ()):
        for position in positions_of(axle):
            key = f"{axle.key}.{position}".replace(" ", "_")
            tread = assessment.quantity(f"{key}.tread")
            yield (
                f"{axle.vehicle_name}, {position}",
                *_tire(axle.tires, axle.tires.mounted.get(position) or MountedTire()),
                *_made(assessment, key),
                tread_text(tread, display),
                *_measured(axle.tires.mounted.get(position) or MountedTire()),
            )


def _spares(assessment: Assessment) -> Iterator[tuple[str, ...]]:
    display = display_of(assessment)
    found = False
    for name, tires in assessment.rig.tires.items():
        for position, mounted in tires.mounted.items():
            if position.startswith(SPARE):
                found = True
                key = f"tires.{name}.{position}".replace(" ", "_")
                yield (
                    f"{position}, {name}",
                    *_tire(tires, mounted),
                    *_made(assessment, key),
                    tread_text(assessment.quantity(f"{key}.tread"), display),
                    *_measured(mounted),
                )
    if not found:
        yield ("spare", "none noted", *("-" for _ in _HEADERS[2:]))


def _made(assessment: Assessment, key: str) -> tuple[str, str]:
    made = assessment.known(f"{key}.made")
    age = age_text(assessment.quantity(f"{key}.age"))
    return (str(made.value) if made and made.value else BLANK), age


def _tire(tires: Tires, mounted: MountedTire) -> tuple[str, str]:
    size = f"{tires.size or BLANK}, {tires.load_range or BLANK}"
    return size, mounted.date_code or BLANK


def _measured(mounted: MountedTire) -> tuple[str, str]:
    around = as_written(mounted.circumference) if mounted.circumference is not None else "-"
    return around, mounted.mounted_on.isoformat() if mounted.mounted_on else BLANK
