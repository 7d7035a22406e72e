"""The states of a trip with the levels of the walk: as the plan states them, by the walk otherwise."""

from collections.abc import Mapping
from types import MappingProxyType

from binder.assessment.supplies.walk import WalkedMoment, walked_trip
from binder.assessment.weights.states import TankName, TripState, trip_states
from binder.models.load import Profile
from binder.quantities import Quantity, registry


def walked_states(profile: Profile) -> tuple[TripState, ...]:
    """States of the trip in order, each stop with what the tanks hold there.

    A level the walk does not know stays that of the state before, as in ``trip_states``.
    """
    walk = walked_trip(profile)
    moments = {item.key.replace(".", "_"): item for item in walk.moments}
    names = {(item.vehicle, item.words): name for name, item in walk.tanks.tanks.items()}
    return tuple(
        state._replace(volumes=_volumes(state, moments[state.key], names)) if state.key in moments else state
        for state in trip_states(profile)
    )


def _volumes(
    state: TripState, item: WalkedMoment, names: Mapping[TankName, str]
) -> Mapping[TankName, Quantity | None]:
    levels = {place: item.moment.held[name].level for place, name in names.items()}
    known = {
        place: registry.Quantity(level, "gallon") for place, level in levels.items() if level is not None
    }
    return MappingProxyType({**state.volumes, **known})
