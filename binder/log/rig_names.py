"""The names a rig gives its vehicles, tire positions, tanks and axles, so that an entry is of this rig."""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from binder.models.rig import Rig
from binder.quantities import MASS, PRESSURE, TEMPERATURE, VOLUME


class WrongName(NamedTuple):
    """A name this rig does not have: in which field it stands, and what may stand there."""

    field: str
    text: str


class RigNames(NamedTuple):
    """What a rig has, by vehicle: tire positions, tanks and axles; ``spares`` are on no vehicle.

    ``units`` are those a bare number is meant in where somebody is asked for it, by what they measure.
    """

    rig: str
    positions: Mapping[str, tuple[str, ...]]
    tanks: Mapping[str, tuple[str, ...]]
    axles: Mapping[str, tuple[str, ...]]
    spares: tuple[str, ...]
    units: Mapping[str, str]

    @property
    def vehicles(self) -> tuple[str, ...]:
        """The vehicles, as the profile lists them."""
        return tuple(self.axles)


def names_of(rig: Rig) -> RigNames:
    """Collect the names of a rig."""
    vehicles = rig.vehicles.items()
    positions = {
        name: tuple(
            f"{axle_name} {place}" for axle_name, axle in one.axles.items() for place in axle.tire_places
        )
        for name, one in vehicles
    }
    spares = [place for tires in rig.tires.values() for place in tires.mounted if place.startswith("spare")]
    return RigNames(
        rig.name,
        positions,
        {name: tuple(one.tanks) for name, one in vehicles},
        {name: tuple(one.axles) for name, one in vehicles},
        tuple(dict.fromkeys(spares)),
        _units(rig),
    )


def _units(rig: Rig) -> Mapping[str, str]:
    pressure = "psi" if rig.units == "us" else rig.pressure or "kPa"
    measured = (PRESSURE, TEMPERATURE, VOLUME, MASS)
    words = ("degF", "gal", "lb") if rig.units == "us" else ("degC", "L", "kg")
    return {one.formula: word for one, word in zip(measured, (pressure, *words), strict=True)}


def placed(fields: dict[str, object], names: RigNames) -> tuple[dict[str, object], list[WrongName]]:
    """Fill in the vehicle where only one can be meant; tell names that this rig does not have."""
    vehicle = fields.get("vehicle")
    if isinstance(vehicle, str) and vehicle not in names.axles:
        return fields, [WrongName("vehicle", _no_such(vehicle, "vehicle", names.rig, names.vehicles))]
    for field, tables in (("position", names.positions), ("tank", names.tanks)):
        name = fields.get(field)
        if not isinstance(name, str) or (field == "position" and name in names.spares):
            continue
        having = [one for one, held in tables.items() if name in held and vehicle in {None, one}]
        if len(having) != 1:
            return fields, [WrongName(field, _wrong_place(field, name, vehicle, tables, having, names))]
        return {**fields, "vehicle": having[0]}, []
    wrong = [*_weighed(fields.get("weights"), names), *_filled(fields.get("levels"), names)]
    if vehicle is None and len(names.axles) == 1 and not wrong:
        return {**fields, "vehicle": names.vehicles[0]}, []
    return fields, wrong


def _wrong_place(  # noqa: PLR0913, PLR0917 - a sentence has as many parts.
    field: str,
    name: str,
    vehicle: object,
    tables: Mapping[str, tuple[str, ...]],
    having: list[str],
    names: RigNames,
) -> str:
    if having:
        return f"'{name}' is a {field} of {' and '.join(having)}; say of which, like 'vehicle {having[0]}'"
    if isinstance(vehicle, str):
        return _no_such(name, field, vehicle, tables[vehicle])
    every = (one for held in tables.values() for one in held)
    return _no_such(name, field, names.rig, (*every, *(names.spares if field == "position" else ())))


def _no_such(name: str, field: str, whose: str, there: Iterable[str]) -> str:
    return f"'{name}' is no {field} of {whose}; it has: {', '.join(dict.fromkeys(there)) or 'none'}"


def _weighed(weights: object, names: RigNames) -> Iterator[WrongName]:
    for vehicle, axles in weights.items() if isinstance(weights, dict) else ():
        if vehicle not in names.axles:
            yield WrongName("weights", _no_such(vehicle, "vehicle", names.rig, names.vehicles))
            continue
        for axle in axles if isinstance(axles, dict) else ():
            if axle not in {*names.axles[vehicle], "total"}:
                yield WrongName("weights", _no_such(axle, "axle", vehicle, names.axles[vehicle]))


def _filled(levels: object, names: RigNames) -> Iterator[WrongName]:
    for vehicle, tanks in levels.items() if isinstance(levels, dict) else ():
        if vehicle not in names.tanks:
            yield WrongName("levels", _no_such(vehicle, "vehicle", names.rig, names.vehicles))
            continue
        for tank in tanks if isinstance(tanks, dict) else ():
            if tank not in names.tanks[vehicle]:
                yield WrongName("levels", _no_such(tank, "tank", vehicle, names.tanks[vehicle]))
