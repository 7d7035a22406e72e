"""Pages of procedures that are no cards: their words stand in ``templates/procedures/pages``."""

from collections.abc import Callable, Iterable, Iterator

from binder.assessment.assess import Assessment
from binder.assessment.conditions import driven
from binder.cards.blocks import Blank, Block, Line, ProcedurePage, Step
from binder.cards.procedures.lines import Computed, said_page
from binder.cards.procedures.reading import page_words
from binder.wording.numbers import BLANK
from binder.wording.words import begun

_PAPERS = ("passport", "license", "insurance", "registration", "inspection", "permit")
"""What is shown at a border; the rest that carries a date stays with the service."""

_BY_HAND = "By hand: where, with what, which way"
_STUCK = {
    "slide": ("slide", _BY_HAND),
    "awning": ("awning", _BY_HAND),
    "step": ("entry_step", _BY_HAND),
    "jacks": ("leveling_jacks", _BY_HAND),
    "generator": ("generator", "To start it again, as its manual says"),
    "air": ("air", "Drains, valves of this rig, where"),
}
"""The owner's lines by the name a page sets them with, and what is asked for where there are none."""


def _page(
    name: str, computed: Callable[[Assessment], Computed] = lambda _: {}
) -> Callable[[Assessment], ProcedurePage]:
    return lambda assessment: said_page(page_words(name), assessment, computed(assessment))


def _papers(assessment: Assessment) -> Iterator[Block]:
    for paper in assessment.rig.expires:
        if any(word in paper.what.lower() for word in _PAPERS):
            yield Line(f"{begun(paper.what)}, valid until", f"{paper.on:%Y-%m-%d}" if paper.on else BLANK)


def _answered(lines: Iterable[str], blank: str) -> tuple[Block, ...]:
    """Set the owner's own lines as steps; a line to fill in by hand where there is none."""
    return tuple(Step(line) for line in lines) or (Blank(blank),)


def _questions(assessment: Assessment) -> Computed:
    rig, engine = assessment.rig, driven(assessment.rig)[1].engine
    own = [vehicle.equipment.when_stuck for vehicle in rig.vehicles.values()]
    stuck = {
        f"stuck {name}": _answered((line for one in own for line in getattr(one, entry)), asked)
        for name, (entry, asked) in _STUCK.items()
    }
    return {"no crank": _answered(engine.no_crank if engine else (), "What helps this engine"), **stuck}


arriving = _page("arriving")
leaving_the_site = _page("leaving_the_site")
driver_change = _page("driver_change")
weather = _page("weather")
border_papers = _page("border_papers", lambda assessment: {"papers with a date": tuple(_papers(assessment))})
storing = _page("storing")
season_start = _page("season_start")
questions_of_the_night = _page("questions_of_the_night", _questions)
print_guide = _page("print_guide")
