"""What is printed and in hand: told, recorded once it is, and said to be void when it is."""

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from binder.assessment.assess import Assessment
from binder.cards.blocks import Card
from binder.cards.codes import part_key
from binder.printed import FILE
from binder.printed.differences import by_day, differences, void_since
from binder.printed.record import Made, Printing, printed_of, recorded, text_of, with_printing
from binder.printed.words import told, void_told
from binder.printing.build import BuildOptions, default_out, laid_out_cards, read, read_and_assess
from binder.problems import InputProblems, Problem
from binder.publishing.printing import NUMBERS, mixed_files, refuse_other_rig, write_whole
from binder.rendering.marks import lines
from binder.rendering.paper import PAPERS


def changes(folder: Path, options: BuildOptions, only: str | None = None) -> Iterator[str]:
    """Tell of each set in hand, or of one, what differs from what would be printed today, and why."""
    printed = recorded(folder, only)
    for name in [only] if only else printed.sets():
        trip = options.trip or _still_there(folder, printed.trip(name))
        assessment = read_and_assess(folder, replace(options, trip=trip))
        found = differences(assessment, printed, name)
        cards = [one.part for one in found.every if isinstance(one.part, Card)]
        laid_out = {part_key(card): card for card in laid_out_cards(cards, assessment.profile)}
        paper = PAPERS[assessment.rig.paper]
        parts = {one.name: laid_out.get(one.name, one.part) for one in found.every}
        yield from told(found, {name: lines(part, paper) for name, part in parts.items() if part})


def record(folder: Path, options: BuildOptions) -> Printing:
    """Record that the printing that was built last is in hand now."""
    profile = read(folder, options)
    out = options.out or default_out(profile, options)
    refuse_other_rig(out, profile.rig.name)
    try:
        made = Made.model_validate(json.loads((out / NUMBERS).read_text("utf-8"))["in_hand_once_printed"])
    except (OSError, ValueError, KeyError) as fault:
        text = "no printing is there; build it and print it first"
        raise InputProblems([Problem(str(out), None, "", text)]) from fault
    if mixed := mixed_files(out):
        text = f"{', '.join(mixed)} is not of the printing there; build it again"
        raise InputProblems([Problem(str(out), None, "", text)])
    printed = with_printing(printed_of(folder), made)
    write_whole(folder / FILE, text_of(printed).encode())
    return made.printing


def voids(folder: Path, assessment: Assessment) -> Iterator[str]:
    """Say which parts in hand are void, and since when."""
    printed, days = printed_of(folder), by_day(assessment)
    for name in printed.sets():
        if printed.trip(name) == assessment.profile.trip_name:
            for one in differences(assessment, printed, name, days).every:
                if one.is_void:
                    yield void_told(one, void_since(one, name, assessment.on, days), name)


def _still_there(folder: Path, trip: str) -> str | None:
    return trip if (folder / "trips" / f"{trip}.yaml").exists() else None
