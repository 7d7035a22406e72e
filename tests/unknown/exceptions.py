"""Blanks that may make figures more hopeful, each with its reason; nothing else may."""

from fnmatch import fnmatchcase
from typing import NamedTuple


class Allowed(NamedTuple):
    """Paths that may be left out, the figures that may get better then, and why."""

    file: str
    paths: str
    figures: tuple[str, ...]
    reason: str


_WALKED = "left out, the level is walked from the owner's own use, and printed as walked"
_AT_THE_LAST_STOP = (
    "no stay is counted, and told so; by the next morning the day is counted whole, without hookups"
)
_ZONE_TAKEN = "the zone of the place before is taken, and printed so: an hour of a night's use"
_SUPPLIES = ("supplies.*", "sitting_out.*", "weights.*", "tires.*", "coupling.*")
_FILLED_TO_MOST = "80 % of a propane tank is counted, the most that may be filled, and printed so"
_NO_ENTRY = "an empty line of a list is no entry"
_NOT_PLANNED = "left out, it is not planned there"
EXCEPTIONS = (
    Allowed("trip plan", "days.*.to.levels.*", ("*",), _WALKED),
    Allowed("trip plan", "days.*.from.levels.*", ("*",), _WALKED),
    Allowed("trip plan", "days.*.to.arriving.*", ("*",), _WALKED),
    Allowed("trip plan", "days.*.fill.*", ("supplies.*",), _NOT_PLANNED),
    Allowed("trip plan", "days.*.dump", ("supplies.*",), _NOT_PLANNED),
    Allowed("trip plan", "days.*.to.stay", _SUPPLIES, _AT_THE_LAST_STOP),
    Allowed("trip plan", "days.*.to.time_zone", _SUPPLIES, _ZONE_TAKEN),
    Allowed("trip plan", "days.*.to.kind", ("supplies.*",), _NOT_PLANNED),
    Allowed("trip plan", "rules.longest_day", ("attention on *.driving_time *",), "the owner's own limit"),
    Allowed("rig.yaml", "spares.[0-9]", ("missing on spares.*",), _NO_ENTRY),
    Allowed("rig.yaml", "spares.[0-9][0-9]", ("missing on spares.*",), _NO_ENTRY),
    Allowed("trip plan", "rules.wind.*", ("route.wind_*",), "the owner's choice; the default is printed"),
    Allowed("rig.yaml", "vehicles.*.tanks.*.usable", ("supplies.*", "sitting_out.*"), _FILLED_TO_MOST),
    Allowed("rig.yaml", "tires.*.replace_after", ("tires.*",), "the owner's choice; the default is printed"),
)


def is_allowed(file: str, path: str, told: str) -> bool:
    """Tell whether a figure may get better by leaving out an entry."""
    return any(
        one.file == file
        and fnmatchcase(path, one.paths)
        and any(fnmatchcase(told, figure) for figure in one.figures)
        for one in EXCEPTIONS
    )
