"""The small vocabulary in the place of the built-in one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from fieldnotes.vocabulary.load import load_vocabulary

from .small import write_small


@pytest.fixture
def vocab(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The folder of a small vocabulary, taken for the built-in one; paths in messages start at it."""
    folder = tmp_path / "vocab"
    folder.mkdir()
    write_small(folder)
    for module in ("vocabulary.load", "vocabulary_bench.opened", "vocabulary_bench.origins"):
        monkeypatch.setattr(f"fieldnotes.{module}.data_folder", lambda name: tmp_path / name)
    monkeypatch.chdir(folder)
    load_vocabulary.cache_clear()  # it keeps the built-in one by "no folder of a shop's own"
    yield folder
    load_vocabulary.cache_clear()
