"""Read how wide and tall each character of the bundled faces is, from the faces themselves.

``python -m tests.rendering.kept_faces`` keeps it beside them, for the program to read in a moment;
``test_kept_faces.py`` holds that what is kept is what they say.
"""

import json
from pathlib import Path
from typing import Any

from fontTools.ttLib import TTFont

from binder import templates_folder


def faces() -> list[Path]:
    return sorted((templates_folder() / "fonts").glob("*.ttf"))


def said_by(face: Path) -> dict[str, Any]:
    """The units of a face, and of each character its width and its lowest and highest point in them."""
    with TTFont(face) as font:
        advances, glyphs, units = font["hmtx"].metrics, font["glyf"], font["head"].unitsPerEm
        letters = [
            [code, advances[glyph][0], getattr(glyphs[glyph], "yMin", 0), getattr(glyphs[glyph], "yMax", 0)]
            for code, glyph in sorted(font.getBestCmap().items())
        ]
    return {"units_per_em": units, "letters": letters}


def main() -> None:
    for face in faces():
        said = said_by(face)
        rows = ",\n".join(json.dumps(letter, separators=(",", ":")) for letter in said["letters"])
        text = f'{{"units_per_em": {said["units_per_em"]}, "letters": [\n{rows}\n]}}\n'
        face.with_suffix(".json").write_text(text, "utf-8")


if __name__ == "__main__":
    main()
