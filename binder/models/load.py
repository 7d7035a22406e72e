"""A folder read into models: the only place that reads YAML, and all its problems at once."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache, cached_property
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any, Literal, TypeVar, get_args, get_origin

from pydantic import BaseModel, ValidationError

from binder.models.located_yaml import Located, Plain, located_yaml
from binder.models.rig import Rig
from binder.models.trip import Private, Trip
from binder.problems import InputProblems, Path, Position, Problem
from binder.quantities import Dimension

if TYPE_CHECKING:
    from binder.models.log_entries import Entry
    from binder.models.procedures import OwnCard

LOG = "log.sqlite"
"""The file of a rig's log."""

_Model = TypeVar("_Model", bound=BaseModel)
_NEEDED = "is needed and not there (or empty)"
_SHAPES = {"dict_type", "model_type", "model_attributes_type"}


@dataclass(frozen=True)
class Profile:
    """What a folder holds, as models, and where each entry stands in the files.

    ``unwritten_plan`` is the file of a plan that says nothing of its trip yet, and stands for none; ``log``
    holds what counts of the rig's log, by its time.
    """

    folder: str
    rig: Rig
    rig_places: Located
    trip: Trip | None = None
    trip_places: Located | None = None
    trip_name: str = ""
    unwritten_plan: str = ""
    private: Private | None = None
    private_places: Located | None = None
    own_cards: "tuple[OwnCardFile, ...]" = ()
    log: "tuple[Entry, ...]" = ()

    def logged(self, *kinds: str) -> "tuple[Entry, ...]":
        """Entries of the log of some kinds, by their time."""
        wanted = frozenset(kinds)
        if wanted not in self._logged:
            self._logged[wanted] = tuple(one for one in self.log if one.kind in wanted)
        return self._logged[wanted]

    @cached_property
    def _logged(self) -> "dict[frozenset[str], tuple[Entry, ...]]":
        """What was asked for: a long log is looked through once for each."""
        return {}

    @property
    def places(self) -> list[Located]:
        """Where each entry stands, in every file that is read."""
        own = [one.places for one in self.own_cards]
        return [item for item in (self.rig_places, self.trip_places, self.private_places, *own) if item]

    @property
    def sources(self) -> dict[str, str]:
        """Text of each file by its printed name."""
        return {item.file: item.source for item in self.places}


def load_profile(
    folder: FilePath,
    trip_name: str | None = None,
    *,
    private: tuple[str, ...] = (),
    words: Callable[[list[Located]], Iterable[Problem]] = lambda _: (),
) -> Profile:
    """Read a rig's folder: ``rig.yaml``, a plan of ``trips/``, what is asked of ``private.yaml``, ``cards/``.

    ``words`` tells what is wrong with the words of the files of ``cards/`` that their form does not show.
    """
    refuse_no_folder(folder)
    trip_file, trip_problems = _trip_file(folder, trip_name)
    rig, rig_places = read_record(folder / "rig.yaml", Rig)
    trip, trip_places = read_record(trip_file, Trip) if trip_file else (None, None)
    private_file = folder / "private.yaml"
    wanted = bool(private) and private_file.exists()
    private_part, private_places = read_record(private_file, Private) if wanted else (None, None)
    unwritten = ""
    if trip_file and trip_places and trip_name is None and _is_unwritten(trip_places):
        unwritten, trip_file, trip_places = trip_file.name, None, None
    own, own_places, own_problems = _own_cards(folder / "cards")
    own_problems += words(own_places)
    located = [item for item in (rig_places, trip_places, private_places, *own_places) if item]
    problems = trip_problems + own_problems + [problem for item in located for problem in item.problems]
    if problems or rig is None:
        raise InputProblems(problems, {item.file: item.source for item in located})
    name = trip_file.stem if trip_file else ""
    folder_name = folder.resolve().name
    if private_part is not None:
        left_out = set(Private.model_fields) - set(private)
        private_part = private_part.model_copy(update={name: [] for name in left_out})
    return Profile(
        folder_name, rig, rig_places, trip, trip_places, name, unwritten, private_part, private_places, own
    )


