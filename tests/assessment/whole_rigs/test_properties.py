"""What holds for any rig of two axles, tested on what is printed where it is printed.

A made-up rig is weighed with an empty tank; the trip adds water, cargo and a bar at any place, behind
the rear axle too. Moments are taken about the front axle by hand.
"""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.cards.blocks import ValueRow, ValueTable
from binder.cards.ring.tires import tires
from tests.assessment.rig_of_two_axles import DUAL_LOADS, SINGLE, Coach, Ends, Placed
from tests.by_key import ByKey

WATER = 8.33
DEPARTURE = "departure"
ROWS: dict[str, dict[float, float]] = {
    "steer": {float(p.split()[0]): float(load.split()[0]) for p, load in SINGLE.items()},
    "drive": dict(zip(map(float, range(70, 115, 5)), map(float, DUAL_LOADS), strict=True)),
}

places = st.integers(-80, 380).map(float)
sides = st.integers(-40, 40).map(float)
weights = st.integers(0, 600).map(float)
placed = st.builds(Placed, weights, places, sides)


@st.composite
def coaches(draw: st.DrawFn) -> Coach:
    wheelbase = float(draw(st.integers(170, 300)))
    front, rear = (draw(st.integers(low, high)) for low, high in ((3500, 6000), (6000, 11000)))
    skew = draw(st.integers(-300, 300))
    return Coach(
        wheelbase=wheelbase,
        steer=Ends(front + skew, front - skew),
        drive=Ends(rear - skew, rear + skew),
        tank_at=draw(places),
        tank_left=draw(sides),
        gallons=float(draw(st.integers(0, 120))),
        cargo=tuple(draw(st.lists(placed, max_size=3))),
        bar=draw(st.none() | st.just(Placed(40.0, wheelbase + 110))),
        low=float(draw(st.integers(-20, 70))),
        basis=draw(st.sampled_from(["weighed", "label"])),
        labels=(float(draw(st.integers(60, 115))), float(draw(st.integers(60, 115)))),
        valve=float(draw(st.integers(80, 125))),
    )


def pounds(assessment: ByKey, key: str) -> float:
    quantity = assessment.quantity(key)
    assert quantity is not None, key
    return float(quantity.to("pound").m)


def psi(assessment: ByKey, key: str) -> float | None:
    quantity = assessment.quantity(key)
    return None if quantity is None else float(quantity.to("psi").m)


def printed(assessment: ByKey) -> dict[str, str]:
    """What stands in the big cell of the front, by axle."""
    rows = [
        row
        for block in tires(assessment.assessment).sides[0].blocks
        if isinstance(block, ValueTable)
        for row in block.rows
        if isinstance(row, ValueRow)
    ]
    return dict(zip(assessment.rig.vehicles["coach"].axles, (row.value for row in rows), strict=False))


def number(cell: str) -> float | None:
    return float(cell) if cell.replace(".", "").isdigit() else None


@given(coaches())
@settings(max_examples=60, deadline=None)
def test_axles_change_by_the_weight_moved_and_moments_balance(coach: Coach) -> None:
    found = coach.assessed()
    moved = [Placed(coach.gallons * WATER, coach.tank_at), *coach.cargo, *([coach.bar] if coach.bar else [])]
    front = pounds(found, f"weights.coach.steer.{DEPARTURE}.load") - coach.steer.left - coach.steer.right
    rear = pounds(found, f"weights.coach.drive.{DEPARTURE}.load") - coach.drive.left - coach.drive.right

    assert front + rear == pytest.approx(sum(one.weight for one in moved), abs=1e-6)
    assert rear * coach.wheelbase == pytest.approx(sum(one.weight * one.at for one in moved), abs=1e-3)


@given(coaches())
@settings(max_examples=60, deadline=None)
def test_a_heavier_end_is_at_least_both_rules(coach: Coach) -> None:
    found = coach.assessed()
    load = pounds(found, f"weights.coach.drive.{DEPARTURE}.load")
    end = pounds(found, f"weights.coach.drive.{DEPARTURE}.heavier_end")
    before = coach.drive.left + coach.drive.right

    assert end >= load / 2 - 1e-6
    assert end >= max(coach.drive.left, coach.drive.right) / before * load - 1e-6


