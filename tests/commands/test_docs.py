"""README.md and DEVELOPERS.md against the program: commands, options, samples and names of files."""

from __future__ import annotations

import re
import shlex
from pathlib import Path
from typing import Any

import pytest
import typer

from fieldnotes.cli import app
from fieldnotes.places import data_folder
from fieldnotes.settings import PageSettings, Settings, load_settings
from fieldnotes.visit import check_templates
from fieldnotes.vocabulary.packs import PartsFile
from fieldnotes.vocabulary.yaml_file import load_yaml
from fieldnotes.vocabulary_bench.check import check_vocabulary

from .conftest import Run, files_in
from .test_help import commands, parsed

TOP = Path(__file__).parents[2]
README = (TOP / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w+)\n(.*?)^```$", README + DEVELOPERS, re.MULTILINE | re.DOTALL)
SHELL = [line for kind, text in BLOCKS if kind == "sh" for line in text.splitlines()]
SAMPLES = {text.split("\n")[0].removeprefix("# "): text for kind, text in BLOCKS if kind == "yaml"}


def program_lines() -> list[str]:
    """What the documents tell to run of this program, without the folder of the environment."""
    found = []
    for line in SHELL:
        for piece in line.split(" && "):
            head, _, rest = piece.partition(" ")
            if Path(head).name == "fieldnotes":
                found.append(rest)
    return found


def options_of_the_program() -> set[str]:
    found: set[str] = set()
    for words in commands():
        command: Any = typer.main.get_command(app)
        for word in words:
            command = command.commands[word]
        found |= {name for each in command.params for name in getattr(each, "opts", ())}
    return found


@pytest.mark.parametrize("line", program_lines())
def test_every_command_line_in_the_documents_is_understood(line: str) -> None:
    parsed(shlex.split(line))


@pytest.mark.parametrize("words", [words for words in commands() if words], ids=" ".join)
def test_every_command_is_in_the_readme(words: list[str]) -> None:
    assert f"fieldnotes {' '.join(words)}" in README


def test_options_named_in_the_readme_are_there() -> None:
    named = set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", README))

    assert named - options_of_the_program() == {"--help"}


def test_every_option_of_write_is_in_the_readme() -> None:
    command: Any = typer.main.get_command(app)
    options = {
        name for each in command.commands["write"].params for name in each.opts if name.startswith("--")
    }

    assert {name for name in options - {"--help"} if f"`{name}`" not in README} == set()


def test_readme_lists_the_files_of_the_job_folder(run: Run, here: Path) -> None:
    run("write", "notes.txt", "--out", "job")
    listed = {
        name
        for row in re.findall(r"^\| ((?:`[\w.]+` )+)\|", README, re.MULTILINE)
        for name in re.findall(r"[\w.]+", row)
    }

    assert listed - {"write"} == {name for name in files_in(here / "job" / "data") if name != "notes.txt"}


def test_readme_is_short() -> None:
    assert len(README.splitlines()) <= 120


def test_continuous_check_installs_as_the_readme_says() -> None:
    check = (TOP / ".ci" / "run").read_text(encoding="utf-8")

    for extra in ("weights", "test"):
        assert f".venv/bin/pip install '.[{extra}]'" in README
        assert f"--disable-pip-version-check '.[{extra}]'" in check


@pytest.mark.parametrize("path", re.findall(r"`((?:fieldnotes|tests|vocab|templates)/[\w./-]*)`", DEVELOPERS))
def test_files_named_for_developers_are_there(path: str) -> None:
    first = path.split("/")[0]
    place = data_folder(first).parent / path if first in ("vocab", "templates") else TOP / path

    assert first == "fieldnotes" or place.exists()


def test_samples_of_vocabulary_have_no_mistake(tmp_path: Path) -> None:
    """Each sample of DEVELOPERS.md, laid over the built-in vocabulary as it says, adds no mistake."""
    shop = tmp_path / "ours"
    for name, text in SAMPLES.items():
        target = shop / Path(name).relative_to("vocab")
        target.parent.mkdir(parents=True, exist_ok=True)
        built_in, section = data_folder("vocab") / target.relative_to(shop), text.split("\n")[1]
        if (
            section.endswith(":") and built_in.exists()
        ):  # entries of the built-in file, not a file of the shop's own
            entries = "\n".join(text.split("\n")[2:])
            whole = built_in.read_text(encoding="utf-8")
            assert f"\n{section}\n" in whole
            text = whole.replace(f"\n{section}\n", f"\n{section}\n{entries}", 1)
        if target.name != "parts.yaml":  # its part is in the built-in file already
            target.write_text(text, encoding="utf-8")

    def told(folder: Path | None) -> set[str]:
        return {re.sub(r"^.*?line \d+: ", "", str(mistake)) for mistake in check_vocabulary(folder).mistakes}

    assert set(SAMPLES) == {
        "vocab/parts.yaml", "vocab/appliances/kettle.yaml", "vocab/rules/ours.yaml", "vocab/limits.yaml",
        "vocab/sums.yaml", "vocab/cautions.yaml", "vocab/gaps.yaml", "vocab/explanations/kettle.yaml",
        "vocab/makes.yaml",
    }  # fmt: skip
    assert told(shop) - told(None) == set()


def test_sample_of_a_part_is_taken(tmp_path: Path) -> None:
    path = tmp_path / "parts.yaml"
    path.write_text(SAMPLES["vocab/parts.yaml"], encoding="utf-8")

    assert [part.name for part in load_yaml(path, PartsFile).parts] == ["drain pump"]


def test_sample_of_settings_is_taken(tmp_path: Path) -> None:
    (sample,) = (text for kind, text in BLOCKS if kind == "toml")
    (tmp_path / "fieldnotes.toml").write_text(sample, encoding="utf-8")
    (tmp_path / "logo.svg").write_text("<svg/>", encoding="utf-8")

    assert load_settings(None, tmp_path, tmp_path).shop.name == "Harrowby Appliance Care"


def test_sample_of_a_template_renders(tmp_path: Path) -> None:
    (page,) = (text for kind, text in BLOCKS if kind == "jinja")
    (tmp_path / "report.md").write_text(page, encoding="utf-8")

    check_templates(Settings(pages=PageSettings(templates=tmp_path)))
