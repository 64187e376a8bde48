"""What the recogniser is told of the trade, and which names of it sound like something that was heard."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fieldnotes.hear.spelling_pass import Spelling, spelling_prompt
from fieldnotes.sounds import Sounding

LONGEST = 4  # words of a name
NEAR = 0.6  # likeness that makes a name worth a second look
MOST_NAMES = 2  # of one span


@dataclass(frozen=True, slots=True)
class Near:
    """A name that sounds like the words `first` up to `last`."""

    first: int
    last: int
    name: str
    likeness: float


@dataclass(frozen=True)
class Terms:
    """`hotwords`: terms that the recogniser is told before it hears, comma-separated, most needed first;
    `names`: names of things and what is found of them, lower case, against which it may look again at what it was not
    sure of;
    `spelling`: with it model and serial numbers are heard twice."""

    hotwords: str = ""
    names: tuple[str, ...] = ()
    spelling: Spelling | None = None

    @cached_property
    def digest(self) -> str:
        """What a kept slice was heard with, in few characters."""
        spelt = spelling_prompt(self.spelling.measures) if self.spelling else ""
        return hashlib.sha256("\n".join([self.hotwords, spelt, *self.names]).encode()).hexdigest()[:16]

    @cached_property
    def _sounding(self) -> Sounding:
        return Sounding(self.names)

    @cached_property
    def _run_together(self) -> frozenset[str]:
        return frozenset(name.replace(" ", "") for name in self.names)

    def near(self, words: Sequence[str], doubtful: Sequence[bool]) -> list[Near]:
        """Names that sound like one to LONGEST of the words of which at least one is doubtful.

        A span that is a name already, or differs from the name only by whole words, is left alone; so are
        digits, and spans across a stop.
        """
        if not self.names:
            return []
        spans = list(_spans(words, doubtful))
        heard = [" ".join(bare(word) for word in words[a:b]).strip() for a, b in spans]
        kept = [
            n
            for n, text in enumerate(heard)
            if len(text) > 2 and text.replace(" ", "") not in self._run_together
        ]
        if not kept:
            return []
        likeness = self._sounding.likeness([heard[n] for n in kept])
        return [
            Near(*spans[n], self.names[at], float(row[at]))
            for n, row in zip(kept, likeness, strict=True)
            for at in self._likeliest(heard[n], row)
        ]

    def _likeliest(self, heard: str, row: np.ndarray) -> list[int]:
        """The MOST_NAMES names that are most like the heard words, the most like first."""
        order = [at for at in np.argsort(-row)[:12] if row[at] >= NEAR]
        return [int(at) for at in order if _differ(heard, self.names[at])][:MOST_NAMES]


def bare(word: str) -> str:
    """A heard word's letters, lower case."""
    return re.sub(r"[^a-z']", "", word.lower())


def _spans(words: Sequence[str], doubtful: Sequence[bool]) -> Iterator[tuple[int, int]]:
    for first in range(len(words)):
        for last in range(first + 1, min(first + LONGEST, len(words)) + 1):
            span = words[first:last]
            if any(sign.isdigit() for word in span for sign in word):
                break
            if any(doubtful[first:last]):
                yield first, last
            if span[-1][-1] in ".?!,;:":
                break


def _differ(heard: str, name: str) -> bool:
    """Whether a name is another wording than what was heard, not the same with a word more or less."""
    mine, theirs = heard.split(), name.split()
    if abs(len(mine) - len(theirs)) > 1 or heard.rstrip("s") == name.rstrip("s"):
        return False
    return not (heard in name or name in heard or set(theirs) <= set(mine))
