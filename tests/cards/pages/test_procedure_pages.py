"""Pages of procedures name what the rig has, from the profile or as a blank, and are a sheet each."""

import re
from collections.abc import Iterator
from datetime import date
from itertools import groupby
from pathlib import Path

import pytest
from hypothesis import given, settings

from binder.assessment.assess import Assessment
from binder.cards.blocks import BinderDocument, Blank, Block, Line, ProcedurePage, Step
from binder.cards.pages.procedure_pages import (
    arriving,
    border_papers,
    driver_change,
    leaving_the_site,
    print_guide,
    questions_of_the_night,
    season_start,
    storing,
    weather,
)
from binder.cards.pages.sources import sources
from binder.cards.procedures.lines import MOST_LINES
from binder.cards.procedures.reading import page_words
from binder.cards.ring.fixed_cards import windshield_slip
from binder.models.rig import Rig
from binder.printing.build import BuildOptions, read_and_assess
from binder.printing.starter import write_starter
from binder.rendering.html import binder_parts
from binder.rendering.pdf import render
from binder.wording.numbers import BLANK
from tests.cards.binder_rigs import demo, kind_of_rig
from tests.cards.procedure_rigs import any_rig, assessed, car, coach, rig, text_of, trailer
from tests.cards.test_procedure_rules import EQUIPMENT_WORDS, VOCABULARY, full_rigs
from tests.cards.test_words_fit_the_rig import FOREIGN
from tests.paper.printings import strings

PROCEDURE_PAGES = (
    arriving,
    leaving_the_site,
    driver_change,
    weather,
    questions_of_the_night,
    border_papers,
    storing,
    season_start,
    print_guide,
)
DEMOS = ("larkspur", "kestrel", "sandpiper", "tamarack")
MORE_WORDS = """
ACTUAL AGREED ALOUD ARMS AROUND ASKED BACK BLOWN BUILDING CARD CLOTHS DARK DATE DECLARED EACH EDGE EMPTIED
EMPTY ENOUGH FILM FLAME FOLDED FROM GAUGE GREASED GREEN HOME INSIDE INTO LEAVE LET LETTER LEVEL LONG MATTE
MECHANIC MEETS MICE MIRROR MOVE NEXT NOT ONCE ONE OPENED ORIGINALS PAGE PAPERS PARK PARKING PERMIT PINK
PLATES POINT POWER PRESCRIPTION PRINTER PROOF PULL REACHED READ RED REGISTER RING RINSED ROLLED ROUNDED SEEN
SERVICED SET SHADE SIDE SIGNED SITE SIZE SPRAY SWEPT SWITCHED TAKEN TAKES TAP TEAR THROUGH TIED TURN
UNCOUPLED UNPLUGGED VALVE WAIT WARMED WATCHED WATER WAY WET WHILE WIDE WINDOWS WIPE WIRED WITH WORKING
WRITTEN
"""


def pages(assessment: Assessment) -> list[ProcedurePage]:
    return [page(assessment) for page in PROCEDURE_PAGES]


def lines(page: ProcedurePage) -> dict[str, Line]:
    return {block.challenge: block for block in page.blocks if isinstance(block, Line)}


def groups(page: ProcedurePage) -> Iterator[tuple[Block, ...]]:
    for is_line, blocks in groupby(page.blocks, lambda block: block.kind != "heading"):
        if is_line:
            yield tuple(blocks)


@pytest.mark.parametrize("name", DEMOS)
def test_each_page_is_one_sheet_but_the_questions_of_the_night(name: str) -> None:
    assessment = demo(name)
    made = pages(assessment)
    document = BinderDocument("Binder", assessment.rig.name, "", "2026-05-25", parts=tuple(made))

    _cover, *parts = binder_parts(document, assessment.rig.paper)

    sheets = {part.name.removeprefix("page-"): render(part.html).page_count for part in parts}
    assert sheets.pop("questions_of_the_night") <= 2
    assert sheets == {page.name: 1 for page in made if page.name in sheets}


@given(of=any_rig())
@settings(max_examples=40, deadline=None)
def test_a_page_names_only_what_the_rig_has(of: Rig) -> None:
    said = " ".join(text for page in pages(assessed(of)) for text in strings(page.blocks)).lower()
    equipment = of.vehicles["coach"].equipment

    for word, name in EQUIPMENT_WORDS.items():
        if not getattr(equipment, name) and name not in ("roof_vents", "radio", "cargo_trays"):
            assert not re.search(rf"\b{word.rstrip(',')}\b", said), word
    if "propane" not in {tank.holds for tank in of.vehicles["coach"].tanks.values()}:
        assert "propane valve" not in said
    assert ("generator" in said) == (of.vehicles["coach"].generator is not None)


@pytest.mark.parametrize("kind", FOREIGN)
def test_the_pages_of_a_starter_name_nothing_its_kind_has_not(kind: str, tmp_path: Path) -> None:
    write_starter(tmp_path / "rig", kind)
    file = tmp_path / "rig" / "rig.yaml"
    file.write_text(re.sub(r"(?m)^( +at:) +# \* ", r"\1 120 in # ", file.read_text("utf-8")), "utf-8")

    made = pages(read_and_assess(tmp_path / "rig", BuildOptions(date(2026, 6, 1))))

    said = [f"{page.name}: {text}" for page in made for text in strings(page)]
    assert [text for text in said if re.search(FOREIGN[kind], text, re.IGNORECASE)] == []


