"""Blank every entry of an owner's files in turn and tell each figure and finding that got more hopeful.

``python -m tests.unknown.blanking larkspur`` prints them, without a name those of all demos;
``--rigs 40 --seed 0`` those of so many made-up rigs. ``test_blanking.py`` holds that there are none.
"""

import sys
from argparse import ArgumentParser
from collections.abc import Iterator, Sequence
from copy import copy
from dataclasses import replace
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, NamedTuple, TypeAlias, cast

from pydantic import ValidationError

from binder.assessment.assess import Assessment, assess
from binder.assessment.entries import kinds as entry_kinds
from binder.assessment.entries.contradictions import refuse_contradictions
from binder.assessment.ledger import OF_THOSE_KNOWN, Figure, Finding, FindingKind, Key
from binder.assessment.tires.kinds import (
    END_HOLDS_UP_TO,
    FILL_AT,
    HOLDS_UP_TO,
    LABEL_PRESSURE,
    LOAD_USED,
    SET_POINT,
)
from binder.assessment.weights.kinds import AXLE, AXLES_UNREAD, ENDS_UNREAD, HEAVIER_END
from binder.models.load import Profile, load_profile, without_blanks
from binder.models.located_yaml import Plain
from binder.models.rig import Rig
from binder.models.trip import Trip
from binder.problems import InputProblems
from binder.wording.record import worse_side
from tests.demos import PROFILES
from tests.unknown.exceptions import is_allowed
from tests.unknown.made_up_rigs import KINDS, made_up, written

DEMOS = ("larkspur", "kestrel", "tamarack", "sandpiper")
ON = date(2026, 6, 1)
EntryPath: TypeAlias = tuple[str | int, ...]
_AT_THE_SET_POINT = {HOLDS_UP_TO, END_HOLDS_UP_TO, LOAD_USED}
"""What a pressure carries is compared at the pressure before the blank: a higher one carries more."""
_DOUBTS = frozenset(kind for kind in vars(entry_kinds).values() if isinstance(kind, FindingKind))
"""A doubt about what was written goes with it."""
_SAME, _SHOWN = 1e-6, 3
_WHOLE_STEP = 5001.0
"""Pascals that a pressure is rounded up by at most."""
_GRAVITY = {"do not drive": 3, "not cleared": 2, "attention": 1, "missing": 1}


class Blanked(NamedTuple):
    """What came of one blank: what got more hopeful of so many comparisons, none where it was refused."""

    file: str
    path: EntryPath
    comparisons: int = 0
    hopeful: tuple[str, ...] = ()


def entries(data: Plain, path: EntryPath = ()) -> Iterator[EntryPath]:
    """Places of every entry that says something."""
    if path and isinstance(data, str):
        yield path
    pairs = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, inner in pairs:
        yield from entries(inner, (*path, key))


def blanked(data: Plain, path: EntryPath) -> Plain:
    """The entries with one of them left empty."""
    if not path:
        return None
    changed: Any = copy(data)
    changed[path[0]] = blanked(changed[path[0]], path[1:])
    return cast("Plain", changed)


def every_blank(profile: Profile, on: date = ON, start: int = 0, step: int = 1) -> Iterator[Blanked]:
    """Blank each entry of the rig's file and of the plan, and compare with nothing blank."""
    before = assess(profile, on)
    trip_data = profile.trip_places.data if profile.trip_places else None
    places = [("rig.yaml", path) for path in entries(profile.rig_places.data)]
    places += [("trip plan", path) for path in entries(trip_data)]
    for file, path in places[start::step]:
        if path[-2:-1] in {("single",), ("dual",)}:
            # A row of a load table without its load is refused (wrong_input/table_row_empty).
            yield Blanked(file, path)
            continue
        try:
            changed = with_blank(profile, file, path)
            refuse_contradictions(changed)
        except (ValidationError, InputProblems):
            yield Blanked(file, path)
            continue
        comparisons, hopeful = compared(before, assess(changed, on))
        words = ".".join(map(str, path))
        yield Blanked(
            file, path, comparisons, tuple(text for text in hopeful if not is_allowed(file, words, text))
        )


