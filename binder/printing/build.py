"""The pipeline as one function, and the only place that writes: a printing appears whole or not at all."""

import tempfile
import traceback
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Literal, NamedTuple

from binder.assessment.assess import Assessment
from binder.assessment.entries.contradictions import refuse_contradictions
from binder.cards.address import AddressUnfit
from binder.models.load import LOG, Profile
from binder.models.located_yaml import Plain
from binder.printed import FILE
from binder.printing.phases import Phases
from binder.printing.reading import read_files, with_log
from binder.problems import InputProblems, Problem
from binder.problems import Path as Path_
from binder.publishing.held_folder import held, put_off
from binder.publishing.printing import (
    refuse_no_folder,
    refuse_obstacles,
    refuse_other_rig,
    write_beside,
    write_printing,
)
from binder.wording.record import assessment_record

if TYPE_CHECKING:
    from binder.cards.blocks import BinderDocument, Card
    from binder.rendering.paper import TypeName
    from binder.rendering.parts.cache import PartCache
    from binder.rendering.parts.part import Submit
    from binder.rendering.parts.processes import LayOut
    from binder.rendering.parts.whole import Whole
    from binder.rendering.sheets import Printer
    from binder.rendering.typeset import Progress
    from binder.rendering.unfit import Unfit


@dataclass(frozen=True)
class BuildOptions:
    """What to build: the trip's name (None: the only one), where to, for which date, for which printer.

    ``offset`` is in millimeters, as the test sheet tells it; ``within`` has a folder for each printing.
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

    @property
    def printer(self) -> "Printer":
        """How the printer turns sheets, and where it lays backs."""
        from binder.rendering.sheets import Printer

        return Printer(self.flip, self.offset)


@dataclass
class BuildReport:
    """What was built: the assessment, the files written, pages of each, and seconds of each phase.

    ``log_page`` is the folder of the page that the codes lead to; None where they lead elsewhere.
    """

    assessment: Assessment
    out: Path
    log_page: Path | None = None
    files: list[str] = field(default_factory=list)
    pages: dict[str, int] = field(default_factory=dict)
    phases: dict[str, float] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    told: list[str] = field(default_factory=list)
    why_not_private: str = ""
    is_unchanged: bool = False


def read_and_assess(folder: Path, options: BuildOptions) -> Assessment:
    """Read a rig's folder and assess it; nothing is written."""
    from binder.cards.assessed import assessed

    return assessed(read(folder, options), options.on)


def read(folder: Path, options: BuildOptions) -> Profile:
    """Read a rig's folder, its plan, what of ``private.yaml`` a set asks for, and its log."""
    return with_log(_files(folder, options), folder)


def _files(folder: Path, options: BuildOptions) -> Profile:
    asked: tuple[str, ...] = ()
    if options.private:
        from binder.cards.sets import sets

        asked = sets()[options.set].private
    profile = read_files(folder, options.trip, asked)
    refuse_contradictions(profile)
    return profile


def build(
    folder: Path,
    options: BuildOptions,
    progress: "Progress" = lambda _step, _done=0, _of=0: None,
    lay_out: "LayOut | None" = None,
) -> BuildReport:
    """Build a rig's printing: cards, sheets, binder, and every number with its origin."""
    from binder.cards.assessed import assessed
    from binder.printing.log_page import log_page_out
    from binder.rendering.parts.cache import PartCache
    from binder.rendering.parts.processes import Processes
    from binder.rendering.parts.whole import keep_whole, kept_whole

    clock = Phases(progress)
    clock.begin("read")
    profile = _files(folder, options)
    out = options.out or default_out(profile, options)
    log_page = log_page_out(profile, options.out, options.within)
    for place in (out, log_page) if log_page else (out,):
        refuse_no_folder(place)
        refuse_other_rig(place, profile.rig.name)
    notes, told = list[str](), list[str]()
    kept = PartCache(options.cache, notes=notes) if options.cache else None
    # What changed is found by comparing: it is never the same printing twice.
    key = _key(folder, profile, options) if kept and not options.changed else ""
    whole = kept_whole(kept, key) if kept and key else None
    # Processes live until the folder is let go: what a parent leaves that is killed is theirs to take away.
    with Processes() as processes, held(out, told) as work, processes.ended_at_a_fault():
        refuse_other_rig(out, profile.rig.name)  # It may have come meanwhile.
        submit = None if whole else (lay_out or processes.lay_out)(work)
        clock.begin("compute")
        assessment = assessed(with_log(profile, folder), options.on)
        report = BuildReport(assessment, out, log_page, phases=clock.seconds, notes=notes, told=told)
        report.why_not_private = _why_not_private(folder, options.set)
        if submit and (prepared := _prepared(folder, assessment, options, clock)):
            whole = _typeset(folder, prepared, submit, clock, kept)
            # An entry may have come between.
            if kept and key and key == _key(folder, profile, options):
                keep_whole(kept, key, whole)
        if whole:
            report.pages = dict(whole.pages)
            report.files = _placed(work, whole, report, clock)
    clock.end()
    report.is_unchanged = whole is None
    return report


