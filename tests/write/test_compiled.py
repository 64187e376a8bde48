"""Compiled templates: used again while the text is the same, and never in the way."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import jinja2
import pytest

from fieldnotes.write.compiled import CompiledTemplates


def environment_of(folder: Path, cache: Path, finalize: str = "") -> jinja2.Environment:
    """As another run would have it: nothing kept in memory."""
    write = jinja2.pass_context(lambda _, value: f"{finalize}{value}")
    loader = jinja2.FileSystemLoader(folder)
    return jinja2.Environment(loader=loader, finalize=write, bytecode_cache=CompiledTemplates(cache))


def kept(cache: Path) -> list[Path]:
    return sorted(path for path in cache.rglob("*") if path.is_file())


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    made = tmp_path / "templates"
    made.mkdir()
    (made / "page.txt").write_text("one {{ n }}")
    return made


def no_compiling(*_: object, **__: object) -> None:
    raise AssertionError("compiled again")


def test_another_run_does_not_compile_again(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    environment_of(folder, tmp_path / "cache").get_template("page.txt")
    monkeypatch.setattr(jinja2.Environment, "compile", no_compiling)

    assert environment_of(folder, tmp_path / "cache").get_template("page.txt").render(n=1) == "one 1"


def test_pages_of_other_endings_share_it_and_write_as_their_own(folder: Path, tmp_path: Path) -> None:
    for mark in ("", "*", "_"):
        page = environment_of(folder, tmp_path / "cache", mark).get_template("page.txt")
        assert page.render(n=1) == f"one {mark}1"

    assert len(kept(tmp_path / "cache")) == 1


def test_changed_text_is_compiled_anew(folder: Path, tmp_path: Path) -> None:
    environment_of(folder, tmp_path / "cache").get_template("page.txt")
    (folder / "page.txt").write_text("two {{ n }}")

    assert environment_of(folder, tmp_path / "cache").get_template("page.txt").render(n=1) == "two 1"


@pytest.mark.parametrize(
    "damage", [lambda b: b"", lambda b: b[:-9], lambda b: b[:30] + b"\xff" * 50, lambda b: b[::-1]]
)
def test_damaged_file_is_compiled_anew(
    folder: Path, tmp_path: Path, damage: Callable[[bytes], bytes]
) -> None:
    environment_of(folder, tmp_path / "cache").get_template("page.txt")
    [file] = kept(tmp_path / "cache")
    whole = file.read_bytes()
    file.write_bytes(damage(whole))

    assert environment_of(folder, tmp_path / "cache").get_template("page.txt").render(n=1) == "one 1"
    assert file.read_bytes() == whole


def test_cache_that_cannot_be_used_is_done_without(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "cache").write_text("a file where the folder should be")

    assert environment_of(folder, tmp_path / "cache").get_template("page.txt").render(n=1) == "one 1"
