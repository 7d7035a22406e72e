"""Templates are found inside the package where it was installed from a wheel, else beside it."""

from collections.abc import Iterator
from pathlib import Path

import pytest

import binder
from binder import templates_folder


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A package elsewhere, that was asked for nothing yet."""
    home = tmp_path / "site" / "binder"
    monkeypatch.setattr(binder, "__file__", str(home / "__init__.py"))
    templates_folder.cache_clear()
    yield home
    templates_folder.cache_clear()


def make(templates: Path) -> Path:
    templates.mkdir(parents=True)
    (templates / "base.html").touch()
    return templates


def test_templates_inside_the_package_come_first(package: Path) -> None:
    inside = make(package / "templates")
    make(package.parent / "templates")

    assert templates_folder() == inside


def test_without_them_those_beside_the_package_are_taken(package: Path) -> None:
    beside = make(package.parent / "templates")

    assert templates_folder() == beside


def test_a_folder_of_that_name_without_templates_is_not_taken(package: Path) -> None:
    (package / "templates").mkdir(parents=True)
    beside = make(package.parent / "templates")

    assert templates_folder() == beside


def test_no_templates_at_all_is_said(package: Path) -> None:
    with pytest.raises(FileNotFoundError, match=r"no templates in .*binder nor beside it"):
        templates_folder()

    assert not package.exists()
