"""The small vocabulary in the place of the built-in one."""

from __future__ import annotations

from pathlib import Path

import pytest

from .small import write_small


@pytest.fixture
def vocab(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of a small vocabulary, taken for the built-in one; paths in messages start at it."""
    folder = tmp_path / "vocab"
    folder.mkdir()
    write_small(folder)
    for module in ("vocabulary.load", "vocabulary_bench.opened", "vocabulary_bench.origins"):
        monkeypatch.setattr(f"fieldnotes.{module}.data_folder", lambda name: tmp_path / name)
    monkeypatch.chdir(folder)
    return folder
