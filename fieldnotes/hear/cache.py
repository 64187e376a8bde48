"""What was heard once is kept, slice by slice, so that a stop loses nothing and a second run is instant."""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

import platformdirs
from pydantic import ValidationError

from fieldnotes.transcript import Breath, Plain

USER_CACHE = Path(platformdirs.user_cache_dir("fieldnotes", appauthor=False))
HEARING = 5  # raise it whenever the same sound and settings can give other words, times or breaths


class Slice(Plain):
    """A finished slice of a recording. Times are seconds from the recording's own start."""

    start: float
    end: float
    last: bool
    terms: str  # digest of those that it was heard with
    breaths: tuple[Breath, ...]
    notices: tuple[str, ...] = ()


class KeptSlices:
    """The slices of one recording, heard with one model and one set of settings. `cache` None: keeps none."""

    def __init__(self, cache: Path | None, sound: str, weights: str, settings: Mapping[str, object]) -> None:
        """`sound` and `weights` are SHA-256 in hex."""
        what = json.dumps([HEARING, sound, weights, dict(settings)], sort_keys=True)
        self._folder = cache / "heard" / hashlib.sha256(what.encode()).hexdigest() if cache else None

    def read(self) -> list[Slice]:
        """The slices from the start on, up to the first that is missing or damaged.

        Their settings are the same, their terms need not be: those can come from the slices before.
        """
        found: list[Slice] = []
        while self._folder and not (found and found[-1].last):
            try:
                piece = Slice.model_validate_json(self._file(self._folder, len(found)).read_bytes())
            except (OSError, ValidationError):
                break
            if piece.start != (found[-1].end if found else 0.0):
                break
            found.append(piece)
        return found

    def write(self, number: int, piece: Slice) -> str | None:
        """Keep a slice. Comes back with a notice when that fails: hearing goes on without."""
        if self._folder is None:
            return None
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            handle, beside = tempfile.mkstemp(dir=self._folder, suffix=".part")
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(piece.model_dump_json())
            Path(beside).replace(self._file(self._folder, number))
        except OSError as fault:
            return f"what was heard could not be kept in {self._folder}: {fault.strerror}"
        return None

    @staticmethod
    def _file(folder: Path, number: int) -> Path:
        return folder / f"{number:04d}.json"
