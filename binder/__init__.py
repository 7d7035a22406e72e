"""The rig on paper: a glovebox binder and field cards from one description of the rig and one of the trip."""

from functools import cache
from pathlib import Path


@cache
def templates_folder() -> Path:
    """Find the templates, styles and fonts: inside the package (installed) or beside it (working copy)."""
    package = Path(__file__).resolve().parent
    for folder in (package / "templates", package.parent / "templates"):
        if (folder / "base.html").is_file():
            return folder
    raise FileNotFoundError(f"no templates in {package} nor beside it")
