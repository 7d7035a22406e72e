"""README says every kind of entry and every field of it, and no other."""

import re
from pathlib import Path

from binder.models.log_entries import KINDS


def test_each_kind_stands_in_readme_with_its_fields(root: Path) -> None:
    text = (root / "README.md").read_text(encoding="utf-8").split("## The log")[1].split("\n## ")[0]
    rows = re.findall(r"^\| (`\w+`(?:, `\w+`)*) \| (.+) \|$", text, re.MULTILINE)
    told: dict[str, set[str]] = {}
    for kinds, says in rows:
        fields = set(re.findall(r"`(\w+)`", says))
        told |= dict.fromkeys(re.findall(r"\w+", kinds), fields)

    assert set(told) == set(KINDS)
    assert {kind: set(model.model_fields) - told[kind] for kind, model in KINDS.items()} == {
        kind: set() for kind in KINDS
    }
    every = {name for model in KINDS.values() for name in model.model_fields}
    assert {name for fields in told.values() for name in fields} <= every
