"""The typesetter and the system libraries it needs: loaded, or told in one sentence how to get them."""

import contextlib
import ctypes
import ctypes.util
import io
import sys
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

_LIBRARIES = (
    "libgobject-2.0.so.0",
    "libpango-1.0.so.0",
    "libpangoft2-1.0.so.0",
    "libharfbuzz.so.0",
    "libharfbuzz-subset.so.0",
    "libfontconfig.so.1",
)
_INSTALL = {
    "linux": "type: sudo apt-get install -y libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0",
    "darwin": "type: brew install pango",
    "win32": "type in the shell of MSYS2: pacman -S mingw-w64-ucrt-x86_64-pango",
}
_ANYWHERE = "install Pango and HarfBuzz with its subset library"


class NoLibrary(Exception):
    """A system library is missing; the text says which, and how to get it."""


def refuse_missing() -> None:
    """Say in one sentence which system library is missing, before anything that takes time."""
    if sys.platform != "linux":
        load_typesetter()
        return
    for library in _LIBRARIES:
        try:
            ctypes.CDLL(library)
        except OSError as error:
            raise NoLibrary(_told(library)) from error


def load_typesetter() -> None:
    """Load WeasyPrint; where it finds no system library say so in one sentence, in place of its own many."""
    if "weasyprint" in sys.modules:
        return  # What follows takes the output of every thread.
    said = io.StringIO()
    try:
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said), _by_exact_name():
            import_module("weasyprint")  # Here, for it takes a third of a second.
    except OSError as error:
        raise NoLibrary(_told("Pango")) from error


@contextlib.contextmanager
def _by_exact_name() -> Iterator[None]:
    """Load libraries under the names they have on Linux alone.

    Before those, WeasyPrint tries names of other systems, and for each a compiler and a linker are run, which
    takes as long as all else that is loaded.
    """
    search = ctypes.util.find_library
    if sys.platform == "linux":
        ctypes.util.find_library = _exact_name
    try:
        yield
    finally:
        ctypes.util.find_library = search


def _exact_name(name: str) -> str | None:
    return name if ".so." in name else None


def _told(name: str) -> str:
    how = _INSTALL.get(sys.platform, _ANYWHERE)
    if sys.platform == "linux" and not Path("/usr/bin/apt-get").exists():
        how = _ANYWHERE
    return f"binder prints with a system library that is missing ({name}); {how}."
