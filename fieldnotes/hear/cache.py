"""What was heard once is kept, so that a stop loses seconds of work at most and a second run is instant.

Finished slices are kept for good; of the slice at hand the pieces heard so far, until it is finished.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from pydantic import ValidationError

from fieldnotes.hear.engine import Heard
from fieldnotes.hear.languages import Foreign
from fieldnotes.hear.pieces import Piece
from fieldnotes.transcript import Breath, Plain

HEARING = 10  # raise it whenever the same sound and settings can give other words, times or breaths


class Slice(Plain):
    """A finished slice of a recording. Times are seconds from the recording's own start."""

    start: float
    end: float
    last: bool
    terms: str  # digest of those that it was heard with
    breaths: tuple[Breath, ...]
    speech: tuple[float, float] | None = None  # from the first to the last of it; None: nobody speaks
    foreign: tuple[Foreign, ...] = ()  # turns in another language, left out
    notices: tuple[str, ...] = ()


class Begun(Plain):
    """A slice that is not finished: what was heard of its first pieces, on the slice's own clock."""

    start: float
    terms: str  # their digest
    heard: tuple[Heard, ...]


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
            _save(self._file(self._folder, number), piece)
            self._begun(self._folder, number).unlink(missing_ok=True)
        except OSError as fault:
            return f"what was heard could not be kept in {self._folder}: {fault.strerror}"
        return None

    def begun(self, number: int, start: float, terms: str) -> BegunSlice:
        """The slice that is heard next; `terms`: digest of those that it is heard with."""
        return BegunSlice(self._begun(self._folder, number) if self._folder else None, start, terms)

    @staticmethod
    def _file(folder: Path, number: int) -> Path:
        return folder / f"{number:04d}.json"

    @staticmethod
    def _begun(folder: Path, number: int) -> Path:
        return folder / f"{number:04d}.begun"


class BegunSlice:
    """The pieces of one slice as far as they are heard, kept after each."""

    def __init__(self, path: Path | None, start: float, terms: str) -> None:
        self._path = path
        self._now = Begun(start=start, terms=terms, heard=())

    @property
    def start(self) -> float:
        return self._now.start

    @property
    def heard(self) -> tuple[Heard, ...]:
        return self._now.heard

    def take_up(self, pieces: Sequence[Piece]) -> None:
        """Begin with what an earlier run heard of the first of these pieces before it was stopped."""
        if self._path is None:
            return
        with suppress(OSError, ValidationError):
            before = Begun.model_validate_json(self._path.read_bytes())
            same = (before.start, before.terms) == (self._now.start, self._now.terms)
            if same and [each.piece for each in before.heard] == list(pieces[: len(before.heard)]):
                self._now = before

    def add(self, heard: Heard) -> None:
        """One more piece. That it cannot be kept is told when the slice is written."""
        self._now = self._now.model_copy(update={"heard": (*self._now.heard, heard)})
        if self._path is not None:
            with suppress(OSError):
                _save(self._path, self._now)


def _save(path: Path, record: Plain) -> None:
    """Beside first, so that a stop at any moment leaves no half file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, beside = tempfile.mkstemp(dir=path.parent, suffix=".part")
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(record.model_dump_json())
    Path(beside).replace(path)
