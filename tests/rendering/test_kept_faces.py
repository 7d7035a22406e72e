import json
from pathlib import Path

import pytest

from tests.rendering.kept_faces import faces, said_by


@pytest.mark.parametrize("face", faces(), ids=lambda face: face.stem)
def test_what_is_kept_of_a_face_is_what_the_face_says(face: Path) -> None:
    kept = json.loads(face.with_suffix(".json").read_text("utf-8"))
    assert kept == said_by(face)
    assert len(kept["letters"]) > 500
