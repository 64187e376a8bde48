"""Makes of the shop's own list: known by their sound where the unit is named.

A recogniser spells a name that it does not know as it can ("castrain", "hell worth"). What sounds like a make of the
list is taken for it: readily where a make is told ("the make is ..."), and elsewhere near the plate only where it
sounds much like it and is no word of the trade. Where two makes are alike enough, it stays as it was heard.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fieldnotes.sounds import Sounding
from fieldnotes.understand.plate.makes import PLATE_PART
from fieldnotes.understand.words.narration import Narration

Span = tuple[int, int]

LONGEST = 3  # words that a name can have become
SHORTEST = 4  # letters
# Likeness from which a name is taken where a make is told, the same where all its words are known otherwise, and
# elsewhere near the plate. Of 32 makes spoken by two voices 26 were not heard as they are spelt, and 19 of those
# have 0.7 and more. In 154 visits as text, with five lists of 25 invented makes each, the unit's own was always
# found; where it was not on the list, one that sounds like it was put in its place in 60 of 770, of which 54 were
# marked to be checked.
EXPECTED, FAMILIAR, NEAR_PLATE = 0.7, 0.7, 0.8
APART = 0.04  # by which the likeliest make must be ahead of every other
ALMOST = 0.85  # as good as heard: the report need not ask
WRITTEN = 1.0  # confidence of words that nobody had to hear
ANNOUNCING = ("named", "heading")  # values of rules of makes that say so in so many words


@dataclass(frozen=True, slots=True)
class Listed:
    """A make of the list in the words [first, last). `sure`: nearly as it is spelt."""

    make: str
    first: int
    last: int
    sure: bool


class ListedMakes:
    """Finds makes of a list. `familiar`: words that by themselves are no make."""

    def __init__(self, makes: Sequence[str], familiar: frozenset[str]) -> None:
        self._makes, self._familiar = tuple(makes), familiar
        self._sounding = Sounding([_plain(make) for make in makes])

    def told_in(self, narration: Narration, found: Span | None) -> Listed | None:
        """The make that the words tell; None where they tell none of the list. `found`: what stands where a make's
        name can stand."""
        if not self._makes:
            return None
        spans = [*_spans(narration)]
        if not spans:
            return None
        likeness = self._sounding.likeness([_plain(" ".join(narration.words[a:b])) for a, b in spans])
        best: tuple[float, Listed] | None = None
        for span, row in zip(spans, likeness, strict=True):
            at = int(np.argmax(row))
            worth = float(row[at])
            if worth < self._needed(narration, span, found) or (best and worth <= best[0]):
                continue
            if np.sum(row > worth - APART) == 1:
                best = worth, Listed(self._makes[at], *span, sure=worth >= ALMOST)
        return best[1] if best else None

    def _needed(self, narration: Narration, span: Span, found: Span | None) -> float:
        """The likeness that a name needs at its place. What was written, not heard, has to be spelt like it."""
        first, last = span
        if all(token.confidence == WRITTEN for token in narration.tokens[first:last]):
            return 1.0
        announced = _behind_announcement(narration, first, ANNOUNCING)
        known = self._familiar.issuperset(narration.words[first:last]) and not announced
        if known and last - first == 1:
            return 1.0
        overlaps = found is not None and first < found[1] and found[0] < last
        kind_at = narration.kind_at
        expected = (
            announced
            or overlaps
            or _behind_announcement(narration, first)
            or (kind_at is not None and kind_at.last == first)
            or _before_model(narration, last)
        )
        if known:
            return FAMILIAR if expected else 1.0
        return EXPECTED if expected else NEAR_PLATE


def _behind_announcement(narration: Narration, at: int, values: Sequence[str] = ()) -> bool:
    """Whether words that announce a make end right before a word, or before an article in front of it."""
    before = at - (at > 0 and narration.words[at - 1] in narration.grammar.articles)
    begin, _ = narration.breaths[narration.breath_of(at)]
    return any(
        m.last in (at, before) and (m.value in values or not values)
        for m in narration.marked("make", begin, at)
    )


def _before_model(narration: Narration, at: int) -> bool:
    """Whether "model" follows, or "and the model"."""
    _, end = narration.breaths[narration.breath_of(at - 1)]
    words = narration.words
    while at < end and words[at] in ("and", "the", "its"):
        at += 1
    return at < end and bool(narration.marked("model", at, at + 1))


def _spans(narration: Narration) -> list[Span]:
    """All stretches of one to LONGEST words, without a stop or a number in them, near where the unit is named."""
    spans: list[Span] = []
    taken = {n for q in narration.quantities for n in range(q.first, q.last)}
    for first, last in _near_plate(narration):
        for a in range(first, last):
            for b in range(a + 1, min(a + LONGEST, last) + 1):
                if b - 1 in taken or (b - 1 > a and narration.tokens[b - 2].stop):
                    break
                if sum(map(len, narration.words[a:b])) >= SHORTEST:
                    spans.append((a, b))
    return spans


def _near_plate(narration: Narration) -> list[Span]:
    """The breaths in which the unit is named or its plate read, with the one before and behind each."""
    end = int(len(narration.breaths) * PLATE_PART) + 1
    marks = [
        m.first for label in ("make", "model", "serial", "plate") for m in narration.marks.get(label, ())
    ]
    marks += [s.first for s in narration.spelled]
    if narration.kind_at:
        marks.append(narration.kind_at.first)
    at = {narration.breath_of(n) for n in marks}
    near = {b + step for b in at for step in (-1, 0, 1)}
    return [narration.breaths[b] for b in sorted(near) if 0 <= b < min(end, len(narration.breaths))]


def _plain(name: str) -> str:
    return name.lower().replace("-", " ").replace("'", "").replace("&", "and")
