"""What the input says of joined vehicles that cannot be: a camper on nothing, a share that is lost."""

from collections.abc import Iterator

from binder.assessment.weights.resting import CARRIED, ON_A_DOLLY
from binder.assessment.weights.supports import CARRYING, share_total
from binder.models.load import Profile
from binder.models.rig import Coupling
from binder.models.vehicles import Vehicle
from binder.problems import Path, Problem

_JOIN = "join them under couplings: '{ahead: truck, behind: camper, how: carried, at: 62 in}'"
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
            yield places.problem(path, "at least one axle is needed here", at_key=True)
        if vehicle.center_of_gravity is not None:
            text = "the scale finds it from the axles; only a camper, which has none, states it"
            yield places.problem(("vehicles", name, "center_of_gravity"), text, at_key=True)
        return
    if vehicle.axles:
        yield places.problem(path, "a camper has no axles; one that rolls is a trailer", at_key=True)
    if not any(one.behind == name and one.how == CARRIED for one in profile.rig.couplings):
        text = f"nothing says what carries '{name}'"
        yield places.problem(("vehicles", name), text, at_key=True, hint=_JOIN)


def _shares(profile: Profile, name: str, vehicle: Vehicle) -> Iterator[Problem]:
    """Weight that no axle of a group takes, or that more than the whole of it takes."""
    is_trailer = any(one.behind == name and one.how in CARRYING for one in profile.rig.couplings)
    axles = list(vehicle.axles.items())
    if not is_trailer and axles and axles[0][1].carries is not None:
        path: Path = ("vehicles", name, "axles", axles[0][0], "carries")
        yield profile.rig_places.problem(
            path, "what the first axle carries follows from statics; leave it out"
        )
    stated, has_rest = share_total(dict(axles if is_trailer else axles[1:]))
    if stated is None or (has_rest and stated <= 1 + _SAME) or abs(stated - 1) <= _SAME:
        return
    path = ("vehicles", name, "axles", next(key for key, axle in axles[::-1] if axle.carries is not None))
    text = f"the axles of this group take {stated:.0%} of what is added; together they take all of it"
    hint = "an axle that takes the rest has no 'carries'"
    yield profile.rig_places.problem((*path, "carries"), text, hint=hint)


def _order(profile: Profile, number: int, coupling: Coupling) -> Iterator[Problem]:
    places, vehicles = profile.rig_places, list(profile.rig.vehicles)
    path: Path = ("couplings", number, "behind")
    if coupling.ahead == coupling.behind:
        yield places.problem(path, f"'{coupling.behind}' cannot be behind itself")
        return
    # What is carried stands right after what carries it, and the list goes on behind it.
    carried = {
        one.behind
        for one in profile.rig.couplings
        if one.how == CARRIED and one.ahead == coupling.ahead and one is not coupling
    }
    rest = [name for name in vehicles if name not in carried]
    if coupling.behind in carried or rest.index(coupling.behind) != rest.index(coupling.ahead) + 1:
        text = f"'{coupling.behind}' does not follow '{coupling.ahead}' under vehicles"
        yield places.problem(path, text, hint="list vehicles and couplings front to rear")
    if any(other.behind == coupling.behind for other in profile.rig.couplings[:number]):
        yield places.problem(path, f"'{coupling.behind}' is already behind another vehicle")


def _way(profile: Profile, number: int, coupling: Coupling) -> Iterator[Problem]:
    places, base = profile.rig_places, ("couplings", number)
    ahead, behind = profile.rig.vehicles[coupling.ahead], profile.rig.vehicles[coupling.behind]
    if any(one.behind == coupling.ahead and one.how == CARRIED for one in profile.rig.couplings):
        text = f"'{coupling.ahead}' is carried, and nothing is joined to what is carried"
        yield places.problem((*base, "ahead"), text)
    if behind.kind == "camper" and coupling.how != CARRIED:
        yield places.problem((*base, "how"), "a camper is 'carried'", hint=_JOIN)
    if coupling.how == ON_A_DOLLY:
        if ahead.kind != "dolly":
            text = f"'{coupling.ahead}' is no dolly; the dolly is a vehicle of its own, with its axle"
            hint = "three vehicles and two couplings: coach to dolly by 'ball', dolly to car by 'dolly'"
            yield places.problem((*base, "how"), text, hint=hint)
        if behind.kind not in _ON_WHEELS or len(behind.axles) <= 1:
            text = f"'{coupling.behind}' has no front axle to stand on a dolly and rear axle to roll on"
            yield places.problem((*base, "behind"), text)
    if coupling.how in {ON_A_DOLLY, CARRIED}:
        yield from _not_measured(profile, number, coupling)
    at_behind = coupling.at_behind
    if coupling.how in CARRYING and at_behind is not None and at_behind.m >= 0:
        text = "a coupler is ahead of the first axle of its trailer; write it like '-205 in'"
        yield places.problem((*base, "at_behind"), text)
    if coupling.distribution is not None and coupling.how != "ball":
        text = f"spring bars belong to a ball, not to '{coupling.how}'"
        yield places.problem((*base, "distribution"), text, at_key=True)


def _not_measured(profile: Profile, number: int, coupling: Coupling) -> Iterator[Problem]:
    """What rests by its own weight has no measured down load, and its place is one number."""
    words = (
        ("down_load", coupling.down_load, "what it presses down is what it weighs: its scale ticket says it"),
        ("at_behind", coupling.at_behind, "'at' alone says where it stands on the vehicle ahead"),
    )
    for field, value, text in words:
        if value is not None:
            yield profile.rig_places.problem(("couplings", number, field), text, at_key=True)
