"""The page of the log: a chart of each axle, and what each tire loses a month."""

from dataclasses import replace
from itertools import pairwise

import pytest

from binder.cards.blocks import Drawing, Heading, Note, Page, Picture, Table
from binder.cards.drawings import Readings
from binder.cards.log.page import log
from binder.cards.sets import sets
from binder.models.log_entries import Entry
from binder.rendering.drawings.drawers import drawn
from tests.assessment.log.logs import COLD, assessed_with, entry, larkspur, tire, walks, without


def page(*entries: Entry) -> Page:
    made = log(assessed_with(*entries))
    assert made is not None
    return made


def charts(made: Page) -> dict[str, Readings]:
    """Charts by the axle in the heading above."""
    return {
        heading.text: one.view
        for heading, one in pairwise(made.blocks)
        if isinstance(heading, Heading) and isinstance(one, Picture) and isinstance(one.view, Readings)
    }


def test_a_log_without_cold_readings_has_no_page() -> None:
    assert log(assessed_with()) is None
    assert (
        log(assessed_with(entry("note", 3, {"text": "iron"}), tire("steer left", 4, pressure="99 psi")))
        is None
    )


def test_each_axle_has_a_chart_with_a_line_of_each_tire_and_the_cold_fill() -> None:
    found = charts(page(*walks()))

    assert list(found) == [f"Coach, {one}: pressure at 68 °F and sea level" for one in ("steer", "drive")]
    drive = found["Coach, drive: pressure at 68 °F and sea level"]
    assert {one.name for one in drive.lines} == {"left outer", "left inner", "right inner", "right outer"}
    assert [one.name for one in drive.lines if one.is_heavy] == ["left inner"]
    assert drive.level == (95.0, "cold fill 95 psi")
    assert "drive left inner: from 95 psi to 86 psi" in drive.alternative


def test_a_line_breaks_where_air_was_added_and_the_reading_after_it_is_marked() -> None:
    air = entry(
        "air",
        50,
        {"position": "steer left", "vehicle": "coach", "before": "103 psi", "after": "106 psi", **COLD},
    )
    (line,) = [
        one for chart in charts(page(*walks(), air)).values() for one in chart.lines if len(one.points) == 18
    ]

    assert [point.begins for point in line.points].count(True) == 2
    assert [point.value for point in line.points if point.is_after_air] == pytest.approx([106.0])


def test_the_table_tells_loss_spread_and_verdict() -> None:
    (table,) = [one for one in page(*walks()).blocks if isinstance(one, Table)]
    rows = {row[0]: row[1:] for row in table.rows}

    readings, loss, over, verdict = rows["coach, drive left inner"]
    assert (readings, verdict) == ("16", "LOSES MORE")
    assert loss.startswith("2.")
    assert "\u00b1" in loss
    assert over.startswith("2.")
    assert {row[-1] for name, row in rows.items() if name != "coach, drive left inner"} == {"as its mates"}


@pytest.mark.parametrize(("weeks", "verdict"), [(3, "too few yet"), (9, "perhaps more: read on")])
def test_before_it_is_sure_no_tire_is_called_sound(weeks: int, verdict: str) -> None:
    (table,) = [one for one in page(*walks(weeks, leak=4.0)).blocks if isinstance(one, Table)]

    assert [row[-1] for row in table.rows if row[0] == "coach, drive left inner"] == [verdict]


def test_what_was_left_out_or_assumed_is_told_below() -> None:
    notes = [one.text for one in page(*without(walks(), "ambient")).blocks if isinstance(one, Note)]

    assert any("taken as 68 °F" in one and "coach, steer left" in one for one in notes)


def test_what_was_left_out_of_several_tires_for_one_reason_is_told_together() -> None:
    hot = {**COLD, "state": "hot", "pressure": "110 psi"}
    warm = [
        tire(name, day, **hot) for name, day in (("steer left", 3), ("steer left", 4), ("steer right", 5))
    ]
    warm.append(entry("tire", 6, {"position": "front left", "vehicle": "car", **hot}))
    notes = [one.text for one in page(*walks(), *warm).blocks if isinstance(one, Note)]

    (told,) = [one for one in notes if "left out" in one.lower()]
    assert told == (
        "Readings left out, not said to be cold: "
        "coach, steer left 2; coach, steer right 1; car, front left 1."
    )


def test_the_co_drivers_set_has_no_log_and_the_mechanics_has() -> None:
    made = page(*walks())

    assert {name for name, one in sets().items() if one.holds(made)} == {"everything", "mechanic"}


@pytest.mark.parametrize(
    ("chosen", "fill", "loss"),
    [("kPa", "cold fill 660 kPa", " kPa \u00b1 "), ("bar", "cold fill 6.60 bar", " bar \u00b1 ")],
)
def test_a_metric_rig_has_it_in_its_own_unit(chosen: str, fill: str, loss: str) -> None:
    profile = larkspur()
    rig = profile.rig.model_copy(update={"units": "metric", "pressure": chosen})
    made = log(assessed_with(*walks(), profile=replace(profile, rig=rig)))
    assert made is not None
    views = [block.view for block in made.blocks if isinstance(block, Picture)]
    (table,) = [block for block in made.blocks if isinstance(block, Table)]

    assert isinstance(views[1], Readings)
    assert views[1].level is not None
    assert views[1].level[1] == fill
    assert all(isinstance(drawn(Picture(one)), Drawing) for one in views)
    assert loss in table.rows[0][2]