def load_rig(folder: FilePath) -> Rig:
    """Read ``rig.yaml`` of a rig's folder alone."""
    refuse_no_folder(folder)
    rig, places = read_record(folder / "rig.yaml", Rig)
    if rig is None:
        raise InputProblems(places.problems, {places.file: places.source})
    return rig


def refuse_no_folder(folder: FilePath) -> None:
    """Refuse what is no folder."""
    if not folder.is_dir():
        text = (
            "this is a file; name the folder that holds rig.yaml"
            if folder.exists()
            else f"there is no such folder; make one with 'binder new {folder}'"
        )
        raise InputProblems([Problem(str(folder), None, "", text)])


def _is_unwritten(plan: Located) -> bool:
    """A plan as a starter has it: it lacks its name, and of every day when it leaves and where it goes."""
    lacks_only = all(problem.text.endswith(_NEEDED) for problem in plan.problems)
    return bool(plan.problems) and lacks_only and not _says(plan.data, {"name", "leave", "place"})


def _says(data: Plain, names: set[str]) -> bool:
    if isinstance(data, dict):
        return any((key in names and one is not None) or _says(one, names) for key, one in data.items())
    return isinstance(data, list) and any(_says(one, names) for one in data)


def _trip_file(folder: FilePath, trip_name: str | None) -> tuple[FilePath | None, list[Problem]]:
    plans, problems = _listed(folder / "trips", "plan")
    if problems:
        return None, problems
    names = [plan.stem for plan in plans]
    if trip_name is not None:
        wanted = trip_name.removesuffix(".yaml")
        if wanted in names:
            return folder / "trips" / f"{wanted}.yaml", []
        known = f"the plans here are: {', '.join(names)}" if names else "this folder has no plan yet"
        file = str(folder / "trips" / f"{wanted}.yaml")
        return None, [Problem(file, None, "", f"there is no trip '{wanted}'; {known}")]
    if len(plans) > 1:
        text = f"there are several trips; choose one with --trip NAME: {', '.join(names)}"
        return None, [Problem(str(folder / "trips"), None, "", text)]
    return (plans[0] if plans else None), []


def _listed(folder: FilePath, what: str) -> tuple[list[FilePath], list[Problem]]:
    """List the plans, or the cards, of a folder, or what keeps one from being read: none is passed over."""
    if folder.exists() and not folder.is_dir():
        text = f"this is a file; {what}s stand in a folder of that name, one file each"
        return [], [Problem(str(folder), None, "", text)]
    try:
        entries = sorted(folder.iterdir()) if folder.exists() else []
    except OSError as error:
        text = f"this folder cannot be read ({error.strerror}); no {what} is read"
        return [], [Problem(str(folder), None, "", text)]
    found = [entry for entry in entries if entry.suffix == ".yaml" and not entry.name.startswith(".")]
    others = [entry for entry in entries if entry not in found and not _is_no_plan(entry)]
    text = f"a {what}'s name ends in .yaml; rename it to {{}}.yaml, or take it out of {folder.name}"
    return found, [Problem(str(one), None, "", text.format(one.stem)) for one in others[:1]]


@dataclass(frozen=True)
class OwnCardFile:
    """The owner's own words for a card, and where each stands."""

    words: "OwnCard"
    places: Located


def _own_cards(folder: FilePath) -> tuple[tuple[OwnCardFile, ...], list[Located], list[Problem]]:
    """Read the owner's own words; what is wrong with a file is in what is located."""
    files, problems = _listed(folder, "card")
    if not files:
        return (), [], problems
    from binder.models.procedures import OwnCard  # noqa: PLC0415 - most rigs have no words of their own.

    read = [read_record(file, OwnCard) for file in files]
    own = tuple(OwnCardFile(one, places) for one, places in read if one is not None)
    return own, [places for _, places in read], problems


def _is_no_plan(entry: FilePath) -> bool:
    """What an editor or the system leaves behind, and the schema that editors read."""
    return entry.name.startswith(".") or entry.name.endswith(("~", ".schema.json", ".bak", ".swp"))


