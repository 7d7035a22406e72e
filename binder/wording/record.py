"""Figures and findings as plain data, for numbers.json and for other programs."""

from datetime import date, datetime
from typing import TypeAlias

from binder.assessment.assessment import Assessment
from binder.assessment.ledger import Figure, Phrase
from binder.quantities import is_quantity
from binder.wording.measures import System
from binder.wording.numbers import recorded
from binder.wording.words import Words

Plain: TypeAlias = "dict[str, Plain] | list[Plain] | str | float | None"


def assessment_record(assessment: Assessment) -> dict[str, Plain]:
    """Every figure and finding of an assessment as plain data: the first entries of numbers.json."""
    words = Words(assessment.rig.units)
    figures = {words.key(figure.key): _figure(figure, words) for figure in assessment.ledger.entered}
    return {
        "rig": assessment.rig.name,
        "trip": assessment.trip.name if assessment.trip else "",
        "date": assessment.on.isoformat(),
        "figures": dict(sorted(figures.items())),
        "findings": [
            {"grade": found.grade, "key": said.key, "text": said.text, "what_helps": said.helps}
            for found in assessment.findings
            for said in (words.found(found),)
        ],
    }


def _figure(figure: Figure, words: Words) -> dict[str, Plain]:
    told = words.told(figure)
    value, unit = _plain(figure, words.units)
    return {
        "value": value,
        "unit": unit,
        "kind": figure.basis,
        "inputs": [{"name": one.name, "text": one.text, "origin": one.origin} for one in told.inputs],
        "rule": told.rule,
        "source": told.sources,
        "cautions": list(told.cautions),
        "slack": told.slack,
    }


def _plain(figure: Figure, units: System) -> tuple[float | str | None, str]:
    """The value as a number or text, and its unit."""
    value = figure.value
    if is_quantity(value):
        return recorded(value, figure.kind.measure, units)
    if isinstance(value, Phrase):
        return Words(units).said(value, figure.facts), ""
    if isinstance(value, datetime):
        return value.isoformat(timespec="minutes"), ""
    return (value.isoformat() if isinstance(value, date) else value), ""
