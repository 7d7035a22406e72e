"""A folder becomes models: what is empty is not known, what is written keeps its place."""

from pathlib import Path

import pytest

from binder.models.base import LevelValue
from binder.models.load import load_profile
from binder.problems import InputProblems
from binder.quantities import registry

_RIG = """\
name: Wren
units: us
paper: letter
vehicles:
  coach:
    kind: motorhome
    axles:
      steer: {at: 0 in, fitment: single}
      drive: {at: 178 in, fitment: dual}
"""


def _folder(tmp_path: Path, rig: str, private: str = "") -> Path:
    (tmp_path / "rig.yaml").write_text(rig, "utf-8")
    if private:
        (tmp_path / "private.yaml").write_text(private, "utf-8")
    return tmp_path


def test_what_is_empty_is_not_known(tmp_path: Path) -> None:
    rig = load_profile(_folder(tmp_path, _RIG + "people:\ntires:\n  a: {size: , table: }\n")).rig

    assert rig.people is None
    assert rig.tires["a"].size is None
    assert rig.tires["a"].table is None
    assert rig.vehicles["coach"].label.gross_vehicle_weight_rating is None


def test_windows_line_ends_and_byte_order_mark_are_read(tmp_path: Path) -> None:
    (tmp_path / "rig.yaml").write_bytes(b"\xef\xbb\xbf" + _RIG.replace("\n", "\r\n").encode())

    assert load_profile(tmp_path).rig.name == "Wren"


def test_a_profile_cannot_be_changed(tmp_path: Path) -> None:
    rig = load_profile(_folder(tmp_path, _RIG)).rig

    with pytest.raises(ValueError, match="frozen"):
        rig.name = "Other"


def test_a_bare_weight_of_a_part_is_what_it_may_tow(tmp_path: Path) -> None:
    parts = "couplings: [{ahead: a, behind: b, how: tow bar, parts: {bar: 8000 lb, pins: {down: 1 lb}}}]\n"
    coupling = load_profile(_folder(tmp_path, _RIG + parts)).rig.couplings[0]

    assert coupling.parts["bar"].towed == registry.Quantity(8000.0, "pound")
    assert coupling.parts["pins"].towed is None


def test_levels_are_shares_or_volumes(tmp_path: Path) -> None:
    ticket = (
        "scale_tickets:\n"
        "  - on: 2026-03-30\n"
        "    weights: {coach: {steer: {axle: 9000 lb}, drive: , total: 9000 lb}}\n"
        "    levels: {coach: {a: full, b: empty, c: 3/4, d: 60 %, e: 25 gal}}\n"
    )
    read = load_profile(_folder(tmp_path, _RIG + ticket)).rig.scale_tickets[0]

    assert list(read.weights["coach"].axles) == ["steer"]
    assert read.levels["coach"] == {
        "a": LevelValue("full", share=1.0),
        "b": LevelValue("empty", share=0.0),
        "c": LevelValue("3/4", share=0.75),
        "d": LevelValue("60 %", share=0.6),
        "e": LevelValue("25 gal", volume=registry.Quantity(25.0, "gallon")),
    }


def test_private_file_is_read_only_when_asked_for(tmp_path: Path) -> None:
    folder = _folder(tmp_path, _RIG, private="contacts:\n  - {who: dentist, phone: 555 0100}\n")

    asked, not_asked = load_profile(folder, private=("contacts",)), load_profile(folder)

    assert not_asked.private is None
    assert asked.private is not None
    assert asked.private.contacts[0].who == "dentist"


def test_only_what_is_asked_for_of_the_private_file_is_kept(tmp_path: Path) -> None:
    text = "contacts:\n  - {who: dentist, phone: 555 0100}\nmedical: [allergic to nuts]\n"
    read = load_profile(_folder(tmp_path, _RIG, private=text), private=("medical",)).private

    assert read is not None
    assert (read.contacts, read.medical) == ([], ["allergic to nuts"])


def test_a_place_is_right_after_an_empty_list_entry(tmp_path: Path) -> None:
    with pytest.raises(InputProblems) as raised:
        load_profile(_folder(tmp_path, _RIG + "spares:\n  -\n  - {what: fuse, expires: soon}\n"))

    assert [
        (problem.field, problem.position and problem.position.line) for problem in raised.value.problems
    ] == [("spares[2].expires", 12)]
