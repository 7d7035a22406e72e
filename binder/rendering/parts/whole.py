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
    """The files of a printing, pages of each, what is recorded of it, and the files of the log's page."""

    contents: Mapping[str, bytes]
    pages: Mapping[str, int]
    record: Mapping[str, Any]
    log_page: Mapping[str, bytes]


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
    held: tuple[dict[str, bytes], dict[str, bytes]] = ({}, {})
    for files, lengths in zip(held, table["files"], strict=True):
        for name, length in lengths:
            files[name] = body[end : end + length]
            end += length
    return Whole(held[0], table["pages"], table["record"], held[1])


def keep_whole(kept: PartCache, key: str, whole: Whole) -> None:
    """Keep a printing."""
    held = (whole.contents, whole.log_page)
    files = [[(name, len(content)) for name, content in one.items()] for one in held]
    table = json.dumps({"files": files, "pages": whole.pages, "record": whole.record}).encode()
    kept.keep(
        key,
        len(table).to_bytes(_LENGTH, "big")
        + table
        + b"".join(content for one in held for content in one.values()),
    )


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
