"""A visit's words with all that the vocabulary recognises in them: what every later step reads.

Reads tidied text; adds marks (rule phrases), mentions (names of things), the kind of appliance, and clauses.
Fillers ("uh") are left out of `words`; `tokens` are what remains, each with its times and the word as heard.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import TypeVar

from fieldnotes.tidy.text import Quantity, Spelled, TidyText, Token
from fieldnotes.understand.nouns import SHARED, Mention, NounFinder
from fieldnotes.understand.phrase_net import PhraseNet
from fieldnotes.vocabulary.grammar import Grammar
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.rules import Rule


@dataclass(frozen=True, slots=True)
class Mark:
    """A rule's phrase found in the words [first, last)."""

    rule: Rule
    first: int
    last: int

    @property
    def value(self) -> str:
        return self.rule.value or ""


Span = TypeVar("Span", Mark, Mention)


@dataclass(frozen=True)
class Narration:
    """All words of a visit, in order, and what is recognised in them. Ranges are half-open word indices."""

    tokens: tuple[Token, ...]
    breaths: tuple[tuple[int, int], ...]
    grammar: Grammar
    kind: str | None  # kind of appliance
    kind_at: Mention | None  # where it was said; None: inferred from parts
    marks: dict[str, tuple[Mark, ...]]  # by label, in order
    mentions: tuple[Mention, ...]  # parts, conditions and trials, one meaning for each stretch
    symptoms: tuple[Mention, ...]
    quantities: tuple[Quantity, ...]
    spelled: tuple[Spelled, ...]
    words: tuple[str, ...] = field(default=())
    inside: frozenset[int] = frozenset()  # words within a number or a name: no clause starts there

    def marked(self, label: str, first: int, last: int) -> list[Mark]:
        """Marks of a label that start within [first, last)."""
        return [mark for mark in self.marks.get(label, ()) if first <= mark.first < last]

    def named(self, first: int, last: int, sort: str = "part") -> list[Mention]:
        """Mentions of a sort within [first, last)."""
        found = self.symptoms if sort == "symptom" else self.mentions
        return [m for m in found if m.name.sort == sort and first <= m.first and m.last <= last]

    def numbers(self, first: int, last: int) -> list[Quantity]:
        return [q for q in self.quantities if first <= q.first and q.last <= last]

    def breath_of(self, word: int) -> int:
        return self.tokens[word].breath


