"""A figure in words: what it is, what decided it, the limit that bound, and what would change it."""

from collections.abc import Iterator

from binder.assessment.assessment import Assessment
from binder.assessment.ledger import Figure
from binder.assessment.source_list import source_words
from binder.wording.sentences import key_text
from binder.wording.words import Words


def explanation(assessment: Assessment, start: str) -> str:
    """Explain every figure whose key is, or begins with, the given start; without one list all values."""
    words = Words(assessment.rig.units)
    named = [(key_text(figure.key), figure) for figure in assessment.ledger.entered]
    if not start:
        values = sorted((key, words.value(figure, "none")) for key, figure in named)
        return "\n".join(f"{key} = {value}" for key, value in values)
    found = [figure for key, figure in named if key.startswith(start)]
    return "\n\n".join("\n".join(_lines(figure, assessment, words)) for figure in found)


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
