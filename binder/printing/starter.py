"""A folder to start from: a profile of one kind of rig with named blanks, and what editors read."""

import json
from collections.abc import Mapping
from pathlib import Path

from binder import templates_folder
from binder.models.base import Record
from binder.models.fields import schema
from binder.models.procedures import OwnCard
from binder.models.rig import Rig
from binder.models.trip import Trip

KINDS = ("motorhome", "motorhome-with-car", "pickup-with-trailer", "fifth-wheel", "camper")
_STARTER_FILES = ("rig.yaml", "trips/first_trip.yaml")
_SCHEMAS: Mapping[str, type[Record]] = {"rig": Rig, "trip": Trip, "cards": OwnCard}


def write_starter(folder: Path, kind: str) -> list[str]:
    """Write a profile of one kind of rig with named blanks to start from, and the schemas editors read."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise FileExistsError(f"{folder} is not empty; name a new folder")
    files = starter_files(kind)
    (folder / "trips").mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    return [str(folder / name) for name in files]


def starter_files(kind: str) -> dict[str, str]:
    """Texts of a starter by the names of its files."""
    from jinja2 import (  # noqa: PLC0415 - 27 ms that only a starter needs; check has 0.9 s for all.
        Environment,
        FileSystemLoader,
        StrictUndefined,
        select_autoescape,
    )

    texts = Environment(
        autoescape=select_autoescape(),  # Of HTML alone: what is written here is YAML.
        loader=FileSystemLoader(templates_folder() / "starter"),
        undefined=StrictUndefined,
        trim_blocks=True,
        keep_trailing_newline=True,
    )
    written = {name: texts.get_template(f"{name}.j2").render(kind=kind) for name in _STARTER_FILES}
    written[".gitignore"] = "private.yaml\nlog.sqlite*\n"
    schemas = {f"{name}.schema.json": schema(one) for name, one in _SCHEMAS.items()}
    written["signs.svg"] = (templates_folder() / "starter" / "signs.svg").read_text("utf-8")
    return written | {name: json.dumps(one, indent=1) + "\n" for name, one in schemas.items()}
