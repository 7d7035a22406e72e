"""A build with what was kept from one before has the same bytes, and lays nothing out."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from binder.models.load import load_profile
from binder.printing import build as building
from binder.printing.build import BuildOptions, build
from binder.rendering.parts import processes, whole
from tests.demos import PROFILES
from tests.paper.printings import EFFECTIVE, Printing


def test_a_build_with_kept_parts_has_the_same_bytes_and_lays_nothing_out(
    printing: Printing, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rig, cache = PROFILES / printing.rig, tmp_path / "parts"
    options = [BuildOptions(date.fromisoformat(EFFECTIVE), out=tmp_path / name, cache=cache) for name in "ab"]

    first = build(rig, options[0])
    monkeypatch.setattr(whole, "kept_whole", lambda *_: None)
    monkeypatch.setattr(processes.Processes, "lay_out", lambda *_: lambda _part: pytest.fail("laid out"))
    second = build(rig, options[1])

    for report in (first, second):
        assert {name: (report.out / name).read_bytes() for name in report.files} == printing.files
    assert second.notes == []
    assert len(list(cache.iterdir())) > 40


def test_where_nothing_that_was_read_changed_no_card_is_made(
    printing: Printing, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rig, cache = PROFILES / printing.rig, tmp_path / "parts"
    options = BuildOptions(date.fromisoformat(EFFECTIVE), out=tmp_path / "a", cache=cache)

    first = build(rig, options)
    monkeypatch.setattr(building, "_prepared", lambda *_: pytest.fail("made"))
    second = build(rig, replace(options, out=tmp_path / "b"))

    assert second.pages == first.pages
    assert {name: (second.out / name).read_bytes() for name in second.files} == printing.files


def test_another_text_option_date_or_record_of_what_is_in_hand_is_another_printing(
    tmp_path: Path,
) -> None:
    folder = PROFILES / "kestrel"
    profile = load_profile(folder)
    options = BuildOptions(date(2026, 6, 1))
    others = [
        replace(options, on=date(2026, 6, 2)),
        replace(options, flip="short"),
        replace(options, set="mechanic"),
        replace(options, offset=(1.0, 0.0)),
        replace(options, type_size="large"),
        replace(options, private=True),
    ]
    rig = replace(profile.rig_places, source=profile.rig_places.source + "# a comment")
    keys = [building._key(folder, profile, one) for one in (options, *others)]
    keys.append(building._key(folder, replace(profile, rig_places=rig), options))
    (tmp_path / "printed.yaml").write_text("version: '1'\n", encoding="utf-8")
    keys.append(building._key(tmp_path, profile, options))

    assert len(set(keys)) == len(keys)
    assert building._key(folder, profile, replace(options, out=Path("x"), cache=Path("y"))) == keys[0]
