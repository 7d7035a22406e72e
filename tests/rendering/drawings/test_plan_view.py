"""Drawings are read back from their SVG, with widths and heights straight from the font files."""

import io
from dataclasses import replace
from itertools import combinations, pairwise
from xml.etree import ElementTree as ET

import pikepdf
import pytest
import weasyprint
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

from binder import templates_folder
from binder.cards.blocks import Drawing
from binder.cards.drawings import Axle, Coupling, PlanView, Thing, Vehicle
from binder.rendering.drawings.plan_view import plan_view

FOOT = 304.8
FONT_FOLDER = templates_folder() / "fonts"
FONTS = {
    "normal": TTFont(FONT_FOLDER / "B612-Regular.ttf"),
    "bold": TTFont(FONT_FOLDER / "B612-Bold.ttf"),
}
SVG = "{http://www.w3.org/2000/svg}"
Edges = tuple[float, float, float, float]

STEER = Axle(0, 2080, "single", "105", "psi", 1010, 275)
DRIVE = Axle(6250, 1860, "dual", "95", "psi", 1010, 275)
COACH = Vehicle("coach 38 ft 0 in", "motorhome", 38 * FOOT, 2565, 980, (STEER, DRIVE))
CAR_AXLES = (
    Axle(0, 1560, "single", "33", "psi", 680, 215),
    Axle(2670, 1560, "single", "33", "psi", 680, 215),
)
CAR = Vehicle("car 14 ft 6 in", "car", 14.5 * FOOT, 1830, 900, CAR_AXLES, Coupling("bar", 12082, -1300))
PICKUP_AXLES = (
    Axle(0, 1730, "single", "65", "psi", 810, 275),
    Axle(4180, 1560, "dual", "60", "psi", 810, 235),
)
PICKUP = Vehicle("pickup", "pickup", 6350, 2030, 1000, PICKUP_AXLES)
FIFTH_AXLES = tuple(Axle(place, 2080, "single", "110", "psi", 770, 235) for place in (0, 860))
FIFTH = Vehicle("trailer", "trailer", 11070, 2440, 7050, FIFTH_AXLES, Coupling("kingpin", 4980, 1000))
THREE = tuple(Axle(place, 2080, "single", "65", "psi", 690, 205) for place in (0, 860, 1720))
TONGUE = Vehicle("trailer", "trailer", 6400, 2440, 3000, THREE, Coupling("tongue", 6600, -1250))
RIGS = {
    "coach": (COACH,),
    "coach and car": (COACH, CAR),
    "fifth": (PICKUP, FIFTH),
    "tongue": (PICKUP, TONGUE),
}


def view_of(vehicles: tuple[Vehicle, ...], things: tuple[Thing, ...], width_mm: float = 170.0) -> PlanView:
    return PlanView(vehicles, things, "52 ft overall", 10 * FOOT, "10 ft", "the rig from above", width_mm)


def text_boxes(drawing: Drawing) -> list[tuple[str, Edges]]:
    """Each text with its edges: advance widths across, outlines up and down."""
    boxes = []
    for text in ET.fromstring(drawing.svg).iter(f"{SVG}text"):  # noqa: S314 - our own text.
        font, words, size = (
            FONTS[text.attrib["font-weight"]],
            text.text or "",
            float(text.attrib["font-size"]),
        )
        part = size / font["head"].unitsPerEm
        names = [font.getBestCmap()[ord(letter)] for letter in words]
        width = sum(font["hmtx"][name][0] for name in names) * part
        shapes = [font["glyf"][name] for name in names]
        left = (
            float(text.attrib["x"])
            - width * {"start": 0, "middle": 0.5, "end": 1}[text.attrib["text-anchor"]]
        )
        y = float(text.attrib["y"])
        top = y - max(getattr(shape, "yMax", 0) for shape in shapes) * part
        bottom = y - min(getattr(shape, "yMin", 0) for shape in shapes) * part
        boxes.append((words, (left, top, left + width, bottom)))
    return boxes


def faults(drawing: Drawing) -> list[str]:
    """Texts that overlap or leave the drawing."""
    _, _, width, height = map(float, ET.fromstring(drawing.svg).attrib["viewBox"].split())  # noqa: S314 - as above.
    boxes = text_boxes(drawing)
    found = [
        f"{words} leaves the drawing"
        for words, (left, top, right, bottom) in boxes
        if left < -0.05 or top < -0.05 or right > width + 0.05 or bottom > height + 0.05
    ]
    return found + [
        f"{words} meets {other}"
        for (words, one), (other, two) in combinations(boxes, 2)
        if one[0] < two[2] - 0.02
        and two[0] < one[2] - 0.02
        and one[1] < two[3] - 0.02
        and two[1] < one[3] - 0.02
    ]


