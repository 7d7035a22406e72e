"""A printing as it is recorded, and the part of one that only holds what changed."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from binder.assessment.assess import Assessment
from binder.cards.blocks import BinderDocument, Page, Part, StayingPart
from binder.cards.codes import content_code, cover_code, part_key, part_title
from binder.printed.coded import COVER, COVER_TITLE, parts_of
from binder.printed.differences import differences, figures_shown, shown
from binder.printed.record import InHand, Printed, Printing, shown_on
from binder.printed.touched import files_of, log_then
from binder.printed.words import exchange_slip
from binder.rendering.marks import lines
from binder.rendering.paper import PAPERS

_ONE_PAGE = 1


def made(
    document: BinderDocument,
    public: BinderDocument,
    assessment: Assessment,
    name: str,
) -> Printing:
    """Record what a printing says, pages not counted; of what it says in private, only that it does."""
    paper, without = PAPERS[assessment.rig.paper], parts_of(public)
    parts = {}
    if document.has_cover:
        parts[COVER] = InHand(title=COVER_TITLE, code=cover_code(public), pages=_ONE_PAGE)
    for key, part in parts_of(document).items():
        plain = without.get(key, part)
        parts[key] = InHand(
            title=part_title(part),
            code=plain.code,
            says_private=plain.code != part.code,
            figures=figures_shown(plain),
            lines=" ".join(lines(plain, paper)),
        )
    profile = assessment.profile
    return Printing(
        date=assessment.on,
        set=name,
        trip=profile.trip_name,
        parts=parts,
        figures=shown_on(parts.values(), shown(assessment)),
        files=files_of(profile),
        log=log_then(profile),
    )


def with_pages(printing: Printing, pages: Mapping[str, int]) -> Printing:
    """Record how many pages each part took."""
    parts = {
        key: held if key == COVER else held.model_copy(update={"pages": pages[key]})
        for key, held in printing.parts.items()
    }
    return printing.model_copy(update={"parts": parts})


def only_changed(
    document: BinderDocument, public: BinderDocument, assessment: Assessment, printed: Printed, name: str
) -> tuple[BinderDocument, tuple[str, ...]]:
    """Keep of a printing what is due, its new lines marked, and the slip; and tell which parts are gone.

    Without a slip there is nothing to print.
    """
    found = differences(assessment, printed, name, public=public)
    paper = PAPERS[assessment.rig.paper]
    if not found.due:
        return document, ()
    in_hand, without = printed.in_hand(name), parts_of(public)
    changed = {one.name: one for one in found.due}

    def kept(parts: tuple[Part, ...]) -> Iterator[Part]:
        for part in parts:
            one = changed.get(part_key(part))
            if one is not None and one.was is not None:
                # What is private was never recorded: no bar says that it is new.
                own = lines(part, paper).keys() - lines(without.get(one.name, part), paper).keys()
                yield replace(part, in_hand=one.was.line_codes | own)
            elif one is not None:
                yield part

    def in_force(parts: tuple[Part, ...]) -> Iterator[Part | StayingPart]:
        for part in parts:
            key = part_key(part)
            if key in changed or key not in in_hand:
                yield part
            else:
                printing, held = in_hand[key]
                yield StayingPart(part_title(part), held.pages, held.code, printing.date.isoformat())

    slip = exchange_slip(found)
    whole = replace(
        document,
        parts=tuple(kept(document.parts)),
        desk=tuple(one for one in kept(document.desk) if isinstance(one, Page)),
        slip=replace(slip, code=content_code(slip), set_title=document.set_title),
        has_cover=COVER in changed,
        in_force=tuple(in_force(document.parts)),
        desk_in_force=tuple(in_force(document.desk)),
    )
    return whole, tuple(one.name for one in found.due if not one.now)
