"""The speech recogniser, behind one small interface so that another can take its place.

The only module that imports faster-whisper, and only when an engine is made.
"""

from __future__ import annotations

import ctypes
import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import dataclass, replace
from importlib.metadata import version
from pathlib import Path
from typing import Any, Protocol

import numpy as np

from fieldnotes.errors import WeightsError
from fieldnotes.hear.packing import Packing
from fieldnotes.hear.pieces import Piece, Stretch
from fieldnotes.hear.sound import RATE, Sound, loud_enough
from fieldnotes.transcript import Word

# Settings and thresholds as measured in the project's comparison of ways to decode: int8 costs no accuracy, and
# beam 5 is worth its price. Pieces go through the engine's batched way one at a time: only that decodes without
# time marks, and so is not led by hotwords to leave out lines; batches of 2 to 8 were no faster than two workers
# and took 0.1 to 0.6 GB more. That way ignores `condition_on_previous_text` and falls back to no temperature.
COMPUTE, BEAM, LANGUAGE = "int8", 5, "en"
WORKERS = 2  # pieces at once, with half the processors each: a third faster than one piece with all of them
VOICE_THRESHOLD = 0.35  # 0.5 loses 6 to 10 % more of the speech at 0 dB; 0.2 lets noise through at 5 dB
MIN_SPEECH_MS, MIN_PAUSE_MS = 100, 200
MAX_SPEECH_S = 28.0  # speech without any pause is cut at the shortest of rests before this
LOOP_COMPRESSION = 2.0  # text that compresses better repeats itself: loops 2.5 and more, speech up to 1.75
NO_SPEECH, DOUBTFUL_LOGPROB = 0.6, -0.7
INVENTED_LOGPROB = -1.0  # noise alone gives -1.2 to -2.4; speech in noise as loud as itself -0.1 to -0.75
LANGUAGE_STEP_S = 5  # the engine keeps 1 MB and more for each length it ever encoded, so there are six
HOTWORD_TOKENS = 223  # as many as the model's prompt takes
# The recogniser punctuates as its prompt does: after a bare list of terms it writes commas and no full stops.
# These sentences behind the list bring the stops back (found 89 % of those of spoken visits, 17 % without) and
# report nothing, should noise ever repeat them.
AFTER_HOTWORDS = ". Okay. Let me see. All right."


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

    def recognise(self, sound: Sound, pieces: Sequence[Piece], hotwords: str | None) -> Iterator[Heard]:
        """What is said in each piece, in order."""


def engine_settings() -> dict[str, str | int | float | bool]:
    """What the engine runs with; part of what a kept slice depends on."""
    return {
        "engine": f"faster-whisper {version('faster-whisper')}",
        "compute": COMPUTE,
        "beam": BEAM,
        "language": LANGUAGE,
        "voice_threshold": VOICE_THRESHOLD,
    }


def hub_folder(name: str, *, online: bool) -> Path:
    """The folder of a model in the Hugging Face cache on this device, fetched first if `online`.

    Raises OSError when it is neither there nor to be had.
    """
    from faster_whisper import download_model  # type: ignore[import-untyped]

    try:
        return Path(download_model(name, local_files_only=not online))
    except Exception as fault:  # its classes differ between versions of the hub's client
        raise OSError(f"{name}: {fault}") from fault


