"""One recording -> finished slices: decoded as a stream, cut in pauses, recognised, kept."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

import numpy as np

from fieldnotes.hear.breaths import breaths_of
from fieldnotes.hear.cache import BegunSlice, KeptSlices, Slice
from fieldnotes.hear.engine import Engine, Heard
from fieldnotes.hear.languages import Foreign, foreign_turns, without
from fieldnotes.hear.pieces import FIRST_S, SLICE_S, Stretch, full_slice_end, pieces_of
from fieldnotes.hear.progress import Progress
from fieldnotes.hear.sound import RATE, Sound, SoundFile, centred
from fieldnotes.hear.terms import Terms
from fieldnotes.hear.weights import Weights
from fieldnotes.hear.whisper import engine_settings
from fieldnotes.hear.window import Window
from fieldnotes.transcript import Breath

ChooseTerms = Callable[[tuple[Breath, ...]], Terms | None]  # what was heard so far -> better terms, if any


@dataclass(frozen=True, slots=True)
class Cut:
    """A place in a recording."""

    path: Path
    sha256: str
    at_s: float


@dataclass(frozen=True, slots=True)
class _Passage:
    """What is heard in some sound. Times are those of the recording."""

    breaths: tuple[Breath, ...]
    foreign: tuple[Foreign, ...]
    notices: tuple[str, ...]


@dataclass
class Ear:
    """Hears recordings with one model and one set of settings; the engine is loaded when first needed.

    `terms` are told to the engine until `choose_terms` finds better ones in what was heard so far. When the first
    slice of a visit tells them, it is heard once more with them: in it people say what they stand in front of.
    """

    weights: Weights
    terms: Terms
    cache: Path | None
    progress: Progress
    make_engine: Callable[[Path], Engine]
    choose_terms: ChooseTerms | None = None

    def __post_init__(self) -> None:
        self._heard: list[Breath] = []  # so far in this visit
        self._chosen: Terms | None = None

    @cached_property
    def engine(self) -> Engine:
        self.progress.stage(f'loading the speech model "{self.weights.name}"')
        return self.make_engine(self.weights.folder())

    @property
    def settings(self) -> dict[str, str | int | float | bool]:
        """What was asked of the engine, for the record."""
        return {**self._asked, "chosen_hotwords": self._chosen.hotwords if self._chosen else ""}

    @property
    def _asked(self) -> dict[str, str | int | float | bool]:
        """All on which a slice depends, but for the chosen terms: those it carries itself."""
        return {
            **engine_settings(),
            "slice_s": SLICE_S,
            "first_s": FIRST_S if self.choose_terms else SLICE_S,
            "hotwords": self.terms.hotwords,
            "terms": self.terms.digest,
        }

    @property
    def _terms(self) -> Terms:
        """The terms to be used now."""
        return self._chosen or self.terms

    def listen(self, path: Path, sha256: str) -> list[Slice]:
        """All slices of a recording from its start to its end; those heard before are not heard again."""
        kept = KeptSlices(self.cache, sha256, self.weights.sha256, self._asked)
        slices = self._still_good(kept.read())
        if slices and slices[-1].last:
            return slices
        engine = self.engine
        self.progress.stage(f"hearing {path.name}")
        with SoundFile(path) as file:
            window = Window(file.blocks(), slices[-1].end if slices else 0.0)
            while not (slices and slices[-1].last):
                fresh = self._slice(engine, file, window, slices, kept)
                failed = kept.write(len(slices), fresh)
                if failed and not any(failed in each.notices for each in slices):
                    fresh = fresh.model_copy(update={"notices": (*fresh.notices, failed)})
                slices.append(fresh)
                self._take(fresh)
        return slices

    def listen_across(self, before: Cut, after: Cut) -> tuple[Breath, ...]:
        """What is said from a place in one recording, over its end, to a place in the next.

        The times of the breaths are on the first one's clock.
        """
        both = f"{before.sha256} {before.at_s} {after.sha256} {after.at_s}"
        kept = KeptSlices(self.cache, both, self.weights.sha256, self._asked)
        for known in kept.read():
            if known.terms == self._terms.digest:
                return known.breaths
        engine = self.engine
        self.progress.stage(f"hearing from {before.path.name} on into {after.path.name}")
        with SoundFile(before.path) as file:
            tail = Window(file.blocks(), before.at_s).fill(math.inf)
        with SoundFile(after.path) as file:
            head = Window(file.blocks(), 0.0).fill(after.at_s)[: round(after.at_s * RATE)]
        sound = centred(np.concatenate([tail, head]))
        begun = kept.begun(0, before.at_s, self._terms.digest)
        breaths = self._passage(engine, before.path.name, sound, engine.speech(sound), begun, None).breaths
        length, terms = len(sound) / RATE, self._terms.digest
        kept.write(0, Slice(start=0.0, end=length, last=True, terms=terms, breaths=breaths))
        return breaths

    def _still_good(self, kept: list[Slice]) -> list[Slice]:
        """Kept slices up to the first that would be heard with other terms now."""
        good: list[Slice] = []
        for each in kept:
            before, known = list(self._heard), self._chosen
            self._take(each)
            if each.terms != self._terms.digest and (known or each.terms != self.terms.digest):
                self._heard, self._chosen = before, known
                break
            good.append(each)
        return good

    def _take(self, fresh: Slice) -> None:
        """Let the slice's words say which terms the next is heard with."""
        self._heard += fresh.breaths
        if self.choose_terms and self._chosen is None and fresh.breaths:
            self._chosen = self.choose_terms(tuple(self._heard))

    def _slice(
        self, engine: Engine, file: SoundFile, window: Window, before: list[Slice], kept: KeptSlices
    ) -> Slice:
        choosing = self.choose_terms and self._chosen is None and not before
        sound = centred(window.fill(FIRST_S if choosing else SLICE_S))
        name, begin, length = file.path.name, window.start_s, len(sound) / RATE
        speech = engine.speech(sound)
        end = length if window.ended else full_slice_end(speech, length)
        speech = [Stretch(s.start, min(s.end, end)) for s in speech if s.start < end]
        first = not any(each.breaths for each in before)
        notices = self._too_many_terms(engine, name) if first and speech else []
        heard = sound[: round(end * RATE)]
        begun = kept.begun(len(before), begin, self._terms.digest)
        passage = self._passage(engine, name, heard, speech, begun, file.declared_s)
        if choosing and not self._heard and passage.breaths and self.choose_terms:
            self._chosen = self.choose_terms(passage.breaths)
            if self._chosen:
                begun = kept.begun(len(before), begin, self._terms.digest)
                passage = self._passage(engine, name, heard, speech, begun, file.declared_s)
        self.progress.heard(begin + end, file.declared_s)
        window.drop(end)
        return Slice(
            start=begin,
            end=window.start_s,
            last=window.ended,
            terms=self._terms.digest,
            breaths=passage.breaths,
            speech=(begin + speech[0].start, begin + speech[-1].end) if speech else None,
            foreign=passage.foreign,
            notices=(*notices, *passage.notices, *(file.notices() if window.ended else ())),
        )

    def _fitting(self, engine: Engine) -> Terms:
        """The terms with as many hotwords as the engine takes."""
        return replace(self._terms, hotwords=engine.fitting(self._terms.hotwords)[0])

    def _passage(
        self,
        engine: Engine,
        name: str,
        sound: Sound,
        speech: Sequence[Stretch],
        begun: BegunSlice,
        declared_s: float | None,
    ) -> _Passage:
        """Hear those pieces of a passage that no earlier run has heard, and put all of them together."""
        pieces = pieces_of(speech, len(sound) / RATE)
        begun.take_up(pieces)
        done = len(begun.heard)
        self.progress.heard(begun.start + (pieces[done - 1][-1].end if done else 0.0), declared_s)
        terms = self._fitting(engine)
        for heard in engine.recognise(sound, pieces[done:], terms):
            begun.add(heard)
            self.progress.heard(begun.start + heard.piece[-1].end, declared_s)
        english, foreign = _in_english(engine, sound, begun, terms)
        spans = [
            (begun.start + each.piece[0].start, begun.start + each.piece[-1].end)
            for each in english
            if each.doubtful
        ]
        return _Passage(
            tuple(breaths_of([word for each in english for word in each.words], speech, begun.start)),
            tuple(foreign),
            tuple(
                f"{name}: some of what was heard from {a:.0f} s to {b:.0f} s made no sense and was left out"
                for a, b in spans
            ),
        )

    def _too_many_terms(self, engine: Engine, name: str) -> list[str]:
        left_out = engine.fitting(self._terms.hotwords)[1]
        if not left_out:
            return []
        return [f"{name}: the last {left_out} of the terms to listen for did not fit and were left out"]


def _in_english(
    engine: Engine, sound: Sound, begun: BegunSlice, terms: Terms
) -> tuple[list[Heard], list[Foreign]]:
    """What was heard without the turns in another language: pieces that hold some are heard again without."""
    turns = foreign_turns(
        [(each.piece, each.english) for each in begun.heard],
        lambda piece: engine.languages(sound, piece) or {},
    )
    heard: list[Heard] = []
    for each in begun.heard:
        rest = without(each.piece, turns)
        if rest == each.piece:
            heard.append(each)
        elif rest:
            heard += engine.recognise(sound, [rest], terms)
    return heard, [turn.later(begun.start) for turn in turns]
