"""The bibliography handed up to the cards and to explanations, which read no publication themselves."""

from binder.reference.sources import Source, source, source_ids


def sources_of(text: str) -> tuple[Source, ...]:
    """Entries of the bibliography that a figure's source line names."""
    return tuple(source(name) for name in source_ids(text))


def source_words(text: str) -> tuple[str, ...]:
    """The same entries as one line of words each."""
    return tuple(f"{entry.id}: {entry.title} (grade {entry.grade})" for entry in sources_of(text))
