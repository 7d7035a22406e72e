"""The worksheet guides weighing this rig, and its entry, filled in, is one the profile takes."""

import re

import pytest

from binder.assessment.assess import Assessment
from binder.cards.blocks import Listing, Page, Step
from binder.cards.pages.worksheets import entry_lines, scale_worksheet
from binder.models.located_yaml import located_yaml
from binder.models.rig import ScaleTicket
from tests.cards.binder_rigs import coach, demo, kind_of_rig, notes, rig, table

DEMOS = ("larkspur", "kestrel", "tamarack", "sandpiper")
ODD = ("Grandmother's summer house on ten wheels", "car #2: the red one", "no", "Z\u00fcrich " * 7 + "bus")
FILLED = {
    "on": "2026-05-01",
    "division": "20 lb",
    "left": "1000 lb",
    "right": "1000 lb",
    "axle": "2000 lb",
    "total": "4000 lb",
    "what": "driver",
    "weight": "180 lb",
    "slides": "in",
    "ride_height": "true",
}


def steps(page: Page) -> list[str]:
    return [block.text for block in page.blocks if isinstance(block, Step)]


@pytest.mark.parametrize(
    "found", [*map(demo, DEMOS), kind_of_rig("slide_in_camper")], ids=[*DEMOS, "slide_in_camper"]
)
def test_the_entry_with_its_blanks_filled_is_a_ticket_of_the_profile(found: Assessment) -> None:
    names = found.rig.vehicles.keys()
    named = [*found.rig.vehicles.items(), *((name, found.rig.vehicles[one]) for name in ODD for one in names)]
    for vehicle_name, vehicle in named:
        lines = entry_lines(vehicle_name, vehicle)
        assert max(map(len, lines)) <= 100
        text = "\n".join(lines)
        text = text.replace("at: ____, left: ____", "at: 40 in, left: 0 in")
        filled = re.sub(r"(\w+): ____", lambda blank: f"{blank[1]}: {FILLED.get(blank[1], '3/4')}", text)
        entries = located_yaml("rig.yaml", filled).data
        assert isinstance(entries, list)
        ticket = ScaleTicket.model_validate(entries[0])

        assert set(ticket.weights[vehicle_name].axles) == set(vehicle.axles)
        assert set(ticket.levels.get(vehicle_name, {})) == set(vehicle.tanks)
        assert ticket.state.coupled is False


def test_every_axle_has_a_box_beside_its_rating_and_a_box_for_each_end() -> None:
    page = scale_worksheet(demo("larkspur"))
    axles, ends = table(page, "Axle by axle"), table(page, "Wheel end by wheel end")

    assert ("coach, steer", "", "12,000 lb") in axles.rows
    assert [cells[0] for cells in ends.rows] == ["coach, steer", "coach, drive", "car, front", "car, rear"]
    assert all(cells[1:] == ("",) * 4 for cells in ends.rows)


def test_every_tank_has_a_box_for_its_level() -> None:
    levels = table(scale_worksheet(demo("kestrel")), "Levels")

    assert ("coach, fresh", "35 gal", "") in levels.rows


def test_a_trailer_that_presses_on_its_coupling_is_weighed_coupled_and_apart() -> None:
    rows = table(scale_worksheet(demo("tamarack")), "Truck with the trailer coupled").rows

    assert [cells[0] for cells in rows] == [
        "coupled",
        "apart, from above",
        "less apart; last box: down load",
    ]


def test_bars_are_weighed_on_and_off_and_their_couple_has_one_factor() -> None:
    page = scale_worksheet(demo("sandpiper"))
    rows = table(page, "Truck with the trailer coupled").rows

    assert [cells[0] for cells in rows] == [
        "coupled, bars off",
        "apart, from above",
        "less apart; last box: down load",
        "coupled, bars on",
        "bars on, less bars off",
    ]
    assert [text for text in steps(page) if "bars" in text] == [
        "Coupled, bars ON: the truck's axles on the platform, the trailer off it.",
        "Take the bars off by their maker's manual, level, wheels chocked.",
        "Coupled, bars OFF: the truck's axles on the platform, the trailer off it.",
    ]
    # 222 x 145 / (222 + 66) by hand.
    assert "times 112 in; enter it under couple" in notes(page.blocks)


def test_a_car_on_its_own_wheels_is_weighed_apart_and_presses_on_nothing() -> None:
    page = scale_worksheet(demo("larkspur"))

    assert not [block for block in page.blocks if getattr(block, "caption", "").endswith("coupled")]
    assert "The car apart and level: front and rear, each in the middle of a platform." in steps(page)


def test_a_trailers_axles_are_weighed_without_its_coupler() -> None:
    page = scale_worksheet(demo("tamarack"))
    axles = table(page, "Axle by axle").rows

    assert "The trailer apart and level: first and second, its coupler or jack off the platform." in steps(
        page
    )
    assert axles[-2:] == (
        ("trailer: all axles on one platform", "", "-"),
        ("trailer: axles and down load from below", "", "7,000 kg"),
    )


def test_a_camper_is_weighed_as_a_difference_and_has_an_entry_of_its_own() -> None:
    page = scale_worksheet(kind_of_rig("slide_in_camper"))

    assert [text for text in steps(page) if "camper" in text] == [
        "The truck with the camper on it: whole on one platform.",
        "The truck without the camper, level: front and rear, each in the middle of a platform.",
    ]
    names = [cells[0] for cells in table(page, "Axle by axle").rows]
    assert names[-2:] == ["truck with the camper: whole", "camper: that, less the truck alone"]
    listings = [block.lines for block in page.blocks if isinstance(block, Listing)]
    assert [lines[3].strip() for lines in listings] == ["truck:", "camper:"]


@pytest.mark.parametrize(("name", "carrier"), [("dolly", "dolly"), ("car_on_trailer", "trailer")])
def test_what_carries_a_car_is_weighed_without_it(name: str, carrier: str) -> None:
    passes = steps(scale_worksheet(kind_of_rig(name)))

    coupled = f"Coupled: the coach's axles on the platform, the {carrier}, without the car, off it."
    assert coupled in passes
    assert any(text.startswith(f"The {carrier} without the car, level: ") for text in passes)


def test_a_rig_without_slides_air_bags_or_a_towed_vehicle_is_not_asked_for_them() -> None:
    page = scale_worksheet(rig(vehicles={"coach": coach()}))

    assert not re.search("Slides|AT RIDE HEIGHT|apart|oupled", " ".join(steps(page)))


@pytest.mark.parametrize("name", DEMOS)
def test_no_list_of_steps_is_longer_than_nine(name: str) -> None:
    numbers = [int(block.number) for block in scale_worksheet(demo(name)).blocks if isinstance(block, Step)]

    assert numbers.count(1) == 2
    assert max(numbers) <= 9


@pytest.mark.parametrize("caution", ["edge", "ask before that", "scale's master first", "weigh again"])
def test_cautions_of_the_platform_are_given(caution: str) -> None:
    page = scale_worksheet(demo("kestrel"))

    assert caution in " ".join([*steps(page), notes(page.blocks)])
