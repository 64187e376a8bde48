"""One recording -> finished slices: decoded as a stream, cut in pauses, recognised, kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import numpy as np

from fieldnotes.hear.breaths import breaths_of
from fieldnotes.hear.cache import KeptSlices, Slice
from fieldnotes.hear.engine import LANGUAGE, Engine, engine_settings
from fieldnotes.hear.pieces import FIRST_S, SLICE_S, Stretch, pieces_of, slice_end
from fieldnotes.hear.progress import Progress
from fieldnotes.hear.sound import RATE, Sound, SoundFile, centred
from fieldnotes.hear.weights import Weights
from fieldnotes.transcript import Breath, Word

ChooseHotwords = Callable[[tuple[Breath, ...]], str | None]  # what was heard so far -> better terms, if any

ENOUGH_TO_TELL_S = 3.0  # less speech says little about its language
FOREIGN = 0.8  # how sure the model must be that it is not English; a proposal, not tuned


@dataclass
class Ear:
    """Hears recordings with one model and one set of settings; the engine is loaded when first needed.

    `hotwords` are told to the engine until `choose_hotwords` finds better ones in what was heard so far.
    """

    weights: Weights
    hotwords: str | None
    cache: Path | None
    progress: Progress
    make_engine: Callable[[Path], Engine]
    choose_hotwords: ChooseHotwords | None = None

    def __post_init__(self) -> None:
        self._heard: list[Breath] = []  # so far in this visit
        self._chosen: str | None = None

    @cached_property
    def engine(self) -> Engine:
        self.progress.stage(f'loading the speech model "{self.weights.name}"')
        return self.make_engine(self.weights.folder())

    @property
    def settings(self) -> dict[str, str | int | float | bool]:
        """What was asked of the engine, for the record."""
        return {**self._asked, "chosen_hotwords": self._chosen or ""}

    @property
    def _asked(self) -> dict[str, str | int | float | bool]:
        """All on which a slice depends, but for chosen hotwords: those it carries itself."""
        first_s = FIRST_S if self.choose_hotwords else SLICE_S
        return {**engine_settings(), "slice_s": SLICE_S, "first_s": first_s, "hotwords": self.hotwords or ""}

    @property
    def _terms(self) -> str:
        """The hotwords to be used now."""
        return self._chosen or self.hotwords or ""

    def listen(self, path: Path, sha256: str) -> list[Slice]:
        """All slices of a recording from its start to its end; those heard before are not heard again."""
        kept = KeptSlices(self.cache, sha256, self.weights.sha256, self._asked)
        slices = self._still_good(kept.read())
        if slices and slices[-1].last:
            return slices
        engine = self.engine
        self.progress.stage(f"hearing {path.name}")
        with SoundFile(path) as file:
            window = _Window(file.blocks(), slices[-1].end if slices else 0.0)
            self.progress.heard(window.start_s, file.declared_s)  # from here on time is taken
            while not (slices and slices[-1].last):
                fresh = self._slice(engine, file, window, slices)
                failed = kept.write(len(slices), fresh)
                if failed and not any(failed in each.notices for each in slices):
                    fresh = fresh.model_copy(update={"notices": (*fresh.notices, failed)})
                slices.append(fresh)
                self._take(fresh)
        return slices

    def _still_good(self, kept: list[Slice]) -> list[Slice]:
        """Kept slices up to the first that would be heard with other hotwords now."""
        good: list[Slice] = []
        for each in kept:
            if each.hotwords != self._terms:
                break
            good.append(each)
            self._take(each)
        return good

    def _take(self, fresh: Slice) -> None:
        """Let the slice's words say which hotwords the next is heard with."""
        self._heard += fresh.breaths
        if self.choose_hotwords and self._chosen is None and fresh.breaths:
            self._chosen = self.choose_hotwords(tuple(self._heard)) or None

    def _slice(self, engine: Engine, file: SoundFile, window: _Window, before: list[Slice]) -> Slice:
        choosing = self.choose_hotwords and self._chosen is None and not before
        sound = centred(window.fill(FIRST_S if choosing else SLICE_S))
        name, begin, length = file.path.name, window.start_s, len(sound) / RATE
        speech = engine.speech(sound)
        end = length if window.ended else slice_end(speech, length)
        speech = [Stretch(s.start, min(s.end, end)) for s in speech if s.start < end]
        first = not any(each.breaths for each in before)
        notices = self._beforehand(engine, name, sound, speech) if first else []
        terms = engine.fitting(self._terms)[0] if self._terms else None
        words: list[Word] = []
        for heard in engine.recognise(sound, pieces_of(speech, end), terms):
            words += heard.words
            if heard.doubtful:
                a, b = begin + heard.piece[0].start, begin + heard.piece[-1].end
                notices.append(
                    f"{name}: some of what was heard from {a:.0f} s to {b:.0f} s made no sense"
                    " and was left out"
                )
            self.progress.heard(begin + heard.piece[-1].end, file.declared_s)
        self.progress.heard(begin + end, file.declared_s)
        window.drop(end)
        return Slice(
            start=begin,
            end=window.start_s,
            last=window.ended,
            hotwords=self._terms,
            breaths=tuple(breaths_of(words, speech, begin)),
            notices=(*notices, *(file.notices() if window.ended else ())),
        )

    def _beforehand(self, engine: Engine, name: str, sound: Sound, speech: list[Stretch]) -> list[str]:
        """What the first speech of a recording shows: another language, or too many hotwords."""
        notices = []
        if sum(stretch.seconds for stretch in speech) >= ENOUGH_TO_TELL_S:
            spoken = np.concatenate([sound[round(s.start * RATE) : round(s.end * RATE)] for s in speech])
            told = engine.language(spoken[: 30 * RATE])
            if told and told[0] != LANGUAGE and told[1] >= FOREIGN:
                notices.append(
                    f'{name}: the speech seems to be no English (but "{told[0]}"); it was heard as English'
                )
        if speech and self._terms and (left_out := engine.fitting(self._terms)[1]):
            notices.append(
                f"{name}: the last {left_out} of the terms to listen for did not fit and were left out"
            )
        return notices


class _Window:
    """The stretch of a stream that is at hand."""

    def __init__(self, blocks: Iterator[Sound], start_s: float) -> None:
        self._blocks = blocks
        self._held = np.zeros(0, dtype=np.float32)
        self._start = 0
        self.ended = False
        self._skip(round(start_s * RATE))

    @property
    def start_s(self) -> float:
        return self._start / RATE

    def fill(self, seconds: float) -> Sound:
        """Read on until so much is at hand or the stream ends."""
        blocks, size = [self._held], len(self._held)
        while size < seconds * RATE:
            block = next(self._blocks, None)
            if block is None:
                self.ended = True
                break
            blocks.append(block)
            size += len(block)
        self._held = np.concatenate(blocks)
        return self._held

    def drop(self, seconds: float) -> None:
        """Forget the window's first seconds; the next begins there."""
        samples = round(seconds * RATE)
        self._held = self._held[samples:].copy()
        self._start += samples

    def _skip(self, samples: int) -> None:
        while self._start < samples:
            block = next(self._blocks, None)
            if block is None:
                break
            taken = min(len(block), samples - self._start)
            self._start += taken
            self._held = block[taken:]
