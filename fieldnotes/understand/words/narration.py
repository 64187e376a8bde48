"""A visit's words with all that the vocabulary recognises in them: what every later step reads.

Reads tidied text; adds marks (rule phrases), mentions (names of things), the kind of appliance, and clauses.
Fillers ("uh") and names that were mended at once ("the belt, sorry, the idler") are left out of `words`;
`tokens` are what remains, each with its times and the word as heard.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, field
from typing import TypeVar

from fieldnotes.tidy.text import SENTENCE_ENDS, Quantity, Spelled, Token
from fieldnotes.understand.words.nouns import Mention
from fieldnotes.vocabulary.grammar import Grammar
from fieldnotes.vocabulary.rules import Rule
from fieldnotes.vocabulary.trade import TradeWords


@dataclass(frozen=True, slots=True)
class Mark:
    """A rule's phrase found in the words [first, last)."""

    rule: Rule
    first: int
    last: int

    @property
    def value(self) -> str:
        return self.rule.value or ""


Placed = TypeVar("Placed", Mark, Mention, Quantity)


@dataclass(frozen=True)
class Narration:
    """All words of a visit, in order, and what is recognised in them. Ranges are half-open word indices."""

    tokens: tuple[Token, ...]
    breaths: tuple[tuple[int, int], ...]
    grammar: Grammar
    trade: TradeWords
    kind: str | None  # kind of appliance
    kind_at: Mention | None  # where it was said; None: inferred from parts
    marks: dict[str, tuple[Mark, ...]]  # by label, in order
    mentions: tuple[Mention, ...]  # parts, conditions and trials, one meaning for each stretch
    symptoms: tuple[Mention, ...]
    quantities: tuple[Quantity, ...]
    spelled: tuple[Spelled, ...]
    words: tuple[str, ...] = field(default=())
    degrees: str = "degF"  # the scale of temperatures said without one
    measured: frozenset[int] = frozenset()  # words right behind a number with its unit
    nouns: frozenset[str] = frozenset()  # words in which names of parts end: valve, pressure, joint ...
    inside: frozenset[int] = frozenset()  # words within a number or a name: no clause starts there

    def marked(self, label: str, first: int, last: int) -> list[Mark]:
        """Marks of a label that start within [first, last)."""
        return _starting(self.marks.get(label, ()), first, last)

    def named(self, first: int, last: int, sort: str = "part") -> list[Mention]:
        """Mentions of a sort within [first, last)."""
        found = self.symptoms if sort == "symptom" else self.mentions
        return [m for m in _starting(found, first, last) if m.name.sort == sort and m.last <= last]

    def numbers(self, first: int, last: int) -> list[Quantity]:
        return [q for q in _starting(self.quantities, first, last) if q.last <= last]

    def breath_of(self, word: int) -> int:
        return self.tokens[word].breath

    def sentence_begins(self, word: int) -> int:
        """The first word of the sentence that a word stands in; no sentence reaches over a breath."""
        begin, _ = self.breaths[self.breath_of(word)]
        stops = (n + 1 for n in range(word - 1, begin - 1, -1) if self.tokens[n].stop in SENTENCE_ENDS)
        return next(stops, begin)


def _starting(spans: tuple[Placed, ...], first: int, last: int) -> list[Placed]:
    """Those of the spans, which are in order, that start within [first, last)."""
    begin = bisect_left(spans, first, key=_place)
    return list(spans[begin : bisect_left(spans, last, begin, key=_place)]) if last > first else []


def _place(span: Mark | Mention | Quantity) -> int:
    return span.first
