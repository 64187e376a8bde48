"""A speech recogniser behind one small interface, so that another can take its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from fieldnotes.hear.pieces import Piece, Stretch
from fieldnotes.hear.sound import Sound
from fieldnotes.hear.terms import Terms
from fieldnotes.transcript import Word

LANGUAGE = "en"  # the one that is heard, by its code


@dataclass(frozen=True, slots=True)
class Heard:
    """One piece as recognised. `words` carry times of the sound at hand; `doubtful`: some were left out.

    `english` is how likely the piece is English, None where the model knows nothing else.
    """

    piece: Piece
    words: tuple[Word, ...]
    doubtful: bool = False
    english: float | None = None


class Engine(Protocol):
    """A recogniser. Sound is float32, mono, 16 kHz; all times are seconds from its start."""

    def speech(self, sound: Sound) -> list[Stretch]:
        """Where somebody speaks, in order, without the pauses."""

    def languages(self, sound: Sound, piece: Piece) -> Mapping[str, float] | None:
        """How likely each language is for a piece, by its code; None where the model knows only one."""

    def fitting(self, hotwords: str) -> tuple[str, int]:
        """As many of the comma-separated terms as the model takes, and how many are left out."""

    def recognise(self, sound: Sound, pieces: Sequence[Piece], terms: Terms) -> Iterator[Heard]:
        """What is said in each piece, in order. `terms.hotwords` fit the model."""
