"""A speech recogniser behind one small interface, so that another can take its place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from fieldnotes.hear.pieces import Piece, Stretch
from fieldnotes.hear.sound import Sound
from fieldnotes.hear.terms import Terms
from fieldnotes.transcript import Word

LANGUAGE = "en"


@dataclass(frozen=True, slots=True)
class Heard:
    """One piece as recognised. `words` carry times of the sound at hand; `doubtful`: some were left out."""

    piece: Piece
    words: tuple[Word, ...]
    doubtful: bool = False


class Engine(Protocol):
    """A recogniser. Sound is float32, mono, 16 kHz; all times are seconds from its start."""

    def speech(self, sound: Sound) -> list[Stretch]:
        """Where somebody speaks, in order, without the pauses."""

    def language(self, sound: Sound) -> tuple[str, float] | None:
        """The likeliest language and its probability; None where the model knows only one."""

    def fitting(self, hotwords: str) -> tuple[str, int]:
        """As many of the comma-separated terms as the model takes, and how many are left out."""

    def recognise(self, sound: Sound, pieces: Sequence[Piece], terms: Terms) -> Iterator[Heard]:
        """What is said in each piece, in order. `terms.hotwords` fit the model."""
