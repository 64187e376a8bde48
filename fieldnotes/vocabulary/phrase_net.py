"""All rule phrases as one net that is walked once over the words.

A phrase with five choices of ten words stands for 100,000 wordings: too many for a list of literal phrases,
and a list of token patterns is tried anew at every word. The net shares one walk among all phrases.
States are numbers; sets of them are worked out when first needed and remembered.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from fieldnotes.vocabulary.phrases import SLOTS, Choice, is_slot, parse
from fieldnotes.vocabulary.phrases import Sequence as Phrase

Found = tuple[int, int, int]  # (key of the phrase, first word, word after the last)


class PhraseNet:
    """Finds every occurrence of many phrases. Keys are what `phrases` numbers them by."""

    def __init__(self, phrases: Iterable[tuple[int, str]]) -> None:
        self._moves: list[dict[str, set[int]]] = [{}]
        self._empty: list[set[int]] = [set()]
        self._accepts: dict[int, set[int]] = defaultdict(set)
        for key, phrase in phrases:
            self._accepts[self._add(parse(phrase), 0)].add(key)
        self._numbers: dict[frozenset[int], int] = {}
        self._groups: list[tuple[int, ...]] = []
        self._alphabet: list[frozenset[str]] = []
        self._keys: list[tuple[int, ...]] = []
        self._steps: list[dict[str, int | None]] = []
        self._group(frozenset({0}))

    def find(
        self, words: Sequence[str], slots: Mapping[str, Mapping[int, int]], breaks: frozenset[int]
    ) -> list[Found]:
        """Occurrences in `words`. `slots` gives for `<part>` and `<number>` the end of what starts at a word;
        no phrase reaches across a break (`breaks` holds the words before which one lies)."""
        found: list[Found] = []
        end_of = [0] * len(words)  # for each word, where the next break lies
        limit = len(words)
        for at in range(len(words) - 1, -1, -1):
            end_of[at] = limit
            limit = at if at in breaks else limit
        for first in range(len(words)):
            walks = [(0, first)]
            while walks:
                group, at = walks.pop()
                if at > first:
                    found += [(key, first, at) for key in self._keys[group]]
                if at == end_of[first]:
                    continue
                walks += [(after, at + 1)] if (after := self._step(group, words[at])) else []
                for slot, ends in slots.items():
                    if at in ends and ends[at] <= end_of[first] and (after := self._step(group, slot)):
                        walks.append((after, ends[at]))
        return sorted(set(found), key=lambda hit: (hit[1], -hit[2], hit[0]))

    def _step(self, group: int, sign: str) -> int | None:
        """The group of states reached with a word or slot; worked out once, then remembered."""
        known = self._steps[group]
        if sign not in self._alphabet[group]:
            sign = "*"
        if sign not in known:
            targets: set[int] = set()
            for state in self._groups[group]:
                targets |= self._moves[state].get(sign, set())
                if sign not in SLOTS:
                    targets |= self._moves[state].get("*", set())
            known[sign] = self._group(frozenset(targets)) if targets else None
        return known[sign]

    def _group(self, states: frozenset[int]) -> int:
        """The number of a set of states together with all that empty moves reach from it."""
        reached, todo = set(states), list(states)
        while todo:
            for after in self._empty[todo.pop()] - reached:
                reached.add(after)
                todo.append(after)
        closed = frozenset(reached)
        if closed not in self._numbers:
            self._numbers[closed] = len(self._groups)
            self._groups.append(tuple(state for state in closed if self._moves[state]))
            self._alphabet.append(frozenset(sign for state in closed for sign in self._moves[state]))
            self._keys.append(
                tuple(sorted({key for state in closed for key in self._accepts.get(state, ())}))
            )
            self._steps.append({})
        return self._numbers[closed]

    def _state(self) -> int:
        self._moves.append({})
        self._empty.append(set())
        return len(self._moves) - 1

    def _add(self, phrase: Phrase, start: int) -> int:
        state = start
        for element in phrase:
            state = (
                self._add_choice(element, state)
                if isinstance(element, Choice)
                else self._add_word(element, state)
            )
        return state

    def _add_word(self, word: str, state: int) -> int:
        if is_slot(word) and word.startswith("*") and len(word) > 1:
            for _ in range(int(word[1:])):
                after = self._add_word("*", state)
                self._empty[state].add(after)
                state = after
            return state
        # first words are shared between phrases
        known = self._moves[state].get(word)
        if known and state == 0:
            return next(iter(known))
        after = self._state()
        self._moves[state].setdefault(word, set()).add(after)
        return after

    def _add_choice(self, choice: Choice, state: int) -> int:
        begin, end = self._state(), self._state()
        self._empty[state].add(begin)
        for alternative in choice.alternatives:
            self._empty[self._add(alternative, begin)].add(end)
        if choice.optional:
            self._empty[begin].add(end)
        return end