@given(coaches(), st.integers(1, 60))
@settings(max_examples=50, deadline=None)
def test_more_water_never_prints_a_lower_pressure_for_an_axle_it_loads(coach: Coach, more: int) -> None:
    coach = replace(coach, tank_at=round(coach.wheelbase * 0.6))
    lighter = printed(coach.assessed())
    heavier = printed(replace(coach, gallons=coach.gallons + more).assessed())

    for axle, cell in lighter.items():
        before, after = number(cell), number(heavier[axle])
        assert after is None or (before is not None and after >= before)


@given(coaches())
@settings(max_examples=60, deadline=None)
def test_what_is_printed_carries_the_load_and_passes_no_cap(coach: Coach) -> None:
    found = coach.assessed()
    cells = printed(found)

    assert set(cells) == {"steer", "drive"}
    for axle, cell in cells.items():
        key, fill = f"tires.coach.{axle}", number(cell)
        assert fill == psi(found, f"{key}.set_point")
        if fill is None:
            stops = [one for one in found.findings if one.key.startswith(key) and one.grade == "do not drive"]
            assert stops
            continue
        carried = max((load for pressure, load in ROWS[axle].items() if pressure <= fill), default=0)
        assert carried >= pounds(found, f"{key}.load_per_tire")
        assert fill <= min(110.0, 120.0, coach.valve)
        if coach.basis == "label":
            assert fill >= coach.labels[0 if axle == "steer" else 1]


@given(coaches())
@settings(max_examples=60, deadline=None)
def test_the_alarm_stands_over_the_run_flat_line_and_no_fill_under_the_set_point(coach: Coach) -> None:
    found = coach.assessed()
    for axle in ("steer", "drive"):
        key = f"tires.coach.{axle}"
        fill, alarm = psi(found, f"{key}.set_point"), psi(found, f"{key}.low_alarm")
        line, cap = psi(found, f"{key}.run_flat_below"), psi(found, f"{key}.cap")
        if fill is None or alarm is None or line is None or cap is None:
            assert (fill, alarm, line) == (None, None, None)
            continue
        assert line < alarm
        assert line >= 0.8 * fill - 1e-9
        cells = [psi(found, entry) for entry in found.keys if entry.startswith(f"{key}.fill_at.")]
        assert all(cell is None or fill <= cell <= cap for cell in cells)


@given(
    st.integers(600, 1400).map(float),
    st.integers(30, 120).map(float),
    st.integers(180, 260).map(float),
    st.integers(-150, 60).map(float),
)
@settings(max_examples=40, deadline=None)
def test_a_trailers_tongue_stands_on_the_axles_ahead(
    tongue: float, behind: float, length: float, tank_at: float
) -> None:
    """The trailer's own water moves its tongue; what the tongue gains, the coach's axles gain, no more."""
    wheelbase = 252.0
    tank = {"holds": "fresh water", "capacity": "100 gal", "at": f"{tank_at} in", "left": "0 in"}
    axle = {"at": "0 in", "track": "76 in", "fitment": "single"}
    vehicle = {"kind": "trailer", "axles": {"axle": axle}, "tanks": {"fresh": tank}}
    coupling = {
        "ahead": "coach",
        "behind": "trailer",
        "how": "ball",
        "at": f"{wheelbase + behind} in",
        "at_behind": f"{-length} in",
        "down_load": f"{tongue} lb",
    }
    ticket = Coach._ticket("trailer", {"axle": {"axle": "5000 lb"}}, {"trailer": {"fresh": "empty"}})
    parts = {"vehicle": vehicle, "coupling": coupling, "tickets": [ticket]}
    coach = Coach(wheelbase=wheelbase, trailer=parts)
    found = coach.assessed()
    # Everything full fills the trailer's tank; the plan leaves it as weighed until then.
    water = 100 * WATER
    down = tongue + water * (-tank_at / length)
    full = "everything_full"
    front = pounds(found, f"weights.coach.steer.{full}.load") - coach.steer.left - coach.steer.right
    rear = pounds(found, f"weights.coach.drive.{full}.load") - coach.drive.left - coach.drive.right
    own = 400 * WATER

    assert front + rear == pytest.approx(own + down, abs=1e-6)
    assert rear * wheelbase == pytest.approx(own * coach.tank_at + down * (wheelbase + behind), abs=1e-3)
    on_axle = pounds(found, f"weights.trailer.axle.{full}.load")
    assert on_axle + down == pytest.approx(5000 + tongue + water, abs=1e-6)
    whole = pounds(found, f"weights.combination.{full}.load")
    assert whole == pytest.approx(9700 + 15600 + own + 5000 + tongue + water, abs=1e-6)