def stems_through_texts(drawing: Drawing) -> list[str]:
    """Upright lines that cross a text; the rig's group is moved down, and texts are not."""
    root = ET.fromstring(drawing.svg)  # noqa: S314 - our own text.
    group = root.find(f"{SVG}g")
    assert group is not None
    down = float(group.attrib["transform"].removeprefix("translate(0 ").removesuffix(")"))
    found = []
    for stem in group.iter(f"{SVG}polyline"):
        points = [tuple(map(float, point.split(","))) for point in stem.attrib["points"].split()]
        for (x, y), (x2, y2) in pairwise(points):
            upper, lower = sorted((y + down, y2 + down))
            found += [
                words
                for words, (left, top, right, bottom) in text_boxes(drawing)
                if x == x2
                and left + 0.02 < x < right - 0.02
                and upper < bottom - 0.1
                and top + 0.1 < lower
                # A walk number stands in a white circle upon its stem.
                and not (
                    words.isdigit()
                    and len(words) <= 2
                    and abs((left + right) / 2 - x) < 0.02
                    and bottom - top < 8
                )
            ]
    return found


things = st.builds(
    lambda side, share, inward, label, walk: (side, share, inward, label, walk),
    st.sampled_from(["left", "right", "left", "right", "front", "rear"]),
    st.floats(0, 1),
    st.sampled_from([0.0, 0.0, 300.0, 500.0]),
    st.from_regex(r"[a-zQW]{1,8}(,? [a-zQW]{1,8}){0,2}", fullmatch=True),
    st.sampled_from(["", "", "3", "12"]),
)


@settings(max_examples=25, deadline=None)
@given(
    rig=st.sampled_from(sorted(RIGS)),
    drawn=st.lists(st.tuples(st.integers(0, 1), things), max_size=14),
    stretch=st.floats(0.9, 1.1),
)
def test_no_text_meets_another_or_a_stem_or_leaves_the_drawing(
    rig: str, drawn: list[tuple[int, tuple[str, float, float, str, str]]], stretch: float
) -> None:
    vehicles = tuple(replace(vehicle, width=vehicle.width * stretch) for vehicle in RIGS[rig])
    placed = []
    for number, (side, share, inward, label, walk) in drawn:
        last = len(vehicles) - 1
        vehicle = {"front": 0, "rear": last}.get(side, min(number, last))
        depth = 0.0 if side in {"front", "rear"} else inward
        position = share * vehicles[vehicle].length
        placed.append(Thing(vehicle, side, label, position, depth, walk))  # type: ignore[arg-type] # Sampled.

    drawing = plan_view(view_of(vehicles, tuple(placed)))

    assert faults(drawing) == []
    assert stems_through_texts(drawing) == []
    words = [text for text, _ in text_boxes(drawing)]
    for thing in placed:
        assert " ".join(thing.label.split()) in " ".join(" ".join(words).split())
    for vehicle_drawn in vehicles:
        assert all(axle.set_point in words for axle in vehicle_drawn.axles)


@pytest.mark.parametrize("rig", sorted(RIGS))
def test_only_sizes_of_the_closed_set_and_the_private_family_are_used(rig: str) -> None:
    drawing = plan_view(view_of(RIGS[rig], (Thing(0, "left", "fuel", 3000, walk="1"),)))

    texts = list(ET.fromstring(drawing.svg).iter(f"{SVG}text"))  # noqa: S314 - our own text.
    assert {int(text.attrib["font-size"]) for text in texts} <= {8, 9, 13, 14, 17, 24}
    assert {text.attrib["font-family"] for text in texts} == {"Binder Sans"}


def rectangles(drawing: Drawing) -> list[dict[str, float]]:
    names = ("x", "y", "width", "height")
    shapes = ET.fromstring(drawing.svg).iter(f"{SVG}rect")  # noqa: S314 - our own text.
    return [{name: float(shape.attrib[name]) for name in names} for shape in shapes]


