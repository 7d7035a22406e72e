"""Forms for the desk: what is known is printed, the rest is a box to write in, and each fills one sheet."""

import pytest

from binder.cards.blocks import BinderDocument, Form, Page
from binder.cards.pages.forms import faults_log, fuel_log, pressure_log
from binder.rendering.html import desk_parts
from binder.rendering.pdf import render
from tests.cards.binder_rigs import coach, demo, rig


def form(page: Page | None) -> Form:
    assert page is not None
    first = page.blocks[0]
    assert isinstance(first, Form)
    return first


def test_the_pressure_log_has_a_row_for_each_tire_with_its_set_point() -> None:
    rows = {row[0]: row[1:] for row in form(pressure_log(demo("larkspur"))).rows}

    assert rows["coach, steer left"] == ("105", *[""] * 6)
    assert len([name for name in rows if name.startswith("coach, drive")]) == 4
    assert len([name for name in rows if name.startswith("car, ")]) == 4


def test_a_set_point_that_is_not_known_is_a_blank() -> None:
    rows = form(pressure_log(rig(vehicles={"coach": coach()}))).rows

    assert {row[1] for row in rows if row[0].startswith("coach")} == {"______"}


def test_the_fuel_log_asks_for_what_this_rig_burns() -> None:
    assert form(fuel_log(demo("larkspur"))).headers[1:4] == ("odometer, mi", "diesel, gal", "DEF, gal")
    assert form(fuel_log(demo("tamarack"))).headers[1:3] == ("odometer, km", "diesel, L")
    assert "DEF, gal" not in form(fuel_log(demo("sandpiper"))).headers
    assert fuel_log(rig(vehicles={"coach": coach()})) is None


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "sandpiper", "tamarack"])
def test_each_form_is_one_sheet(name: str) -> None:
    assessment = demo(name)
    pages = [page for make in (pressure_log, fuel_log, faults_log) if (page := make(assessment))]
    document = BinderDocument("Desk", assessment.rig.name, "", "2026-05-25", desk=tuple(pages))

    parts = desk_parts(document, assessment.rig.paper)

    assert [render(part.html).page_count for part in parts] == [1, 1, 1]
