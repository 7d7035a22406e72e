"""The starter: as it stands it tells each needed blank with its line; with its blanks filled it is read."""

import re
from pathlib import Path

import pytest

from binder.models.load import Profile, load_profile
from binder.models.located_yaml import Plain, located_yaml
from binder.problems import InputProblems
from binder.problems import Path as Entry

_STARTER = Path(__file__).parents[2] / "templates" / "starter"
_FILES = ("rig.yaml", "trips/first_trip.yaml")

# What a person might write into each blank: by the end of its path, the longest that fits first.
_ANSWERS = {
    "aboard.weight": "340 lb",
    "aboard.at": "40 in",
    "at": "40 in",
    "at_behind": "-35 in",
    "axle": "9000 lb",
    "axles.drive.at": "252 in",
    "axles.rear.at": "104.5 in",
    "axles.drive.fitment": "dual",
    "axles.steer.fitment": "single",
    "base plate": "8000 lb",
    "batteries.chemistry": "lead-acid",
    "batteries.count": "2",
    "batteries.each": "220 Ah",
    "batteries.total": "440 Ah",
    "batteries.voltage": "6 V",
    "bays": "{tool bay: {at: 84 in, left: 38 in, side: left, lock: key}}",
    "brake_lamp_in_cab": "true",
    "brakes.service": "air",
    "brakes_on_all_wheels": "true",
    "battery": "60 Ah/day",
    "breakaway": "true",
    "capacity": "90 gal",
    "car.label_pressure": "33 psi",
    "car.label_tires": "225/65R17 SL",
    "car.rating": "2600 lb",
    "cargo": "[]",
    "carbon monoxide alarm": "[bedroom]",
    "check": "rear stick with the engine cold and off",
    "chocks": "4",
    "circumference": "125.5 in",
    "clearances": "[]",
    "closest_low_alarm": "88 %",
    "couplings": "[]",
    "cut_off": "1/4",
    "cylinders": "6",
    "date_code": "1423",
    "diesel": "8.0 mpg",
    "displacement": "8.9 L",
    "distance": "96 mi",
    "division": "20 lb",
    "driving": "2 h",
    "dual_spacing": "13.5 in",
    "dump": "true",
    "elevation": "2700 ft",
    "elevation_from": "a map",
    "entry door.at": "-60 in",
    "exhaust fluid": "2.5 % of diesel",
    "exhaust_brake": "true",
    "exits": "[entry door, bedroom window]",
    "expires": "[]",
    "spares.expires": "2028-01-01",
    "extinguishers": "[entry door]",
    "family": "truck",
    "fitted.at": "33400 mi",
    "filler": "left front",
    "fluids.capacity": "28 qt",
    "front_overhang": "88 in",
    "fuel.holds": "diesel",
    "gasoline": "9 mpg",
    "gate": "open all night",
    "generator": "2 h/day",
    "generator.power": "8 kW",
    "generator.use": "0.25 gal/h",
    "generator.use_at_full_load": "0.9 gal/h",
    "grades": "[]",
    "gross_combination_weight_rating": "41000 lb",
    "gross_vehicle_weight_rating": "30500 lb",
    "height": "22 in",
    "height_behind": "21 in",
    "high": "71 degF",
    "highest": "front air conditioner",
    "hookups": "none",
    "hydronic_heater.loop": "10 gal",
    "hydronic_heater.use_burning": "0.35 gal/h",
    "jacking points": "[front axle beam]",
    "kind": "motorhome",
    "legs.to.kind": "rest",
    "label_pressure": "110 psi",
    "label_tires": "295/75R22.5 G",
    "latitude": "43.1245",
    "leave": "2026-06-01 09:00",
    "left": "-36 in",
    "weights.left": "4500 lb",
    "weights.right": "4500 lb",
    "length": "60 in",
    "levels": "full",
    "levels_at_start": "full",
    "levels.propane": "full",
    "levels_at_start.propane": "full",
    "load_range": "G",
    "log": "https://log.example.org/mine",
    "longest_day": "5 h",
    "longitude": "-116.5023",
    "low": "34 degF",
    "maximum_load": "7400 lb",
    "maximum_load_dual": "5675 lb",
    "maximum_load_single": "6175 lb",
    "maximum_pressure": "110 psi",
    "maximum_speed": "75 mph",
    "mounted_on": "2023-06-10",
    "name": "Mine",
    "nut_torque": "475 ft*lb",
    "nuts_checked.at": "33480 mi",
    "occupant_and_cargo_carrying_capacity": "5130 lb",
    "odometer": "34150 mi",
    "on": "2026-03-30",
    "overall_height": "12 ft 8 in",
    "overall_length": "38 ft 4 in",
    "overall_width": "101 in",
    "part_number": "A-1",
    "parts.down": "1000 lb",
    "parts.towed": "10000 lb",
    "people": "2",
    "phone": "555 0100",
    "pins": "10000 lb",
    "engine.place": "rear",
    "place": "tool bay",
    "power": "380 hp",
    "propane": "0.9 gal/day",
    "propane alarm": "[galley]",
    "quantity": "1 qt",
    "raised": "12 ft 8 in",
    "rating": "12000 lb",
    "readings": "[]",
    "readings.engine": "1102 h",
    "readings.generator": "438 h",
    "rear_overhang": "120 in",
    "replace_after": "7 years",
    "reserve.fuel": "1/4",
    "retarder": "150 kW",
    "safety cables": "10000 lb",
    "scale_tickets": "[]",
    "seats": "5",
    "service": "[]",
    "shut offs": "[propane bay]",
    "side": "right",
    "size": "295/75R22.5",
    "smoke alarm": "[bedroom]",
    "socket": "33 mm",
    "spares": "[]",
    "specification": "SAE 15W-40",
    "speeds": "6",
    "state": "ride height",
    "stay": "45 min",
    "supplemental_brake": "true",
    "suspension": "air",
    "table.basis": "per tire",
    "table.dual": "4135 lb",
    "table.from": "the maker's book",
    "table.size": "295/75R22.5 G",
    "table.single": "4500 lb",
    "thread": "dry",
    "time_zone": "America/Los_Angeles",
    "tools": "[]",
    "total": "9000 lb",
    "tow bar": "8000 lb",
    "tow_with_wheels_down": "drive shaft out first",
    "towing_limit_without_brakes": "1500 lb",
    "track": "83 in",
    "tread": "11/32 in",
    "tunnels": "[]",
    "unloaded_vehicle_weight": "25370 lb",
    "usable": "80 gal",
    "valve": "service bay",
    "valve_maximum_pressure": "120 psi",
    "vests": "[entry door]",
    "warning devices": "[tool bay]",
    "water": "14 gal/day",
    "use.black": "20 % of water",
    "food": "6 days",
    "medicine": "21 days",
    "weight": "190 lb",
    "wheel_cut": "50 deg",
    "width_with_mirrors": "120 in",
    "as_its_maker_says": "Parking brake ON",
    "ground_clearance": "9 in",
    "limits": "[]",
    "wind.sustained": "30 mph",
    "wind.gusts": "40 mph",
}


