"""The walk keeps count: what was put in less what came out is what is there, whatever the trip."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from binder.calculations.supplies.walk import Draw, Held, Moment, Stage, Store, trip_walk

NAMES = ("diesel", "fresh", "gray", "black", "second fresh")
CLOSE = 1e-6

amounts = st.floats(0, 500, allow_nan=False)
levels = st.dictionaries(st.sampled_from(NAMES), st.floats(0, 100), max_size=2)
names = st.frozensets(st.sampled_from(NAMES), max_size=3)
water = st.builds(
    lambda amount, share: Draw(
        ("fresh", "second fresh"), amount, into=((("gray",), share), (("black", "gray"), 1 - share))
    ),
    amounts,
    st.floats(0, 1),
)
fuel = st.builds(lambda amount, floor: Draw(("diesel",), amount, floor), amounts, st.floats(0, 50))
stages = st.builds(
    Stage,
    st.just("stop"),
    st.lists(water | fuel, max_size=3).map(tuple),
    dumped=names,
    filled=names,
    stated=levels,
    is_served_first=st.booleans(),
)
stores = st.fixed_dictionaries(
    {
        name: st.builds(
            lambda capacity, share, floor: Store(capacity, capacity * share, capacity * floor),
            st.floats(1, 100),
            st.floats(0, 1),
            st.floats(0, 0.2),
        )
        for name in NAMES
    }
)


def before(start: dict[str, Store], moments: tuple[Moment, ...], number: int, name: str) -> float | None:
    return moments[number - 1].held[name].level if number else start[name].start


def balance(held: Held) -> float:
    return held.filled + held.adjusted - held.used - held.dumped - held.spilled


@given(stores, st.lists(stages, max_size=12))
def test_what_was_filled_less_what_was_used_is_what_is_on_board(
    start: dict[str, Store], plan: list[Stage]
) -> None:
    moments = trip_walk(start, plan)

    for number, moment in enumerate(moments):
        for name, held in moment.held.items():
            level = before(start, moments, number, name)
            assert level is not None
            assert held.level == pytest.approx(level + balance(held), abs=CLOSE)


@given(stores, st.lists(stages, max_size=12))
def test_over_the_whole_trip_too(start: dict[str, Store], plan: list[Stage]) -> None:
    moments = trip_walk(start, plan)

    for name, store in start.items() if moments else ():
        total = sum(balance(moment.held[name]) for moment in moments)
        assert moments[-1].held[name].level == pytest.approx((store.start or 0) + total, abs=CLOSE)


@given(stores, st.lists(stages, max_size=12))
def test_water_is_not_lost_between_fresh_and_waste(start: dict[str, Store], plan: list[Stage]) -> None:
    for moment in trip_walk(start, [Stage(stage.key, stage.draws) for stage in plan]):
        used = moment.held["fresh"].used + moment.held["second fresh"].used
        into_waste = moment.held["gray"].filled + moment.held["black"].filled
        assert into_waste == pytest.approx(used, abs=CLOSE)


@given(stores, st.lists(stages, max_size=12))
def test_nothing_is_below_empty_or_over_full(start: dict[str, Store], plan: list[Stage]) -> None:
    for moment in trip_walk(
        start, [Stage(stage.key, stage.draws, stage.dumped, stage.filled) for stage in plan]
    ):
        for name, held in moment.held.items():
            assert held.level is not None
            assert held.lowest is not None
            assert held.highest is not None
            assert -CLOSE <= held.lowest <= held.level + CLOSE
            assert held.level <= held.highest + CLOSE
            assert held.level <= (start[name].capacity or 0) + CLOSE
            assert min(held.filled, held.used, held.dumped, held.spilled, held.short) >= 0


@given(stores, st.lists(st.tuples(amounts, amounts), min_size=1, max_size=8))
def test_using_more_never_leaves_more(start: dict[str, Store], plan: list[tuple[float, float]]) -> None:
    def walked(*, extra: bool) -> tuple[Moment, ...]:
        return trip_walk(
            start, [Stage("leg", (Draw(("diesel",), used + (more if extra else 0)),)) for used, more in plan]
        )

    for less, more in zip(walked(extra=True), walked(extra=False), strict=True):
        assert (less.held["diesel"].level or 0) <= (more.held["diesel"].level or 0) + CLOSE
        assert less.held["diesel"].short >= more.held["diesel"].short - CLOSE


@given(stores, st.lists(amounts, min_size=1, max_size=8))
def test_starting_with_more_never_ends_with_less(start: dict[str, Store], plan: list[float]) -> None:
    full = {name: Store(store.capacity, store.capacity, store.floor) for name, store in start.items()}
    legs = [Stage("leg", (Draw(("diesel",), amount),)) for amount in plan]

    for part, whole in zip(trip_walk(start, legs), trip_walk(full, legs), strict=True):
        assert (part.held["diesel"].level or 0) <= (whole.held["diesel"].level or 0) + CLOSE


def test_what_does_not_fit_spills() -> None:
    start = {"fresh": Store(90.0, 50.0), "gray": Store(60.0, 55.0)}
    use = Draw(("fresh",), 14.0, into=((("gray",), 1.0),))

    gray = trip_walk(start, [Stage("night", (use,))])[0].held["gray"]

    assert (gray.level, gray.filled, gray.spilled) == (60.0, 14.0, 9.0)


def test_what_is_not_there_is_short_and_nothing_flows_on() -> None:
    start = {"fresh": Store(90.0, 10.0), "gray": Store(60.0, 0.0)}
    use = Draw(("fresh",), 14.0, into=((("gray",), 1.0),))

    held = trip_walk(start, [Stage("night", (use,))])[0].held

    assert (held["fresh"].level, held["fresh"].used, held["fresh"].short) == (0.0, 10.0, 4.0)
    assert held["gray"].level == 10.0


def test_a_generator_stops_at_its_cut_off() -> None:
    start = {"diesel": Store(100.0, 30.0, 6.0)}

    held = trip_walk(start, [Stage("night", (Draw(("diesel",), 10.0, 25.0),))])[0].held["diesel"]

    assert (held.level, held.short) == (25.0, 5.0)


def test_a_stated_level_is_the_owners_word() -> None:
    start = {"diesel": Store(100.0, 100.0)}
    leg = Stage("leg", (Draw(("diesel",), 12.0),), stated={"diesel": 86.0})

    held = trip_walk(start, [leg, leg])[0].held["diesel"]

    assert (held.level, held.used, held.adjusted) == (86.0, 12.0, -2.0)


def test_a_site_with_a_drain_is_dumped_before_and_after_the_night() -> None:
    start = {"fresh": Store(90.0, 90.0), "gray": Store(60.0, 50.0)}
    use = Draw(("fresh",), 20.0, into=((("gray",), 1.0),))
    night = Stage("night", (use,), dumped=frozenset({"gray"}), is_served_first=True)

    gray = trip_walk(start, [night])[0].held["gray"]

    assert (gray.level, gray.spilled, gray.dumped) == (0.0, 0.0, 70.0)


@pytest.mark.parametrize(
    ("store", "draw"),
    [(Store(100.0, None), Draw(("diesel",), 5.0)), (Store(100.0, 100.0), Draw(("diesel",), None))],
)
def test_what_is_not_known_stays_so_until_it_is_filled(store: Store, draw: Draw) -> None:
    leg, filled = Stage("leg", (draw,)), Stage("leg", filled=frozenset({"diesel"}))

    after = trip_walk({"diesel": store}, [leg, filled])

    assert [moment.held["diesel"].level for moment in after] == [None, 100.0]


def test_less_than_nothing_cannot_be_drawn() -> None:
    with pytest.raises(ValueError, match="cannot be drawn"):
        trip_walk({"diesel": Store(1.0, 1.0)}, [Stage("leg", (Draw(("diesel",), -1.0),))])


def test_what_is_filled_after_an_unknown_use_has_no_known_extremes() -> None:
    """It is full on leaving; how low it was before that nobody knows."""
    stores = {"fresh": Store(90.0, 90.0)}
    stage = Stage("stay", (Draw(("fresh",), None),), filled=frozenset({"fresh"}), stated={"fresh": 90.0})
    held = trip_walk(stores, [stage])[0].held["fresh"]

    assert (held.level, held.lowest, held.highest) == (90.0, None, None)
