"""Page "Fluids": each fluid of the rig, how it is read, what is carried, and how cold it may get."""

import re
from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.fluids.fluids import blanks_of, has_none, unlisted_fluids
from binder.assessment.fluids.kinds import CAPACITY, MARGIN, NEEDED, PROTECTS_TO
from binder.assessment.route.kinds import COLDEST_NIGHT
from binder.cards.blocks import Block, Box, Note, Page, small_table
from binder.cards.rig_words import words_of
from binder.models.vehicles import Fluid, TopUp
from binder.wording.numbers import BLANK, as_written, both_as_written

_INTRO = (
    "Read each in the condition its maker names: cold or hot, engine on or off, on level ground. The engine "
    "maker's chart and the vehicle's manual come first. A wrong fluid does more harm than a low one."
)
_HEADERS = ("fluid", "specification", "capacity", "where and how it is read", "top up", "protects to")


def fluids(assessment: Assessment) -> Page:
    """Make the page of fluids."""
    return Page("fluids", "Fluids", _INTRO, (_CAUTION, *_tables(assessment), *_notes(assessment)))


_CAUTION = Box("Cooling system hot? Never open its cap or bottle: it scalds.", (), "WARNING")


def _tables(assessment: Assessment) -> Iterator[Block]:
    low = words_of(assessment).value(assessment.known(COLDEST_NIGHT.of()), "")
    headers = (*_HEADERS, f"to spare at {low}") if low else _HEADERS
    for name, vehicle in assessment.rig.vehicles.items():
        rows = [_fluid(assessment, (name, words), fluid) for words, fluid in vehicle.fluids.items()]
        rows += [(words, BLANK, BLANK, BLANK, BLANK, "-", "-") for words in unlisted_fluids(vehicle)]
        yield from small_table(f"Fluids, {name}", headers, (row[: len(headers)] for row in rows))


def _fluid(assessment: Assessment, whose: tuple[str, str], fluid: Fluid) -> tuple[str, ...]:
    name, words = whose[1], words_of(assessment)
    specification = re.sub(" deg([FC])", r" °\1", fluid.specification or BLANK)
    if has_none(fluid):
        return (name, specification, *("-",) * 5)
    capacity = both_as_written(fluid.capacity)
    if fluid.capacity is None and CAPACITY not in blanks_of(name, fluid):
        capacity = "-"
    limit = assessment.known(PROTECTS_TO.of(*whose))
    return (
        name,
        specification,
        capacity,
        fluid.check or BLANK,
        _carried(fluid.top_up),
        words.text(limit.quantity, PROTECTS_TO.measure) if limit else "-",
        _margin(assessment, whose) if limit else "-",
    )


def _carried(top_up: TopUp | None) -> str:
    return f"{as_written(top_up.quantity)}, {top_up.place or BLANK}" if top_up else "-"


def _margin(assessment: Assessment, whose: tuple[str, str]) -> str:
    words, margin = words_of(assessment), assessment.quantity(MARGIN.of(*whose))
    if margin is None:
        return BLANK
    if margin.magnitude >= 0:
        return words.text(margin, MARGIN.measure)
    needed = words.value(assessment.known(NEEDED.of(*whose)), "")
    return f"SHORT: {needed}" if needed else "SHORT"


def _notes(assessment: Assessment) -> Iterator[Block]:
    where = words_of(assessment).slack(assessment.known(COLDEST_NIGHT.of()))
    if where:
        yield Note(f"Coldest night: {where}, by the plan. A fluid in the open is as cold as the air.")
    yield Note(
        "Oils protect to the cranking limit of the winter grade, mixtures to where they freeze: test what is "
        "in it. Never mix ethylene and propylene glycol. Glycol is sweet and kills pets: wipe it up. Brake "
        "fluid that falls means worn linings or a leak: that is for qualified people."
    )