class Whisper:
    """faster-whisper on the processor, batched, with our own voice detection and cuts."""

    def __init__(self, folder: Path) -> None:
        """Load the model of a folder. Raises WeightsError when it cannot be loaded."""
        from faster_whisper import WhisperModel

        _share_one_heap()
        try:
            self._model = WhisperModel(
                str(folder),
                device="cpu",
                compute_type=COMPUTE,
                cpu_threads=max(1, _cores() // WORKERS),
                num_workers=WORKERS,
                local_files_only=True,
            )
        except (RuntimeError, ValueError, OSError) as fault:
            raise WeightsError(
                f"{folder}: is no speech model that can be loaded ({fault});"
                " give --model another folder or name"
            ) from fault

    def speech(self, sound: Sound) -> list[Stretch]:
        """Where somebody speaks, by the Silero voice detector that comes with faster-whisper."""
        from faster_whisper.vad import VadOptions, get_speech_timestamps  # type: ignore[import-untyped]

        if not len(sound):
            return []
        options = VadOptions(
            threshold=VOICE_THRESHOLD,
            min_speech_duration_ms=MIN_SPEECH_MS,
            max_speech_duration_s=MAX_SPEECH_S,
            min_silence_duration_ms=MIN_PAUSE_MS,
            speech_pad_ms=0,
        )
        found = get_speech_timestamps(loud_enough(sound), options, sampling_rate=RATE)
        return [Stretch(each["start"] / RATE, each["end"] / RATE) for each in found]

    def languages(self, sound: Sound, piece: Piece) -> Mapping[str, float] | None:
        """How likely each language is. Only as much is encoded as the piece is long, to the next LANGUAGE_STEP_S:
        3 s take a 20th of the time of the engine's whole window, and tell languages no worse (measured).
        """
        if not self._model.model.is_multilingual:
            return None
        packed = Packing(sound, piece).sound
        step = LANGUAGE_STEP_S * RATE
        features = self._model.feature_extractor(np.pad(packed, (0, -len(packed) % step)), padding=0)
        encoded = self._model.encode(features[:, : features.shape[-1] // 2 * 2])
        return {token[2:-2]: float(share) for token, share in self._model.model.detect_language(encoded)[0]}

    def fitting(self, hotwords: str) -> tuple[str, int]:
        """Whole terms only, as the model would cut its prompt in the middle of one."""
        terms = [term.strip() for term in hotwords.split(",") if term.strip()]
        tokens = self._model.hf_tokenizer
        for count in range(len(terms), 0, -1):
            text = ", ".join(terms[:count]) + AFTER_HOTWORDS
            if len(tokens.encode(f" {text}", add_special_tokens=False).ids) <= HOTWORD_TOKENS:
                return text, len(terms) - count
        return "", len(terms)

    def recognise(self, sound: Sound, pieces: Sequence[Piece], hotwords: str | None) -> Iterator[Heard]:
        """Decode each piece by itself, WORKERS at once. None is longer than the engine's window."""
        workers = ThreadPoolExecutor(WORKERS)
        try:
            yield from workers.map(lambda piece: self._heard(sound, piece, hotwords), pieces)
        finally:  # when the user stops: pieces at work are not waited for, and no others begun
            workers.shutdown(wait=False, cancel_futures=True)

    def _heard(self, sound: Sound, piece: Piece, hotwords: str | None) -> Heard:
        likely = self.languages(sound, piece)
        words = self._decoded(Packing(sound, piece), hotwords)
        heard = Heard(piece, words) if words is not None else self._again(sound, piece)
        return replace(heard, english=likely.get(LANGUAGE, 0.0) if likely else None)

    def _again(self, sound: Sound, piece: Piece) -> Heard:
        """A piece that made no sense, in two halves and without the hotwords, which noise likes to repeat.

        In noise louder than the speech this brought back more words than decoding it with fallback to higher
        temperatures, in less time, and without drawing at random; quarters brought back inventions (measured).
        """
        middle = len(piece) // 2
        halves = [half for half in (piece[:middle], piece[middle:]) if half]
        found = [self._decoded(Packing(sound, half), None) for half in halves]
        return Heard(piece, tuple(word for words in found for word in words or ()), doubtful=None in found)

    def _decoded(self, packing: Packing, hotwords: str | None) -> tuple[Word, ...] | None:
        """The words of a packed piece; None where the engine's own figures say that they make no sense."""
        from faster_whisper import BatchedInferencePipeline

        segments, _ = BatchedInferencePipeline(self._model).transcribe(
            packing.sound,
            language=LANGUAGE,
            beam_size=BEAM,
            batch_size=1,
            word_timestamps=True,
            clip_timestamps=[{"start": 0.0, "end": packing.seconds}],
            hotwords=hotwords or None,
        )
        found = list(segments)
        if any(_doubtful(segment) for segment in found):
            return None
        return tuple(word for segment in found for word in _joined(packing, segment.words or ()))


def _joined(packing: Packing, raw: Iterable[Any]) -> list[Word]:
    """The engine's words, timed by the whole; one without a space before belongs to the last ("top-load").

    A joined word is as doubtful as the worse of its halves.
    """
    words: list[Word] = []
    for each in raw:
        start, end = packing.times(each.start, each.end)
        text, sure = each.word.strip(), min(1.0, float(each.probability))
        if words and text and not each.word[0].isspace():
            last = words.pop()
            text, start, sure = (
                last.text + text,
                last.start if last.start is not None else start,
                min(sure, last.confidence),
            )
        if text:
            words.append(Word(text=text, start=round(start, 2), end=round(end, 2), confidence=sure))
    return words


def _doubtful(segment: Any) -> bool:
    """Whether the engine's own figures say that a segment repeats itself or was made up."""
    unsure = segment.no_speech_prob > NO_SPEECH and segment.avg_logprob < DOUBTFUL_LOGPROB
    return bool(
        segment.compression_ratio > LOOP_COMPRESSION or unsure or segment.avg_logprob < INVENTED_LOGPROB
    )


def _share_one_heap() -> None:
    """Where the C library is glibc, let all threads share one heap: one for each holds 0.1 GB more."""
    with suppress(OSError, AttributeError, TypeError):
        ctypes.CDLL(None).mallopt(-8, 1)  # M_ARENA_MAX of malloc.h


def _cores() -> int:
    """Processors that this program may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
