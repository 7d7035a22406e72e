"""Height, width, length and swing of the whole rig, and the gaps and distances that follow from them."""

from datetime import date

from binder.assessment.body.tail_swings import assess_tail_swing
from binder.assessment.coupling.combination_length import assess_combination_length
from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.route.clearances import HEIGHT_KEY, lowest_posted, words_of_room
from binder.assessment.route.distances import assess_following_gap, assess_warning_devices
from binder.assessment.weights.resting import carrier_of
from binder.assessment.wording import Wording
from binder.calculations.route.distances import height_under_way
from binder.models.load import Profile
from binder.models.vehicles import Size
from binder.quantities import Quantity

_OLD = "A height is true for the day and state it was measured in; tires, bags and roof gear change it."


def assess_dimensions(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter the dimensions of the rig and the distances that follow from its length."""
    _assess_height(profile, on, ledger)
    _assess_widths(profile, ledger)
    assess_combination_length(profile, ledger)
    assess_tail_swing(profile, ledger)
    assess_following_gap(profile, ledger)
    assess_warning_devices(profile, ledger)


def _heights(profile: Profile) -> dict[str, Quantity]:
    found = {}
    for name, vehicle in profile.rig.vehicles.items():
        if vehicle.size.overall_height is not None:
            measured = vehicle.size.height_measured
            raised = measured.raised if measured else None
            found[name] = height_under_way(vehicle.size.overall_height, raised)
    return found


def _assess_height(profile: Profile, on: date, ledger: Ledger) -> None:
    heights = _heights(profile)
    for name in profile.rig.vehicles.keys() - heights.keys():
        text, on_it = f"The overall height of the {name} is not given.", carrier_of(profile.rig, name)
        how = f", on the {on_it.ahead} and from the road," if on_it else ","
        helps = f"Measure it{how} and enter it with date and state."
        ledger.find(Finding("missing", 3, HEIGHT_KEY, text, helps))
    if len(heights) < len(profile.rig.vehicles):
        rule = "the height of every vehicle must be known; one is not"
        ledger.add(Figure(HEIGHT_KEY, None, "measured", rule, "profile", _height_inputs(profile, heights)))
        return
    highest = max(heights, key=lambda name: heights[name])
    _find_height_undated(highest, profile.rig.vehicles[highest].size, on, ledger)
    ledger.add(
        Figure(
            HEIGHT_KEY,
            heights[highest],
            "measured",
            "the highest vehicle, at ride height or raised, whichever is higher",
            "profile; practice",
            _height_inputs(profile, heights),
            (_OLD,),
            _height_slack(profile, heights[highest]),
        )
    )


def _height_inputs(profile: Profile, heights: dict[str, Quantity]) -> tuple[Input, ...]:
    wording = Wording(profile.rig.units)
    inputs = []
    for name, height in sorted(heights.items(), key=lambda item: item[1], reverse=True):
        origin = f"rig.yaml vehicles.{name}.size"
        inputs.append(
            Input(f"height of the {name}", wording.length(height, "up"), f"{origin}.overall_height")
        )
        measured = profile.rig.vehicles[name].size.height_measured
        stated = (
            (
                ("measured on", measured.on and measured.on.isoformat(), "on"),
                ("state", measured.state, "state"),
                ("highest thing", measured.highest, "highest"),
            )
            if measured
            else ()
        )
        inputs += [
            Input(what, text, f"{origin}.height_measured.{field}") for what, text, field in stated if text
        ]
    return tuple(inputs)


def _height_slack(profile: Profile, height: Quantity) -> str:
    lowest = lowest_posted(profile)
    if lowest is None:
        return ""
    return f"{words_of_room(lowest.height - height, Wording(profile.rig.units))} {lowest.what}"


def _find_height_undated(name: str, size: Size, on: date, ledger: Ledger) -> None:
    measured = size.height_measured
    blanks = [
        ("the date", measured.on if measured else None),
        ("the state it was in", measured.state if measured else None),
        ("the highest thing", measured.highest if measured else None),
    ]
    lacking = [what for what, stated in blanks if stated is None]
    if lacking:
        text = f"The height of the {name} is given without {' and '.join(lacking)}."
        ledger.find(Finding("missing", 3, HEIGHT_KEY, text, "Measure it again, and enter what is missing."))
    if measured and measured.on and measured.on > on:
        text = f"The height of the {name} is dated {measured.on.isoformat()}, after {on.isoformat()}."
        ledger.find(Finding("attention", 3, HEIGHT_KEY, text, "Correct the date."))


def _assess_widths(profile: Profile, ledger: Ledger) -> None:
    vehicles = profile.rig.vehicles
    body = {name: vehicle.size.overall_width for name, vehicle in vehicles.items()}
    _enter_widest("rig.overall_width", "overall_width", body, profile, ledger)
    # Mirrors are asked of the vehicle that is driven; any other counts by its body.
    first = next(iter(vehicles))
    mirrors = body | {first: vehicles[first].size.width_with_mirrors}
    _enter_widest("rig.width_with_mirrors", "width_with_mirrors", mirrors, profile, ledger)


def _enter_widest(
    key: str, field: str, widths: dict[str, Quantity | None], profile: Profile, ledger: Ledger
) -> None:
    wording = Wording(profile.rig.units)
    words = field.replace("_", " ")
    known = {name: width for name, width in widths.items() if width is not None}
    inputs = tuple(
        Input(f"{words} of the {name}", wording.length(width, "up"), f"rig.yaml vehicles.{name}.size")
        for name, width in known.items()
    )
    for name in widths.keys() - known.keys():
        helps = "Measure it with the mirrors out." if "mirrors" in field else "Measure it."
        ledger.find(Finding("missing", 3, key, f"The {words} of the {name} is not given.", helps))
    complete = len(known) == len(widths)
    rule = "the widest vehicle" if complete else "the width of every vehicle must be known; one is not"
    value = max(known.values()) if complete else None
    ledger.add(Figure(key, value, "measured", rule, "profile", inputs))
