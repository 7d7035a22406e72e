"""A rig's folder read for paper, and its log: nothing in either that no letter prints."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from binder.log.in_force import in_force
from binder.log.store import entries_to_print
from binder.models.load import LOG, Profile, load_profile
from binder.models.located_yaml import Located, Plain
from binder.printing.log_texts import printable
from binder.problems import InputProblems, Problem
from binder.problems import Path as Path_
from binder.rendering.typeface import missing_letters


def read_files(folder: Path, trip: str | None, private: tuple[str, ...]) -> Profile:
    """Read what an owner wrote, without the log; refuse letters that cannot be printed."""
    profile = load_profile(folder, trip, private=private, words=_own_word_problems)
    _refuse_letters(profile)
    return profile


def with_log(profile: Profile, folder: Path) -> Profile:
    """Read what of the log counts: in a log of years it takes longer than all that an owner wrote."""
    if not (folder / LOG).exists():
        return profile
    return replace(profile, log=printable(in_force(entries_to_print(folder))))


def _own_word_problems(files: list[Located]) -> Iterator[Problem]:
    """What is wrong with the files of the owner's own words besides their form."""
    if files:
        from binder.cards.procedures.own_problems import own_problems  # noqa: PLC0415 - a tenth of a second, and most rigs have none.

        yield from own_problems(files)
        yield from (one for places in files for one in _letter_problems(places, (), places.data))


def _refuse_letters(profile: Profile) -> None:
    """Refuse what neither bundled face can print, where it was written."""
    problems = [problem for place in profile.places for problem in _letter_problems(place, (), place.data)]
    if problems:
        raise InputProblems(problems, profile.sources)


def _letter_problems(place: Located, path: Path_, data: Plain) -> Iterator[Problem]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield from _letter_problems(place, (*path, key), key)
            yield from _letter_problems(place, (*path, key), value)
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from _letter_problems(place, (*path, number), value)
    elif data and not (data.isascii() and data.isprintable()):
        for letter in missing_letters(data):
            shown = letter if letter.isprintable() else repr(letter)[1:-1]
            text = f"'{shown}' (U+{ord(letter):04X}) cannot be printed; leave it out"
            yield place.problem(path, text)
