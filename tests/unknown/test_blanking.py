"""No entry left empty makes a figure or a finding more hopeful: a part of the demos' and of made-up rigs'.

``python -m tests.unknown.blanking --rigs 40`` tries every entry.
"""

from collections.abc import Iterator

import pytest

from binder.assessment.assess import assess
from binder.models.load import Profile, load_profile
from tests.unknown.blanking import (
    DEMOS,
    ON,
    PROFILES,
    Blanked,
    compared,
    counted,
    every_blank,
    made_up_profile,
    with_blank,
)
from tests.unknown.made_up_rigs import KINDS

EVERY = {"demo": 24, "rig": 40}
"""Every so many entries are blanked."""


def _profiles() -> Iterator[tuple[str, Profile]]:
    for name in DEMOS:
        yield "demo", load_profile(PROFILES / name)
    for kind in KINDS:
        yield "rig", made_up_profile(1, kind)


def test_no_blank_makes_a_figure_or_finding_more_hopeful(capsys: pytest.CaptureFixture[str]) -> None:
    blanks: list[Blanked] = []
    for number, (what, profile) in enumerate(_profiles()):
        blanks += every_blank(profile, start=number, step=EVERY[what])
    with capsys.disabled():
        print(f"\n{counted(blanks)}")  # noqa: T201 - the counts are asked for.
    assert [one for one in blanks if one.hopeful] == []
    assert sum(one.comparisons for one in blanks) > 10_000


@pytest.mark.parametrize(
    "path",
    [
        ("days", 2, "legs", 0, "driving"),
        ("days", 2, "legs", 1, "driving"),
        ("days", 2, "night", "hookups"),
    ],
)
def test_blanks_of_a_plan_that_once_helped_do_not(path: tuple[str | int, ...]) -> None:
    """An unknown driving time made passing a dump look better, unknown hookups the days with a generator."""
    profile = load_profile(PROFILES / "larkspur")
    changed = with_blank(profile, "trip plan", path)

    assert compared(assess(profile, ON), assess(changed, ON))[1] == ()
