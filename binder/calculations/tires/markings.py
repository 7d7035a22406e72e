"""A tire's size and load range as people write them: one spelling of each, so that none decides anything."""

import re
from typing import Literal, NamedTuple, TypeAlias

Sameness: TypeAlias = Literal["same", "another", "not known"]

_BETWEEN = re.compile(r"[\s\-_,()]+")
_SIZE = re.compile(
    r"(?P<prefix>P|LT|ST|T)?(?P<width>\d+(?:\.\d+)?(?:[/X]\d+(?:\.\d+)?)?)(?P<build>Z?R|D|B)?"
    r"(?P<rim>\d{2}(?:\.5)?)(?P<suffix>LT|ST|CP|C)?(?P<rest>.*)"
)
_RANGE = re.compile(r"/?(?:LOADRANGE|LR)?(?P<range>SL|XL|LL|HL|[A-N])(?![A-Z])(?P<rest>.*)")
_SERVICE = re.compile(r"/?\d{2,3}(?:/\d{2,3})?[A-Z]?\d?(?P<rest>.*)")


class Marking(NamedTuple):
    """What a tire is called: its size in one spelling, and its load range where it is said."""

    size: str
    load_range: str


def marking(text: str) -> Marking:
    """Read a tire's name: case, spaces and dashes count nothing, nor load index and speed letter.

    Args:
        text: as on a sidewall or a label, such as ``LT235/85R16 120/116Q E``.
    Returns: Its size and load range; what does not read as a size is all size.
    Sources: arithmetic.

    >>> marking("lt 235/85-r16 120/116Q e") == marking("LT235/85R16E")
    True
    >>> marking("225/75R16 CP").size
    '225/75R16CP'
    """
    written = _BETWEEN.sub("", text.upper())
    read = _SIZE.fullmatch(written)
    if read is None:
        return Marking(written, "")
    suffix, found = read["suffix"] or "", ""
    if suffix == "C" and (read["prefix"] or "/" not in read["width"]):
        # Only a metric size without a letter before it ends in the C of a commercial tire.
        suffix, found = "", "C"
    rest = read["rest"]
    while rest:
        step = _RANGE.fullmatch(rest)
        if step is not None:
            found = step["range"]
        else:
            step = _SERVICE.fullmatch(rest)
        if step is None:
            return Marking(written, "")
        rest = step["rest"]
    size = (read["prefix"] or "") + read["width"] + (read["build"] or "") + read["rim"] + suffix
    return Marking(size, found)


def sameness(wanted: str | None, size: str | None, load_range: str | None) -> Sameness:
    """Whether fitted tires are of the size and load range that a label asks for.

    Args:
        wanted: as on the label; None where not read.
        size: of the fitted tires, which may have the load range behind it; None where not read.
        load_range: of the fitted tires; None where not read.
    Returns: Not known where what would decide it is blank: unknown is not "another".
    Sources: arithmetic.

    >>> sameness("LT235/85R16E", "LT235/85R16", "E"), sameness("LT235/85R16 E", "LT235/85R16", None)
    ('same', 'not known')
    """
    if wanted is None or size is None:
        return "not known"
    asked, bare = marking(wanted), marking(size)
    fitted = marking(f"{size} {load_range or ''}")
    if asked.size not in {fitted.size, bare.size}:
        return "another"
    if asked.load_range in {"", fitted.load_range}:
        return "same"
    return "another" if fitted.load_range else "not known"
