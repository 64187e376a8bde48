"""What a sum can draw on: the readings of a visit with the words at their numbers, and all numbers that were said."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from fieldnotes.judge.context import NearWords, Surroundings, holds, text_of
from fieldnotes.judge.kinds import Packs
from fieldnotes.judge.words import quotes_of
from fieldnotes.records import Evidence, Reading, Visit
from fieldnotes.tidy import tidy
from fieldnotes.tidy.text import Quantity, TidyText
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.vocabulary.measures import Measures
from fieldnotes.vocabulary.packs import Thermistor

_QUOTED_BEFORE, _QUOTED_AFTER = 6, 2  # words of a quote on either side of its number


@dataclass(frozen=True)
class Read:
    """A reading, the words near it, the words right at its number, and the breaths that it lies in."""

    reading: Reading
    near: NearWords
    at_number: str
    breaths: frozenset[int]


class Heard:
    """All that was said on one visit. Without a transcript each quote of the visit counts as a breath."""

    def __init__(
        self,
        visit: Visit,
        near: list[NearWords],
        around: Surroundings,
        packs: Packs,
        measures: Measures,
        transcript: Transcript | None,
    ) -> None:
        quotes = [quote for quote in dict.fromkeys(quotes_of(visit)) if quote]
        self.around = around
        self._measures = measures
        self._packs = packs
        self._said = transcript or _spoken(quotes)
        self.breaths: tuple[str, ...] = tuple(text_of(breath) for breath in self._said.breaths)
        self.reads: tuple[Read, ...] = tuple(
            Read(
                reading=reading,
                near=words,
                at_number=self._at_number(reading),
                breaths=frozenset(
                    n for n, breath in enumerate(self._said.breaths) if holds(breath, reading.evidence)
                ),
            )
            for reading, words in zip(visit.readings, near, strict=True)
        )

    @property
    def celsius(self) -> bool:
        """Whether temperatures are given in degC: by the readings, else by whose English is spoken."""
        units = [read.reading.unit for read in self.reads]
        counts = units.count("degC"), units.count("degF")
        return counts[0] > counts[1] or (counts[0] == counts[1] and self.around.speech == "commonwealth")

    @cached_property
    def text(self) -> TidyText:
        """The breaths with their numbers. Tidied when a sum first asks for one, for that takes a while."""
        return tidy(self._said, self._measures)

    def numbers(self, breath: int) -> Iterator[Quantity]:
        """The numbers of a breath that were not taken back."""
        first, last = self.text.breaths[breath]
        return (q for q in self.text.quantities if first <= q.first < last and not q.replaced)

    def words(self, first: int, last: int) -> str:
        """Tokens [first, last) as one text."""
        return " ".join(token.text for token in self.text.tokens[first:last])

    def quoted(self, breath: int, first: int, last: int) -> Evidence:
        """The words around tokens [first, last) of a breath, as they were heard."""
        begin, end = self.text.breaths[breath]
        tokens = self.text.tokens[max(begin, first - _QUOTED_BEFORE) : min(end, last + _QUOTED_AFTER)]
        return Evidence(
            start=tokens[0].start,
            end=tokens[-1].end,
            quote=" ".join(token.heard for token in tokens if token.heard),
            confidence=math.fsum(token.confidence for token in tokens) / len(tokens),
        )

    def whole_breath(self, breath: int) -> Evidence:
        words = self._said.breaths[breath].words
        return Evidence(
            start=words[0].start,
            end=words[-1].end,
            quote=self.breaths[breath],
            confidence=math.fsum(word.confidence for word in words) / len(words),
        )

    def thermistor(self, name: str) -> Thermistor | None:
        """What the packs of the visit's kinds say of a part, the narrowest kind first."""
        for kind in self.around.kinds:
            for part in self._packs[kind].parts if kind in self._packs else ():
                if part.name == name and part.thermistor:
                    return part.thermistor
        return None

    def _at_number(self, reading: Reading) -> str:
        """The words of the quote between the number before the reading's own and the one behind it."""
        text = tidy(_spoken([reading.evidence.quote]), self._measures)
        numbers = [q for q in text.quantities if not q.replaced]
        own = [q for q in numbers if math.isclose(q.value, reading.value) and q.unit in (None, reading.unit)]
        if not own:
            return reading.evidence.quote
        measured = [q for q in numbers if not q.ordinal_or_count]
        first = max((q.last for q in measured if q.last <= own[-1].first), default=0)
        last = min((q.first for q in measured if q.first >= own[-1].last), default=len(text.tokens))
        return " ".join(token.text for token in text.tokens[first:last])


def _spoken(lines: list[str]) -> Transcript:
    breaths = (Breath(words=tuple(Word(text=word) for word in line.split())) for line in lines)
    return Transcript(breaths=tuple(breath for breath in breaths if breath.words), recordings=())
