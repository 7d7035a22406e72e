"""What is held down on another vehicle by straps or turnbuckles, in the words of the cards."""

from binder.assessment.conditions import carried, coupled_by, towed
from binder.models.rig import Rig


def is_held_down(rig: Rig) -> bool:
    """Hold where a vehicle stands on another one: a camper, a car on its trailer or on a dolly.

    Args:
        rig: the profile [rig].

    Returns:
        The truth.

    Sources:
        Own profile.

    Example:
        >>> from binder.models.rig import Rig
        >>> coach = {"kind": "motorhome", "axles": {}}
        >>> small = {"name": "x", "units": "us", "paper": "letter", "vehicles": {"coach": coach}}
        >>> is_held_down(Rig.model_validate(small))
        False
    """
    return bool(carried(rig)) or coupled_by("dolly")(rig)


def held_down(rig: Rig) -> str:
    """Name what holds it: straps over tires, or the tie-downs of a camper.

    Args:
        rig: the profile [rig].

    Returns:
        The words on the thing.

    Sources:
        practice.

    Example:
        >>> from binder.models.rig import Rig
        >>> join = {"ahead": "truck", "behind": "camper", "how": "carried"}
        >>> held = {"truck": {"kind": "pickup"}, "camper": {"kind": "camper"}}
        >>> small = {"name": "x", "units": "us", "paper": "letter", "vehicles": held, "couplings": [join]}
        >>> held_down(Rig.model_validate(small))
        'Tie-downs, camper'
    """
    if coupled_by("dolly")(rig):
        return f"Straps, {towed(rig)[-1][0]}"
    names = ", ".join(name for name, _ in carried(rig))
    return f"{'Straps' if carries_a_car(rig) else 'Tie-downs'}, {names}"


def carries_a_car(rig: Rig) -> bool:
    """Hold where a vehicle with axles of its own is carried.

    Args:
        rig: the profile [rig].

    Returns:
        The truth; a camper has no axles.

    Sources:
        Own profile.

    Example:
        >>> from binder.models.rig import Rig
        >>> coach = {"kind": "motorhome", "axles": {}}
        >>> small = {"name": "x", "units": "us", "paper": "letter", "vehicles": {"coach": coach}}
        >>> carries_a_car(Rig.model_validate(small))
        False
    """
    return any(vehicle.axles for _, vehicle in carried(rig))
