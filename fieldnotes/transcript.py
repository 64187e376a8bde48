"""What hearing hands on: words with times, in breaths. Times are seconds from the first recording's start."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field


class Plain(BaseModel):
    """Base of all records: immutable, and closed to unknown fields."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Word(Plain):
    """One word as heard, with its punctuation, e.g. `"ohms,"`.

    `start` and `end` are None in notes that carry no times. `confidence` is the recogniser's probability,
    1.0 for written text.
    """

    text: str
    start: float | None = None
    end: float | None = None
    confidence: float = Field(default=1.0, ge=0, le=1)


class Breath(Plain):
    """Words spoken in one go, between two pauses; in a .vtt file one cue, in plain notes one line."""

    words: tuple[Word, ...]
    part: int = 0  # index of the recording it belongs to


class Recording(Plain):
    """One source file of the visit. `starts_at` is where it begins on the visit's clock, in seconds."""

    file: str
    sha256: str
    seconds: float | None = None
    starts_at: float = 0.0
    silenced_from: str | None = None  # SHA-256 of the recording that this is a silenced copy of


class Transcript(Plain):
    """All breaths of a visit in spoken order, and what they came from."""

    breaths: tuple[Breath, ...]
    recordings: tuple[Recording, ...]
    speech_model: str | None = None  # None: nothing was recognised, the words came as text
    settings: dict[str, str | int | float | bool] = Field(default_factory=dict)
    notices: tuple[str, ...] = ()  # e.g. "kitchen.m4a: no speech found"
