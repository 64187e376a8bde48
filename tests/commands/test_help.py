"""Help: every command has one, with an example that works, and it comes without loading anything heavy."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from typing import Any

import pytest
import typer

from fieldnotes.cli import app
from fieldnotes.places import PACKAGE


def commands() -> list[list[str]]:
    """Every command and group of the program: [], ["write"], ["vocab", "check"] and so on."""
    found: list[list[str]] = [[]]
    open_groups: list[tuple[list[str], Any]] = [([], typer.main.get_command(app))]
    while open_groups:
        words, group = open_groups.pop()
        for name, command in group.commands.items():
            found.append([*words, name])
            if hasattr(command, "commands"):
                open_groups.append(([*words, name], command))
    return found


HEAVY = [
    "PIL",
    "av",
    "cryptography",
    "ctranslate2",
    "faster_whisper",
    "jinja2",
    "numpy",
    "onnxruntime",
    "pint",
    "spacy",
    "yaml",
]
SHOW = """
import sys
from fieldnotes.cli import main
try:
    main({arguments!r})
finally:
    print("loaded:", [name for name in {heavy!r} if name in sys.modules])
"""


def shown(arguments: list[str]) -> subprocess.CompletedProcess[str]:
    code = SHOW.format(arguments=[*arguments, "--help"], heavy=HEAVY)
    environment = {**os.environ, "PYTHONPATH": str(PACKAGE.parent)}
    return subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False, env=environment
    )


def parsed(arguments: list[str]) -> Any:
    """The arguments as the program reads them, without anything being run. Raises on a wrong one."""
    command: Any = typer.main.get_command(app)
    while hasattr(command, "commands"):
        command = command.commands[arguments[0]]
        arguments = arguments[1:]
    return command.make_context("fieldnotes", list(arguments))


def test_there_are_commands_to_test() -> None:
    assert ["write"] in commands()
    assert ["vocab", "check"] in commands()


@pytest.mark.parametrize("command", commands(), ids=lambda words: " ".join(words) or "fieldnotes")
def test_help_shows_an_example_and_loads_nothing_heavy(command: list[str]) -> None:
    done = shown(command)
    text = " ".join(done.stdout.split())

    assert (done.returncode, done.stderr) == (0, "")
    assert text.endswith("loaded: []")
    example = re.search(r"Example: fieldnotes (.*?)( ╭| \+|$)", text)
    assert example
    words = shlex.split(example[1].split(" > ")[0])
    assert words[: len(command)] == command
    parsed(words)


def test_every_option_and_argument_has_a_help_text() -> None:
    silent = []
    for words in commands():
        command: Any = typer.main.get_command(app)
        for word in words:
            command = command.commands[word]
        silent += [f"{' '.join(words)} {each.name}" for each in command.params if not each.help]

    assert silent == []


def test_module_runs_as_the_command() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "fieldnotes", "--version"],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": str(PACKAGE.parent)},
    )

    assert re.fullmatch(r"fieldnotes \d+\.\d+\.\d+\n", done.stdout)
