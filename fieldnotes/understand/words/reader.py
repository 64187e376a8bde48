"""Recognises what a visit's words name and say: tidied text -> Narration.

Fillers ("uh") and names that were mended at once ("the belt, sorry, the idler") are left out of its words.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable
from dataclasses import replace
from typing import TypeVar

from fieldnotes.tidy.text import SENTENCE_ENDS, TidyText, Token
from fieldnotes.understand.words.mending import mended
from fieldnotes.understand.words.misheard_words import with_misheard_words
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.nouns import SHARED, Mention, NounFinder
from fieldnotes.understand.words.parting import with_compounds_parted
from fieldnotes.understand.words.possessives import Possessives
from fieldnotes.understand.words.utterances import Utterances
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.phrase_net import PhraseNet
from fieldnotes.vocabulary.rules import Rule

WILL = ("will", "'ll")
SELF = ("i", "we")
DESCRIBING = ("state", "verb")  # strengths of outcome words that never reach across a comma
Span = TypeVar("Span", Mark, Mention)


class Reader:
    """Turns tidied text into a Narration. Built once for a vocabulary."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self._rules = vocabulary.rules
        self._grammar = vocabulary.grammar
        self._trade = vocabulary.trade
        self._retractions = vocabulary.measures.retractions
        self._nouns = NounFinder(vocabulary)
        self._possessives = Possessives(vocabulary, self._nouns.heads)
        self._utterances = Utterances(vocabulary)
        self._net = PhraseNet((n, phrase) for n, rule in enumerate(self._rules) for phrase in rule.phrases)

    def read(self, text: TidyText) -> Narration:
        """All that is recognised in a text."""
        text, named = self._mended(text)
        tokens, quantities = text.tokens, text.quantities
        words = tuple(token.text for token in tokens)
        breaks = _breaks(text)
        kind, kind_at = self._kind(named)
        lineage = self._nouns.lineage(kind)
        mentions = _longest([m for group in named if (m := _choose(group, lineage, ("part", "trial")))])
        mentions = _in_full(words, breaks, _without_modifiers(mentions))
        marks = self._marks(text, words, breaks, named, lineage)
        mentions = self._without_verbs(words, breaks, mentions, marks["instrument"])
        spans = [*((q.first, q.last) for q in quantities), *((m.first, m.last) for m in mentions)]
        return Narration(
            tokens=tokens,
            breaths=text.breaths,
            grammar=self._grammar,
            trade=self._trade,
            kind=kind,
            kind_at=kind_at,
            marks={label: tuple(_longest(found)) for label, found in marks.items()},
            mentions=tuple(mentions),
            symptoms=tuple(_longest([m for group in named if (m := _choose(group, lineage, ("symptom",)))])),
            degrees=text.degrees,
            quantities=quantities,
            spelled=text.spelled,
            words=words,
            measured=frozenset(q.last for q in quantities if q.unit),
            nouns=self._nouns.heads,
            inside=frozenset(n for first, last in spans for n in range(first + 1, last)),
        )

    def _mended(self, text: TidyText) -> tuple[TidyText, list[list[Mention]]]:
        """The text as it was meant, and all names in it: without fillers, words parted and joined, names mended."""
        fillers = {n for n, token in enumerate(text.tokens) if token.text in self._grammar.fillers}
        text = _without(text, fillers, keep_stops=True)
        text = with_compounds_parted(text, self._grammar.written_together)
        text = with_misheard_words(text, self._grammar)
        named = self._named(text)
        mended_text = self._possessives.mended(text, named)
        if mended_text is not text:
            text, named = mended_text, self._named(mended_text)
        text = self._utterances.joined(text, named)
        replaced = mended(
            text.tokens, (m for group in named for m in group), self._retractions, self._grammar
        )
        if replaced:
            text = _without(text, replaced, keep_stops=False)
            named = self._named(text)
        return text, named

    def _marks(
        self,
        text: TidyText,
        words: tuple[str, ...],
        breaks: frozenset[int],
        named: list[list[Mention]],
        lineage: tuple[str, ...],
    ) -> dict[str, list[Mark]]:
        """The phrases of all rules in the text, by label."""
        tokens = text.tokens
        part_ends: dict[int, int] = {}
        for group in named:
            if _choose(group, lineage, ("part",)):
                part_ends[group[0].first] = max(part_ends.get(group[0].first, 0), group[0].last)
        ends = breaks | {last for _, last in text.breaths}
        ends |= {n + 1 for n, token in enumerate(tokens) if token.stop == ","}
        places = {"<part>": part_ends, "<number>": {q.first: q.last for q in text.quantities}}
        marks: dict[str, list[Mark]] = defaultdict(list)
        for key, first, last in self._net.find(words, places, breaks):
            rule = self._rules[key]
            if not _is_parted(rule, tokens, first, last) and (not rule.closes or last in ends):
                marks[rule.label].append(Mark(rule, first, last))
        return marks

    def _without_verbs(
        self,
        words: tuple[str, ...],
        breaks: frozenset[int],
        mentions: list[Mention],
        instruments: list[Mark],
    ) -> list[Mention]:
        """Less the names that stand for a verb or belong to an instrument."""
        held = {n for m in instruments for n in range(m.first, m.last)}
        parts_end = {
            m.last for m in mentions if m.name.sort == "part" and not words[m.last - 1].endswith("s")
        }
        return [
            m
            for m in mentions
            if not (m.first in parts_end and self._tells_what_it_does(words, m, breaks))
            and held.isdisjoint(range(m.first, m.last))
            and not self._is_verb(words, m, breaks)
        ]

    def _named(self, text: TidyText) -> list[list[Mention]]:
        return self._nouns.find(tuple(token.text for token in text.tokens), _breaks(text))

    def _is_verb(self, words: tuple[str, ...], mention: Mention, breaks: frozenset[int]) -> bool:
        """Whether a single word is used as a verb ("I switch the circuit on", "to plug it in"), not as a name."""
        if mention.last - mention.first > 1 or mention.last >= len(words) or mention.last in breaks:
            return False
        if words[mention.first] not in self._grammar.also_verbs:
            return False  # "outlet in the upper cabinet"
        before = words[mention.first - 1] if mention.first and mention.first not in breaks else ""
        return before in self._grammar.verb_before and words[mention.last] in self._grammar.verb_after

    def _tells_what_it_does(self, words: tuple[str, ...], mention: Mention, breaks: frozenset[int]) -> bool:
        """Whether a single word right behind a part is its verb ("the gasket seals"; not "pump seals are gone")."""
        word = words[mention.first]
        if mention.last - mention.first > 1 or mention.first in breaks or not word.endswith("s"):
            return False
        after = words[mention.last] if mention.last < len(words) and mention.last not in breaks else ""
        return word.removesuffix("s") in self._grammar.also_verbs and after not in self._grammar.being

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


