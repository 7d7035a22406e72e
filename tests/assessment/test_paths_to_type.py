"""A finding that something is missing or not cleared tells the file and the path where it is typed."""

from collections.abc import Iterator
from types import ModuleType

import pytest

from binder.assessment.body import kinds as body
from binder.assessment.coupling import kinds as coupling
from binder.assessment.ledger import FindingKind
from binder.assessment.tires import kinds as tires
from binder.assessment.tires import register_kinds
from binder.assessment.weights import kinds as weights
from binder.wording.record import assessment_record
from binder.wording.words import Words, style_of
from tests.assessment.edited_demos import Assessed, assessed  # noqa: F401 - a fixture.

_SPARE = "SPARE_AGE_UNKNOWN"


def _asking(module: ModuleType) -> Iterator[tuple[str, FindingKind]]:
    for name, kind in vars(module).items():
        if isinstance(kind, FindingKind) and kind.grade in ("missing", "not cleared") and name != _SPARE:
            yield name, kind


@pytest.mark.parametrize(
    "module", [tires, register_kinds, weights, coupling, body], ids=lambda one: one.__name__
)
def test_every_kind_that_asks_for_something_has_the_path_to_type(module: ModuleType) -> None:
    asking = dict(_asking(module))

    assert asking
    assert [name for name, kind in asking.items() if not kind.path] == []


@pytest.mark.parametrize(
    ("change", "path"),
    [
        (("name:", "name:"), "rig.yaml wheels.coach wheels.valve_maximum_pressure"),
        (("overall_height: 12 ft 8 in", "overall_height:"), "rig.yaml vehicles.coach.size.overall_height"),
        (("log: ", "log: # "), "rig.yaml log"),
    ],
)
def test_a_blank_of_larkspur_tells_its_path(assessed: Assessed, change: tuple[str, str], path: str) -> None:  # noqa: F811 - the fixture.
    changes = () if change[0] == change[1] else (change,)
    found = assessed("larkspur", *changes)
    words = Words(style_of(found))

    assert path in [words.found(one).path for one in found.findings]
    record = assessment_record(found)["findings"]
    assert isinstance(record, list)
    assert path in [one["path"] for one in record if isinstance(one, dict)]
