"""Whatever hands do to a profile, it is accepted or refused in words."""

from collections import Counter
from pathlib import Path

import pytest

from tests.unknown.changed_profiles import outcomes


@pytest.mark.parametrize("seed", range(4))
def test_a_changed_profile_is_accepted_or_refused_and_never_breaks(seed: int, tmp_path: Path) -> None:
    found = list(outcomes(60, seed, tmp_path))

    assert [one for one in found if one.kind == "broke"] == []
    assert min(Counter(one.kind for one in found).values()) > 5
