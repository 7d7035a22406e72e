"""The pipeline as one function, and the only place that writes: a printing appears whole or not at all."""

import hashlib
import json
import os
import tempfile
import traceback
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from errno import EACCES
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING, Any, Literal

from binder import templates_folder
from binder.assessment.assess import Assessment, assess
from binder.assessment.entries.contradictions import refuse_contradictions
from binder.assessment.entries.own_words import find_own_words
from binder.models.base import Record
from binder.models.fields import schema
from binder.models.load import Profile, load_profile
from binder.models.located_yaml import Located, Plain
from binder.models.procedures import OwnCard
from binder.models.rig import Rig
from binder.models.trip import Trip
from binder.problems import InputProblems, Problem
from binder.problems import Path as Path_
from binder.wording.record import assessment_record

if TYPE_CHECKING:
    from binder.cards.blocks import BinderDocument, Card
    from binder.rendering.layout import Unfit
    from binder.rendering.paper import TypeName

NUMBERS = "numbers.json"


@dataclass(frozen=True)
class BuildOptions:
    """What to build: the trip's name (None: the only one), where to, for which date, for which printer."""

    on: date
    trip: str | None = None
    out: Path | None = None
    flip: Literal["long", "short"] = "long"
    private: bool = False
    set: str = "everything"
    cache: Path | None = None
    type_size: "TypeName" = "normal"


@dataclass
class BuildReport:
    """What was built: the assessment, the files written, pages of each, and seconds of each phase."""

    assessment: Assessment
    out: Path
    files: list[str] = field(default_factory=list)
    pages: dict[str, int] = field(default_factory=dict)
    phases: dict[str, float] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    why_not_private: str = ""


def read_and_assess(folder: Path, options: BuildOptions) -> Assessment:
    """Read a rig's folder and assess it; nothing is written."""
    return _assessed(_read(folder, options), options.on)


def _assessed(profile: Profile, on: date) -> Assessment:
    """Assess a rig, and what its owner's own words take away from its cards."""
    assessment = assess(profile, on)
    if profile.own_cards:
        from binder.cards.order import RING  # noqa: PLC0415 - most rigs have no words of their own.
        from binder.cards.procedures.own_changes import changes_of_weight  # noqa: PLC0415 - as above.

        named = {one.words.card for one in profile.own_cards} & set(RING)
        printed = {name for name in named if RING[name](assessment) is not None}
        find_own_words(changes_of_weight(assessment, printed), assessment.ledger)
    return assessment


def _read(folder: Path, options: BuildOptions) -> Profile:
    asked: tuple[str, ...] = ()
    if options.private:
        from binder.cards.sets import sets  # noqa: PLC0415 - reads a table that nothing else needs.

        asked = sets()[options.set].private
    profile = load_profile(folder, options.trip, private=asked, words=_own_word_problems)
    _refuse_letters(profile)
    refuse_contradictions(profile)
    return profile


def _own_word_problems(files: list[Located]) -> Iterator[Problem]:
    """What is wrong with the files of the owner's own words besides their form."""
    if files:
        from binder.cards.procedures.own_problems import own_problems  # noqa: PLC0415 - most rigs have none.

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
            yield from _letter_problems(place, (*path, key), key) if not key.isascii() else ()
            yield from _letter_problems(place, (*path, key), value)
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from _letter_problems(place, (*path, number), value)
    elif data and not (data.isascii() and data.isprintable()):
        from binder.rendering.typeface import (  # noqa: PLC0415 - reads fonts, which a plain text does not need.
            missing_letters,
        )

        for letter in missing_letters(data):
            shown = letter if letter.isprintable() else repr(letter)[1:-1]
            text = f"'{shown}' (U+{ord(letter):04X}) cannot be printed; leave it out"
            yield place.problem(path, text)


def build(
    folder: Path, options: BuildOptions, progress: Callable[[str], None] = lambda _: None
) -> BuildReport:
    """Build a rig's printing: cards, sheets, binder, and every number with its origin."""
    from binder.cards.sets import sets  # noqa: PLC0415 - reads the table of sets, for paper alone.
    from binder.rendering.cache import PartCache  # noqa: PLC0415 - only a build keeps parts.
    from binder.rendering.paper import TYPE_SIZES, paper_in  # noqa: PLC0415 - rendering, as below.
    from binder.rendering.typeset import Ring, typeset  # noqa: PLC0415 - loads the typesetter, half a second.

    clock = _Phases(progress)
    clock.begin("read")
    profile = _read(folder, options)
    large = "" if options.type_size == "normal" else f"-{options.type_size}"
    out = options.out or default_out(profile) / f"{options.set}{large}"
    _refuse_no_folder(out)
    _refuse_other_rig(out, profile.rig.name)
    clock.begin("compute")
    assessment = _assessed(profile, options.on)
    report = BuildReport(assessment, out, phases=clock.seconds)
    clock.begin("cards")
    document, ring = _printed(assessment, options)
    if options.private and profile.private is None:
        asks = bool(sets()[options.set].private)
        report.why_not_private = (
            f"there is no private.yaml in {folder}"
            if asks
            else f"the set {options.set} asks for nothing of it"
        )
    kept = PartCache(options.cache, notes=report.notes) if options.cache else None
    paper = paper_in(profile.rig.paper, TYPE_SIZES[options.type_size])
    contents, report.pages = typeset(document, Ring(ring, paper), options.flip, clock.begin, kept)
    clock.begin("write")
    report.files = write_printing(out, contents, assessment, ring)
    clock.end()
    return report


