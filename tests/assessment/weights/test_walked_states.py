"""The states of a trip take their levels from the walk where the plan states none."""

import pytest

from binder.assessment.supplies.walk import walked_trip
from binder.assessment.weights.states import trip_states
from binder.assessment.weights.weights import walked_states
from tests.assessment.conftest import Assessed


@pytest.mark.parametrize("name", ["larkspur", "kestrel", "sandpiper", "tamarack"])
def test_what_does_not_depend_on_the_walk_stays(assessed: Assessed, name: str) -> None:
    profile = assessed(name).profile
    before, after = trip_states(profile), walked_states(profile, walked_trip(profile))

    assert [state.key for state in after] == [state.key for state in before]
    for one, other in zip(before, after, strict=True):
        if one.key in {"as_weighed", "departure", "everything_full"}:
            assert one == other


def test_water_that_is_used_stays_aboard_as_waste(assessed: Assessed) -> None:
    profile = assessed("larkspur").profile
    states = {state.key: state.volumes for state in walked_states(profile, walked_trip(profile))}
    aboard = {
        key: sum(
            float(value.to("gallon").m)
            for name in ("fresh", "gray", "black")
            if (value := held["coach", name])
        )
        for key, held in states.items()
    }

    # 90 gal of fresh water and 1 of black at departure, none filled or dumped on the way.
    assert aboard["day_1_stop_1_arriving"] == pytest.approx(aboard["departure"])
    fresh = states["day_1_stop_1_arriving"]["coach", "fresh"]
    assert fresh is not None
    assert float(fresh.to("gallon").m) == pytest.approx(90 - 14 * 2 / 24)


def test_a_rig_without_a_trip_is_not_walked(assessed: Assessed) -> None:
    profile = assessed("larkspur").profile
    parked = type(profile)(profile.folder, profile.rig, profile.rig_places)

    assert walked_states(parked, walked_trip(parked)) == trip_states(parked)
