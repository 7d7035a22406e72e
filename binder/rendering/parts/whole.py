"""A whole printing kept for the next build: found by all that was read and all that makes it."""

import hashlib
import json
import sys
import zlib
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple
from zoneinfo import TZPATH

from binder import templates_folder
from binder.rendering.parts.cache import PartCache, pango_version

_LENGTH = 8
"""Bytes that tell how long the table before the files is."""


class Whole(NamedTuple):
    """The files of a printing, pages of each, and what is recorded of it."""

    contents: Mapping[str, bytes]
    pages: Mapping[str, int]
    record: Mapping[str, Any]


def whole_key(read: Iterable[object]) -> str:
    """Name a printing by what was read for it, and by the program and the libraries that make it."""
    said = json.dumps([*read, *_program()], ensure_ascii=False, default=str)
    return hashlib.sha256(said.encode("utf-8", "surrogatepass")).hexdigest()


def kept_whole(kept: PartCache, key: str) -> Whole | None:
    """Find a printing that was made before."""
    body = kept.found(key)
    if body is None:
        return None
    end = _LENGTH + int.from_bytes(body[:_LENGTH], "big")
    table = json.loads(body[_LENGTH:end])
    contents = {}
    for name, length in table["files"]:
        contents[name] = body[end : end + length]
        end += length
    return Whole(contents, table["pages"], table["record"])


def keep_whole(kept: PartCache, key: str, whole: Whole) -> None:
    """Keep a printing."""
    files = [(name, len(content)) for name, content in whole.contents.items()]
    table = json.dumps({"files": files, "pages": whole.pages, "record": whole.record}).encode()
    kept.keep(key, len(table).to_bytes(_LENGTH, "big") + table + b"".join(whole.contents.values()))


@cache
def _program() -> tuple[str, ...]:
    """Everything installed, our own files, and what the system lends: layout, compression, time zones."""
    package = Path(__file__).parents[2]
    digest = hashlib.sha256()
    for file in (*sorted(package.rglob("*.py")), *sorted(templates_folder().rglob("*"))):
        if file.is_file():
            digest.update(hashlib.sha256(file.read_bytes()).digest())
    folders = [Path(entry) for entry in sys.path if entry]
    installed = sorted(file.name for folder in folders for file in folder.glob("*.dist-info"))
    zones = [Path(folder, "tzdata.zi") for folder in TZPATH]
    dated = [_first_line(file) for file in zones if file.is_file()]
    return (digest.hexdigest(), sys.version, zlib.ZLIB_RUNTIME_VERSION, pango_version(), *installed, *dated)


def _first_line(file: Path) -> str:
    with file.open(encoding="utf-8") as opened:
        return opened.readline()
