"""Blanks that may make figures more hopeful, each with its reason; nothing else may."""

from fnmatch import fnmatchcase
from typing import NamedTuple


class Allowed(NamedTuple):
    """Paths that may be left out, the figures that may get better then, and why."""

    file: str
    paths: str
    figures: str
    reason: str


_WALKED = "left out, the level is walked from the owner's own use, and printed as walked"
_NOT_PLANNED = "left out, it is not planned there"
EXCEPTIONS = (
    Allowed("trip plan", "days.*.to.levels.*", "*", _WALKED),
    Allowed("trip plan", "days.*.from.levels.*", "*", _WALKED),
    Allowed("trip plan", "days.*.to.arriving.*", "*", _WALKED),
    Allowed("trip plan", "days.*.fill.*", "supplies.*", _NOT_PLANNED),
    Allowed("trip plan", "days.*.dump", "supplies.*", _NOT_PLANNED),
    Allowed("trip plan", "rules.wind.*", "route.wind_*", "the owner's choice; the default is printed"),
    Allowed("rig.yaml", "tires.*.replace_after", "tires.*", "the owner's choice; the default is printed"),
)


def is_allowed(file: str, path: str, told: str) -> bool:
    """Tell whether a figure may get better by leaving out an entry."""
    return any(
        one.file == file and fnmatchcase(path, one.paths) and fnmatchcase(told, one.figures)
        for one in EXCEPTIONS
    )
