"""faster-whisper as the engine: the only module that imports it, and only when an engine is made.

Each piece is encoded once; what is said in it, how probable another wording is and when each word was said are
then asked of the same encoded sound.
"""

from __future__ import annotations

import ctypes
import os
import zlib
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import dataclass, replace
from importlib.metadata import version
from pathlib import Path
from typing import Any

import numpy as np

from fieldnotes.errors import WeightsError
from fieldnotes.hear.alignment import AlignedWord, aligned_words, parts_of
from fieldnotes.hear.engine import LANGUAGE, Heard
from fieldnotes.hear.packing import Packing
from fieldnotes.hear.pieces import Piece, Stretch
from fieldnotes.hear.second_look import Judge, Text, looked_at_again, replaced
from fieldnotes.hear.sound import RATE, Sound, loud_enough
from fieldnotes.hear.spelling_pass import heard_twice, is_spelled
from fieldnotes.hear.terms import Terms
from fieldnotes.transcript import Word

# Settings and thresholds as measured in the project's comparison of ways to decode: int8 costs no accuracy. In wash at
# 10 dB 5 beams took a quarter more time than 3, for 27.1 to 26.8 % of words wrong; 2 beams saved a fifth, for 28.1 %.
# Pieces are decoded without time marks: only so is the model not led by hotwords to leave out lines.
COMPUTE, BEAM = "int8", 3
WORKERS = 2  # pieces at once, with half the processors each
VOICE_THRESHOLD = 0.35  # 0.5 loses 6 to 10 % more of the speech at 0 dB; 0.2 lets noise through at 5 dB
MIN_SPEECH_MS, MIN_PAUSE_MS = 100, 200
MAX_SPEECH_S = 28.0  # speech without any pause is cut at the shortest of rests before this
LOOP_COMPRESSION = 2.0  # text that compresses better repeats itself: loops 2.5 and more, speech up to 1.75
NO_SPEECH, DOUBTFUL_LOGPROB = 0.6, -0.7
# Of 34 pieces of speech in noise, the 5 below -0.85 had 96 to 112 % of their words wrong, all others at most 86 %;
# noise alone gives -1.2 to -2.4.
INVENTED_LOGPROB = -0.78
HOTWORD_TOKENS = 223  # as many as the model's prompt takes
MOST_TOKENS = 448  # of prompt and text together
# The recogniser punctuates as its prompt does: after a bare list of terms it writes commas and no full stops.
# These sentences behind the list bring the stops back (found 89 % of those of spoken visits, 17 % without) and
# report nothing, should noise ever repeat them.
AFTER_HOTWORDS = ". Okay. Let me see. All right."
LANGUAGE_STEP_S = 5  # the engine keeps 1 MB and more for each length it ever encoded, so there are six
WINDOW_FRAMES = 3000  # of 10 ms: what the engine hears at once


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
    """faster-whisper on the processor, with our own voice detection, cuts and second look."""

    def __init__(self, folder: Path) -> None:
        """Load the model of a folder. Raises WeightsError when it cannot be loaded."""
        from faster_whisper import WhisperModel
        from faster_whisper.tokenizer import Tokenizer  # type: ignore[import-untyped]
        from faster_whisper.transcribe import get_suppressed_tokens  # type: ignore[import-untyped]

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
        several = self._model.model.is_multilingual
        self._tokens = Tokenizer(self._model.hf_tokenizer, several, task="transcribe", language=LANGUAGE)
        self._suppressed = list(get_suppressed_tokens(self._tokens, [-1]))

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
        return self._likely(self._model.encode(features[:, : features.shape[-1] // 2 * 2]))

    def _likely(self, encoded: Any) -> Mapping[str, float]:
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

    def recognise(self, sound: Sound, pieces: Sequence[Piece], terms: Terms) -> Iterator[Heard]:
        """Decode each piece by itself, WORKERS at once. None is longer than the engine's window."""
        workers = ThreadPoolExecutor(WORKERS)
        try:
            yield from workers.map(lambda piece: self._heard(sound, piece, terms), pieces)
        finally:  # when the user stops: pieces at work are not waited for, and no others begun
            workers.shutdown(wait=False, cancel_futures=True)

    def _heard(self, sound: Sound, piece: Piece, terms: Terms) -> Heard:
        packing = Packing(sound, piece)
        encoded = self._encoded(packing.sound)
        words = self._decoded(packing, encoded, terms)
        heard = Heard(piece, words) if words is not None else self._again(sound, piece)
        if not self._model.model.is_multilingual:
            return heard
        return replace(heard, english=self._likely(encoded.features).get(LANGUAGE, 0.0))

    def _again(self, sound: Sound, piece: Piece) -> Heard:
        """A piece that made no sense, in two halves and without the hotwords, which noise likes to repeat.

        In noise louder than the speech this brought back more words than decoding it with fallback to higher
        temperatures, in less time, and without drawing at random; quarters brought back inventions (measured).
        """
        middle = len(piece) // 2
        halves = [half for half in (piece[:middle], piece[middle:]) if half]
        packed = [Packing(sound, half) for half in halves]
        found = [self._decoded(each, self._encoded(each.sound), Terms()) for each in packed]
        return Heard(piece, tuple(word for words in found for word in words or ()), doubtful=None in found)

    def _decoded(self, packing: Packing, encoded: _Encoded, terms: Terms) -> tuple[Word, ...] | None:
        """The words of a packed piece; None where the engine's own figures say that they make no sense."""
        heard = self._said(encoded, terms.hotwords)
        if heard is None:
            return None
        texts, scores = [word.text for word in heard], [word.scores for word in heard]
        chosen = looked_at_again(texts, scores, terms, self._judge(encoded))
        if chosen:
            heard = self._aligned(encoded, [replaced(texts, chosen)])[0]
        words = tuple(_timed(word, packing) for word in heard)
        if terms.spelling and is_spelled(words, packing.seconds, terms.spelling):

            def decode(prompt: str) -> tuple[Word, ...] | None:
                again = self._said(encoded, prompt)
                return None if again is None else tuple(_timed(word, packing) for word in again)

            words = heard_twice(words, decode, terms.spelling)
        return words

    def _said(self, encoded: _Encoded, prompt: str) -> list[AlignedWord] | None:
        """What the recogniser writes after a prompt; None where its own figures say that it makes no sense."""
        (found,) = self._model.model.generate(
            encoded.features,
            [self._model.get_prompt(self._tokens, [], without_timestamps=True, hotwords=prompt or None)],
            beam_size=BEAM,
            max_length=MOST_TOKENS,
            suppress_tokens=self._suppressed,
            return_scores=True,
            return_no_speech_prob=True,
        )
        tokens = found.sequences_ids[0]
        text = self._tokens.decode(tokens).strip()
        logprob = found.scores[0] * len(tokens) / (len(tokens) + 1)  # as its own filters count it
        if _makes_no_sense(text, logprob, found.no_speech_prob):
            return None
        return self._aligned(encoded, [text.split()])[0] if text else []

    def _encoded(self, sound: Sound) -> _Encoded:
        from faster_whisper.audio import pad_or_trim  # type: ignore[import-untyped]

        features = self._model.feature_extractor(sound)
        encoded = self._model.encode(pad_or_trim(features)[np.newaxis])
        return _Encoded(encoded, min(features.shape[-1], WINDOW_FRAMES))

    def _judge(self, encoded: _Encoded) -> Judge:
        """Tells how probable other wordings of the encoded sound are."""
        return lambda texts: [[word.scores for word in text] for text in self._aligned(encoded, texts)]

    def _aligned(self, encoded: _Encoded, texts: Sequence[Text]) -> list[list[AlignedWord]]:
        """When the words of each text are said in the sound, and how probable their tokens are."""
        tokens = [[[self._tokens.encode(part) for part in parts_of(word)] for word in text] for text in texts]
        found = self._model.model.align(
            encoded.repeated(len(texts)),
            list(self._tokens.sot_sequence),
            [[token for word in text for part in word for token in part] for text in tokens],
            encoded.frames,
        )
        return [
            list(aligned_words(text, its, each.alignments, each.text_token_probs))
            for text, its, each in zip(texts, tokens, found, strict=True)
        ]


@dataclass(frozen=True, slots=True)
class _Encoded:
    """A piece of at most 30 s as the model's encoder leaves it; `frames`: of 10 ms, without the padding."""

    features: Any  # the engine's own array, shape (1, 1500, width)
    frames: int

    def repeated(self, times: int) -> Any:
        """The same for so many texts at once."""
        import ctranslate2  # type: ignore[import-untyped]

        if times == 1:
            return self.features
        return ctranslate2.StorageView.from_array(np.repeat(np.array(self.features), times, axis=0))


def _timed(word: AlignedWord, packing: Packing) -> Word:
    start, end = packing.times(word.start, word.end)
    return Word(text=word.text, start=round(start, 2), end=round(end, 2), confidence=min(1.0, word.sure))


def _makes_no_sense(text: str, logprob: float, no_speech: float) -> bool:
    """Whether the engine's own figures say that a text repeats itself or was made up."""
    raw = text.encode()
    repeats = len(raw) / len(zlib.compress(raw)) > LOOP_COMPRESSION if raw else False
    return repeats or (no_speech > NO_SPEECH and logprob < DOUBTFUL_LOGPROB) or logprob < INVENTED_LOGPROB


def _share_one_heap() -> None:
    """Where the C library is glibc, let all threads share one heap: one for each holds 0.1 GB more."""
    with suppress(OSError, AttributeError, TypeError):
        ctypes.CDLL(None).mallopt(-8, 1)  # M_ARENA_MAX of malloc.h


def _cores() -> int:
    """Processors that this program may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
