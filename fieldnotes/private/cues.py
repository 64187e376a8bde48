"""Phrases of vocab/private.yaml looked up in tokens, and which words are plain English of the trade."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from pydantic import BaseModel

from fieldnotes.private.tokens import Token
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.packs import Phrases
from fieldnotes.vocabulary.phrases import wordings

ANNOUNCE = ("telephone", "code", "password", "card", "card_more", "email")  # keys whose own words name nobody
_LETTERS = re.compile(r"[a-z]+(?:'[a-z]+)?")


@dataclass(frozen=True, slots=True)
class Found:
    """A private stretch of tokens [first, last)."""

    kind: str
    first: int
    last: int


class PhraseTable:
    """The wordings of some phrases; longest match first."""

    def __init__(self, phrases: Phrases) -> None:
        self._forms: dict[str, list[tuple[str, ...]]] = {}
        for form in {form for phrase in phrases for form in wordings(phrase)}:
            self._forms.setdefault(form[0], []).append(form)
        for forms in self._forms.values():
            forms.sort(key=len, reverse=True)

    def at(self, tokens: Sequence[Token], i: int) -> int | None:
        """The token after the longest phrase that begins at `i`; None where none does."""
        for form in self._forms.get(tokens[i].text, ()):
            if tuple(token.text for token in tokens[i : i + len(form)]) == form:
                return i + len(form)
        return None

    def ends(self, tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
        """Where each phrase stands; none begins inside another."""
        if self._forms.keys().isdisjoint([token.text for token in tokens]):
            return  # as nearly always
        i = 0
        while i < len(tokens):
            last = self.at(tokens, i)
            if last is None:
                i += 1
            else:
                yield i, last
                i = last


@lru_cache(maxsize=128)
def table(vocabulary: Vocabulary, name: str) -> PhraseTable:
    """The phrases of one key of vocab/private.yaml."""
    return PhraseTable(getattr(vocabulary.private, name))


@lru_cache(maxsize=4)
def plain_words(vocabulary: Vocabulary) -> frozenset[str]:
    """Words that are no names: those of vocab/, save given names and the spelling alphabet, and `ordinary`."""
    measures = vocabulary.measures
    held: list[BaseModel] = [
        vocabulary.parts, vocabulary.grammar, vocabulary.trade, vocabulary.limits, vocabulary.gaps,
        vocabulary.cautions, measures.numbers, measures.units, measures.retractions, *vocabulary.packs.values(),
    ]  # fmt: skip
    texts = [model.model_dump_json() for model in held]
    texts += [phrase for rule in vocabulary.rules for phrase in rule.phrases]
    words = {word for text in texts for word in _LETTERS.findall(text.lower())}
    cues = vocabulary.private
    words |= {
        word for name in ANNOUNCE for phrase in getattr(cues, name) for word in _LETTERS.findall(str(phrase))
    }
    return frozenset((words | cues.ordinary | cues.name_joints) - cues.given_names)
