"""The speech recogniser, behind one small interface so that another can take its place.

The only module that imports faster-whisper, and only when an engine is made.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from importlib.metadata import version
from itertools import groupby
from pathlib import Path
from typing import Any, Protocol

from fieldnotes.errors import WeightsError
from fieldnotes.hear.packing import Packing
from fieldnotes.hear.pieces import Piece, Stretch
from fieldnotes.hear.sound import RATE, Sound, loud_enough
from fieldnotes.transcript import Word

# Settings and thresholds as measured in the project's comparison of ways to decode (int8 costs no accuracy;
# batches save over a third of the time; beam 5 is worth its price). `condition_on_previous_text` and the
# fallback to higher temperatures do not exist in batched decoding: faster-whisper 1.2.1 ignores both.
COMPUTE, BATCH, BEAM, LANGUAGE = "int8", 4, 5, "en"
VOICE_THRESHOLD = 0.35  # 0.5 loses 6 to 10 % more of the speech at 0 dB; 0.2 lets noise through at 5 dB
MIN_SPEECH_MS, MIN_PAUSE_MS = 100, 200
MAX_SPEECH_S = 28.0  # speech without any pause is cut at the shortest of rests before this
LOOP_COMPRESSION = 2.4  # text that compresses better repeats itself
NO_SPEECH, DOUBTFUL_LOGPROB = 0.6, -0.7
INVENTED_LOGPROB = -1.0  # noise alone gives -1.2 to -2.4; speech in noise as loud as itself -0.1 to -0.75
HOTWORD_TOKENS = 223  # as many as the model's prompt takes


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

    def recognise(self, sound: Sound, pieces: Sequence[Piece], hotwords: str | None) -> Iterator[Heard]:
        """What is said in each piece, in order."""


def engine_settings() -> dict[str, str | int | float | bool]:
    """What the engine runs with; part of what a kept slice depends on."""
    return {
        "engine": f"faster-whisper {version('faster-whisper')}",
        "compute": COMPUTE,
        "batch": BATCH,
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
        from faster_whisper import BatchedInferencePipeline, WhisperModel

        try:
            self._model = WhisperModel(
                str(folder), device="cpu", compute_type=COMPUTE, cpu_threads=_cores(), local_files_only=True
            )
        except (RuntimeError, ValueError, OSError) as fault:
            raise WeightsError(
                f"{folder}: is no speech model that can be loaded ({fault});"
                " give --model another folder or name"
            ) from fault
        self._batched = BatchedInferencePipeline(self._model)

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

    def language(self, sound: Sound) -> tuple[str, float] | None:
        """The likeliest language of the first 30 seconds; None where the model knows only English."""
        if not self._model.model.is_multilingual:
            return None
        code, probability, _ = self._model.detect_language(sound)
        return code, float(probability)

    def fitting(self, hotwords: str) -> tuple[str, int]:
        """Whole terms only, as the model would cut its prompt in the middle of one."""
        terms = [term.strip() for term in hotwords.split(",") if term.strip()]
        for count in range(len(terms), 0, -1):
            text = ", ".join(terms[:count])
            if (
                len(self._model.hf_tokenizer.encode(f" {text}", add_special_tokens=False).ids)
                <= HOTWORD_TOKENS
            ):
                return text, len(terms) - count
        return "", len(terms)

    def recognise(self, sound: Sound, pieces: Sequence[Piece], hotwords: str | None) -> Iterator[Heard]:
        """Decode the pieces in batches. Each ends in a pause, and none is longer than the window."""
        packing = Packing(sound, pieces)
        if not pieces:
            return
        segments, _ = self._batched.transcribe(
            packing.sound,
            language=LANGUAGE,
            beam_size=BEAM,
            batch_size=BATCH,
            word_timestamps=True,
            clip_timestamps=packing.clips(),  # in this mode a list of {"start", "end"} in seconds
            hotwords=hotwords or None,
        )
        for seek, group in groupby(segments, key=lambda segment: segment.seek):
            index = packing.index(seek / 100)  # seek: hundredths of a second, rounded down
            found = list(group)
            if any(_doubtful(segment) for segment in found):
                yield self._again(packing, index)
            else:
                words = [word for segment in found for word in _joined(packing, index, segment.words or ())]
                yield Heard(pieces[index], tuple(words))

    def _again(self, packing: Packing, index: int) -> Heard:
        """A piece that made no sense, decoded by itself, falling back to higher temperatures.

        Without hotwords, as this way of decoding leaves out whole lines when it is given any (measured).
        """
        import ctranslate2  # type: ignore[import-untyped]

        ctranslate2.set_random_seed(
            0
        )  # higher temperatures draw at random; the same sound gives the same words
        segments, _ = self._model.transcribe(
            packing.piece(index),
            language=LANGUAGE,
            beam_size=BEAM,
            condition_on_previous_text=False,
            word_timestamps=True,
        )
        words: list[Word] = []
        doubtful = False
        for segment in segments:
            if _doubtful(segment):
                doubtful = True
            else:
                words += _joined(packing, index, segment.words or (), packing.start(index))
        return Heard(packing.pieces[index], tuple(words), doubtful)


def _joined(packing: Packing, index: int, raw: Iterable[Any], begin_s: float = 0.0) -> list[Word]:
    """The engine's words, timed by the whole; one without a space before belongs to the last ("top-load").

    `begin_s`: where the clock of their times begins in the packed sound. A joined word is as doubtful as the
    worse of its halves.
    """
    words: list[Word] = []
    for each in raw:
        start, end = packing.times(index, begin_s + each.start, begin_s + each.end)
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


def _cores() -> int:
    """Processors that this program may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