def read_record(file: FilePath, model: type[_Model]) -> tuple[_Model | None, Located]:
    """Read one file; where it cannot be used, its problems are in what is located and there is no record."""
    name = str(file)
    try:
        content = file.read_bytes()
    except OSError as error:
        text = (
            f"this file cannot be read ({error.strerror})"
            if file.exists()
            else "there is no such file here; 'binder new DIR' writes one to start from"
        )
        return None, Located(name, "", problems=[Problem(name, None, "", text)])
    try:
        source = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = content[: error.start].decode("utf-8", "replace")
        place = Position(before.count("\n") + 1, len(before) - before.rfind("\n"))
        text = f"this is not UTF-8 text (byte 0x{content[error.start]:02x}); save the file as UTF-8"
        return None, Located(name, "", problems=[Problem(name, place, "", text)])
    located = located_yaml(name, source.replace("\r\n", "\n"))
    if not isinstance(located.data, dict):
        return None, located
    try:
        read = model.model_validate(without_blanks(located.data, model))
    except ValidationError as error:
        told = {problem.field for problem in located.problems}
        found = _as_problems(error, located, model)
        located.problems += [problem for problem in found if not problem.field or problem.field not in told]
        return None, located
    return (None if located.problems else read), located


def without_blanks(data: Plain, annotation: Any) -> Any:  # noqa: ANN401 - it walks type annotations.
    """Leave out what is empty, so that it is *not known*; an unknown key stays, to be told.

    A name with nothing after it, among the owner's own names, stays as an entry that says nothing
    yet: a coupling's part without its rating is still a part. What a record asks for stays, too.
    """
    if isinstance(data, list):
        listed = [data[index] for index in _kept_entries(data, annotation)]
        return [without_blanks(value, _inside(annotation, 0)) for value in listed]
    if not isinstance(data, dict):
        return data
    kept: dict[str, Any] = {}
    for key, value in data.items():
        inside = _inside(annotation, key)
        if value is not None:
            kept[key] = without_blanks(value, inside)
        elif not _is_model(annotation) and _is_model(inside):
            kept[key] = {}
        elif _is_model(annotation) and (key in annotation.asked or key not in _field_names(annotation)):
            kept[key] = None
    return kept


def _kept_entries(listed: list[Any], annotation: Any) -> list[int]:  # noqa: ANN401 - a type annotation.
    """Places of the entries the models read: empty ones only where they may be."""
    may_be_empty = type(None) in get_args(next(reversed(get_args(annotation)), None))
    return [place for place, value in enumerate(listed) if may_be_empty or value is not None]


def _as_problems(error: ValidationError, located: Located, model: type[BaseModel]) -> Iterator[Problem]:
    for item in error.errors(include_url=False):
        path = _with_blank_entries(tuple(item["loc"]), located.data, model)
        kind, context = item["type"], item.get("ctx", {})
        if context.get("expected") == "False":
            # `none` might have stood there; what is wrong with the list is told.
            continue
        if kind == "extra_forbidden":
            yield _unknown_key(located, path, model)
        elif kind == "missing":
            yield _missing(located, path, model)
        elif kind in _SHAPES:
            yield located.problem(path, _said(item, kind, context), hint=_fields_hint(model, path))
        else:
            key_at_fault = path[-1:] == ("[key]",)
            yield located.problem(
                tuple(part for part in path if part != "[key]"),
                _said(item, kind, context),
                at_key=key_at_fault,
            )


def _with_blank_entries(path: Path, data: Plain, annotation: Any) -> Path:  # noqa: ANN401 - as above.
    """Count the empty entries of lists again, which were left out before the models read them."""
    counted: Path = ()
    here: Any = data
    for part in path:
        where: str | int = part
        if isinstance(here, list) and isinstance(part, int):
            where = _kept_entries(here, annotation)[part]
            here = here[where]
        elif isinstance(here, dict) and part in here:
            here = here[part]
        annotation = _inside(annotation, part)
        counted = (*counted, where)
    return counted