@pytest.mark.parametrize("of", [*full_rigs(), *DEMOS], ids=lambda of: of if isinstance(of, str) else "")
def test_answers_are_values_or_states_of_a_short_vocabulary(of: Rig | str) -> None:
    assessment = demo(of) if isinstance(of, str) else assessed(of)
    found = [line.answer for page in pages(assessment) for line in lines(page).values()]
    words = {word for answer in found for word in re.findall(r"[A-Z]{2,}", answer)}

    assert words - VOCABULARY - set(MORE_WORDS.split()) == set()
    assert [answer for answer in found if answer.upper() in {"", "CHECK", "CHECKED", "OK", "SET"}] == []


@pytest.mark.parametrize("of", full_rigs())
def test_one_thing_stands_on_a_line_and_at_most_nine_lines_in_a_group(of: Rig) -> None:
    for page in pages(assessed(of)):
        said = [block.challenge for block in page.blocks if isinstance(block, Line)]
        assert [text for text in said if re.search(r"\band\b", text, re.IGNORECASE)] == []
        assert max(sum(isinstance(block, Line) for block in group) for group in groups(page)) <= MOST_LINES


def test_what_was_never_looked_at_leaves_a_line_with_a_blank_and_what_is_not_there_leaves_none() -> None:
    unknown = season_start(assessed(rig({"coach": coach(())})))
    none = coach(()) | {"equipment": {"smoke alarm": "none", "extinguishers": "none"}}

    assert lines(unknown)["Smoke alarm"].detail == lines(unknown)["Extinguishers"].detail == BLANK
    assert not {"Smoke alarm", "Extinguishers"} & set(lines(season_start(assessed(rig({"coach": none})))))


def test_questions_are_answered_from_the_profile_else_by_a_blank_with_its_name() -> None:
    answered, asked = questions_of_the_night(demo("larkspur")), questions_of_the_night(assessed())

    assert lines(answered)["Air from outside"].answer.startswith("nose door")
    assert lines(asked)["Air from outside"].answer == BLANK
    assert "Pin at the arm out, with pliers" in {b.text for b in answered.blocks if isinstance(b, Step)}
    assert sum(isinstance(block, Step) for block in asked.blocks) == 0
    assert {block.name for block in answered.blocks if isinstance(block, Blank)} == {
        "Drains, valves of this rig, where",
        "By hand: where, with what, which way",
    }


def test_no_question_is_asked_of_what_the_rig_has_not() -> None:
    said = text_of(questions_of_the_night(assessed(rig({"van": coach((), generator=None)}))))

    assert not [word for word in ("Slide", "Awning", "Jack", "Generator", "Step will") if word in said]
    assert "Air will not build" in said


def test_the_wind_to_park_at_is_the_owners_else_the_usual_one() -> None:
    assert lines(weather(demo("larkspur")))["Wind"].answer == "PARK AT 30 mph"
    assert lines(weather(assessed()))["Wind"].answer == "PARK AT 35 mph"
    assert lines(weather(assessed(rig(units="metric"))))["Gusts"].answer == "PARK AT 70 km/h"


def test_a_co_driver_reads_the_sizes_of_the_rig_and_the_words_of_card_12() -> None:
    page, slip = driver_change(demo("larkspur")), windshield_slip(demo("larkspur"))
    steps = " ".join(block.text for block in page.blocks if isinstance(block, Step))

    assert lines(page)["We stand"].answer == "12 ft 8 in"
    assert lines(page)["Length, coupled"].answer == "58 ft 2 in"
    for block in slip.sides[0].blocks[-5:-1]:
        assert isinstance(block, Step)
        assert all(part.rstrip(".") in steps for part in re.split(r"(?<=\.) ", block.text))


def test_a_car_on_a_tow_bar_is_uncoupled_before_backing_and_a_trailer_is_not() -> None:
    assert lines(arriving(assessed()))["Car, before backing"].answer == "UNCOUPLED"
    pulled = arriving(assessed(rig({"coach": coach(), "trailer": trailer()}, "ball")))
    assert "Car, before backing" not in lines(pulled)


def test_a_house_trailer_is_leveled_across_before_it_is_uncoupled_and_along_after() -> None:
    said = list(lines(arriving(demo("sandpiper"))))
    across, free, along = (
        said.index(name)
        for name in ("Side to side, before uncoupling", "Uncouple", "Jacks, boards under them")
    )

    assert across < said.index("Chocks") < free < along
    assert "Uncouple" not in lines(arriving(kind_of_rig("car_on_trailer")))


def test_papers_with_a_date_stand_on_the_border_page_and_alarms_do_not() -> None:
    said = lines(border_papers(demo("larkspur")))

    assert said["Insurance, valid until"].answer == "2026-12-31"
    assert "Smoke alarm, valid until" not in said


def test_water_is_drained_only_from_what_holds_it() -> None:
    assert "Fresh, gray, black" in lines(storing(demo("larkspur")))
    assert "Fresh, gray, black" not in lines(storing(assessed(rig({"coach": coach(), "car": car()}))))


def test_the_reason_of_a_line_stands_with_it_and_names_its_source_where_it_is_more_than_practice() -> None:
    said = lines(weather(assessed()))

    assert said["Moving, or bottom not seen"].detail.endswith("[W63]")
    assert said["Gusts"].detail == "Worst at bridges, gaps, passing trucks."
    assert all("ractice" in page.intro for page in pages(assessed()))


def test_every_source_of_a_page_stands_in_the_list_of_sources() -> None:
    listed = text_of(sources(demo("larkspur")))
    entries = [
        e for page in PROCEDURE_PAGES for g in page_words(page(assessed()).name).groups for e in g.lines
    ]
    named = {source for entry in entries if entry.reason for source in entry.source.split("; ")}

    assert {"W61", "W62", "W63", "practice"} <= named
    assert [source for source in named if f"'{source}'" not in listed] == []
