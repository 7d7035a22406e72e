"""The typesetter and the system libraries it needs: loaded, or told in one sentence how to get them."""

import contextlib
import ctypes
import io
import sys
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
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
            import weasyprint  # noqa: F401, PLC0415 - loading it takes half a second.
    except OSError as error:
        raise NoLibrary(_told("Pango")) from error


def _told(name: str) -> str:
    how = _INSTALL.get(sys.platform, _ANYWHERE)
    if sys.platform == "linux" and not Path("/usr/bin/apt-get").exists():
        how = _ANYWHERE
    return f"binder prints with a system library that is missing ({name}); {how}."