class Reader:
    """Turns tidied text into a Narration. Built once for a vocabulary."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self._rules = vocabulary.rules
        self._grammar = vocabulary.grammar
        self._nouns = NounFinder(vocabulary)
        self._net = PhraseNet((n, phrase) for n, rule in enumerate(self._rules) for phrase in rule.phrases)

    def read(self, text: TidyText) -> Narration:
        tokens, breaths, quantities, spelled = _without_fillers(text, self._grammar)
        words = tuple(token.text for token in tokens)
        breaks = frozenset(first for first, _ in breaths) | frozenset(
            n + 1 for n, token in enumerate(tokens) if token.stop in (".", "?", "!", ";")
        )
        named = self._nouns.find(words, breaks)
        kind, kind_at = self._kind(named)
        lineage = self._nouns.lineage(kind)
        mentions = _longest([m for group in named if (m := _choose(group, lineage, ("part", "trial")))])
        mentions = _without_modifiers(mentions)
        symptoms = _longest([m for group in named if (m := _choose(group, lineage, ("symptom",)))])
        part_ends: dict[int, int] = {}
        for group in named:
            if _choose(group, lineage, ("part",)):
                part_ends[group[0].first] = max(part_ends.get(group[0].first, 0), group[0].last)
        ends = breaks | {last for _, last in breaths} | {n + 1 for n, t in enumerate(tokens) if t.stop == ","}
        number_ends = {q.first: q.last for q in quantities}
        marks: dict[str, list[Mark]] = defaultdict(list)
        for key, first, last in self._net.find(words, {"<part>": part_ends, "<number>": number_ends}, breaks):
            if not self._rules[key].closes or last in ends:
                marks[self._rules[key].label].append(Mark(self._rules[key], first, last))
        instruments = {n for m in marks["instrument"] for n in range(m.first, m.last)}
        mentions = [
            m
            for m in mentions
            if instruments.isdisjoint(range(m.first, m.last)) and not self._is_verb(words, m, breaks)
        ]
        return Narration(
            tokens=tokens,
            breaths=breaths,
            grammar=self._grammar,
            kind=kind,
            kind_at=kind_at,
            marks={label: tuple(_longest(found)) for label, found in marks.items()},
            mentions=tuple(mentions),
            symptoms=tuple(symptoms),
            quantities=quantities,
            spelled=spelled,
            words=words,
            inside=frozenset(
                n
                for first, last in [(q.first, q.last) for q in quantities]
                + [(m.first, m.last) for m in mentions]
                for n in range(first + 1, last)
            ),
        )

    def _is_verb(self, words: tuple[str, ...], mention: Mention, breaks: frozenset[int]) -> bool:
        """Whether a single word is used as a verb ("I switch the circuit on", "to plug it in"), not as a name."""
        if mention.last - mention.first > 1 or mention.last >= len(words) or mention.last in breaks:
            return False
        before = words[mention.first - 1] if mention.first and mention.first not in breaks else ""
        return before in self._grammar.verb_before and words[mention.last] in self._grammar.verb_after

    def _kind(self, named: list[list[Mention]]) -> tuple[str | None, Mention | None]:
        """The kind that was said first, made narrower by a later word; else the one whose parts were named."""
        said = [m for group in named for m in group if m.name.sort == "kind"]
        votes = Counter(
            m.name.owner
            for group in named
            for m in group
            if m.name.sort == "part" and m.name.owner != SHARED and m.name.tells_kind
        )
        if said:
            first = min(said, key=lambda m: (m.first, -m.last))
            sorts = self._nouns.lineage(first.name.name)
            narrower = [m for m in said if m.name.name in sorts and m.name.name != first.name.name]
            chosen = max([first, *narrower[:1]], key=lambda m: m.last - m.first) if narrower else first
            return chosen.name.name, chosen
        if votes:
            (kind, count), *others = votes.most_common(2)
            if not others or count > others[0][1]:
                return kind, None
        return None, None


def _without_fillers(
    text: TidyText, grammar: Grammar
) -> tuple[tuple[Token, ...], tuple[tuple[int, int], ...], tuple[Quantity, ...], tuple[Spelled, ...]]:
    """The text less its fillers; a filler's punctuation moves to the word before it."""
    place: list[int] = []  # for each token, where it (or what follows it) stands afterwards
    kept: list[Token] = []
    for token in text.tokens:
        place.append(len(kept))
        if token.text not in grammar.fillers:
            kept.append(token)
        elif kept and kept[-1].breath == token.breath and token.stop and not kept[-1].stop:
            kept[-1] = replace(kept[-1], stop=token.stop)
    place.append(len(kept))
    return (
        tuple(kept),
        tuple((place[a], place[b]) for a, b in text.breaths),
        tuple(replace(q, first=place[q.first], last=place[q.last]) for q in text.quantities),
        tuple(replace(s, first=place[s.first], last=place[s.last]) for s in text.spelled),
    )


def _choose(group: list[Mention], lineage: tuple[str, ...], sorts: tuple[str, ...]) -> Mention | None:
    """The meaning of a stretch on this appliance: its own pack's word before a shared one before another pack's."""

    def rank(mention: Mention) -> int | None:
        name = mention.name
        if name.owner in lineage:
            return lineage.index(name.owner)
        if name.owner == SHARED:
            return 10
        return None if lineage else 20

    ranked = [(r, n, m) for n, m in enumerate(group) if m.name.sort in sorts and (r := rank(m)) is not None]
    return min(ranked)[2] if ranked else None


def _without_modifiers(mentions: list[Mention]) -> list[Mention]:
    """Less the trials that only say which part is meant ("drain" in "drain hose")."""
    starts = {m.first for m in mentions if m.name.sort == "part"}
    return [
        m for m in mentions if not (m.name.sort == "trial" and m.last - m.first == 1 and m.last in starts)
    ]


def _longest(spans: Iterable[Span]) -> list[Span]:
    """Longest stretch first, then the earlier; what overlaps a chosen one is dropped."""
    taken: set[int] = set()
    chosen: list[Span] = []
    for span in sorted(spans, key=lambda s: (s.first - s.last, s.first)):
        if taken.isdisjoint(range(span.first, span.last)):
            taken |= set(range(span.first, span.last))
            chosen.append(span)
    return sorted(chosen, key=lambda s: s.first)