def _missing(located: Located, path: Path, model: type[BaseModel]) -> Problem:
    text = f"'{path[-1]}' {_NEEDED}"
    hint = _example_hint(str(path[-1]), _annotation_at(model, path[:-1]))
    if path in located.keys:
        return located.problem(path, text, at_key=True, hint=hint)
    if len(path) == 1:
        return Problem(located.file, None, "", text, hint)
    return located.problem(path[:-1], text, at_key=True, hint=hint)


def _example_hint(name: str, record: Any) -> str:  # noqa: ANN401 - as above.
    fields = record.model_fields.items() if _is_model(record) else ()
    field = next((field for key, field in fields if name in {key, field.alias}), None)
    if field is None:
        return ""
    if get_origin(field.annotation) is Literal:
        words = [str(word) for word in get_args(field.annotation)]
        return f"write it like '{name}: {words[0]}'; it can be: {', '.join(words)}"
    dimension = next((item for item in field.metadata if isinstance(item, Dimension)), None)
    return f"write it like '{name}: {dimension.example}'" if dimension else ""


def _said(item: Any, kind: str, context: dict[str, Any]) -> str:  # noqa: ANN401 - pydantic's error dict.
    written = item["input"]
    shown = _shown(written)
    if kind in {"value_error", "written"}:
        return str(context.get("error", context.get("text")))
    reasons = {
        "literal_error": f"{shown} is not one of {context.get('expected')}",
        "list_type": f"{shown} stands where a list is needed, like '[front, rear]'",
        "too_short": "at least one entry that is not empty is needed here",
    } | dict.fromkeys(_SHAPES, f"{shown} stands where 'name: value' entries are needed")
    if kind == "list_type" and str(written).lower() in {"yes", "true", *map(str, range(20))}:
        return f"{shown} does not say where; write each place in a list, like '[left front, right]'"
    if kind == "list_type" and isinstance(written, str):
        return f"{shown} is not a list; write it like '[{written}]'"
    return reasons.get(kind, f"{shown} cannot stand here ({kind.replace('_', ' ')})")


def _shown(written: object) -> str:
    if isinstance(written, str):
        return f"'{written}'"
    return "a list" if isinstance(written, list) else "a block of 'name: value' entries"


def _unknown_key(located: Located, path: Path, model: type[BaseModel]) -> Problem:
    name = str(path[-1])
    known = _fields_at(model, path[:-1])
    near = get_close_matches(name, known, n=1, cutoff=0.6)
    hint = f"did you mean '{near[0]}'?" if near else _fields_hint(model, path[:-1])
    return located.problem(path, f"'{name}' is not a field here", at_key=True, hint=hint)


def _fields_hint(model: type[BaseModel], path: Path) -> str:
    known = _fields_at(model, path)
    return f"the fields here are: {', '.join(known)}" if known else ""


def _fields_at(model: type[BaseModel], path: Path) -> list[str]:
    current = _annotation_at(model, path)
    return _field_names(current) if _is_model(current) else []


def _annotation_at(model: type[BaseModel], path: Path) -> Any:  # noqa: ANN401 - it walks type annotations.
    current: Any = model
    for part in path:
        current = _inside(current, part)
    return current


def _field_names(model: type[BaseModel]) -> list[str]:
    return [field.alias or name for name, field in model.model_fields.items()]


def _is_model(annotation: Any) -> bool:  # noqa: ANN401 - it walks type annotations.
    return isinstance(annotation, type) and issubclass(annotation, BaseModel)


@cache
def _annotations(model: type[BaseModel]) -> dict[str, Any]:
    fields = model.model_fields.items()
    return {key: field.annotation for name, field in fields for key in (field.alias or name, name)}


def _inside(annotation: Any, part: str | int) -> Any:  # noqa: ANN401 - it walks type annotations.
    if _is_model(annotation):
        held = _annotations(annotation).get(str(part))
    else:
        # A dict or list: what it holds is its last argument, whatever the key or place.
        held = getattr(annotation, "__args__", (None,))[-1]
    if type(None) in getattr(held, "__args__", ()):
        return next(item for item in get_args(held) if item is not type(None))
    return held
