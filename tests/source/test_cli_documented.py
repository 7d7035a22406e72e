"""Every command and option of the command line has help and stands in README."""

import re
from collections.abc import Iterator
from pathlib import Path

import click

from binder.cli import main
from binder.log.commands import log


def commands() -> dict[str, click.Command]:
    """Commands by their words; those of the log by its name too."""
    assert isinstance(main, click.Group)
    every = dict(main.commands) | {f"log {name}": command for name, command in log.commands.items()}
    return {name: command for name, command in every.items() if name != "log"}


def options() -> Iterator[tuple[str, click.Option]]:
    for name, command in commands().items():
        yield from ((name, option) for option in command.params if isinstance(option, click.Option))


def usage_lines(root: Path) -> dict[str, str]:
    """Row of README's table of commands, by command."""
    text = (root / "README.md").read_text(encoding="utf-8")
    return {
        match[1]: match[0]
        for match in re.finditer(r"^\| `binder ([a-z]+(?: [a-z]+)?) .*", text, re.MULTILINE)
    }


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


def test_each_option_is_explained_below_a_table(root: Path) -> None:
    rows = (root / "README.md").read_text(encoding="utf-8").splitlines()
    told = "".join(row for row in rows if row.startswith("- `--"))

    assert [word for _, option in options() for word in option.opts if f"`{word}`" not in told] == []


def test_each_command_and_option_has_help() -> None:
    without = [name for name, command in commands().items() if not (command.help or "").strip()]
    without += [f"{name} {option.name}" for name, option in options() if not (option.help or "").strip()]

    assert [*without, *([] if main.help else ["binder"])] == []


def test_each_command_is_told_in_the_help_of_the_program() -> None:
    text = main.get_help(click.Context(main)) + log.get_help(click.Context(log))

    assert [name for name in commands() if name.split()[-1] not in text] == []
