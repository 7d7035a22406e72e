"""Where the templates are: inside the package (installed) or beside it (working copy)."""

from functools import cache
from pathlib import Path


@cache
def templates_folder() -> Path:
    """Find the folder of templates, styles and fonts."""
    package = Path(__file__).resolve().parent
    for folder in (package / "templates", package.parent / "templates"):
        if (folder / "base.html").is_file():
            return folder
    raise FileNotFoundError(f"no templates in {package} nor beside it")