def _blanks(data: Plain, path: Entry = ()) -> list[Entry]:
    if data is None:
        return [path]
    inside = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [blank for part, value in inside for blank in _blanks(value, (*path, part))]


def _answer(path: Entry) -> str:
    return _ANSWERS[_question(path)]


def _question(path: Entry) -> str:
    words = [str(part) for part in path if isinstance(part, str)]
    fitting = [name for name in _ANSWERS if _fits(name.split("."), words)]
    return max(fitting, key=lambda name: (name.count("."), name.split(".")[-1:] == words[-1:]))


def _fits(parts: list[str], words: list[str]) -> bool:
    """Tell whether the parts of a question stand in a path in their order, the last at its end."""
    rest = iter(words)
    in_order = all(part in rest for part in parts)
    return in_order and (
        parts[-1:] == words[-1:] or parts[-1] in {"levels", "levels_at_start", "single", "dual"}
    )


def _filled(source: str) -> str:
    located = located_yaml("starter", source)
    assert located.problems == []
    rows = source.splitlines()
    for path in sorted(_blanks(located.data), key=lambda path: located.values[path], reverse=True):
        place = located.keys.get(path)
        if place is None:  # An entry of a list: "-".
            line = located.values[path[:-1]].line - 1
            rows[line] = re.sub(r"-\s*$", f"- {_answer(path)}", rows[line])
            continue
        end = place.column - 1 + place.length
        row = rows[place.line - 1]
        rows[place.line - 1] = f"{row[: end + 1]} {_answer(path)}{row[end + 1 :]}"
    return "\n".join(rows) + "\n"


