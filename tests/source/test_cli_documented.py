"""Every command and option of the command line has help and stands in README."""

from collections.abc import Iterator
from pathlib import Path

import click

from binder.cli import main


def commands() -> dict[str, click.Command]:
    assert isinstance(main, click.Group)
    return dict(main.commands)


def options() -> Iterator[tuple[str, click.Option]]:
    for name, command in commands().items():
        yield from ((name, option) for option in command.params if isinstance(option, click.Option))


def usage_lines(root: Path) -> dict[str, str]:
    """Row of README's table of commands, by command."""
    rows = (root / "README.md").read_text(encoding="utf-8").splitlines()
    starts = {row.split()[2].strip("`"): row for row in rows if row.startswith("| `binder ")}
    return {name: row for name, row in starts.items() if name}


def test_readme_has_a_row_for_each_command_and_no_other(root: Path) -> None:
    assert set(usage_lines(root)) == set(commands())


def test_each_row_names_the_options_of_its_command(root: Path) -> None:
    rows = usage_lines(root)
    lacking = [
        f"{name} {word}" for name, option in options() for word in option.opts if word not in rows[name]
    ]

    assert lacking == []


def test_readme_names_no_option_that_is_not_there(root: Path) -> None:
    known = {
        name: {word for other, option in options() if other == name for word in option.opts}
        for name in commands()
    }
    named = {
        name: {word.strip("[]`") for word in row.split() if "--" in word}
        for name, row in usage_lines(root).items()
    }

    assert {name: words - known[name] for name, words in named.items() if words - known[name]} == {}


def test_each_option_is_explained_below_the_table(root: Path) -> None:
    text = (root / "README.md").read_text(encoding="utf-8")

    assert [word for _, option in options() for word in option.opts if f"- `{word}`" not in text] == []


def test_each_command_and_option_has_help() -> None:
    without = [name for name, command in commands().items() if not (command.help or "").strip()]
    without += [f"{name} {option.name}" for name, option in options() if not (option.help or "").strip()]

    assert [*without, *([] if main.help else ["binder"])] == []


def test_each_command_is_told_in_the_help_of_the_program() -> None:
    text = main.get_help(click.Context(main))

    assert [name for name in commands() if name not in text] == []