def _placed(work: Path, whole: "Whole", report: BuildReport, clock: Phases) -> list[str]:
    """Put a printing in its place, and with it the page that its codes lead to."""
    clock.begin("write")
    page, rig = report.log_page, report.assessment.rig.name
    if page:
        refuse_obstacles(page, whole.log_page)

    def placed() -> None:
        clock.begin("done")
        if page:
            write_beside(page, whole.log_page, {"rig": rig}, report.told)

    return write_printing(work, whole.contents, whole.record, placed)


def _key(folder: Path, profile: Profile, options: BuildOptions) -> str:
    """Name a printing by the bytes that were read for it and by how it is printed."""
    from binder.rendering.parts.whole import whole_key

    texts = [(place.file.rpartition("/")[2], place.source) for place in profile.places]
    # The log's page tells what was printed before.
    texts += [(FILE, (folder / FILE).read_text("utf-8"))] if (folder / FILE).exists() else []
    how = replace(options, out=None, cache=None, within=Path())
    log = sha256((folder / LOG).read_bytes()).hexdigest() if (folder / LOG).exists() else ""
    return whole_key([texts, profile.folder, profile.trip_name, profile.unwritten_plan, vars(how), log])


class _Prepared(NamedTuple):
    """What is printed of a rig, what of it is public, which parts in hand it takes out, its public cards."""

    assessment: Assessment
    options: BuildOptions
    document: "BinderDocument"
    public: "BinderDocument"
    gone: tuple[str, ...] | None
    cards: "tuple[Card, ...]"


def _prepared(folder: Path, assessment: Assessment, options: BuildOptions, clock: Phases) -> _Prepared | None:
    """Make the cards and pages; None where nothing of what is in hand changed."""
    from binder.printed.made import only_changed
    from binder.printed.record import recorded

    clock.begin("cards")
    document, public, cards = _documents(assessment, options.set)
    gone = None
    if options.changed:
        printed = recorded(folder, options.set)
        document, gone = only_changed(document, public, assessment, printed, options.set)
        if not document.slip:
            return None
    return _Prepared(assessment, options, document, public, gone, cards)


def _typeset(
    folder: Path, what: _Prepared, submit: "Submit", clock: Phases, kept: "PartCache | None"
) -> "Whole":
    """Lay everything out and record what it says."""
    from binder.printed.made import made, with_pages
    from binder.printed.record import Made
    from binder.printing.log_page import page_files
    from binder.rendering.paper import TYPE_SIZES, paper_in
    from binder.rendering.parts.whole import Whole

    with put_off():  # An interrupt in the midst of loading what joins files would end it with a dump.
        from binder.rendering.typeset import Ring, typeset
    assessment, options, document, public, gone, cards = what
    paper = paper_in(assessment.rig.paper, TYPE_SIZES[options.type_size])
    ring = Ring(_ring(document, assessment, options), paper)
    put_together = typeset(document, ring, options.printer, submit, clock.begin, kept)
    # Written while parts are being laid out.
    record, in_hand = _record(assessment, ring.cards), made(document, public, assessment, options.set)
    log_page = page_files(folder, assessment, cards)
    printing = put_together()
    in_hand = with_pages(in_hand, printing.pages_of_parts)
    once_printed = Made(printing=in_hand, gone=gone).model_dump(mode="json", exclude_defaults=True)
    record |= {"in_hand_once_printed": once_printed}
    return Whole(printing.contents, printing.pages, record, log_page)