def _with_examples(source: str) -> str:
    """Take away the # before each entry that waits behind one."""
    return re.sub(r"(?m)^( *)# ( *)(?=(- )?(\{|[a-z][a-z_ 0-9]*:)|-$|70 psi|75 psi)", r"\1\2", source)


def _read(folder: Path, sources: dict[str, str]) -> Profile:
    (folder / "trips").mkdir()
    for name, source in sources.items():
        (folder / name).write_text(source, "utf-8")
    return load_profile(folder)


def test_each_needed_blank_is_told_with_its_line() -> None:
    with pytest.raises(InputProblems) as raised:
        load_profile(_STARTER)

    problems = raised.value.problems
    assert [problem.field for problem in problems] == [
        "name",
        "vehicles.coach.kind",
        "vehicles.coach.axles.steer.fitment",
        "vehicles.coach.axles.drive.at",
        "vehicles.coach.axles.drive.fitment",
        "vehicles.coach.tanks.fuel.holds",
        "name",
        "days[1].leave",
        "days[1].from.place",
        "days[1].legs[1].to.place",
    ]
    for problem in problems:
        name = problem.field.rsplit(".", 1)[-1]
        assert problem.text == f"'{name}' is needed and not there (or empty)"
        assert problem.position is not None
        row = raised.value.sources[problem.file].splitlines()[problem.position.line - 1]
        assert row.strip(" -").startswith(f"{name}:")


def test_the_starter_states_nothing_about_a_rig_that_could_be_taken_for_measured() -> None:
    """The only quantities are zeros by definition and the owner's own margin under posted heights."""
    quantity = re.compile(r"^\s*[^#]*?:\s*(-?[0-9][^,}#]*?)\s*(#.*)?$", re.MULTILINE)

    stated = [
        match[1] for name in _FILES for match in quantity.finditer((_STARTER / name).read_text("utf-8"))
    ]

    assert stated == ["0 in", "6 in"]


def test_the_starter_is_read_once_its_blanks_are_filled(tmp_path: Path) -> None:
    profile = _read(tmp_path, {name: _filled((_STARTER / name).read_text("utf-8")) for name in _FILES})

    assert list(profile.rig.vehicles) == ["coach"]
    assert profile.rig.vehicles["coach"].label.seats == 5
    assert profile.trip is not None
    assert profile.trip.rules.reserve["fuel"].share == 0.25


def test_every_answer_is_asked_for() -> None:
    """An answer no blank asks for would be a field the starter forgot."""
    asked = {
        _question(path)
        for name in _FILES
        for change in (str, _with_examples)
        for path in _blanks(located_yaml(name, change((_STARTER / name).read_text("utf-8"))).data)
    }

    assert set(_ANSWERS) - asked == set()


def test_the_examples_behind_a_mark_are_read_too(tmp_path: Path) -> None:
    sources = {name: _filled(_with_examples((_STARTER / name).read_text("utf-8"))) for name in _FILES}
    profile = _read(tmp_path, sources)

    rig = profile.rig
    assert list(rig.vehicles) == ["coach", "car"]
    assert rig.couplings[0].how == "tow bar"
    assert rig.vehicles["car"].towing is not None
    assert rig.vehicles["car"].towing.as_its_maker_says == ["Parking brake ON"]
    assert rig.tires["coach tires"].table is not None
    assert rig.scale_tickets[0].levels["coach"]["gray"].written == "full"
    assert (rig.spares[0].what, rig.service[0].what, len(rig.tools)) == (
        "fuel filter",
        "engine oil and filter",
        0,
    )
    assert profile.trip is not None
    assert profile.trip.days[0].legs[0].grades[0].test_brakes_at == "pull-out at the top"
