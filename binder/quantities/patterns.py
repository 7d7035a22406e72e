"""How quantities may be written, as regular expressions and lists of units, for the schema."""

from functools import cache

from binder.quantities.dimensions import (
    DIGITS,
    FRACTION,
    FUEL_USE,
    LENGTH,
    TIME,
    UNITS,
    Dimension,
    WrittenUnit,
)


@cache
def written_pattern(dimension: Dimension) -> str:
    """Give the regular expression of what may be written for a dimension, as JSON Schema reads it.

    Args:
        dimension: what is measured.
    Returns: the expression, without marks for begin and end.

    >>> import re
    >>> from binder.quantities import MASS
    >>> bool(re.fullmatch(written_pattern(MASS), "26,000 lb"))
    True
    >>> bool(re.fullmatch(written_pattern(MASS), "26000"))
    False
    """
    sign = "[-+]?" if dimension.signed else "[+]?"
    number = rf"{sign}(?:[0-9]{{1,3}}(?:,[0-9]{{3}}){{1,3}}(?:\.[0-9]{{1,12}})?|{DIGITS})(?:[ -]{FRACTION})?"
    units = "|".join(_any_capitals(word) for word in _units_of(dimension))
    one = rf"(?:{number}|{FRACTION}) *(?:{units})"
    if LENGTH.formula == dimension.formula:
        return rf"{one}|[0-9]{{1,4}} ?ft {DIGITS}(?:[ -]{FRACTION})? ?in"
    # Parts of a time follow one another, and hours and minutes may be joined by a colon.
    return rf"{one}(?: {one})*|[0-9]{{1,3}}:[0-5][0-9]" if dimension.formula == TIME.formula else one


def unit_words(dimension: Dimension) -> tuple[str, ...]:
    """List the units that may be written for a dimension, one word for each.

    Args:
        dimension: what is measured.
    Returns: the words, the usual first.

    >>> from binder.quantities import VOLUME
    >>> unit_words(VOLUME)
    ('gal', 'qt', 'pt', 'fl oz', 'L')
    """
    firsts = {unit.pint: word for word, unit in reversed(_units_of(dimension).items())}
    return tuple(reversed(firsts.values()))


def _units_of(dimension: Dimension) -> dict[str, WrittenUnit]:
    alone = dimension.formula in ("", FUEL_USE.formula)
    return {
        word: unit
        for word, unit in UNITS.items()
        if unit.dimension is dimension
        or (not alone and unit.dimension is not None and unit.dimension.formula == dimension.formula)
    }


def _any_capitals(word: str) -> str:
    letters = (f"[{c.upper()}{c.lower()}]" if c.isalpha() else c.replace("*", "[*]") for c in word)
    return "".join(letters) if len(word) > 1 else word