def with_blank(profile: Profile, file: str, path: EntryPath) -> Profile:
    """The profile with one entry left empty."""
    if file == "rig.yaml":
        data = blanked(profile.rig_places.data, path)
        return replace(profile, rig=Rig.model_validate(without_blanks(data, Rig)))
    assert profile.trip_places is not None
    data = blanked(profile.trip_places.data, path)
    return replace(profile, trip=Trip.model_validate(without_blanks(data, Trip)))


def compared(before: Assessment, after: Assessment) -> tuple[int, tuple[str, ...]]:
    """How many figures and findings were compared, and those that are more hopeful after."""
    told_before = {_names(one) for one in before.findings}
    new = max((_GRAVITY[one.grade] for one in after.findings if _names(one) not in told_before), default=0)
    figures = [
        one for one in before.ledger.entered if one.quantity is not None and worse_side(one.kind) != "either"
    ]
    hopeful = [*(_hopeful_figure(one, before, after, new) for one in figures), *_milder(before, after, new)]
    return len(figures) + len(before.findings), tuple(text for text in hopeful if text)


def _names(finding: Finding) -> tuple[object, ...]:
    """What a finding is about: one of another bridge on a leg, or that lists another axle, is another."""
    held = [one if isinstance(one, tuple) else (one,) for one in finding.facts.values()]
    listed = [one for one in held if all(isinstance(part, str | int) for part in one)]
    return (finding.about, finding.kind, *listed)


def _hopeful_figure(figure: Figure, before: Assessment, after: Assessment, new: int) -> str:
    found = after.known(figure.key)
    if is_over_half_rating(figure, before, after):
        return ""
    if found is None:
        is_all_set_point = figure.kind is FILL_AT and rose(
            SET_POINT.of(*figure.key.subject[:2]), before, after
        )
        return "" if new or is_all_set_point else f"{told(figure.key)} is gone and nothing says so"
    was, now = figure.quantity, found.quantity
    if was is None or now is None or found.case == OF_THOSE_KNOWN:
        return ""
    if figure.kind in _AT_THE_SET_POINT and rose(SET_POINT.of(*figure.key.subject), before, after):
        return ""
    higher = float((now.to_base_units() - was.to_base_units()).magnitude)
    slack = _SAME * max(1.0, abs(float(was.to_base_units().magnitude)))
    if figure.kind.measure.startswith("pressure") and is_floor_in_its_own_unit(figure.key, after):
        slack += _WHOLE_STEP
    if (higher if worse_side(figure.kind) == "lower" else -higher) <= slack:
        return ""
    return f"{told(figure.key)}: {was:.4~g} -> {now:.4~g}"


def is_over_half_rating(figure: Figure, before: Assessment, after: Assessment) -> bool:
    """The one thing that still helps: the pressures of an end that carries over half its axle's rating.

    Once it is not known, the axle is taken at its rating (NUMBERS, 1.1) and not cleared, its load a blank; a
    load that may be any would leave no pressure to print, and its label is for the rating.
    """
    if not figure.kind.key.startswith("tires.{vehicle}.{axle}") or "pressure" not in figure.kind.measure:
        return False
    vehicle, axle = figure.key.subject[:2]
    rating = before.rig.vehicles[str(vehicle)].axles[str(axle)].rating
    ends = [one.quantity for one in before.ledger.of_kind(HEAVIER_END, vehicle, axle)]
    is_unknown = any(one.case == "nothing" for one in after.ledger.of_kind(HEAVIER_END, vehicle, axle))
    return is_unknown and rating is not None and any(end is not None and 2 * end > rating for end in ends)


