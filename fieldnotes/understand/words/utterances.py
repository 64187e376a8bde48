"""Breaths that say nothing by themselves, joined to the ones they belong to.

Who works while talking names a thing, looks at it, and then says how it is: "Lid lock." - "Pulls in, holds." -
"Good." The voice rests between, so these are three breaths; only together do they report something.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

from fieldnotes.tidy.text import TidyText, Token
from fieldnotes.understand.words.nouns import Mention
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.phrase_net import PhraseNet
from fieldnotes.words import split_words

LONGEST = 6  # words of a breath that only names or only judges
LOOKING_S = 30.0  # between a thing's name and what is said of it: common practice, no source
RESTING_S = 1.0  # within a sentence
THINKING_S = 3.0  # between a sentence and what goes on from it or takes it back
SELF = ("i", "we")
LONGEST_LEAD = 12  # words of "and when I push the tub down and let go"


@dataclass(frozen=True, slots=True)
class _Breath:
    """One breath, what is named in it, and which recording it comes from."""

    tokens: tuple[Token, ...]
    things: tuple[tuple[int, int], ...]  # parts and trials that are named, as stretches of its tokens
    numbers: tuple[int, ...]  # the tokens behind them
    has_unit: bool
    part: int

    @property
    def words(self) -> list[str]:
        return [token.text for token in self.tokens]

    @property
    def has_number(self) -> bool:
        return bool(self.numbers)

    @property
    def is_short(self) -> bool:
        return 0 < len(self.tokens) <= LONGEST and self.tokens[-1].stop != "?" and not self.has_number


class Utterances:
    """Joins breaths. Built once for a vocabulary."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        grammar = vocabulary.grammar
        outcomes = [rule for rule in vocabulary.rules if rule.label == "outcome" and rule.value != "none"]
        self._judging = PhraseNet((n, phrase) for n, rule in enumerate(outcomes) for phrase in rule.phrases)
        unclear = [rule for rule in outcomes if rule.value == "unclear"]
        self._leaving_open = PhraseNet(
            (n, phrase) for n, rule in enumerate(unclear) for phrase in rule.phrases
        )
        planned = [rule for rule in vocabulary.rules if rule.label == "plan"]
        self._planning = PhraseNet((n, phrase) for n, rule in enumerate(planned) for phrase in rule.phrases)
        expected = [rule for rule in vocabulary.rules if rule.label == "expected"]
        self._expecting = PhraseNet((n, phrase) for n, rule in enumerate(expected) for phrase in rule.phrases)
        self._grammar = grammar
        retractions = vocabulary.measures.retractions
        self._no = retractions.no
        self._takes_back = tuple(tuple(split_words(phrase)) for phrase in retractions.takes_back)
        self._beside_judgement = grammar.openers | grammar.articles | grammar.being | grammar.extents
        self._beside_expectation = grammar.openers | grammar.articles | grammar.pronouns
        self._beside_name = (
            (grammar.openers | grammar.articles | grammar.prepositions | grammar.name_ends)
            | grammar.place_words
        ) - {"and", "or", "next"}  # a list is no name; "next" is a plan, which ends with its breath

    def joined(self, text: TidyText, named: Sequence[Sequence[Mention]]) -> TidyText:
        """The text with each breath that only names or only judges made one with its neighbour.

        `named`: all that is named in the text, as NounFinder finds it.
        """
        breaths = _breaths(text, named)
        next_ones = [*breaths[2:], None]
        together = (
            self._belong(a, b) or self._approves(a, b, after)
            for (a, b), after in zip(pairwise(breaths), next_ones, strict=False)
        )
        number = [0, *accumulate(not belong for belong in together)]
        firsts = [n for n, new in enumerate(number[: len(breaths)]) if n == 0 or new != number[n - 1]]
        if len(firsts) == len(breaths):
            return text
        lasts = [*(n - 1 for n in firsts[1:]), len(breaths) - 1]
        return replace(
            text,
            tokens=tuple(replace(token, breath=number[token.breath]) for token in text.tokens),
            breaths=tuple(
                (text.breaths[a][0], text.breaths[b][1]) for a, b in zip(firsts, lasts, strict=True)
            ),
            parts=tuple(text.parts[n] for n in firsts) if text.parts else (),
        )

    def _belong(self, before: _Breath, after: _Breath) -> bool:
        if not before.tokens or not after.tokens or before.part != after.part:
            return False
        stop, rest = before.tokens[-1].stop, _rest(before, after)
        if stop == ",":
            apart = self._is_headed(after) or (self._is_whole(before) and self._is_whole(after))
            return rest <= RESTING_S and not after.tokens[0].capital and not apart
        if stop == "?" or rest > LOOKING_S:
            return False
        if rest <= THINKING_S and (self._goes_on(before, after) or self._held_against(before, after)):
            return True
        if set(after.words) <= self._grammar.lone_openers:
            return False
        if self._only_judges(after):
            return bool(before.things) or before.has_number
        return self._only_names(before) and not self._only_names(after)

    def _approves(self, before: _Breath, after: _Breath, next_one: _Breath | None) -> bool:
        """Whether a lone "Okay." judges the measured value before it rather than opening what follows: it has its full
        stop, stands nearer to what is before it, and nothing new is announced behind it."""
        if not before.has_unit or not after.tokens or before.part != after.part:
            return False
        rest = _rest(before, after)
        if before.tokens[-1].stop == "?" or after.tokens[-1].stop != "." or rest > LOOKING_S:
            return False
        if not set(after.words) <= self._grammar.lone_openers or not self._only_judges(after):
            return False
        if next_one is None or not next_one.tokens or next_one.part != after.part:
            return True
        return rest <= _rest(after, next_one) and not self._turns_to_next(next_one.words)

    def _turns_to_next(self, words: list[str]) -> bool:
        """Whether a breath goes on to the next thing: "Now the pump", "Next up, ...", "I'll pull the back off"."""
        at_head = min(
            (first for _, first, _ in self._planning.find(words, {}, frozenset())), default=len(words)
        )
        opener = words[0] in self._grammar.lone_openers or words[0] == "next"
        return opener or all(word in self._grammar.openers or word in SELF for word in words[:at_head])

    def _goes_on(self, before: _Breath, after: _Breath) -> bool:
        """Whether the stop between them is none: behind a mere "when ...", before "where it should ..." and "could be
        the hose, I can't tell", and between the "No." and the "Scratch that." of one retraction."""
        words = after.words
        if before.words[-1:] and set(before.words) <= self._no:
            return any(tuple(words[: len(form)]) == form for form in self._takes_back)
        relative = words[0] in self._grammar.relatives and words[1:2] and words[1] in self._grammar.subjects
        no_subject = words[0] in self._grammar.modals and words[1:2] == ["be"]
        guesses = no_subject and any(self._leaving_open.find(words, {}, frozenset()))
        return self._only_leads(before) or ((bool(relative) or guesses) and after.tokens[-1].stop != "?")

    def _held_against(self, before: _Breath, after: _Breath) -> bool:
        """Whether it says what the value before it should be and judges it by that: "Plate says 5400 watts, so that's
        right."."""
        if not before.has_unit or not after.has_number or after.tokens[-1].stop == "?":
            return False
        words, grammar = after.words, self._grammar
        found = self._expecting.find(words, {}, frozenset())
        head = next(
            ((first, last) for _, first, last in found if self._beside_expectation.issuperset(words[:first])),
            None,
        )
        if head is None or any(last > head[1] for _, last in after.things):
            return False
        judged = [
            first for _, first, _ in self._judging.find(words, {}, frozenset()) if first > max(after.numbers)
        ]
        return any(not grammar.pronouns.isdisjoint(words[max(after.numbers) : first + 1]) for first in judged)

    def _only_leads(self, breath: _Breath) -> bool:
        """Whether it is one sentence and only tells when: "And when I push the tub down and let go."."""
        words, grammar = breath.words, self._grammar
        at = next((n for n, word in enumerate(words) if word not in grammar.openers), 0)
        return (
            len(words) <= LONGEST_LEAD
            and words[at] in grammar.leads
            and words[at + 1 : at + 2] != []
            and (words[at + 1] in grammar.subjects or words[at + 1] in grammar.before_single)
            and not any(token.stop for token in breath.tokens[:-1])
        )

    def _is_headed(self, breath: _Breath) -> bool:
        """Whether it begins with a heading: "cause, lower element burned out"."""
        return bool(breath.tokens[0].stop) and breath.words[0] in self._grammar.headings

    def _is_whole(self, breath: _Breath) -> bool:
        """Whether it names a thing and judges it: what follows a comma behind it is a finding of its own."""
        return bool(breath.things) and any(self._judging.find(breath.words, {}, frozenset()))

    def _only_judges(self, breath: _Breath) -> bool:
        """Whether it is nothing but a judgement: "Good.", "Way too high.", "No complaint there."."""
        if not breath.is_short or breath.things:
            return False
        found = self._judging.find(breath.words, {}, frozenset())
        judging = {n for _, first, last in found for n in range(first, last)}
        return bool(judging) and all(
            n in judging or word in self._beside_judgement for n, word in enumerate(breath.words)
        )

    def _only_names(self, breath: _Breath) -> bool:
        """Whether it only names a thing: "Relief valve.", "Now the fan."."""
        if not breath.is_short or not breath.things:
            return False
        naming = {n for first, last in breath.things for n in range(first, last)}
        return all(n in naming or word in self._beside_name for n, word in enumerate(breath.words))


def _rest(before: _Breath, after: _Breath) -> float:
    """Seconds between two breaths, 0 where there are no times."""
    end, start = before.tokens[-1].end, after.tokens[0].start
    return start - end if start is not None and end is not None else 0.0


def _breaths(text: TidyText, named: Sequence[Sequence[Mention]]) -> list[_Breath]:
    things: list[set[tuple[int, int]]] = [set() for _ in text.breaths]
    for group in named:
        if any(m.name.sort in ("part", "trial") and not m.name.condition for m in group):
            breath = text.tokens[group[0].first].breath
            begin, _ = text.breaths[breath]
            things[breath].add((group[0].first - begin, group[0].last - begin))
    numbers: list[list[int]] = [[] for _ in text.breaths]
    for q in text.quantities:
        breath = text.tokens[q.first].breath
        numbers[breath].append(q.last - text.breaths[breath][0])
    with_unit = {text.tokens[q.first].breath for q in text.quantities if q.unit}
    return [
        _Breath(
            text.tokens[first:last],
            tuple(sorted(things[n])),
            tuple(numbers[n]),
            n in with_unit,
            text.parts[n] if text.parts else 0,
        )
        for n, (first, last) in enumerate(text.breaths)
    ]
