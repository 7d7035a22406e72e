"""Ids of entries: by the moment they are made, or by their content where a file is read again and again."""

import hashlib
import os
import re
from collections.abc import Iterable
from datetime import datetime

_FORM = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[78][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
LEAST_ENDING = 6
"""Characters of an id's end that name it; more where two entries end alike."""


def new_id(now: datetime) -> str:
    """Make an id that sorts by its moment: UUID version 7, RFC 9562, section 5.7."""
    milliseconds = int(now.timestamp() * 1000)
    return _as_text(milliseconds.to_bytes(6, "big") + os.urandom(10), 7)


def id_of_content(parts: Iterable[str]) -> str:
    """Make the id that the same content always has: UUID version 8, RFC 9562, section 5.8."""
    digest = hashlib.sha256()
    for part in parts:
        told = part.encode("utf-8", "surrogatepass")
        digest.update(b"%d:%b" % (len(told), told))
    return _as_text(digest.digest()[:16], 8)


def is_id(text: str) -> bool:
    """Tell whether a text is an id of either kind, in small letters."""
    return _FORM.fullmatch(text) is not None


def made_at(own_id: str) -> int | None:
    """Give the moment an id was made, in milliseconds of 1970; None where its content made it."""
    return int(own_id[:8] + own_id[9:13], 16) if own_id[14] == "7" else None


def _as_text(raw: bytes, version: int) -> str:
    number = int.from_bytes(raw, "big")
    number = number & ~(0xF << 76) | version << 76
    digits = f"{number & ~(0x3 << 62) | 0x2 << 62:032x}"
    return "-".join((digits[:8], digits[8:12], digits[12:16], digits[16:20], digits[20:]))
