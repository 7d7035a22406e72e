"""Rigs made up for the procedure cards, from any choice of equipment; no value is of a real vehicle."""

from datetime import date
from typing import Any

from hypothesis import strategies

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure
from binder.cards.blocks import Card, Line, Page
from binder.models.load import Profile
from binder.models.located_yaml import Located
from binder.models.rig import Rig
from binder.models.trip import Private
from tests.by_key import entered_by

EQUIPMENT = (
    "slide",
    "awning",
    "roof antenna",
    "satellite dish",
    "roof vents",
    "leveling jacks",
    "entry step",
    "cargo trays",
    "cameras",
    "radio",
    "refrigerator",
    "burners",
    "inverter",
    "smoke alarm",
    "carbon monoxide alarm",
    "propane alarm",
    "vests",
    "warning devices",
)
WAYS = ("tow bar", "dolly", "ball", "fifth wheel", "gooseneck")
MAKER_SAYS = [
    "Selector in N",
    "Key in position 1",
    "Fuse 27 OUT",
    "Steering turns freely",
    "Parking brake OFF",
]
TANKS: dict[str, dict[str, str]] = {
    "fuel": {"holds": "diesel", "capacity": "100 gal", "filler": "left front"},
    "exhaust fluid": {"holds": "exhaust fluid", "filler": "right rear"},
    "propane": {"holds": "propane", "capacity": "30 gal"},
}


def coach(equipment: tuple[str, ...] = EQUIPMENT, **changed: Any) -> dict[str, Any]:
    """A motorhome with everything, but for what is changed."""
    return {
        "kind": "motorhome",
        "axles": {
            "steer": {"at": "0 in", "fitment": "single", "tires": "coach tires"},
            "drive": {"at": "252 in", "fitment": "dual", "tires": "coach tires"},
        },
        "size": {"overall_height": "12 ft 8 in", "overall_length": "38 ft 4 in"},
        "tanks": TANKS,
        "brakes": {"service": "air"},
        "suspension": "air",
        "generator": {"use": "0.5 gal/h"},
        "bays": {"tool bay": {"side": "left"}},
        "equipment": {name: ["left"] for name in equipment} | {"chocks": "4", "tire monitor": {}},
    } | changed


def car(**towing: Any) -> dict[str, Any]:
    """A car that can be towed on its wheels, with every safety it may have."""
    says = {"as_its_maker_says": MAKER_SAYS, "supplemental_brake": "true", "breakaway": "true"}
    axles = {"front": {"at": "0 in", "fitment": "single"}, "rear": {"at": "104 in", "fitment": "single"}}
    return {"kind": "car", "axles": axles, "towing": says | {"brake_lamp_in_cab": "true"} | towing}


def trailer() -> dict[str, Any]:
    """A trailer with electric brakes and a breakaway."""
    axles = {"axle": {"at": "0 in", "fitment": "single"}}
    return {
        "kind": "trailer",
        "axles": axles,
        "brakes": {"service": "electric"},
        "towing": {"breakaway": "true"},
    }


def dolly() -> dict[str, Any]:
    """A dolly with brakes of its own and a breakaway."""
    return trailer() | {"kind": "dolly"}


def rig(vehicles: dict[str, Any] | None = None, how: str = "tow bar", units: str = "us", **link: Any) -> Rig:
    """A rig of one vehicle, or of two joined in the given way."""
    held = {"coach": coach(), "car": car()} if vehicles is None else vehicles
    names = list(held)
    couplings = [{"ahead": names[0], "behind": names[1], "how": how} | link] if len(names) > 1 else []
    if couplings and how == "dolly":
        held = {names[0]: held[names[0]], "dolly": dolly(), names[1]: held[names[1]]}
        couplings = [
            {"ahead": names[0], "behind": "dolly", "how": "ball"},
            {"ahead": "dolly", "behind": names[1], "how": how} | link,
        ]
    return Rig.model_validate(
        {
            "name": "Larkspur",
            "units": units,
            "paper": "letter" if units == "us" else "a4",
            "vehicles": held,
            "couplings": couplings,
            "tires": {"coach tires": {"size": "295/75R22.5"}},
        }
    )


def assessed(
    of: Rig | None = None, private: Private | None = None, figures: tuple[Figure, ...] = ()
) -> Assessment:
    """A rig with no figures but those given."""
    profile = Profile("larkspur", of or rig(), Located("rig.yaml", ""), private=private)
    return entered_by(profile, date(2026, 6, 1), before=figures).assessment


def lines(card: Card) -> list[Line]:
    """Every challenge with its answer, front first."""
    return [block for side in card.sides for block in side.blocks if isinstance(block, Line)]


def answers(card: Card) -> dict[str, str]:
    """Answers by challenge."""
    return {line.challenge: line.answer for line in lines(card)}


def text_of(card: Card | Page) -> str:
    """Every word of the card in one text."""
    return repr(card)


def rig_with_car_on_trailer() -> Rig:
    """A motorhome with a car that stands on a trailer, strapped down."""
    says = ["Selector in P", "Parking brake ON", "Key OUT"]
    held = {"coach": coach(), "trailer": trailer(), "car": car(as_its_maker_says=says)}
    joined = {"ahead": "trailer", "behind": "car", "how": "carried"}
    return _joined(held, [{"ahead": "coach", "behind": "trailer", "how": "ball"}, joined])


def rig_with_camper() -> Rig:
    """A pickup and the camper it carries; nothing is towed."""
    camper = {"kind": "camper", "tanks": TANKS, "equipment": {name: ["left"] for name in EQUIPMENT}}
    truck = coach((), kind="pickup", brakes={"service": "hydraulic"}, suspension="leaf")
    joined = {"ahead": "truck", "behind": "camper", "how": "carried"}
    return _joined({"truck": truck, "camper": camper}, [joined])


def _joined(held: dict[str, Any], couplings: list[dict[str, Any]]) -> Rig:
    said = {"name": "Larkspur", "units": "us", "paper": "letter", "vehicles": held, "couplings": couplings}
    return Rig.model_validate(said | {"tires": {"coach tires": {"size": "295/75R22.5"}}})


@strategies.composite
def any_rig(draw: strategies.DrawFn) -> Rig:
    """Any choice of equipment, brakes and coupling."""
    equipment = tuple(name for name in EQUIPMENT if draw(strategies.booleans()))
    changed = {
        "brakes": {"service": draw(strategies.sampled_from(["air", "hydraulic"]))},
        "suspension": draw(strategies.sampled_from(["air", "leaf"])),
        "tanks": {name: tank for name, tank in TANKS.items() if draw(strategies.booleans())},
        "generator": draw(strategies.sampled_from([None, {"use": "0.5 gal/h"}])),
    }
    main = coach(equipment, **changed)
    main["equipment"]["brake controller"] = draw(strategies.sampled_from(["true", "false"]))
    how = draw(strategies.sampled_from(["", *WAYS]))
    behind = car() if how in {"tow bar", "dolly"} else trailer()
    link: dict[str, Any] = {"distribution": {}} if how == "ball" and draw(strategies.booleans()) else {}
    held = {"coach": main, "behind": behind} if how else {"coach": main}
    return rig(held, how or "tow bar", draw(strategies.sampled_from(["us", "metric"])), **link)
