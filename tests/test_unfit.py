"""What paper cannot hold is refused by ``check`` as by ``build``, at the entry it is written in."""

import re
from datetime import date
from pathlib import Path
from shutil import copytree

import pytest
from click.testing import CliRunner

from binder import cli
from binder.printing.build import BuildOptions, build
from binder.problems import InputProblems
from tests.demos import PROFILES

_WORD = "Donaudampfschifffahrtselektrizitaetenhauptbetriebswerk"
_CASES = [
    ("trips/high-country.yaml", "place: Baker City", f"place: {_WORD}", "days[1].legs[1].to.place", "54:"),
    ("rig.yaml", "larkspur    #", "larkspur/and/a/path/that/is/far/too/long #", "log", "12:"),
]


@pytest.mark.parametrize(("file", "before", "after", "field", "line"), _CASES, ids=["word", "address"])
def test_what_no_paper_holds_is_told_by_check_and_build_with_file_line_and_length(  # noqa: PLR0913, PLR0917 - a case's parts.
    file: str, before: str, after: str, field: str, line: str, tmp_path: Path
) -> None:
    folder = copytree(PROFILES / "larkspur", tmp_path / "larkspur")
    text = (folder / file).read_text(encoding="utf-8")
    (folder / file).write_text(text.replace(before, after, 1), encoding="utf-8")

    checked = CliRunner().invoke(cli.main, ["check", str(folder)])
    with pytest.raises(InputProblems) as refused:
        build(folder, BuildOptions(date(2026, 6, 1), out=tmp_path / "out"))

    assert checked.exit_code == 2
    assert f"{folder / file}:{line}" in checked.output
    assert f"error: {field}: " in checked.output
    assert "characters" in checked.output
    assert str(refused.value).strip() in checked.output
    assert not (tmp_path / "out").exists()


def test_a_name_too_long_is_told_where_it_is_given_not_where_it_is_used(tmp_path: Path, root: Path) -> None:
    folder = copytree(root / "tests" / "rigs" / "slide_in_camper", tmp_path / "rig")
    for file in folder.rglob("*.yaml"):
        text = re.sub(r"\bcamper\b", _WORD, file.read_text(encoding="utf-8"))
        file.write_text(text.replace(f"kind: {_WORD}", "kind: camper"), encoding="utf-8")

    with pytest.raises(InputProblems, match=rf"rig\.yaml:[0-9:]+ error: vehicles\.{_WORD}: "):
        build(folder, BuildOptions(date(2026, 6, 1), out=tmp_path / "out"))
