"""What was heard of spoken visits in each condition, kept in a file: a second run reads the same words."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Callable
from pathlib import Path

import soundfile  # type: ignore[import-untyped]

from fieldnotes.hear import hear
from fieldnotes.hear.engine import Engine
from fieldnotes.hear.terms import Terms
from fieldnotes.hear.whisper import Whisper
from fieldnotes.transcript import Breath, Transcript
from tests.benchmarks.hearing_sounds import RATE, Line, Spoken, in_noise

LEAD_S = 2.0  # of noise before and after each visit


class Ear:
    """Hears with one engine. `choose_terms`: as of hear; without it the kind of appliance is never told apart."""

    def __init__(
        self,
        path: Path,
        model: str | None,
        terms: Terms,
        choose_terms: Callable[[tuple[Breath, ...]], Terms | None] | None = None,
    ) -> None:
        self._path, self._model, self._terms, self._choose_terms = path, model, terms, choose_terms
        self._kept: dict[str, object] = json.loads(path.read_text("utf-8")) if path.is_file() else {}
        self._engine: Engine | None = None

    def heard(self, speech: Spoken, condition: str) -> tuple[Transcript, list[Line]]:
        """What is heard of the speech in a condition ("clean", "wash:10"), and where its lines lie."""
        noise, _, level = condition.partition(":")
        sound, lines = in_noise(speech, noise, float(level or 0), lead_s=LEAD_S)
        key = f"{speech.name} {condition} {self._model or ''}"
        if key not in self._kept:
            with tempfile.TemporaryDirectory() as folder:
                path = Path(folder) / "visit.wav"
                soundfile.write(path, sound, RATE, subtype="PCM_16")
                self._kept[key] = self._hear(path).model_dump()
            self._path.write_text(json.dumps(self._kept), encoding="utf-8")
        return Transcript.model_validate(self._kept[key]), lines

    def _hear(self, path: Path) -> Transcript:
        return hear(
            [path],
            model=self._model,
            terms=self._terms,
            choose_terms=self._choose_terms,
            cache=None,
            make_engine=self._engine_of,
        )

    def _engine_of(self, folder: Path) -> Engine:
        self._engine = self._engine or Whisper(folder)
        return self._engine
