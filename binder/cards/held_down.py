"""What is held down on another vehicle by straps or turnbuckles, in the words of the cards."""

from binder.assessment.conditions import carried, coupled_by, towed
from binder.models.rig import Rig


def is_held_down(rig: Rig) -> bool:
    """Hold where a vehicle stands on another one: a camper, a car on its trailer or on a dolly."""
    return bool(carried(rig)) or coupled_by("dolly")(rig)


def held_down(rig: Rig) -> str:
    """Name what holds it: straps over tires, or the tie-downs of a camper."""
    if coupled_by("dolly")(rig):
        return f"Straps, {towed(rig)[-1][0]}"
    names = ", ".join(name for name, _ in carried(rig))
    return f"{'Straps' if carries_a_car(rig) else 'Tie-downs'}, {names}"


def carries_a_car(rig: Rig) -> bool:
    """Hold where a vehicle with axles of its own is carried."""
    return any(vehicle.axles for _, vehicle in carried(rig))