def _is_parted(rule: Rule, tokens: tuple[Token, ...], first: int, last: int) -> bool:
    """Whether a stop or a new subject parts words of a rule that are said in one go: a description, a deed ("slipped,
    I've pushed it back on"), what machines do ("needs a bulb, the small one, they'll get it")."""
    stops = [tokens[n].stop for n in range(first, last - 1)]
    if rule.strength in DESCRIBING:
        return any(stops)
    if rule.label in ("work", "result"):
        subjects = (tokens[n].text in SELF for n in range(first + 1, last))
        return any(stop not in ("", ":") for stop in stops) or any(subjects)
    return rule.label == "general" and tokens[last - 1].text in WILL and any(stops)


def _breaks(text: TidyText) -> frozenset[int]:
    """The words before which a breath or a sentence begins."""
    return frozenset(first for first, _ in text.breaths) | frozenset(
        n + 1 for n, token in enumerate(text.tokens) if token.stop in SENTENCE_ENDS
    )


def _without(text: TidyText, left_out: Collection[int], keep_stops: bool) -> TidyText:
    """The text less some words; `keep_stops`: their punctuation moves to the word before them."""
    place: list[int] = []  # for each token, where it (or what follows it) stands afterwards
    kept: list[Token] = []
    for n, token in enumerate(text.tokens):
        place.append(len(kept))
        if n not in left_out:
            kept.append(token)
        elif keep_stops and kept and kept[-1].breath == token.breath and token.stop and not kept[-1].stop:
            kept[-1] = replace(kept[-1], stop=token.stop)
    place.append(len(kept))
    return text.with_tokens(kept, place)


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


def _in_full(words: tuple[str, ...], breaks: frozenset[int], mentions: list[Mention]) -> list[Mention]:
    """A bare noun means what was named in full with it in the same sentence ("... the shaft seal, that seal's
    gone")."""
    found: list[Mention] = []
    for mention in mentions:
        pointed = words[mention.first - 1] in ("that", "this", "the", "those", "these")
        if mention.last - mention.first == 1 and (mention.name.short or pointed):
            full = [
                m
                for m in found
                if m.last - m.first > 1
                and words[m.last - 1] == words[mention.first]
                and breaks.isdisjoint(range(m.first, mention.first + 1))
            ]
            mention = replace(mention, name=full[-1].name) if full else mention
        found.append(mention)
    return found


def _longest(spans: Iterable[Span]) -> list[Span]:
    """Longest stretch first, then the earlier; what overlaps a chosen one is dropped."""
    taken: set[int] = set()
    chosen: list[Span] = []
    for span in sorted(spans, key=lambda s: (s.first - s.last, s.first)):
        if taken.isdisjoint(range(span.first, span.last)):
            taken |= set(range(span.first, span.last))
            chosen.append(span)
    return sorted(chosen, key=lambda s: s.first)
