"""The command line run in this process, in an empty folder, with a made-up recogniser for sound."""

from __future__ import annotations

import functools
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

import fieldnotes.hear
from fieldnotes.cli import main
from tests.hear.sounds import Beeper, beeps, write_sound

DEMO = Path(__file__).parents[2] / "demo_audio"
NOTES = "Dishwasher, it won't drain.\nThe drain hose is not kinked, that's good.\nNo fault found.\n"


@dataclass(frozen=True)
class Ran:
    """How a command ended and what it said."""

    code: object
    out: str
    err: str


Run = Callable[..., Ran]


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The present folder, with some notes in it."""
    folder = tmp_path / "here"
    folder.mkdir()
    (folder / "notes.txt").write_text(NOTES, encoding="utf-8")
    monkeypatch.chdir(folder)
    monkeypatch.setenv(
        "XDG_CONFIG_HOME", str(tmp_path / "configuration")
    )  # not the settings of who runs this
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1773144000")  # 2026-03-10 12:00 UTC
    return folder


@pytest.fixture
def run(here: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    """`run("write", "notes.txt", "--out", "job")` runs the command as the shell would."""

    def run(*arguments: str | Path) -> Ran:
        capsys.readouterr()
        with pytest.raises(SystemExit) as ended:
            main([str(argument) for argument in arguments])
        said = capsys.readouterr()
        return Ran(ended.value.code, said.out, said.err)

    return run


@pytest.fixture
def engines(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[Beeper]:
    """Hearing with a recogniser to which a beep is a word; the list holds every one that was loaded."""
    model = tmp_path / "model"
    model.mkdir()
    for name in ("model.bin", "config.json", "tokenizer.json", "vocabulary.txt"):
        (model / name).write_text(name)
    made: list[Beeper] = []

    def make(folder: Path) -> Beeper:
        made.append(Beeper(folder))
        return made[-1]

    real = fieldnotes.hear.hear
    heard = functools.partial(real, cache=tmp_path / "cache", make_engine=make)
    monkeypatch.setattr(
        fieldnotes.hear, "hear", lambda sources, **given: heard(sources, **{**given, "model": str(model)})
    )
    return made


@pytest.fixture
def beeping(here: Path) -> Path:
    """Six seconds of sound, in which the made-up recogniser hears three words."""
    return write_sound(here / "kitchen.wav", beeps(6.0), "pcm_s16le")


def files_in(folder: Path) -> dict[str, bytes | None]:
    """Every file below a folder and what is in it; None for folders."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else None
        for path in sorted(folder.rglob("*"))
    }