def _printed(assessment: Assessment, options: BuildOptions) -> "tuple[BinderDocument, tuple[Card, ...]]":
    """Give what a set holds of the binder, and of the ring in its type; both say the same."""
    from binder.cards.order import binder_document  # noqa: PLC0415 - explain makes no page.
    from binder.cards.sets import printed_in  # noqa: PLC0415 - reads the table of sets, for paper alone.

    document = public = binder_document(assessment, printable_cards(assessment))
    if assessment.profile.private is not None:
        plain = assessment._replace(profile=replace(assessment.profile, private=None))
        public = binder_document(plain, printable_cards(plain))
    printed = printed_in(options.set, document, public.parts)
    if options.type_size == "normal":
        return printed, printed.cards
    larger = replace(document, parts=printable_cards(assessment, options.type_size))
    return printed, printed_in(options.set, larger, public.parts).cards


def default_out(profile: Profile) -> Path:
    """Where the sets of a rig's trip are written if nothing else is said."""
    return Path("out") / profile.folder / (profile.trip_name or "no-trip")


def printable_cards(assessment: Assessment, type_size: "TypeName" = "normal") -> "tuple[Card, ...]":
    """Lay out the cards of a rig on the sides they need; refuse what no paper can hold."""
    # Cards and their layout take a tenth of a second to load, which explain and new do not need.
    from binder.cards.order import AddressUnfit, ring  # noqa: PLC0415 - explain and new print no card.
    from binder.cards.sets import longest_title  # noqa: PLC0415 - reads the table of sets, for paper alone.
    from binder.rendering.layout import laid_out, unfit  # noqa: PLC0415 - loads the typeface.
    from binder.rendering.paper import TYPE_SIZES, paper_in  # noqa: PLC0415 - rendering is loaded where paper is made.
    from binder.rendering.qr import CodeTooLong, refuse_too_long  # noqa: PLC0415 - rendering, as well.

    profile = assessment.profile
    paper = paper_in(profile.rig.paper, TYPE_SIZES[type_size])
    try:
        handed_over = ring(assessment)
        for card in handed_over:
            refuse_too_long(card.target)
    except (AddressUnfit, CodeTooLong) as fault:
        raise InputProblems([profile.rig_places.problem(("log",), str(fault))], profile.sources) from fault
    # Laid out under the longest foot of any set: a card has one layout, and one code, in all of them.
    cards = tuple(laid_out(replace(card, set_title=longest_title()), paper) for card in handed_over)
    # A word is told once, where it has least room.
    found = sorted(unfit(cards, paper), key=lambda one: one.over)
    problems = {one.word: _unfit_problem(profile, one) for one in found}
    if problems:
        raise InputProblems(problems.values(), profile.sources)
    return tuple(replace(card, set_title="") for card in cards)


def _unfit_problem(profile: Profile, found: "Unfit") -> Problem:
    """Tell what does not fit at the entry that has it in its text, or in its name."""
    side = f"card {found.card.id} {found.card.title}, side {found.side}"
    shown = found.word if len(found.word) <= _SHOWN else f"{found.word[:_SHOWN]}..."
    text = f"'{shown}' is too long for its place on {side}: {found.over} characters less fit"
    hint = "shorten it, or put a space or a hyphen where it may be broken"
    wanted = found.word.casefold().strip(".,;:()")
    # What the rig's file names is told there, not where it is named again.
    rig, others = (
        profile.rig_places,
        [places for places in profile.places if places is not profile.rig_places],
    )
    sought = [(rig, {True}), *((places, {True, False}) for places in others), (rig, {False})]
    for places, keys in sought:
        for path, written, is_key in _written(places.data, ()):
            if is_key in keys and wanted in written.casefold():
                return places.problem(path, text, at_key=is_key, hint=hint)
    return Problem(profile.rig_places.file, None, "", text, hint)


_SHOWN = 60
"""Characters of an unfit text that are repeated to tell which it is."""


def _written(data: Plain, path: Path_) -> Iterator[tuple[Path_, str, bool]]:
    """Every text of a file, with its path; names that entries are listed by as well."""
    if isinstance(data, str):
        yield path, data, False
    elif isinstance(data, dict):
        for key, value in data.items():
            yield (*path, key), key, True
            yield from _written(value, (*path, key))
    elif isinstance(data, list):
        for at, value in enumerate(data):
            yield from _written(value, (*path, at))


