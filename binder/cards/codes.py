"""What parts are known by: keys, titles, and codes of five characters, one for two that say the same."""

import hashlib
import json
from dataclasses import fields, is_dataclass, replace
from typing import Any, cast

from binder.cards.blocks import BinderDocument, Card, Part

# No 0 or 1, no letter that reads like them: a code is read aloud over a bad line.
_LETTERS = "23456789abcdefghjkmnpqrstuvwxyz"
_CODE_LENGTH = 5
_NOT_SAID = ("set_title", "sets", "in_hand")
"""What a part bears that is not its content."""


def short_code(text: str) -> str:
    """Five characters from a text."""
    number = int.from_bytes(hashlib.sha256(text.encode()).digest()[:8], "big")
    code = ""
    for _ in range(_CODE_LENGTH):
        number, digit = divmod(number, len(_LETTERS))
        code += _LETTERS[digit]
    return code


def content_code(part: Part) -> str:
    """The code of a part, from what it says and not from its date."""
    if isinstance(part, Card):
        bare: Part = replace(part, code="", target="", effective="", reasons=(), figures=())
    else:
        bare = replace(part, code="")
    said = cast("dict[str, Any]", as_json(bare))
    if isinstance(part, Card):
        for side in said["sides"]:
            del side["shorter"]
            if not side["goes_on"]:
                del side["goes_on"]
    for name in _NOT_SAID:
        said.pop(name, None)
    return short_code(json.dumps(said, sort_keys=True, ensure_ascii=False))


def as_json(said: object) -> object:
    """Lists and mappings in the place of tuples and blocks: asking the library copies every word besides."""
    if isinstance(said, str):
        return said
    if isinstance(said, tuple):
        return [as_json(one) for one in said]
    if is_dataclass(said):
        return {field.name: as_json(getattr(said, field.name)) for field in fields(said)}
    return said


def cover_code(document: BinderDocument) -> str:
    """The code of what the cover says of a rig; it bears none, for its date is what it is known by."""
    return short_code(
        json.dumps(
            (
                document.trip,
                document.do_not_drive,
                document.not_cleared,
                document.attention,
                document.missing,
                document.assumed,
            ),
            ensure_ascii=False,
        )
    )


def part_key(part: Part) -> str:
    """What a part is known by, and a link to it names, as long as there is one like it."""
    return f"card-{part.id}" if isinstance(part, Card) else f"page-{part.name}"


def part_title(part: Part) -> str:
    """What a part is called in the list, in its foot and in the bookmarks."""
    return f"{part.id} {part.title}" if isinstance(part, Card) else part.title
