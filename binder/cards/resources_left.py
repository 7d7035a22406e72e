"""What ends first where the rig is sat out in, in the words of the cards."""

from binder.assessment.assess import Assessment
from binder.assessment.conditions import driven, towed
from binder.assessment.ledger import Figure, Phrase
from binder.assessment.supplies.sitting_out_kinds import AT_START, LEAST, Stay
from binder.cards.rig_words import words_of

NAMES = {"gray water": "gray tank full", "black water": "black tank full"}


def stay_of(assessment: Assessment) -> Stay:
    """What the card is for: the night's place where supplies end soonest, else the levels at the start."""
    return LEAST if assessment.known(LEAST.ends.days.of()) else AT_START


def colder_night(assessment: Assessment) -> str:
    """Say which night makes the card wrong; no number does where the plan has a colder one elsewhere."""
    night = stay_of(assessment).night_low
    here, coldest = (assessment.quantity(kind.of()) for kind in (night, AT_START.night_low))
    if here is None:
        return ""
    if coldest is not None and coldest < here:
        return "a night colder than planned"
    return f"colder than {words_of(assessment).text(here, night.measure)}"


def resources(figure: Figure | None) -> tuple[str, ...]:
    """Name what a figure tells, as a person looks at it: a waste tank does not end, it is full."""
    return tuple(NAMES.get(name, name) for name in joined(figure, "names"))


def joined(figure: Figure | None, fact: str) -> tuple[str, ...]:
    """Texts that the value of a figure joins; none where it is not known."""
    texts = figure.value.facts[fact] if figure and isinstance(figure.value, Phrase) else ()
    return tuple(map(str, texts)) if isinstance(texts, tuple) else ()


def charger(assessment: Assessment) -> str:
    """Name the car or truck whose battery is a resource too."""
    name, vehicle = driven(assessment.rig)
    cars = [towed_name for towed_name, entry in towed(assessment.rig) if entry.kind == "car"]
    return cars[0] if cars else name if vehicle.kind == "pickup" else ""
