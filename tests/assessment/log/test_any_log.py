"""Whatever stands in a log, the rig is assessed and its cards and pages are made: none is refused."""

from datetime import timedelta

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from binder.cards.blocks import Drawing, Picture
from binder.cards.log.page import log as log_page
from binder.cards.order import binder_document
from binder.cards.ring.order import ring
from binder.log.in_force import in_force
from binder.models.log_entries import Entry, Written
from binder.printing.log_texts import printable
from binder.rendering.drawings.drawers import drawn
from binder.rendering.html import ring_html
from tests.assessment.log.logs import START, assessed_with
from tests.rendering.whole_binder import binder_html

POSITIONS = st.sampled_from(
    ["steer left", "steer right", "drive left inner"] * 3 + ["tag left", "spare", "front left"]
)
VEHICLES = st.sampled_from(["coach"] * 6 + ["car", "trailer", None])
WORDS = st.text(max_size=60).filter(lambda text: bool(text.strip()))


def _pressure(number: float) -> str:
    return f"{number:.1f} psi"


PRESSURES = st.one_of(st.floats(80, 120), st.floats(80, 120), st.floats(0, 300)).map(_pressure)
STATES = st.sampled_from(["cold", "cold", "cold", "hot", None])
WITH = st.sampled_from(["gauge", "sensor", None])
AMBIENTS = st.one_of(st.none(), st.floats(-100, 250).map(lambda degrees: f"{degrees:.0f} degF"))
ELEVATIONS = st.one_of(st.none(), st.floats(-1500, 30000).map(lambda feet: f"{feet:.0f} ft"))
TREADS = st.one_of(st.none(), st.integers(0, 40).map(lambda number: f"{number}/32 in"))


def _bare(said: dict[str, str | None]) -> dict[str, Written]:
    return {name: value for name, value in said.items() if value is not None}


def own_id(number: int) -> str:
    return f"{number:08d}-0000-8000-8000-000000000000"


_Said = st.SearchStrategy[dict[str, str | None]]


def _said(**fields: st.SearchStrategy[str] | st.SearchStrategy[str | None]) -> _Said:
    return st.fixed_dictionaries(dict(fields))


_AT: dict[str, st.SearchStrategy[str | None]] = {
    "position": POSITIONS,
    "vehicle": VEHICLES,
    "state": STATES,
    "by": WITH,
    "ambient": AMBIENTS,
    "elevation": ELEVATIONS,
}
SAID: dict[str, _Said] = {
    "tire": _said(**_AT, pressure=PRESSURES, tread=TREADS),
    "air": _said(**_AT, before=PRESSURES, after=PRESSURES),
    "fault": _said(what=WORDS, vehicle=VEHICLES, position=st.one_of(st.none(), POSITIONS)),
    "repair": _said(what=WORDS, fault=st.sampled_from([own_id(0), own_id(1), own_id(2), own_id(9), None])),
    "note": _said(text=WORDS),
    "withdrawal": _said(why=st.none()),
}
CLOCKS_OFF = st.sampled_from([0, 0, 0, 40000, -90000])
"""Hours."""


@st.composite
def entries(draw: st.DrawFn) -> list[Entry]:
    count = draw(st.integers(0, 40))
    found = []
    for number in range(count):
        kind = draw(st.sampled_from(["tire"] * 6 + list(SAID)[: None if number else -1]))
        at = START + timedelta(
            days=draw(st.floats(0, 200)), hours=draw(st.sampled_from([0, 0, 0, 40000, -90000]))
        )
        said = _bare(draw(SAID[kind]))
        corrects = own_id(draw(st.integers(0, number - 1))) if kind == "withdrawal" else ""
        card = draw(st.sampled_from(["", "3", "5.1", "99"]))
        who = draw(st.text(max_size=20))
        taken = START + timedelta(days=200)
        found.append(Entry(own_id(number), at, kind, said, who, card, corrects=corrects, taken=taken))
    return found


@settings(max_examples=25, deadline=None)
@given(entries())
def test_any_log_is_assessed_and_its_page_is_drawn(log: list[Entry]) -> None:
    assessment = assessed_with(*printable(in_force(log)))
    page = log_page(assessment)
    views = [block for block in page.blocks if isinstance(block, Picture)] if page else []

    assert all(isinstance(drawn(one), Drawing) for one in views)


@settings(max_examples=3, deadline=None, phases=(Phase.generate,))
@given(entries())
def test_the_cards_and_pages_of_any_log_are_made(log: list[Entry]) -> None:
    assessment = assessed_with(*printable(in_force(log)))
    cards = ring(assessment)

    assert ring_html(cards, "letter")
    assert binder_html(binder_document(assessment, cards), "letter")
