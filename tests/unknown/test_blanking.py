"""No entry left empty makes a figure or a finding more hopeful: a part of the demos' and of made-up rigs'.

``python -m tests.unknown.blanking --rigs 40`` tries every entry.
"""

from collections.abc import Iterator

import pytest

from binder.assessment.assess import assess
from binder.assessment.weights.kinds import TOTAL
from binder.models.load import Profile, load_profile
from tests.demos import PROFILES
from tests.unknown.blanking import (
    DEMOS,
    ON,
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


@pytest.mark.parametrize(
    ("seed", "file", "path"),
    [
        # What hung behind the rear axle lifted the front by what the scale had read already.
        (19, "rig.yaml", "scale_tickets.0.state.coupled"),
        (23, "rig.yaml", "scale_tickets.0.state.coupled"),
        # The weakest part of a fifth wheel was left out of its chain.
        (23, "rig.yaml", "couplings.0.parts.rails.down"),
        # A rating that was passed fell away where none must stand there.
        (15, "rig.yaml", "vehicles.coach.label.gross_combination_weight_rating"),
        (24, "rig.yaml", "vehicles.Błękitny Żuraw.label.gross_vehicle_weight_rating"),
        # An axle without a rating got its label's pressure, too little for what was weighed.
        (16, "rig.yaml", "vehicles.Странник.tanks.fresh.capacity"),
        # Water that perhaps was not used is where it was.
        (19, "trip plan", "levels_at_start.Błękitny Żuraw.fresh"),
        (23, "trip plan", "days.0.night.hookups"),
    ],
)
def test_blanks_of_made_up_rigs_that_once_helped_do_not(seed: int, file: str, path: str) -> None:
    profile = made_up_profile(seed)
    keys = tuple(int(key) if key.isdigit() else key for key in path.split("."))
    changed = with_blank(profile, file, keys)

    assert compared(assess(profile, ON), assess(changed, ON))[1] == ()


def test_a_camper_that_nobody_weighed_is_not_cleared() -> None:
    """It has no axles; nothing said of its own total but that the ticket lacks it."""
    profile = made_up_profile(19)
    total = ("scale_tickets", 0, "weights", "Błękitny Żuraw", "total")
    findings = assess(with_blank(profile, "rig.yaml", total), ON).findings

    (told,) = (one for one in findings if one.about == TOTAL.heaviest.of("Błękitny Żuraw"))
    assert told.grade == "not cleared"
