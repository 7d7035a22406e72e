"""Each path to type that a finding gives is one that the file has: what a starter misses, typed, is read."""

import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from binder.cards.rig_words import words_of
from binder.models.fields import schema
from binder.models.rig import Rig
from binder.printing.build import BuildOptions, read_and_assess
from binder.printing.starter import KINDS, write_starter

RIG = schema(Rig)


def is_in(path: list[str], here: dict[str, Any]) -> bool:
    """Walk a schema by names; a list is walked through, for a path need not say which of its entries."""
    if "anyOf" in here:
        return any(is_in(path, one) for one in here["anyOf"])
    if here.get("type") == "array":
        return is_in(path, here["items"])
    if not path:
        return True
    inside = here.get("properties", {}).get(path[0]) or here.get("additionalProperties")
    return isinstance(inside, dict) and is_in(path[1:], inside)


def test_a_path_that_is_none_is_told_from_one() -> None:
    assert is_in(["vehicles", "coach", "equipment", "smoke alarm"], RIG)
    assert is_in(["couplings", "parts", "safety chains"], RIG)
    assert not is_in(["vehicles", "coach", "equipment", "smoke_alarm"], RIG)
    assert not is_in(["couplings", "safety_cables"], RIG)


@pytest.mark.parametrize("kind", KINDS)
def test_what_a_starter_misses_has_a_path_that_can_be_typed(kind: str, tmp_path: Path) -> None:
    write_starter(tmp_path / "rig", kind)
    file = tmp_path / "rig" / "rig.yaml"
    file.write_text(re.sub(r"(?m)^( +at:) +# \* ", r"\1 120 in # ", file.read_text("utf-8")), "utf-8")
    assessment = read_and_assess(tmp_path / "rig", BuildOptions(date(2026, 6, 1)))
    words = words_of(assessment)

    paths = [words.found(found).path.removeprefix("rig.yaml ") for found in assessment.findings]
    typed = [path for path in paths if path and not path.startswith(("trips/", "trip plan"))]

    assert len(typed) > 20
    assert [path for path in typed if not is_in(re.sub(r"\[[^]]*\]", "", path).split("."), RIG)] == []


def test_a_dual_tire_is_asked_for_what_its_sidewall_says_of_duals(tmp_path: Path) -> None:
    write_starter(tmp_path / "rig", "motorhome")
    file = tmp_path / "rig" / "rig.yaml"
    text = re.sub(r"(?m)^( +at:) +# \* ", r"\1 120 in # ", file.read_text("utf-8"))
    file.write_text(text.replace("maximum_load_single:  ", "maximum_load_single: 3042 lb "), "utf-8")
    assessment = read_and_assess(tmp_path / "rig", BuildOptions(date(2026, 6, 1)))

    paths = {words_of(assessment).found(found).path for found in assessment.findings}

    assert "rig.yaml tires.coach tires.sidewall.maximum_load_dual" in paths
    assert "rig.yaml tires.coach tires.sidewall.maximum_load_single" not in paths


def test_a_path_is_the_one_that_the_starter_has(tmp_path: Path) -> None:
    write_starter(tmp_path / "rig", "pickup-with-trailer")
    assessment = read_and_assess(tmp_path / "rig", BuildOptions(date(2026, 6, 1)))

    paths = {words_of(assessment).found(found).path for found in assessment.findings}

    assert "rig.yaml vehicles.trailer.brakes.service" in paths
    assert "rig.yaml couplings[truck to trailer].parts.safety chains" in paths
