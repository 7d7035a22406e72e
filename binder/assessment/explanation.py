"""A figure in words: what it is, what decided it, the limit that bound, and what would change it."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.figures import Figure
from binder.assessment.record import plain_value
from binder.assessment.source_list import source_words

_DECIMALS = {"m": 2}
"""Digits after the point where one is too coarse: a height in meters is known to the centimeter."""


def explanation(assessment: Assessment, start: str) -> str:
    """Explain every figure whose key is, or begins with, the given start."""
    if not start:
        return "\n".join(
            f"{key} = {_value(figure, assessment)}"
            for key, figure in sorted(assessment.ledger.figures.items())
        )
    found = list(assessment.ledger.starting_with(start))
    return "\n\n".join("\n".join(_lines(figure, assessment)) for figure in found)


def _value(figure: Figure, assessment: Assessment) -> str:
    value, unit = plain_value(figure.value, assessment.rig.units)
    if value is None:
        return "none"
    if isinstance(value, float):
        text = f"{value:,.{_DECIMALS.get(unit, 1)}f}"
        return text.removesuffix(".0") + (f" {unit}" if unit else "")
    return str(value)


def _lines(figure: Figure, assessment: Assessment) -> Iterator[str]:
    yield f"{figure.key} = {_value(figure, assessment)} ({figure.kind})"
    yield f"  {figure.rule}"
    for given in figure.inputs:
        yield f"  - {given.name}: {given.text} ({given.origin})"
    if figure.slack:
        yield f"  slack: {figure.slack}"
    for name in source_words(figure.source):
        yield f"  source: {name}"
    for caution in figure.cautions:
        yield f"  caution: {caution}"
    for found in assessment.findings:
        if found.key == figure.key:
            yield f"  {found.grade}: {found.text}"
            if found.what_helps:
                yield f"    what helps: {found.what_helps}"
