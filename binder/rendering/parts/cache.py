"""Parts kept from one build to the next: what a part's text, styles, fonts and programs made is made once.

An entry is a file named by its key. It begins with the hash of what follows, so that a damaged or foreign
one is noticed and let go. It is written beside, under a name nobody can guess, and put in place whole.
"""

import ctypes
import hashlib
import json
import os
import tempfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from importlib.metadata import version
from pathlib import Path

from binder import templates_folder
from binder.publishing.held_folder import is_locked
from binder.rendering.parts.part import Bar, PartHtml, RenderedPdf

MOST = 300_000_000
"""Bytes that are kept, about 40 printings: own choice. The entries used longest ago go first."""

_HASH, _LENGTH = 32, 4
_PROGRAMS = ("weasyprint", "pydyf", "tinycss2", "tinyhtml5", "cssselect2", "pyphen", "fonttools", "qrcode")


@dataclass
class PartCache:
    """A folder of finished parts; ``notes`` tells what was let go, and why nothing could be kept."""

    folder: Path
    most: int = MOST
    notes: list[str] = field(default_factory=list)

    def get(self, part: PartHtml) -> RenderedPdf | None:
        """Find a part that was laid out before."""
        body = self.found(_key(part))
        return _unpacked(body) if body else None

    def put(self, part: PartHtml, pdf: RenderedPdf) -> None:
        """Keep a part; where that cannot be, it is made again next time."""
        self.keep(_key(part), _packed(pdf))

    def found(self, key: str) -> bytes | None:
        """Find what was kept under a key."""
        file = self.folder / key
        try:
            kept = file.read_bytes()
        except FileNotFoundError:
            return None
        except OSError as fault:
            self.notes.append(f"cache: {file.name} cannot be read ({fault.strerror})")
            return None
        body = kept[_HASH:]
        if len(body) <= _LENGTH or hashlib.sha256(body).digest() != kept[:_HASH]:
            self.notes.append(f"cache: {file.name} is damaged and let go")
            _let_go(file)
            return None
        _touch(file)
        return body

    def keep(self, key: str, body: bytes) -> None:
        """Keep something under a key, whole or not at all."""
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            with tempfile.NamedTemporaryFile(dir=self.folder, prefix=".", delete=False) as beside:
                is_locked(beside.fileno())
                beside.write(hashlib.sha256(body).digest() + body)
            os.replace(beside.name, self.folder / key)  # noqa: PTH105 - one step, whole or not at all.
        except OSError as fault:
            self.notes.append(f"cache: nothing is kept in {self.folder} ({fault.strerror})")

    def shrink(self) -> None:
        """Let go of what was used longest ago, until the rest has room; of what a killed build left, too."""
        room = self.most
        for _, size, file in sorted(self._entries(), reverse=True):
            room -= size
            if room < 0 or (file.name.startswith(".") and _is_left(file)):
                _let_go(file)

    def _entries(self) -> Iterator[tuple[float, int, Path]]:
        if not self.folder.is_dir():
            return
        for file in self.folder.iterdir():
            try:
                state = file.stat()
            except OSError:
                continue  # Another build let go of it meanwhile.
            yield state.st_mtime, state.st_size, file


def _is_left(file: Path) -> bool:
    """Whether nobody writes a file any more that never came to its place."""
    try:
        with file.open("r+b") as beside:
            return is_locked(beside.fileno())
    except OSError:
        return False


def _let_go(file: Path) -> None:
    try:
        file.unlink(missing_ok=True)
    except OSError:
        return  # It is noticed again, and its place is written over.


def _touch(file: Path) -> None:
    try:
        os.utime(file)
    except OSError:
        return  # A folder that cannot be written is read all the same.


def _packed(pdf: RenderedPdf) -> bytes:
    table = json.dumps([pdf.page_count, pdf.bars]).encode("ascii")
    return len(table).to_bytes(_LENGTH, "big") + table + pdf.content


def _unpacked(body: bytes) -> RenderedPdf:
    end = _LENGTH + int.from_bytes(body[:_LENGTH], "big")
    page_count, bars = json.loads(body[_LENGTH:end])
    return RenderedPdf(body[end:], page_count, tuple(Bar(*bar) for bar in bars))


def _key(part: PartHtml) -> str:
    text = "\0".join((makers(), part.html, str(part.pages)))
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


@cache
def makers() -> str:
    """All besides a part's text that decides its bytes: styles, fonts, programs, and our own typesetter."""
    folder = templates_folder()
    files = [*sorted(folder.glob("css/**/*.css")), *sorted(folder.glob("fonts/*.ttf"))]
    here = Path(__file__).parent
    files += [here.with_name("pdf.py"), here.with_name("qr.py"), here / "laid_out_boxes.py"]
    digest = hashlib.sha256()
    for file in files:
        digest.update(hashlib.sha256(file.read_bytes()).digest())
    programs = [f"{name} {version(name)}" for name in _PROGRAMS]
    libraries = [f"pango {pango_version()}", f"zlib {zlib.ZLIB_RUNTIME_VERSION}"]
    return " ".join([digest.hexdigest(), *programs, *libraries])


def pango_version() -> str:
    """The version of the library that lays text out, asked for without loading all that uses it."""
    try:
        return str(ctypes.CDLL("libpango-1.0.so.0").pango_version())
    except OSError:
        from weasyprint.text.ffi import pango  # noqa: PLC0415 - half a second, where the name is another.

        return str(pango.pango_version())
