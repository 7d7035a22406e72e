"""What a check of a number stands on, said at the test itself, so that the list of checks is the tests."""

from typing import Literal, TypeAlias

import pytest

Kind: TypeAlias = Literal["published", "library", "derived", "practice", "memory"]

KINDS: dict[Kind, str] = {
    "published": "a value or worked case as it is printed",
    "library": "an independent library",
    "derived": "a published rule or definition, its numbers worked by hand",
    "practice": "common practice, no publication",
    "memory": "remembered, not read",
}


def check(source: str, kind: Kind) -> pytest.MarkDecorator:
    """Mark a test, or one case of it, as a check against a source of the bibliography."""
    return pytest.mark.check(source=source, kind=kind)
