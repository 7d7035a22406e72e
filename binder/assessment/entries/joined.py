"""What the input says of joined vehicles that cannot be: a camper on nothing, a share that is lost."""

from collections.abc import Iterator

from binder.assessment.entries import kinds
from binder.assessment.weights.resting import CARRIED, ON_A_DOLLY
from binder.assessment.weights.supports import CARRYING, share_total
from binder.models.load import Profile
from binder.models.rig import Coupling
from binder.models.vehicles import Vehicle
from binder.problems import Path, Problem

_ON_WHEELS = {"motorhome", "pickup", "car"}
_SAME = 1e-6
"""Shares that people write as percents make a whole within this."""


def joined_problems(profile: Profile) -> Iterator[Problem]:
    """Contradictions between vehicles, their axles and what joins them."""
    for name, vehicle in profile.rig.vehicles.items():
        yield from _axles(profile, name, vehicle)
        yield from _shares(profile, name, vehicle)
    for number, coupling in enumerate(profile.rig.couplings):
        if {coupling.ahead, coupling.behind} <= set(profile.rig.vehicles):
            yield from _order(profile, number, coupling)
            yield from _way(profile, number, coupling)


def _axles(profile: Profile, name: str, vehicle: Vehicle) -> Iterator[Problem]:
    places, path = profile.rig_places, ("vehicles", name, "axles")
    if vehicle.kind != "camper":
        if not vehicle.axles:
            yield places.problem(path, kinds.NO_AXLE, at_key=True)
        if vehicle.center_of_gravity is not None:
            stated: Path = ("vehicles", name, "center_of_gravity")
            yield places.problem(stated, kinds.NOT_STATED, at_key=True)
        return
    if vehicle.axles:
        yield places.problem(path, kinds.CAMPER_AXLES, at_key=True)
    if not any(one.behind == name and one.how == CARRIED for one in profile.rig.couplings):
        text = kinds.NOT_CARRIED.format(vehicle=name)
        yield places.problem(("vehicles", name), text, at_key=True, hint=kinds.JOIN.format())


def _shares(profile: Profile, name: str, vehicle: Vehicle) -> Iterator[Problem]:
    """Weight that no axle of a group takes, or that more than the whole of it takes."""
    is_trailer = any(one.behind == name and one.how in CARRYING for one in profile.rig.couplings)
    axles = list(vehicle.axles.items())
    if not is_trailer and axles and axles[0][1].carries is not None:
        path: Path = ("vehicles", name, "axles", axles[0][0], "carries")
        yield profile.rig_places.problem(path, kinds.FIRST_CARRIES)
    stated, has_rest = share_total(dict(axles if is_trailer else axles[1:]))
    if stated is None or (has_rest and stated <= 1 + _SAME) or abs(stated - 1) <= _SAME:
        return
    path = ("vehicles", name, "axles", next(key for key, axle in axles[::-1] if axle.carries is not None))
    text = kinds.SHARES.format(stated=f"{stated:.0%}")
    yield profile.rig_places.problem((*path, "carries"), text, hint=kinds.SHARES_HINT)


def _order(profile: Profile, number: int, coupling: Coupling) -> Iterator[Problem]:
    places, vehicles = profile.rig_places, list(profile.rig.vehicles)
    path: Path = ("couplings", number, "behind")
    if coupling.ahead == coupling.behind:
        yield places.problem(path, kinds.BEHIND_ITSELF.format(behind=coupling.behind))
        return
    # What is carried stands right after what carries it, and the list goes on behind it.
    carried = {
        one.behind
        for one in profile.rig.couplings
        if one.how == CARRIED and one.ahead == coupling.ahead and one is not coupling
    }
    rest = [name for name in vehicles if name not in carried]
    if coupling.behind in carried or rest.index(coupling.behind) != rest.index(coupling.ahead) + 1:
        text = kinds.NOT_FOLLOWING.format(behind=coupling.behind, ahead=coupling.ahead)
        yield places.problem(path, text, hint=kinds.NOT_FOLLOWING_HINT)
    if any(other.behind == coupling.behind for other in profile.rig.couplings[:number]):
        yield places.problem(path, kinds.ALREADY_BEHIND.format(behind=coupling.behind))


def _way(profile: Profile, number: int, coupling: Coupling) -> Iterator[Problem]:
    places, base = profile.rig_places, ("couplings", number)
    ahead, behind = profile.rig.vehicles[coupling.ahead], profile.rig.vehicles[coupling.behind]
    if any(one.behind == coupling.ahead and one.how == CARRIED for one in profile.rig.couplings):
        text = kinds.JOINED_TO_CARRIED.format(ahead=coupling.ahead)
        yield places.problem((*base, "ahead"), text)
    if behind.kind == "camper" and coupling.how != CARRIED:
        yield places.problem((*base, "how"), kinds.CAMPER_HOW, hint=kinds.JOIN.format())
    if coupling.how == ON_A_DOLLY:
        if ahead.kind != "dolly":
            text = kinds.NO_DOLLY.format(ahead=coupling.ahead)
            yield places.problem((*base, "how"), text, hint=kinds.NO_DOLLY_HINT)
        if behind.kind not in _ON_WHEELS or len(behind.axles) <= 1:
            text = kinds.NO_FRONT_AXLE.format(behind=coupling.behind)
            yield places.problem((*base, "behind"), text)
    if coupling.how in {ON_A_DOLLY, CARRIED}:
        yield from _not_measured(profile, number, coupling)
    at_behind = coupling.at_behind
    if coupling.how in CARRYING and at_behind is not None and at_behind.m >= 0:
        yield places.problem((*base, "at_behind"), kinds.COUPLER_AHEAD)
    if coupling.distribution is not None and coupling.how != "ball":
        text = kinds.SPRING_BARS.format(how=coupling.how)
        yield places.problem((*base, "distribution"), text, at_key=True)


def _not_measured(profile: Profile, number: int, coupling: Coupling) -> Iterator[Problem]:
    """What rests by its own weight has no measured down load, and its place is one number."""
    for field, text in kinds.NOT_MEASURED.items():
        if getattr(coupling, field) is not None:
            yield profile.rig_places.problem(("couplings", number, field), text, at_key=True)
