"""The bibliography handed up to the cards and to explanations, which read no publication themselves."""

from binder.reference.sources import Source, source, source_ids


def sources_of(text: str) -> tuple[Source, ...]:
    """Entries of the bibliography that a figure's source line names.

    Args:
        text: ids with semicolons between them [text].

    Returns:
        The entries in the order named.

    Raises:
        KeyError: an id that is not in the bibliography; a number without an origin is a bug.

    Sources:
        The bibliography.

    Example:
        >>> [entry.id for entry in sources_of("practice; S50")]
        ['practice', 'S50']
    """
    return tuple(source(name) for name in source_ids(text))


def source_words(text: str) -> tuple[str, ...]:
    """The same entries as one line of words each.

    Args:
        text: ids with semicolons between them [text].

    Returns:
        Id, title and grade of each.

    Raises:
        KeyError: an id that is not in the bibliography.

    Sources:
        The bibliography.

    Example:
        >>> source_words("practice")[0].startswith("practice")
        True
    """
    return tuple(f"{entry.id}: {entry.title} (grade {entry.grade})" for entry in sources_of(text))
