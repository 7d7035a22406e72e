"""The pipeline as one function, and the only place that writes: a printing appears whole or not at all."""

import json
import tempfile
import traceback
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor, as_completed
from contextlib import ExitStack
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from time import perf_counter
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal, NamedTuple

from binder import templates_folder
from binder.assessment.assess import Assessment
from binder.assessment.entries.contradictions import refuse_contradictions
from binder.held_folder import held
from binder.models.base import Record
from binder.models.fields import schema
from binder.models.load import Profile, load_profile
from binder.models.located_yaml import Located, Plain
from binder.models.procedures import OwnCard
from binder.models.rig import Rig
from binder.models.trip import Trip
from binder.problems import InputProblems, Problem
from binder.problems import Path as Path_
from binder.publishing import refuse_no_folder, refuse_other_rig, write_printing
from binder.wording.record import assessment_record

if TYPE_CHECKING:
    from binder.cards.blocks import BinderDocument, Card
    from binder.printed.record import Made
    from binder.rendering.layout import Unfit
    from binder.rendering.paper import TypeName
    from binder.rendering.parts.processes import LayOut
    from binder.rendering.typeset import Progress


@dataclass(frozen=True)
class BuildOptions:
    """What to build: the trip's name (None: the only one), where to, for which date, for which printer.

    ``offset`` is in millimeters, as the test sheet tells it; ``within`` is the folder of all printings, for
    one of which no ``out`` is named.
    """

    on: date
    trip: str | None = None
    out: Path | None = None
    flip: Literal["long", "short"] = "long"
    private: bool = False
    set: str = "everything"
    cache: Path | None = None
    changed: bool = False
    offset: tuple[float, float] = (0.0, 0.0)
    type_size: "TypeName" = "normal"
    within: Path = Path("out")


@dataclass
class BuildReport:
    """What was built: the assessment, the files written, pages of each, and seconds of each phase."""

    assessment: Assessment
    out: Path
    files: list[str] = field(default_factory=list)
    pages: dict[str, int] = field(default_factory=dict)
    phases: dict[str, float] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    told: list[str] = field(default_factory=list)
    why_not_private: str = ""
    is_unchanged: bool = False


def read_and_assess(folder: Path, options: BuildOptions) -> Assessment:
    """Read a rig's folder and assess it; nothing is written."""
    from binder.cards.assessed import assessed  # noqa: PLC0415 - keeps explain fast.

    return assessed(read(folder, options), options.on)


def read(folder: Path, options: BuildOptions) -> Profile:
    """Read a rig's folder, its plan and what of ``private.yaml`` a set asks for."""
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
    folder: Path,
    options: BuildOptions,
    progress: "Progress" = lambda _step, _done=0, _of=0: None,
    lay_out: "LayOut | None" = None,
) -> BuildReport:
    """Build a rig's printing: cards, sheets, binder, and every number with its origin."""
    from binder.cards.assessed import assessed  # noqa: PLC0415 - makes cards, for paper alone.
    from binder.printed.made import made, only_changed  # noqa: PLC0415 - as above.
    from binder.printed.record import Made, recorded  # noqa: PLC0415 - as above.
    from binder.rendering.paper import TYPE_SIZES, paper_in  # noqa: PLC0415 - rendering, as below.
    from binder.rendering.parts.cache import PartCache  # noqa: PLC0415 - only a build keeps parts.
    from binder.rendering.parts.processes import Processes  # noqa: PLC0415 - as the next.
    from binder.rendering.sheets import Printer  # noqa: PLC0415 - loads what sets pages together.
    from binder.rendering.typeset import Ring, typeset  # noqa: PLC0415 - loads the typesetter, half a second.

    clock = _Phases(progress)
    clock.begin("read")
    profile = read(folder, options)
    out = options.out or default_out(profile, options)
    refuse_no_folder(out)
    refuse_other_rig(out, profile.rig.name)
    clock.begin("compute")
    assessment = assessed(profile, options.on)
    report = BuildReport(assessment, out, phases=clock.seconds)
    clock.begin("cards")
    document, public = _documents(assessment, options.set)
    if options.private and profile.private is None:
        report.why_not_private = _why_not_private(folder, options.set)
    gone = None
    if options.changed:
        document, gone = only_changed(
            document, public, assessment, recorded(folder, options.set), options.set
        )
        report.is_unchanged = document.slip is None
    if report.is_unchanged:
        return report
    ring = Ring(
        _ring(document, assessment, options), paper_in(profile.rig.paper, TYPE_SIZES[options.type_size])
    )
    kept = PartCache(options.cache, notes=report.notes) if options.cache else None
    printer = Printer(options.flip, options.offset)
    with ExitStack() as stack:
        work = stack.enter_context(held(out, report.told))
        refuse_other_rig(out, profile.rig.name)  # It may have come meanwhile.
        submit = (lay_out or stack.enter_context(Processes()).lay_out)(work)
        printing = typeset(document, ring, printer, submit, clock.begin, kept)
        report.pages = printing.pages
        clock.begin("write")
        pages = printing.pages_of_parts
        of_parts = Made(printing=made(document, public, pages, assessment, options.set), gone=gone)
        record = _record(assessment, ring.cards, of_parts)
        report.files = write_printing(work, printing.contents, record, lambda: clock.begin("done"))
    clock.end()
    return report


