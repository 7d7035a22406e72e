"""Figures and findings told whole: as plain data, explained in words, and those found alike together."""

from collections.abc import Iterator, Mapping
from datetime import date, datetime
from types import MappingProxyType
from typing import Literal, TypeAlias

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure, FigureKind, Key, Phrase
from binder.quantities import is_quantity
from binder.reference.sources import Source, source, source_ids
from binder.wording.measures import Style
from binder.wording.numbers import recorded
from binder.wording.sentences import key_text
from binder.wording.words import Words, style_of


def sources_of(text: str) -> tuple[Source, ...]:
    """Entries of the bibliography that a figure's source line names."""
    return tuple(source(name) for name in source_ids(text))


def source_words(text: str) -> tuple[str, ...]:
    """The same entries as one line of words each."""
    return tuple(
        f"{entry.id}: {entry.title} (grade {entry.grade}{_GET_BETTER if entry.grade == 'C' else ''})"
        for entry in sources_of(text)
    )


def origin_words(text: str) -> str:
    """The same as they stand beside a number: where nothing better is named, a secondary page says so."""
    named = sources_of(text)
    if any(entry.grade[:1] in {"A", "B"} for entry in named):
        return text
    return "; ".join(f"{one.id} (grade C)" if one.grade == "C" else one.id for one in named)


_GET_BETTER = ": a secondary page, get a better one"


Plain: TypeAlias = "dict[str, Plain] | list[Plain] | str | float | None"


def assessment_record(assessment: Assessment) -> dict[str, Plain]:
    """Every figure and finding of an assessment as plain data: the first entries of numbers.json."""
    words = Words(style_of(assessment))
    figures: dict[str, Plain] = {}
    for figure in assessment.ledger.entered:
        key = words.key(figure.key)
        while key in figures:
            # Names that differ by a mark alone are told apart: no number is lost.
            key = f"{key}_2"
        figures[key] = _figure(figure, words)
    return {
        "rig": assessment.rig.name,
        "trip": assessment.trip.name if assessment.trip else "",
        "date": assessment.on.isoformat(),
        "figures": dict(sorted(figures.items())),
        "findings": [
            {
                "grade": found.grade,
                "key": said.key,
                "text": said.text,
                "what_helps": said.helps,
                "path": said.path,
            }
            for found in assessment.findings
            for said in (words.found(found),)
        ],
    }


def _figure(figure: Figure, words: Words) -> dict[str, Plain]:
    told = words.told(figure)
    value, unit = plain_value(figure, words.style)
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


def plain_value(figure: Figure, style: Style) -> tuple[float | str | None, str]:
    """The value as a number or text, and its unit."""
    value = figure.value
    if is_quantity(value):
        return recorded(value, figure.kind.measure, style)
    if isinstance(value, Phrase):
        return Words(style).said(value, figure.facts), ""
    if isinstance(value, datetime):
        return value.isoformat(timespec="minutes"), ""
    return (value.isoformat() if isinstance(value, date) else value), ""


def explanation(assessment: Assessment, start: str) -> str:
    """Explain every figure whose key is, or begins with, the given start; without one list all values."""
    words = Words(style_of(assessment))
    named = [(key_text(figure.key), figure) for figure in assessment.ledger.entered]
    if not start:
        values = sorted((key, words.value(figure, "none")) for key, figure in named)
        return "\n".join(f"{key} = {value}" for key, value in values)
    found = [figure for key, figure in named if key.startswith(start)] or _by_words(named, start)
    return "\n\n".join("\n".join(_lines(figure, assessment, words)) for figure in found)


def _by_words(named: list[tuple[str, Figure]], asked: str) -> list[Figure]:
    """Figures whose keys hold the beginning of every word; where one lacks words, those with the most."""
    wanted = [word.lower() for word in asked.replace("_", " ").split()]
    hits = [(sum(_begins(word, key) for word in wanted), figure) for key, figure in named]
    return [figure for count, figure in hits if wanted and count == len(wanted)]


def _begins(word: str, key: str) -> bool:
    """Tell whether some word of a key begins with this one; people say pressure for a set-point."""
    parts = key.lower().replace("_", " ").replace(".", " ").split()
    told = _SAID_FOR.get(word, ())
    return any(part.startswith((word, *told)) for part in parts)


_SAID_FOR = {
    "pressure": ("set",),
    "cold": ("set", "add"),
    "fill": ("set", "add"),
    "over": ("leave",),
    "height": ("overall",),
    "hitch": ("coupling",),
    "bridge": ("clearance",),
}
"""What people and cards say, and how the words of the key begin."""


def _lines(figure: Figure, assessment: Assessment, words: Words) -> Iterator[str]:
    told = words.told(figure)
    yield f"{told.key} = {words.value(figure, 'none')} ({figure.basis})"
    yield f"  {told.rule}"
    for given in told.inputs:
        yield f"  - {given.name}: {given.text} ({given.origin})"
    if told.slack:
        yield f"  slack: {told.slack}"
    for name in source_words(told.sources):
        yield f"  source: {name}"
    for caution in told.cautions:
        yield f"  caution: {caution}"
    for found in assessment.findings:
        if found.about == figure.key:
            said = words.found(found)
            yield f"  {found.grade}: {said.text}"
            if said.helps:
                yield f"    what helps: {said.helps}"


def subject_text(key: Key) -> str:
    """Whose number it is, in words, without its topic and its name."""
    words = ", ".join(part.replace("_", " ") for part in key_text(key).split(".")[1:3])
    return f"{words[:1].upper()}{words[1:]}"


def worse_side(kind: FigureKind) -> Literal["higher", "lower", "either"]:
    """Which way a value hurts: the way it is rounded, unless its kind says otherwise."""
    rounded = kind.measure.rpartition(" ")[2]
    return kind.unknown_makes_it or _WORSE.get(rounded) or "either"


_WORSE: Mapping[str, Literal["higher", "lower"]] = MappingProxyType({"up": "higher", "down": "lower"})


def figure_name(key: Key) -> str:
    """What a number is called, in words: whose it is, and its name."""
    *_, last = key_text(key).split(".")
    whose, name = subject_text(key), last.replace("_", " ")
    return whose if whose.lower().endswith(name) else f"{whose}: {name}"
