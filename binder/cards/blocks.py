"""The few things a card is made of: frozen blocks of finished strings.

Every decision (which line, which unit, how many digits, rounded which way) is made before a block
is built; a template only loops over blocks and writes what they hold.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from binder.cards.drawings import View
from binder.wording.record import origin_words

Consequence: TypeAlias = Literal["DO NOT MOVE", "FIX FIRST", "OK TO GO", ""]
RoadMark: TypeAlias = Literal["start", "stop", "end", "point", "before", "grade", "road", "off"]
SignalWord: TypeAlias = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]


@dataclass(frozen=True)
class Heading:
    """A group heading (13 pt bold, a gap above)."""

    text: str
    kind: str = "heading"


@dataclass(frozen=True)
class Continued(Heading):
    """The heading of a group that began on the side before."""


@dataclass(frozen=True)
class Line:
    """One challenge and its answer: a value or a state. ``detail`` is set in 9 pt under the name.

    ``consequence`` is what to do when it is not so; ``killer`` marks a line with no going without
    it; ``ticks`` is the number of tick cells after the answer (0: none).
    """

    challenge: str
    answer: str
    detail: str = ""
    consequence: Consequence = ""
    killer: bool = False
    ticks: int = 0
    kind: str = "line"


@dataclass(frozen=True)
class RoadLine(Line):
    """A line of a day's road, drawn from top to bottom beside it.

    ``mile`` is where it is, as printed; ``mark`` what is drawn there; ``along`` how far from the day's start,
    a plain number, None where that is not known. What is done ``before`` stays with what follows. ``gap`` is
    the room above it in points, once it is laid out.
    """

    mile: str = ""
    mark: RoadMark = "road"
    along: float | None = None
    gap: float = field(default=0.0, compare=False)
    kind: str = "road_line"


@dataclass(frozen=True)
class Step:
    """One numbered or bare command of a procedure (13 pt); ``indent`` for steps under a condition."""

    text: str
    number: str = ""
    detail: str = ""
    indent: bool = False
    killer: bool = False
    kind: str = "step"


@dataclass(frozen=True)
class Box:
    """A heavy frame: what must stop a hand. At most three short lines under a bold question."""

    title: str
    lines: tuple[str, ...]
    word: SignalWord | Literal[""] = ""
    kind: str = "box"


@dataclass(frozen=True)
class ValueRow:
    """A row of the value table: name, small detail, one large value and smaller ones."""

    name: str
    detail: str
    value: str
    others: tuple[str, ...]


@dataclass(frozen=True)
class ValueTable:
    """The value that is looked for, large; ``headers`` one for the value and one for each other."""

    caption: str
    headers: tuple[str, ...]
    rows: tuple[ValueRow, ...]
    kind: str = "value_table"


@dataclass(frozen=True)
class Bands(ValueTable):
    """What a gauge reads, in four bands from flat to over, each with its action under its header.

    ``value`` is that of the third band, from which on nothing is done; the others of a row are the first
    two, the end of the third, and the last. The unit stands in the action of the third.
    """

    actions: tuple[str, ...] = ()
    kind: str = "bands"


@dataclass(frozen=True)
class Table:
    """A table of short cells (13 pt on cards, 9 pt where ``small``); first column is the row's head."""

    headers: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    small: bool = False
    caption: str = ""
    kind: str = "table"

    @property
    def to_fill(self) -> bool:
        """Its rows are high enough to write in, and each empty cell is a box."""
        return False

    @property
    def marked(self) -> tuple[int, ...]:
        """Rows that stand in a black band, the value beside their head at 24 pt."""
        return ()


@dataclass(frozen=True)
class Ranking(Table):
    """A table ordered by what comes first, its first rows marked."""

    first: tuple[int, ...] = ()

    @property
    def marked(self) -> tuple[int, ...]:
        """Rows that stand in a black band, the value beside their head at 24 pt."""
        return self.first


@dataclass(frozen=True)
class Form(Table):
    """A table to be written in."""

    @property
    def to_fill(self) -> bool:
        """Its rows are high enough to write in, and each empty cell is a box."""
        return True


@dataclass(frozen=True)
class Note:
    """A sentence of reason or caution (9 pt)."""

    text: str
    kind: str = "note"


@dataclass(frozen=True)
class Aside(Note):
    """A note that goes to the card's last side where there is no room for it."""


@dataclass(frozen=True)
class Listing:
    """Lines to be typed as they stand (9 pt), spaces at their beginnings kept."""

    lines: tuple[str, ...]
    kind: str = "listing"


@dataclass(frozen=True)
class Big:
    """One value at 24, 32 or 40 pt with its name at 13 pt above it."""

    name: str
    value: str
    detail: str = ""
    points: Literal[24, 32, 40] = 24
    kind: str = "big"


@dataclass(frozen=True)
class Blank:
    """A ruled line to fill in by hand, with its name before it."""

    name: str
    kind: str = "blank"


@dataclass(frozen=True)
class Reckoning:
    """One line of arithmetic: what it starts from in a box, what is done, its result in a box, a blank."""

    start: str
    text: str
    result: str
    kind: str = "reckoning"


