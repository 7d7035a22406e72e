from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from binder.rendering.drawings.flags import Flag, PlacedFlag, flag_rows, spread

WIDTH = 480.0

labels = st.lists(
    st.tuples(st.floats(0, WIDTH), st.sampled_from([0.5, 6.8]), st.floats(10, 120)), min_size=1, max_size=10
)


def reach(flag: Flag, placed: PlacedFlag) -> tuple[float, float]:
    """Left and right end of a label."""
    left, right = (flag.right, flag.left) if placed.is_mirrored else (flag.left, flag.right)
    return placed.stem - left, placed.stem + right


@settings(max_examples=150, deadline=None)
@given(labels=labels)
def test_no_label_meets_another_or_a_stem_that_passes_it(labels: list[tuple[float, float, float]]) -> None:
    flags = [Flag(x, left, left + right) for x, left, right in sorted(labels)]

    placed = flag_rows(flags, WIDTH)

    pairs = list(zip(flags, placed, strict=True))
    assert [place.stem for place in placed] == sorted(place.stem for place in placed)
    assert all(reach(*pair)[0] >= -1e-6 and reach(*pair)[1] <= WIDTH + 1e-6 for pair in pairs)
    for one, other in combinations(pairs, 2):
        (left, right), (other_left, other_right) = reach(*one), reach(*other)
        if one[1].row == other[1].row:
            assert right < other_left or other_right < left
        for (low, high), stem, row, passed in (
            ((left, right), other[1].stem, other[1].row, one[1].row),
            ((other_left, other_right), one[1].stem, one[1].row, other[1].row),
        ):
            assert row < passed or not low < stem < high


def test_labels_with_room_stay_in_the_nearest_row_where_they_should_be() -> None:
    flags = [Flag(50, 1, 40), Flag(150, 1, 40), Flag(300, 1, 40)]

    placed = flag_rows(flags, WIDTH)

    assert [(place.stem, place.row) for place in placed] == [(50, 0), (150, 0), (300, 0)]


def test_labels_wider_than_the_drawing_are_refused() -> None:
    with pytest.raises(ValueError, match="no room for 1 labels"):
        flag_rows([Flag(50, 1, 500)], WIDTH)


@settings(max_examples=200, deadline=None)
@given(wanted=st.lists(st.floats(0, 100), min_size=2, max_size=8))
def test_spread_points_are_apart_within_limits_and_as_near_as_can_be(wanted: list[float]) -> None:
    wanted = sorted(wanted)

    places = spread(wanted, lambda i, j: 10.0 * (j - i), [(0, 100)] * len(wanted))

    moved = max(abs(place - x) for place, x in zip(places, wanted, strict=True))
    assert all(later - place >= 10 - 1e-6 for place, later in pairwise(places))
    assert places[0] >= 0
    assert places[-1] <= 100
    # No solution can move less: i and j are j - i gaps apart, and both ends are fixed.
    pairs = [(x + 10 * (j - i) - wanted[j]) / 2 for i, x in enumerate(wanted) for j in range(i, len(wanted))]
    ends = [10 * i - x for i, x in enumerate(wanted)]
    ends += [x - 100 + 10 * (len(wanted) - 1 - i) for i, x in enumerate(wanted)]
    assert moved == pytest.approx(max([0.0, *pairs, *ends]), abs=0.02)


def test_more_points_than_the_line_holds_are_refused() -> None:
    with pytest.raises(ValueError, match="no room for 3 labels"):
        spread([1, 2, 3], lambda i, j: 10.0 * (j - i), [(0, 15)] * 3)