def is_floor_in_its_own_unit(key: Key, after: Assessment) -> bool:
    """The cap leaves no whole step over the floor: the floor itself is printed, which is enough."""
    point = after.quantity(SET_POINT.of(*key.subject[:2]))
    return point is not None and point == after.quantity(LABEL_PRESSURE.of(*key.subject[:2]))


def rose(key: Key, before: Assessment, after: Assessment) -> bool:
    was, now = before.quantity(key), after.quantity(key)
    return was is not None and now is not None and bool(now > was)


def _milder(before: Assessment, after: Assessment, new: int) -> Iterator[str]:
    """Findings give way to others on the thing, or to new ones; no blank turns forbidden into cleared."""
    for finding in before.findings:
        of = finding.about
        if finding.kind in _DOUBTS and finding.grade == "attention":
            continue
        if of.kind in _AT_THE_SET_POINT and rose(SET_POINT.of(*of.subject), before, after):
            continue
        kept = max((_GRAVITY[one.grade] for one in after.findings if _stands_for(one, of, after)), default=0)
        if max(kept, new) < min(_GRAVITY[finding.grade], _GRAVITY["not cleared"]):
            yield f"{finding.grade} on {told(of)} is milder or gone"


def _stands_for(finding: Finding, about: Key, after: Assessment) -> bool:
    """It is on the same thing, or says that an axle's load, and so all that follows, is over or not known."""
    axle = about.subject[:2]
    is_load = finding.kind in {AXLE.over, AXLE.unknown} and finding.grade != "attention"
    # What was never weighed is taken at its rating: that it is not known says it all.
    ends = after.ledger.of_kind(HEAVIER_END, *axle) if finding.kind is AXLE.unrated else ()
    is_load = is_load or (bool(ends) and all(end.case == "nothing" for end in ends))
    if is_load and finding.about.subject == axle:
        return True
    # An axle whose ends were not read is one that was not read at all once its weight is blank.
    is_unread = finding.kind is AXLES_UNREAD and about.kind is ENDS_UNREAD
    return finding.about == about or (is_unread and finding.about.subject == about.subject)


def told(key: Key) -> str:
    return f"{key.kind.key or getattr(key.kind, 'text', '')} {'.'.join(map(str, key.subject))}"


def made_up_profile(seed: int, kind: str | None = None) -> Profile:
    """One made-up rig with its trip, read as an owner's would be."""
    with TemporaryDirectory() as folder:
        return load_profile(written(Path(folder), *made_up(seed, kind)))


def main() -> None:
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("demos", nargs="*")
    parser.add_argument("--rigs", type=int, default=0, help="how many made-up rigs, instead of all demos")
    parser.add_argument("--seed", type=int, default=0, help="seed of the first of them")
    asked = parser.parse_args()
    every: list[Blanked] = []
    for name in asked.demos or (() if asked.rigs else DEMOS):
        every += _printed(name, load_profile(PROFILES / name))
    for seed in range(asked.seed, asked.seed + asked.rigs):
        every += _printed(f"rig {seed}, {KINDS[seed % len(KINDS)]}", made_up_profile(seed))
    sys.stdout.write(f"all: {counted(every)}\n")


def _printed(name: str, profile: Profile) -> list[Blanked]:
    blanks = list(every_blank(profile))
    for one in blanks:
        for text in one.hopeful[:_SHOWN]:
            sys.stdout.write(f"{one.file} {'.'.join(map(str, one.path))} ({len(one.hopeful)}): {text}\n")
    sys.stdout.write(f"{name}: {counted(blanks)}\n")
    sys.stdout.flush()
    return blanks


def counted(blanks: Sequence[Blanked]) -> str:
    """How many blanks and comparisons there were, how many were refused, and how many made more hopeful."""
    refused, compared_ = sum(not one.comparisons for one in blanks), sum(one.comparisons for one in blanks)
    hopeful = sum(bool(one.hopeful) for one in blanks)
    return f"{len(blanks)} blanks, {refused} refused, {compared_} comparisons, {hopeful} more hopeful"


if __name__ == "__main__":
    main()
