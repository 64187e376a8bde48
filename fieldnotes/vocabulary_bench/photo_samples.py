"""Cues of photographs against the samples that stand beside them."""

from __future__ import annotations

from collections.abc import Iterator

from fieldnotes.photos.cues import CueFinder
from fieldnotes.transcript import Breath, Word
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.photos import PhotoWords
from fieldnotes.vocabulary_bench.opened import Mistake, Opened


def photo_sample_mistakes(opened: Opened, vocabulary: Vocabulary) -> Iterator[Mistake]:
    """Cues that miss what they say they find; near misses in which any cue is found."""
    finder = CueFinder(vocabulary.photos, vocabulary.grammar)
    for source, photos in opened.all_of(PhotoWords):
        for n, cue in enumerate(photos.cues):
            for k, sample in enumerate(cue.finds):
                if cue.id not in {found.id for found in finder.find(_breath(sample))}:
                    text = (
                        f'cue "{cue.id}" does not find its sample "{sample}". Add the wording to its phrases.'
                    )
                    yield source.mistake(("cues", n, "finds", k), text)
            for k, sample in enumerate(cue.misses):
                for found in finder.find(_breath(sample)):
                    text = (
                        f'cue "{found.id}" finds "{found.evidence.quote}" in the miss "{sample}". Narrow it.'
                    )
                    yield source.mistake(("cues", n, "misses", k), text)


def _breath(sentence: str) -> Breath:
    return Breath(words=tuple(Word(text=word) for word in sentence.split()))
