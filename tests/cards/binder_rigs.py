"""Rigs for the pages of the binder: the two demo profiles, and made-up ones with gaps."""

from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from binder.assessment.assess import Assessment, assess
from binder.assessment.entries.contradictions import refuse_contradictions
from binder.cards.blocks import Block, Note, Page, Picture, Table
from binder.cards.drawings import MarginBars, PlanView
from binder.models.load import Profile, load_profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from tests.demos import PROFILES

ON = date(2026, 5, 25)
RIGS = Path(__file__).resolve().parents[1] / "rigs"


@cache
def demo(name: str) -> Assessment:
    """A demo profile on its trip."""
    return assess(load_profile(PROFILES / name), ON)


@cache
def kind_of_rig(name: str) -> Assessment:
    """One of the rigs that show a way of joining."""
    profile = load_profile(RIGS / name)
    refuse_contradictions(profile)
    return assess(profile, ON)


def rig(**entries: Any) -> Assessment:
    """A rig made up for one test; no value is of a real vehicle."""
    written = {"name": "Made up", "units": "us", "paper": "letter", **entries}
    return assess(Profile("made up", Rig.model_validate(written), Located("rig.yaml", "")), ON)


def coach(**entries: Any) -> dict[str, Any]:
    """A motorhome of which little is known."""
    axles = {
        "steer": {"at": "0 in", "fitment": "single"},
        "drive": {"at": "200 in", "fitment": "dual"},
    }
    return {"kind": "motorhome", "axles": axles, **entries}


def hauler(**coupling: Any) -> Assessment:
    """A pickup with a fifth wheel, in metric units."""
    size = {"overall_length": "250 in", "overall_width": "80 in", "front_overhang": "38 in"}
    pickup = {
        "kind": "pickup",
        "size": size,
        "axles": {
            "front": {"at": "0 in", "track": "68 in", "fitment": "single", "rating": "5200 lb"},
            "rear": {"at": "162 in", "track": "68 in", "fitment": "single", "rating": "7000 lb"},
        },
    }
    trailer = {
        "kind": "trailer",
        "size": {"overall_length": "400 in", "overall_width": "96 in", "rear_overhang": "110 in"},
        "axles": {
            "first": {"at": "0 in", "track": "76 in", "fitment": "single", "rating": "6000 lb"},
            "second": {"at": "34 in", "track": "76 in", "fitment": "single", "rating": "6000 lb"},
        },
        "equipment": {"entry door": {"at": "60 in", "side": "right"}},
        "bays": {"rear bay": {"at": "130 in", "side": "rear"}},
    }
    joined = {"ahead": "pickup", "behind": "trailer", "how": "fifth wheel", "at": "158 in", **coupling}
    return rig(
        units="metric", paper="a4", vehicles={"pickup": pickup, "trailer": trailer}, couplings=[joined]
    )


def table(page: Page, caption: str) -> Table:
    """The one table of a page whose caption starts so."""
    (found,) = (
        block for block in page.blocks if isinstance(block, Table) and block.caption.startswith(caption)
    )
    return found


def row(found: Table, head: str) -> dict[str, str]:
    """Cells of the one row with this head, by their headers."""
    (cells,) = (cells for cells in found.rows if cells[0] == head)
    return dict(zip(found.headers, cells, strict=True))


def bars(page: Page) -> MarginBars:
    """The bars of a page."""
    (view,) = (block.view for block in page.blocks if isinstance(block, Picture))
    assert isinstance(view, MarginBars)
    return view


def plan_view(page: Page) -> PlanView:
    """The plan view of a page."""
    (view,) = (block.view for block in page.blocks if isinstance(block, Picture))
    assert isinstance(view, PlanView)
    return view


def notes(blocks: tuple[Block, ...]) -> str:
    """All notes as one text."""
    return "\n".join(block.text for block in blocks if isinstance(block, Note))
