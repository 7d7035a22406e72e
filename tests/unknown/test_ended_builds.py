"""A build that is ended, or runs beside another, leaves one whole printing, or is told, and nothing else."""

from random import Random

import pytest

from tests.unknown.ended_builds import Workshop


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Workshop:
    return Workshop(tmp_path_factory.mktemp("workshop"))


@pytest.mark.parametrize("seed", range(6))
def test_a_build_that_was_ended_leaves_a_whole_printing_or_is_told(shop: Workshop, seed: int) -> None:
    assert shop.ended(Random(seed)).faults == ()  # noqa: S311 - no secret.


@pytest.mark.parametrize("seed", range(2))
def test_two_builds_at_once_never_mix(shop: Workshop, seed: int) -> None:
    assert shop.pair(Random(seed)).faults == ()  # noqa: S311 - no secret.