def _documents(assessment: Assessment, name: str) -> "tuple[BinderDocument, BinderDocument]":
    """A set as it is printed, and as it is without ``private.yaml``."""
    from binder.cards.order import binder_document  # noqa: PLC0415 - explain makes no page.
    from binder.cards.sets import printed_in  # noqa: PLC0415 - reads the table of sets, for paper alone.

    whole = binder_document(assessment, printable_cards(assessment))
    public = whole
    if assessment.profile.private is not None:
        plain = assessment._replace(profile=replace(assessment.profile, private=None))
        public = binder_document(plain, printable_cards(plain))
    return printed_in(name, whole, public.parts), printed_in(name, public, public.parts)


def _ring(document: "BinderDocument", assessment: Assessment, options: BuildOptions) -> "tuple[Card, ...]":
    """The cards of a document in the type that was asked for: they say the same, on more sides."""
    if options.type_size == "normal":
        return document.cards
    larger = {card.id: card for card in printable_cards(assessment, options.type_size)}
    return tuple(
        replace(larger[card.id], set_title=card.set_title, in_hand=card.in_hand) for card in document.cards
    )


def _why_not_private(folder: Path, name: str) -> str:
    from binder.cards.sets import sets  # noqa: PLC0415 - reads the table of sets, for paper alone.

    asks = bool(sets()[name].private)
    return f"there is no private.yaml in {folder}" if asks else f"the set {name} asks for nothing of it"


def _record(assessment: Assessment, cards: "Sequence[Card]", of_parts: "Made") -> dict[str, object]:
    told = [
        {"id": card.id, "title": card.title, "code": card.code, "sides": len(card.sides)} for card in cards
    ]
    once_printed = of_parts.model_dump(mode="json", exclude_defaults=True)
    return assessment_record(assessment) | {"cards": told, "in_hand_once_printed": once_printed}


class Outcome(NamedTuple):
    """What became of one rig of many: where it was printed and its findings, or what stopped it."""

    rig: Path
    out: Path | None = None
    grades: Mapping[str, int] = MappingProxyType({})
    told: tuple[str, ...] = ()
    fault: Exception | None = None


_AT_ONCE = 2
"""Rigs that are worked on at once: while the last parts of one are laid out the next is read. Own choice."""


def build_many(rigs: Sequence[Path], options: BuildOptions, lay_out: "LayOut") -> Iterator[Outcome]:
    """Build rigs, their parts side by side; none stops another."""
    threads = ThreadPoolExecutor(_AT_ONCE)
    begun = [threads.submit(_outcome, rig, options, lay_out) for rig in rigs]
    try:
        yield from (future.result() for future in as_completed(begun))
    finally:
        threads.shutdown(wait=False, cancel_futures=True)


def rigs_in(paths: Sequence[Path]) -> list[Path]:
    """Give the rigs that are named, and where a folder of rigs is, those in it."""
    rigs: list[Path] = []
    for path in paths:
        inside = [] if (path / "rig.yaml").exists() else sorted(path.glob("*/rig.yaml"))
        rigs += [file.parent for file in inside] or [path]
    return rigs


def _outcome(rig: Path, options: BuildOptions, lay_out: "LayOut") -> Outcome:
    """Build one; only what is told of it is kept: two hundred would not have room beside each other."""
    try:
        report = build(rig, options, lay_out=lay_out)
    except Exception as fault:  # noqa: BLE001 - whatever it is, it is told, and the others are printed.
        return Outcome(rig, fault=fault)
    grades: Counter[str] = Counter(one.grade for one in report.assessment.findings)
    return Outcome(rig, report.out, grades, tuple(report.told))


def trip_out(profile: Profile, within: Path = Path("out")) -> Path:
    """Where the sets of a rig's trip are written if nothing else is said."""
    return within / profile.folder / (profile.trip_name or "no-trip")


def default_out(profile: Profile, options: BuildOptions) -> Path:
    """Where a set is written if nothing else is said; large type and what changed in folders of their own."""
    large = "" if options.type_size == "normal" else f"-{options.type_size}"
    return trip_out(profile, options.within) / f"{options.set}{large}{'-changed' if options.changed else ''}"


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


class _Phases:
    def __init__(self, progress: "Progress") -> None:
        self._progress = progress
        self._name = ""
        self._began = perf_counter()
        self.seconds: dict[str, float] = {}

    def begin(self, name: str, done: int = 0, of: int = 0) -> None:
        if name != self._name:
            self.end()
            self._name, self._began = name, perf_counter()
        self._progress(name, done, of)

    def end(self) -> None:
        if self._name:
            self.seconds[self._name] = perf_counter() - self._began
        self._name = ""


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
    written[".gitignore"] = "private.yaml\nlog.sqlite*\n"
    schemas = {f"{name}.schema.json": schema(one) for name, one in _SCHEMAS.items()}
    written["signs.svg"] = (templates_folder() / "starter" / "signs.svg").read_text("utf-8")
    return written | {name: json.dumps(one, indent=1) + "\n" for name, one in schemas.items()}
