"""Sources and cautions: whatever a number names is listed, with what its grade means."""

import pytest

from binder.assessment.assess import Assessment
from binder.cards.pages.sources import sources
from tests.by_key import ByKey
from tests.cards.binder_rigs import coach, demo, notes, rig, row, table


@pytest.mark.parametrize("assessment", [demo("larkspur"), demo("kestrel"), rig(vehicles={"coach": coach()})])
def test_every_source_of_every_figure_is_listed(assessment: Assessment) -> None:
    listed = {cells[0] for cells in table(sources(assessment), "Sources").rows}
    figures = ByKey(assessment).figures.values()
    named = {name.strip() for figure in figures for name in figure.source.split(";")}

    assert named <= listed


def test_every_grade_in_use_is_explained() -> None:
    page = sources(demo("larkspur"))
    used = {
        part for cells in table(page, "Sources").rows for part in cells[2].replace(" via ", "/").split("/")
    }

    assert used <= {cells[0] for cells in table(page, "Grades").rows}


def test_practice_is_called_what_it_is() -> None:
    page = sources(demo("larkspur"))

    assert row(table(page, "Sources"), "practice")["title"] == "common practice, no source"


def test_what_comes_first_is_said() -> None:
    said = notes(sources(demo("larkspur")).blocks)

    assert "local law come first" in said
    assert "2015 copy" in said
    assert "brakes, propane, steering, welds and coupling belong to qualified people" in said
