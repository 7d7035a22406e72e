"""What ends first where the rig is sat out in, in the words of the cards."""

from binder.assessment.assessment import Assessment
from binder.assessment.conditions import driven, towed
from binder.cards.figure_values import words_of

NAMES = {"gray water": "gray tank full", "black water": "black tank full"}


def case_of(assessment: Assessment) -> str:
    """The start of the keys of what the card is for: the night where supplies end soonest, else at home."""
    return "sitting_out.least" if assessment.known("sitting_out.least.days") else "sitting_out"


def worded(names: str | None) -> tuple[str, ...]:
    """Name resources as a person looks at them: a waste tank does not end, it is full."""
    return tuple(NAMES.get(name, name) for name in names.split(" and ")) if names else ()


def resources(assessment: Assessment, key: str) -> str:
    """Name the resources that a figure tells, in one text."""
    return ", ".join(worded(words_of(assessment.known(key))))


def ends_first(assessment: Assessment) -> str:
    """Name what ends first."""
    return resources(assessment, f"{case_of(assessment)}.ends_first")


def charger(assessment: Assessment) -> str:
    """Name the car or truck whose battery is a resource too."""
    name, vehicle = driven(assessment.rig)
    cars = [towed_name for towed_name, entry in towed(assessment.rig) if entry.kind == "car"]
    return cars[0] if cars else name if vehicle.kind == "pickup" else ""