def test_vehicles_axles_and_scale_bar_are_to_one_scale() -> None:
    drawing = plan_view(view_of((COACH, CAR), ()))

    coach, car, *tires = rectangles(drawing)
    scale = coach["width"] / (38 * FOOT)
    middles = [tire["x"] + tire["width"] / 2 - coach["x"] for tire in tires]
    assert coach["height"] / scale == pytest.approx(2565, abs=2)
    assert car["width"] / scale == pytest.approx(14.5 * FOOT, abs=2)
    # The car's joint lies 1300 mm ahead of it and 12082 mm behind the coach's front.
    assert (car["x"] - coach["x"]) / scale == pytest.approx(12082 + 1300, abs=2)
    assert [middle / scale for middle in middles[:6]] == pytest.approx([980] * 2 + [7230] * 4, abs=2)
    bar = [line for line in drawing.svg.split("<polyline ") if "points" in line][-3]
    (left, _), (right, _) = (point.split(",") for point in bar.split('"')[1].split())
    assert (float(right) - float(left)) / scale == pytest.approx(10 * FOOT, abs=2)


def test_dual_axles_have_four_tires_and_others_two() -> None:
    drawing = plan_view(view_of((COACH, CAR), ()))

    assert len(rectangles(drawing)) == 2 + 2 + 4 + 2 + 2


def test_set_points_stand_at_their_axles_in_the_largest_size() -> None:
    drawing = plan_view(view_of((COACH, CAR), ()))

    coach = rectangles(drawing)[0]
    scale = coach["width"] / (38 * FOOT)
    steer, drive = (
        next(box for words, box in text_boxes(drawing) if words == name) for name in ("105", "95")
    )
    assert drawing.svg.count('font-size="24"') == 4
    assert ((steer[0] + steer[2]) / 2 - coach["x"]) / scale == pytest.approx(980, abs=400)
    assert ((drive[0] + drive[2]) / 2 - coach["x"]) / scale == pytest.approx(7230, abs=100)


def test_the_right_side_is_above_and_the_left_side_below() -> None:
    door, fuel = Thing(0, "right", "door", 4000), Thing(0, "left", "fuel", 4000)

    boxes = dict(text_boxes(plan_view(view_of((COACH,), (door, fuel)))))

    assert boxes["door"][3] < boxes["105"][1] < boxes["105"][3] < boxes["fuel"][1]


def test_the_drawing_is_the_same_each_time_and_carries_its_words() -> None:
    view = view_of((PICKUP, FIFTH), (Thing(1, "right", "door", 4000, walk="1"),))

    drawing = plan_view(view)

    assert drawing == plan_view(view)
    assert drawing.alternative == "the rig from above"
    assert "<title>the rig from above</title>" in drawing.svg


def test_a_printed_drawing_embeds_only_the_bundled_typeface() -> None:
    faces = "".join(
        f"@font-face{{font-family:'Binder Sans';font-weight:{weight};src:url({file.as_uri()})}}"
        for weight, file in (
            ("normal", FONT_FOLDER / "B612-Regular.ttf"),
            ("bold", FONT_FOLDER / "B612-Bold.ttf"),
        )
    )
    svg = plan_view(view_of((COACH, CAR), (Thing(0, "right", "door", 4000, walk="1"),))).svg

    pdf = weasyprint.HTML(string=f"<html lang=en><style>{faces}</style>{svg}").write_pdf()

    with pikepdf.open(io.BytesIO(pdf)) as document:
        fonts = document.pages[0].Resources.Font
        names = {str(font.BaseFont).split("+")[1] for font in fonts.values()}
    assert names == {"Binder-Sans", "Binder-Sans-Bold"}


@pytest.mark.parametrize(
    ("vehicles", "things_on_it", "width_mm", "fault"),
    [
        ((COACH, replace(CAR, coupling=None)), (), 170, "has no coupling"),
        ((COACH,), (Thing(0, "left", "fuel", 40000),), 170, "outside the drawing"),
        ((COACH,), (Thing(0, "left", "fuel " * 40, 4000),), 170, "no room"),
        ((COACH,), (Thing(0, "left", "fuel \u25a0", 4000),), 170, "typeface lacks"),
        ((COACH, CAR), (), 60, "no room for the set-points"),
        ((COACH,), (Thing(0, "front", "glass" * 20),), 100, "leave no room for the rig"),
        ((COACH, CAR), (Thing(1, "front", "lamps"),), 170, "at no end of the rig"),
    ],
)
def test_what_cannot_be_drawn_is_refused(
    vehicles: tuple[Vehicle, ...], things_on_it: tuple[Thing, ...], width_mm: float, fault: str
) -> None:
    with pytest.raises(ValueError, match=fault):
        plan_view(view_of(vehicles, things_on_it, width_mm))