def _refuse_other_rig(out: Path, rig: str) -> None:
    """Never replace the printing of another rig."""
    other = _listing(out).get("rig", rig)
    if other != rig:
        text = f"the printing of {other} is there; name another folder with --out"
        raise InputProblems([Problem(str(out), None, "", text)])


def _refuse_no_folder(out: Path) -> None:
    """Say at once, not after all the work, that nothing can be written there."""
    standing = next(place for place in (out, *out.absolute().parents) if place.exists())
    if not standing.is_dir():
        text = "a file stands where the printing is to be written; name another folder with --out"
        raise InputProblems([Problem(str(standing), None, "", text)])
    if not os.access(standing, os.W_OK):
        raise PermissionError(EACCES, "Permission denied; name another folder with --out", str(standing))


class _Phases:
    def __init__(self, progress: Callable[[str], None]) -> None:
        self._progress = progress
        self._name = ""
        self._began = perf_counter()
        self.seconds: dict[str, float] = {}

    def begin(self, name: str) -> None:
        self.end()
        self._name, self._began = name, perf_counter()
        self._progress(name)

    def end(self) -> None:
        if self._name:
            self.seconds[self._name] = perf_counter() - self._began
        self._name = ""


def write_printing(
    out: Path, contents: dict[str, bytes], assessment: Assessment, cards: "tuple[Card, ...]"
) -> list[str]:
    """Write a printing file by file, each replaced whole, numbers.json with their hashes last."""
    out.mkdir(parents=True, exist_ok=True)
    before = set(_listed(out))
    record = assessment_record(assessment) | {
        "cards": [
            {"id": card.id, "title": card.title, "code": card.code, "sides": len(card.sides)}
            for card in cards
        ],
        "files": {name: _hash(content) for name, content in sorted(contents.items())},
    }
    text = json.dumps(record, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
    every = contents | {NUMBERS: text.encode()}
    beside = {name: out / f".{name}.new" for name in every}
    try:
        for name, content in every.items():
            beside[name].write_bytes(content)
        for name in every:
            os.replace(beside[name], out / name)  # noqa: PTH105 - one step, whole or not at all.
    finally:
        for left_over in beside.values():
            left_over.unlink(missing_ok=True)
    for name in before - set(every):
        if (out / name).is_file():
            (out / name).unlink()
    return list(every)


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _listing(out: Path) -> dict[str, Any]:
    try:
        record = json.loads((out / NUMBERS).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return record if isinstance(record, dict) else {}


def _listed(out: Path) -> dict[str, str]:
    files = _listing(out).get("files")
    # Only plain names of this folder, whatever the file says.
    items = files.items() if isinstance(files, dict) else ()
    return {name: digest for name, digest in items if Path(name).name == name and name != ".."}


def mixed_files(out: Path) -> list[str]:
    """Files of a printing that are not the ones its numbers.json lists."""
    return [
        name
        for name, digest in _listed(out).items()
        if not (out / name).is_file() or _hash((out / name).read_bytes()) != digest
    ]


KINDS = ("motorhome", "motorhome-with-car", "pickup-with-trailer", "fifth-wheel", "camper")
_STARTER_FILES = ("rig.yaml", "trips/first_trip.yaml")
_SCHEMAS: Mapping[str, type[Record]] = {"rig": Rig, "trip": Trip, "cards": OwnCard}


def kept_fault(fault: Exception) -> str:
    """Save what happened where a fault of ours ended a command; hands back the name of the file."""
    text = "".join(traceback.format_exception(fault))
    with tempfile.NamedTemporaryFile(prefix="binder-", suffix=".txt", delete=False) as file:
        file.write(text.encode("utf-8", "replace"))
    return file.name


def write_starter(folder: Path, kind: str) -> list[str]:
    """Write a profile of one kind of rig with named blanks to start from, and the schemas editors read."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise FileExistsError(f"{folder} is not empty; name a new folder")
    files = starter_files(kind)
    (folder / "trips").mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    return [str(folder / name) for name in files]


def starter_files(kind: str) -> dict[str, str]:
    """Texts of a starter by the names of its files."""
    from jinja2 import (  # noqa: PLC0415 - 27 ms that only a starter needs; check has 0.9 s for all.
        Environment,
        FileSystemLoader,
        StrictUndefined,
        select_autoescape,
    )

    texts = Environment(
        autoescape=select_autoescape(),  # Of HTML alone: what is written here is YAML.
        loader=FileSystemLoader(templates_folder() / "starter"),
        undefined=StrictUndefined,
        trim_blocks=True,
        keep_trailing_newline=True,
    )
    written = {name: texts.get_template(f"{name}.j2").render(kind=kind) for name in _STARTER_FILES}
    schemas = {f"{name}.schema.json": schema(one) for name, one in _SCHEMAS.items()}
    written["signs.svg"] = (templates_folder() / "starter" / "signs.svg").read_text("utf-8")
    return written | {name: json.dumps(one, indent=1) + "\n" for name, one in schemas.items()}
