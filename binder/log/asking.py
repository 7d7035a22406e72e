"""Entries asked for in the terminal, field by field; an empty answer leaves a field out."""

import re
from collections.abc import Iterator

import click

from binder.log.rig_names import RigNames
from binder.models.log_entries import KINDS, FieldForm, Written, forms_of

_BARE = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
_OF_ALL_TIRES = ("state", "by", "ambient", "elevation")
"""What is asked once in a walk around the rig, and holds for every tire of it."""


def asked(names: RigNames) -> list[dict[str, Written]]:
    """Ask for a kind and its fields; a walk around the tires makes an entry of each that was read."""
    kind = str(click.prompt("kind", type=click.Choice([one for one in KINDS if one != "withdrawal"])))
    if kind in {"tire", "air"}:
        return list(_walk(kind, names))
    if kind == "weight":
        return [{"kind": kind, "weights": _weights(names)}]
    fields: dict[str, Written] = {"kind": kind}
    for name in forms_of(kind):
        if answer := _field(kind, name, names):
            fields[name] = answer
    return [fields]


def _walk(kind: str, names: RigNames) -> Iterator[dict[str, Written]]:
    shared = {name: answer for name in _OF_ALL_TIRES if (answer := _field(kind, name, names))}
    for vehicle, positions in (*names.positions.items(), ("", names.spares)):
        for position in positions:
            where = f"{vehicle} {position}".strip()
            own = ("pressure", "tread") if kind == "tire" else ("before", "after")
            read = {name: told for name in own if (told := _field(kind, name, names, where))}
            if read:
                place = {"vehicle": vehicle} if vehicle else {}
                yield {"kind": kind, "position": position, **place, **read, **shared}


def _weights(names: RigNames) -> dict[str, Written]:
    unit = next(word for word in names.units.values() if word in {"lb", "kg"})
    weighed: dict[str, Written] = {}
    for vehicle, axles in names.axles.items():
        ends = ("left", "right", "axle")
        read: dict[str, Written] = {}
        for axle in axles:
            told: dict[str, Written] = {
                end: one for end in ends if (one := _ask(f"{vehicle} {axle} {end}", unit))
            }
            read |= {axle: told} if told else {}
        if total := _ask(f"{vehicle} total", unit):
            read["total"] = total
        if read:
            weighed[vehicle] = read
    return weighed


def _field(kind: str, name: str, names: RigNames, where: str = "") -> str:
    form, field = forms_of(kind)[name], KINDS[kind].model_fields[name]
    words = _choices(name, form, names)
    like = f", like {field.examples[0]}" if field.examples and not where and not words else ""
    label = f"{where} {name}".strip() + (f" ({', '.join(words)})" if words else like)
    unit = names.units.get(form.dimension.formula, "") if form.dimension else ""
    return _ask(label, unit)


def _choices(name: str, form: FieldForm, names: RigNames) -> tuple[str, ...]:
    if form.is_truth:
        return ("yes", "no")
    return names.vehicles if name == "vehicle" else form.choices


def _ask(label: str, unit: str = "") -> str:
    """Ask; a bare number is meant in the unit that was named."""
    told = click.prompt(f"{label}{f' [{unit}]' if unit else ''}", default="", show_default=False)
    answer = str(told).strip()
    return f"{answer} {unit}" if unit and _BARE.fullmatch(answer) else answer