def _documents(
    assessment: Assessment, name: str
) -> "tuple[BinderDocument, BinderDocument, tuple[Card, ...]]":
    """A set as it is printed, and as it is without ``private.yaml``; and all cards as they are without it."""
    from binder.cards.order import binder_document
    from binder.cards.sets import printed_in

    whole = binder_document(assessment, printable_cards(assessment))
    public = whole
    if assessment.profile.private is not None:
        plain = assessment._replace(profile=replace(assessment.profile, private=None))
        public = binder_document(plain, printable_cards(plain))
    printed, without = (printed_in(name, one, public.parts) for one in (whole, public))
    return printed, without, public.cards


def _ring(document: "BinderDocument", assessment: Assessment, options: BuildOptions) -> "tuple[Card, ...]":
    """The cards of a document in the type that was asked for: they say the same, on more sides."""
    if options.type_size == "normal":
        return document.cards
    larger = {card.id: card for card in printable_cards(assessment, options.type_size)}
    return tuple(
        replace(larger[card.id], set_title=card.set_title, in_hand=card.in_hand) for card in document.cards
    )


def _why_not_private(folder: Path, name: str) -> str:
    from binder.cards.sets import sets

    asks = bool(sets()[name].private)
    return f"there is no private.yaml in {folder}" if asks else f"the set {name} asks for nothing of it"


def _record(assessment: Assessment, cards: "Sequence[Card]") -> dict[str, object]:
    told = [
        {"id": card.id, "title": card.title, "code": card.code, "sides": len(card.sides)} for card in cards
    ]
    return assessment_record(assessment) | {"cards": told}


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
    from binder.cards.ring.order import ring
    from binder.rendering.qr import CodeTooLong, refuse_too_long

    try:
        handed_over = ring(assessment)
        for card in handed_over:
            refuse_too_long(card.target)
    except (AddressUnfit, CodeTooLong) as fault:
        places, sources = assessment.profile.rig_places, assessment.profile.sources
        raise InputProblems([places.problem(("log",), str(fault))], sources) from fault
    return laid_out_cards(handed_over, assessment.profile, type_size)


def laid_out_cards(
    cards: "Iterable[Card]", profile: Profile, type_size: "TypeName" = "normal"
) -> "tuple[Card, ...]":
    """Lay out some cards; refuse what no paper can hold."""
    from binder.cards.sets import longest_title
    from binder.rendering.layout import laid_out
    from binder.rendering.paper import TYPE_SIZES, paper_in
    from binder.rendering.unfit import unfit

    paper = paper_in(profile.rig.paper, TYPE_SIZES[type_size])
    # Laid out under the longest foot of any set: a card has one layout, and one code, in all of them.
    laid = tuple(laid_out(replace(card, set_title=longest_title()), paper) for card in cards)
    # A word is told once, where it has least room.
    found = sorted(unfit(laid, paper), key=lambda one: one.over)
    problems = {one.word: _unfit_problem(profile, one) for one in found}
    if problems:
        raise InputProblems(problems.values(), profile.sources)
    return tuple(replace(card, set_title="") for card in laid)


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
    entries = [
        (written.casefold(), places, path, is_key)
        for places, keys in sought
        for path, written, is_key in _written(places.data, ())
        if is_key in keys
    ]
    # A sentence of ours is long by what it names: the longest entry in it.
    in_it = [one for one in entries if one[0] and one[0] in wanted]
    holds = [one for one in entries if wanted in one[0]] or sorted(in_it, key=lambda one: -len(one[0]))
    for _, places, path, is_key in holds[:1]:
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


def kept_fault(fault: Exception) -> str:
    """Save what happened where a fault of ours ended a command; hands back the name of the file."""
    text = "".join(traceback.format_exception(fault))
    with tempfile.NamedTemporaryFile(prefix="binder-", suffix=".txt", delete=False) as file:
        file.write(text.encode("utf-8", "replace"))
    return file.name
