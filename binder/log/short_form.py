"""An entry in one line, as it is typed in a mail or in the terminal: its kind, then what it says.

``tire steer left 104 psi cold`` · ``air drive left outer 95 psi 105 psi`` · ``fill diesel 62.1 gal full`` ·
``fault clearance lamp dark`` · ``service engine oil and filter, odometer 34510 mi``.

Names of the rig, quantities and the words of a choice are known by themselves, in any order; a field's name
ahead of its value says which is meant; what is left over is the text of the entry. A comma parts two of them.
"""

import re
from collections.abc import Mapping
from functools import cache

from binder.log.reading import WrongField
from binder.log.rig_names import RigNames
from binder.models.log_entries import KINDS, FieldForm, Written, forms_of
from binder.quantities import written_pattern

_TEXTS = ("what", "text", "why")
_AMOUNT = re.compile(r"[0-9]+(?:\.[0-9]+)?(?: [a-z]+)?(?=\s*,|\s*$)")


def is_kind(line: str) -> bool:
    """Tell whether a line begins with the word of a kind."""
    return _split(line)[0] in KINDS


def _split(line: str) -> tuple[str, str]:
    kind, _, rest = line.strip().partition(" ")
    return kind.rstrip(":").lower(), rest.strip()


def read_short(line: str, names: RigNames) -> tuple[dict[str, Written], list[WrongField]]:
    """Read the fields of an entry from its short form; what cannot be placed is wrong."""
    kind, rest = _split(line.replace("\r\n", "\n").replace("\r", "\n"))
    if kind not in KINDS or kind == "weight":
        there = ", ".join(one for one in KINDS if one != "weight")
        return {}, [WrongField("kind", f"'{kind[:40]}' is no kind of entry; begin with one of: {there}")]
    fields: dict[str, Written] = {"kind": kind}
    forms = forms_of(kind)
    if KINDS[kind].is_plain_text:
        text = next(name for name in _TEXTS if name in forms)
        return (fields | {text: rest} if rest else fields), []
    while rest := rest.lstrip(" ,;"):
        field, value, taken = _next(rest, forms, fields, names)
        if not field:
            return fields, [_not_understood(value, kind, forms, fields, names)]
        fields[field] = value
        rest = rest[taken:]
    return fields, []


def _not_understood(
    value: str, kind: str, forms: Mapping[str, FieldForm], fields: Mapping[str, Written], names: RigNames
) -> WrongField:
    if re.fullmatch(r"-?[0-9.]+", value):
        units = (names.units.get(form.dimension.formula, "") for form in forms.values() if form.dimension)
        return WrongField(kind, f"'{value}' has no unit; write it like '{value} {next(units, '')}'".rstrip())
    for name in ("position", "tank"):
        if name in forms and name not in fields:
            there = ", ".join(dict.fromkeys(_names(name, names)))
            return WrongField(name, f"'{value}' names no {name} of {names.rig}; it has: {there}")
    return WrongField(kind, f"'{value}' is not understood here", _hint(kind))


def _next(
    rest: str, forms: Mapping[str, FieldForm], fields: Mapping[str, Written], names: RigNames
) -> tuple[str, str, int]:
    """The field that comes next, its value, and how many letters both took."""
    open_ones = {name: form for name, form in forms.items() if name not in fields}
    for name, form in open_ones.items():
        if found := re.match(rf"{name}\b[ :=]*", rest, re.IGNORECASE):
            value, length = _value(rest[found.end() :], name, form, names)
            if value:
                return name, value, found.end() + length
    for name, form in open_ones.items():
        if name not in _TEXTS and not _needs_its_name(name, open_ones):
            value, length = _value(rest, name, form, names)
            if value:
                return name, value, length
    words = rest.partition(",")[0].strip()
    text = next((name for name in _TEXTS if name in open_ones), "")
    return text, words, len(rest.partition(",")[0])


def _needs_its_name(name: str, forms: Mapping[str, FieldForm]) -> bool:
    """Whether a bare value would not say that this is meant: lengths and times are of several meters."""
    return (
        name in {"odometer", "elevation", "hours", "engine", "generator", "tread", "fault"} and len(forms) > 0
    )


def _value(rest: str, name: str, form: FieldForm, names: RigNames) -> tuple[str, int]:
    """Read the value of a field at the start of a text, and how many letters it took."""
    if form.is_truth:
        if found := re.match(r"(not )?full\b|(true|yes)\b|(false|no|part)\b", rest, re.IGNORECASE):
            return ("false" if found[1] or found[3] else "true"), found.end()
        return "", 0
    if form.dimension is not None:
        found = re.match(rf"(?:{written_pattern(form.dimension)})(?![\w/])", rest)
        return (found[0], found.end()) if found else ("", 0)
    if known := form.choices or _names(name, names):
        found = re.match(_one_of(tuple(known)), rest, re.IGNORECASE)
        return (
            (next(one for one in known if one.lower() == found[0].lower()), found.end()) if found else ("", 0)
        )
    if name == "quantity":
        found = _AMOUNT.match(rest)
        return (found[0], found.end()) if found else ("", 0)
    words = rest.partition(",")[0]
    return words.strip(), len(words)


def _names(name: str, names: RigNames) -> tuple[str, ...]:
    if name == "vehicle":
        return names.vehicles
    tables = {"position": names.positions, "tank": names.tanks}.get(name, {})
    return tuple(one for held in tables.values() for one in held) + (
        names.spares if name == "position" else ()
    )


@cache
def _one_of(words: tuple[str, ...]) -> str:
    longest_first = sorted(words, key=len, reverse=True)
    return rf"(?:{'|'.join(map(re.escape, longest_first))})(?!\w)"


def _hint(kind: str) -> str:
    fields = KINDS[kind].model_fields.items()
    examples = (f"{name} {field.examples[0]}" for name, field in fields if field.examples)
    return f"'{kind}' has: {', '.join(examples)}"