@dataclass(frozen=True)
class Drawing:
    """A drawing made from data: a finished SVG with its text alternative and its true width and height."""

    svg: str
    alternative: str
    width_mm: float
    height_mm: float
    kind: str = "drawing"


@dataclass(frozen=True)
class Picture:
    """A drawing still to be made: what it shows, as data."""

    view: View
    kind: str = "picture"


@dataclass(frozen=True)
class End:
    """The call that ends the card, with its drawn end mark."""

    text: str
    kind: str = "end"


def small_table(
    caption: str, headers: Iterable[str], rows: Iterable[tuple[str, ...]], *notes: str
) -> "Iterator[Block]":
    """Set a table in small type with what is said below it; nothing where it has no rows."""
    cells = tuple(rows)
    if cells:
        yield Table(tuple(headers), cells, small=True, caption=caption)
        yield from map(Note, notes)


Block: TypeAlias = (
    Heading
    | Line
    | Step
    | Box
    | ValueTable
    | Table
    | Note
    | Listing
    | Big
    | Blank
    | Reckoning
    | Drawing
    | Picture
    | End
)


@dataclass(frozen=True)
class Reason:
    """Why a card's number or line is so, and where it is from; set beside the card in the binder."""

    name: str
    text: str
    source: str

    @property
    def origin(self) -> str:
        """Where it is from, as printed."""
        return origin_words(self.source)


@dataclass(frozen=True)
class Side:
    """One side of a card: how to use it, and its blocks in reading order.

    What has no room flows on to a further side by groups, a heading with what stands below it.
    ``shorter`` says it in fewer blocks, the fullest first: the first that has room is taken instead. A side
    that ``goes_on`` with the one before takes in what that one has no room for; how it is used is then told
    beside its title.
    """

    use: str
    blocks: tuple[Block, ...]
    shorter: tuple[tuple[Block, ...], ...] = ()
    goes_on: str = ""


@dataclass(frozen=True)
class Card:
    """A card of the ring: its sides, front first; every string final.

    ``id`` is its number on the ring ("3", "5.1"); ``name`` the function that makes it;
    ``family`` picks the corner that is cut; ``wrong_as_soon_as`` the computed line above the footer.
    ``code`` (five characters from the content) and ``target`` (the address its QR code holds, empty
    where the profile gives none) are filled in by ``cards.ring.order``, ``set_title`` by
    ``binder.cards.sets``, which an owner's own card names by ``sets``. ``in_hand`` are the codes of the lines
    that were printed before, beside which no bar stands; None where nothing is compared.
    """

    id: str
    name: str
    title: str
    sides: tuple[Side, ...]
    wrong_as_soon_as: str
    reasons: tuple[Reason, ...] = ()
    family: Literal["drive", "stop", "help"] = "drive"
    rig: str = ""
    effective: str = ""
    code: str = ""
    target: str = ""
    set_title: str = ""
    sets: tuple[str, ...] | None = None
    figures: tuple[str, ...] = field(default=(), compare=False)
    in_hand: frozenset[str] | None = field(default=None, compare=False)


@dataclass(frozen=True)
class Page:
    """A section of the binder that is no card: blocks under a title, flowing over pages.

    ``name`` is the function that makes it; ``code``, from its content, is filled in as a card's is.
    """

    name: str
    title: str
    intro: str
    blocks: tuple[Block, ...]
    code: str = ""
    set_title: str = ""
    in_hand: frozenset[str] | None = field(default=None, compare=False)


@dataclass(frozen=True)
class ProcedurePage(Page):
    """A page of lines that are done: each as wide as on a card, and why it is so beside it."""


Part: TypeAlias = Card | Page


@dataclass(frozen=True)
class StayingPart:
    """A part that is in hand and stays so: the list of what is in force tells of it."""

    title: str
    pages: int
    code: str
    effective: str


@dataclass(frozen=True)
class BinderDocument:
    """Everything the binder prints.

    ``invented`` is the mark of demo data, empty for a real rig; the five lists stand on the cover
    in this order, an empty one as "none". ``effective`` is a date like 2026-06-01. ``desk`` is what
    stays at home; the lists of what is in force follow from both, or are given where those hold but what
    changed; ``slip`` says what replaces what. ``without`` says why this rig lacks a card of the ring.
    """

    title: str
    rig: str
    trip: str
    effective: str
    set_title: str = ""
    invented: str = ""
    do_not_drive: tuple[str, ...] = ()
    not_cleared: tuple[str, ...] = ()
    attention: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
    without: tuple[str, ...] = ()
    desk: tuple[Page, ...] = ()
    slip: Page | None = None
    has_cover: bool = True
    in_force: tuple[Part | StayingPart, ...] = ()
    desk_in_force: tuple[Part | StayingPart, ...] = ()

    @property
    def cards(self) -> tuple[Card, ...]:
        """The cards among its parts, in the order of the ring."""
        return tuple(part for part in self.parts if isinstance(part, Card))
