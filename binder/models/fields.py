"""Every field a person may write, told from the models: as a list to read, and as JSON Schema (2020-12)."""

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType, NoneType
from typing import Annotated, Any, Literal, NamedTuple, get_args, get_origin

from annotated_types import MinLen
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from binder.models.base import BareRecord, Form
from binder.models.procedures import OwnCard
from binder.models.rig import Rig, VehicleWeights
from binder.models.trip import Private, Trip
from binder.quantities import Dimension, unit_words, written_pattern

FILES: Mapping[str, type[BaseModel]] = MappingProxyType(
    {"rig.yaml": Rig, "trips/NAME.yaml": Trip, "private.yaml": Private, "cards/NAME.yaml": OwnCard}
)
DIALECT = "https://json-schema.org/draft/2020-12/schema"


class Field(NamedTuple):
    """One field: the file, the path to type, how a value is written, what it means, where it is read."""

    file: str
    path: str
    form: str
    meaning: str
    where: str
    example: str
    is_needed: bool


def fields(word: str = "") -> Iterator[Field]:
    """List every field in which all of some words stand, in the order of the files."""
    for file, model in FILES.items():
        yield from told_with(word, _fields_of(model, file, ""))


def told_with(word: str, listed: Iterable[Field]) -> Iterator[Field]:
    """Keep the fields in which all of some words stand."""
    wanted = word.lower().replace("_", " ").split()
    for field in listed:
        told = f"{field.file} {field.path} {field.meaning} {field.where}".lower().replace("_", " ")
        if all(one in told for one in wanted):
            yield field


def _fields_of(model: type[BaseModel], file: str, start: str) -> Iterator[Field]:
    for name, info in model.model_fields.items():
        if model is VehicleWeights and name == "axles":
            yield from _inside(info.annotation, file, start.removesuffix("."))
            continue
        path, extra = start + (info.alias or name), info.json_schema_extra
        where = str(extra["where"]) if isinstance(extra, dict) else ""
        form, example = _form(info)
        told = str(info.examples[0]) if info.examples else example
        yield Field(file, path, form, info.description or "", where, told, info.is_required())
        yield from _inside(info.annotation, file, path)


def _inside(annotation: Any, file: str, path: str) -> Iterator[Field]:  # noqa: ANN401 - it walks type annotations.
    """Fields of the records an annotation leads to; names of one's own and places in a list stand for all."""
    annotation = _bare(annotation)
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield from _fields_of(annotation, file, f"{path}.")
    elif get_origin(annotation) is dict:
        yield from _inside(get_args(annotation)[1], file, f"{path}.NAME")
    elif get_origin(annotation) is list:
        yield from _inside(get_args(annotation)[0], file, f"{path}[1]")


def _bare(annotation: Any) -> Any:  # noqa: ANN401 - as above.
    """An annotation without what may also stand there: nothing, or `none`."""
    if get_origin(annotation) is Annotated:
        return _bare(get_args(annotation)[0])
    parts = [part for part in get_args(annotation) if part not in (NoneType, Literal[False])]
    is_union = NoneType in get_args(annotation) or Literal[False] in get_args(annotation)
    return _bare(parts[0]) if is_union and len(parts) == 1 else annotation


def _form(info: FieldInfo) -> tuple[str, str]:
    found = next(_forms(info.annotation, tuple(info.metadata)), None)
    if isinstance(found, Dimension):
        return f"{found.words} in {', '.join(unit_words(found))}", found.example
    if found is not None:
        return found.words, found.example
    if get_origin(_bare(info.annotation)) is Literal:
        words = [str(word) for word in get_args(_bare(info.annotation))]
        return " | ".join(words), words[0]
    return {dict: "a block of names", list: "a list"}.get(get_origin(_bare(info.annotation)), "a block"), ""


def _forms(annotation: Any, metadata: tuple[object, ...] = ()) -> Iterator[Form | Dimension]:  # noqa: ANN401 - as above.
    yield from (one for one in metadata if isinstance(one, Form | Dimension))
    if get_origin(annotation) is Annotated:
        yield from _forms(get_args(annotation)[0], get_args(annotation)[1:])
    elif get_origin(annotation) not in {dict, list, Literal}:
        for part in get_args(annotation):
            yield from _forms(part)


def schema(model: type[BaseModel]) -> dict[str, Any]:
    """Write a file's model as JSON Schema, so that an editor completes and checks while one types."""
    return {"$schema": DIALECT, **_object(model)}


def _object(model: type[BaseModel]) -> dict[str, Any]:
    properties: dict[str, Any] = {}
    for name, info in model.model_fields.items():
        may_be_blank = [] if info.is_required() else [{"type": "null"}]
        least = [one.min_length for one in info.metadata if isinstance(one, MinLen)]
        forms = [*_schemas(info.annotation, tuple(info.metadata)), *may_be_blank]
        told = {"description": info.description or ""}
        if least:
            forms[0] |= {"minItems": least[0], "minProperties": least[0]}
        properties[info.alias or name] = {**told, **(forms[0] if len(forms) == 1 else {"anyOf": forms})}
    if model is VehicleWeights:
        axles = properties.pop("axles")
        return {"type": "object", "properties": properties, **_named_inside(axles)}
    required = [info.alias or name for name, info in model.model_fields.items() if info.is_required()]
    whole = {"type": "object", "properties": properties, "required": required, "additionalProperties": False}
    if issubclass(model, BareRecord):
        bare = model.model_fields[model.bare_field]
        return {"anyOf": [whole, *_schemas(bare.annotation, tuple(bare.metadata))]}
    return whole


def _named_inside(axles: dict[str, Any]) -> dict[str, Any]:
    return {"additionalProperties": axles["additionalProperties"]}


def _schemas(annotation: Any, metadata: tuple[object, ...] = ()) -> list[dict[str, Any]]:  # noqa: ANN401, PLR0911 - as above; a kind of annotation each.
    """What may stand for an annotation; nothing may stand wherever the models take it for not known."""
    told = next((one for one in metadata if isinstance(one, Form | Dimension)), None)
    if isinstance(told, Dimension):
        return [{"type": "string", "pattern": f"^(?:{written_pattern(told)})$"}]
    if told is not None:
        return [dict(told.schema)]
    origin, inside = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return _schemas(inside[0], inside[1:])
    if origin is Literal:
        return [{"enum": ["none" if word is False else word for word in inside]}]
    if origin is dict:
        return [_mapping(*inside)]
    if origin is list:
        return [{"type": "array", "items": {"anyOf": [*_schemas(inside[0]), {"type": "null"}]}}]
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [_object(annotation)]
    return [one for part in inside if part is not NoneType for one in _schemas(part)]


def _mapping(key: Any, value: Any) -> dict[str, Any]:  # noqa: ANN401 - as above.
    names = next(iter(_schemas(key)), {}) if get_origin(key) is Annotated else {}
    pattern = {"propertyNames": {"pattern": names["pattern"]}} if "pattern" in names else {}
    return {
        "type": "object",
        **pattern,
        "additionalProperties": {"anyOf": [*_schemas(value), {"type": "null"}]},
    }
