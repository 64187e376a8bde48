"""Where the words of a text lie in a sound and how probable each is, out of what the engine says of its tokens."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

TIME_S = 0.02  # seconds of sound behind one step of the encoded sound


@dataclass(frozen=True, slots=True)
class AlignedWord:
    """A word of a text that was held against a sound. Times are seconds of that sound; `sure` is how probable its
    least sure part is, `scores` the log-probabilities of its tokens."""

    text: str
    start: float
    end: float
    sure: float
    scores: tuple[float, ...]


def parts_of(word: str) -> list[str]:
    """A word as the recogniser's tokens part it at signs: "top-load." -> " top", "-", "load", "."."""
    first, *others = re.findall(r"[\w']+|[^\w']+", word)
    return [f" {first}", *others]


def aligned_words(
    words: Sequence[str],
    tokens: Sequence[Sequence[Sequence[int]]],
    alignments: Sequence[tuple[int, int]],
    probabilities: Sequence[float],
) -> Iterator[AlignedWord]:
    """The words with what the engine found of their tokens, which are given part by part.

    A word is as sure as its least sure part, signs left out; it ends where a sign behind it begins.
    """
    steps = np.array(alignments)
    starts = steps[np.diff(steps[:, 0], prepend=-1) > 0, 1] * TIME_S  # of each token, and of the end
    at = 0
    for word, parts in zip(words, tokens, strict=True):
        first, end = at, at
        sures = []
        for text, part in zip(parts_of(word), parts, strict=True):
            last = at + len(part)
            if any(sign.isalnum() for sign in text):
                end = last
                sures.append(float(np.mean(probabilities[at:last])))
            at = last
        sure = min(sures, default=float(np.mean(probabilities[first:at])))
        scores = np.log(np.maximum(probabilities[first:at], 1e-9)).tolist()
        yield AlignedWord(word, float(starts[first]), float(starts[max(end, first + 1)]), sure, tuple(scores))
