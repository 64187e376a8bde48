"""What a cue says to be pictured, and how well a line of the report answers to it."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from fieldnotes.photos.cues import Cue
from fieldnotes.vocabulary.grammar import Grammar
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.packs import AppliancePack, PartsFile
from fieldnotes.vocabulary.phrase_net import PhraseNet
from fieldnotes.words import split_words


@dataclass(frozen=True, slots=True)
class Pictured:
    """The thing of a cue: its words that mean something, the vocabulary's `names` of it, and whether it is the
    rating `plate`."""

    words: frozenset[str] = frozenset()
    names: frozenset[str] = frozenset()
    plate: bool = False


class Things:
    """Understands what cues name, on one kind of appliance; None: on any."""

    def __init__(self, vocabulary: Vocabulary, kind: str | None) -> None:
        self._grammar = vocabulary.grammar
        packs = vocabulary.packs
        kinds = [kind, packs[kind].wider] if kind in packs else list(packs)
        layers: list[PartsFile | AppliancePack] = [
            vocabulary.parts,
            *(packs[name] for name in kinds if name in packs),
        ]
        self._names: list[str] = []
        phrases: list[tuple[int, str]] = []
        for part in (part for layer in layers for part in layer.parts):
            phrases += [
                (len(self._names), phrase)
                for phrase in (part.name, *part.spoken, *part.short, *part.misheard)
            ]
            self._names.append(part.name)
        self._parts = PhraseNet(phrases)
        self._plate = PhraseNet(enumerate(vocabulary.photos.plate))

    def of(self, cue: Cue) -> Pictured:
        """What the cue names; of a thing within a thing ("the end of the drain hose") all names count."""
        words = _singular(cue.thing)
        found = {
            (first, last, self._names[key])
            for said in (cue.thing, words)
            for key, first, last in self._parts.find(said, {}, frozenset())
        }
        names = {  # the longest: "drain hose" is no "hose"
            name
            for first, last, name in found
            if not any(a <= first and last <= b and (a, b) != (first, last) for a, b, _ in found)
        }
        plate = bool(self._plate.find(cue.thing, {}, frozenset()))
        return Pictured(meaning_words(words, self._grammar), frozenset(names), plate)


def meaning_words(words: Collection[str], grammar: Grammar) -> frozenset[str]:
    """Words by which things can be told apart, in the singular."""
    empty = grammar.determiners | grammar.pronouns | grammar.prepositions
    return frozenset(word for word in _singular(list(words)) if word not in empty)


def words_of(text: str, grammar: Grammar) -> frozenset[str]:
    """The same of a written text."""
    return meaning_words(split_words(text), grammar)


def _singular(words: Sequence[str]) -> tuple[str, ...]:
    return tuple(w[:-1] if len(w) > 3 and w.endswith("s") and not w.endswith("ss") else w for w in words)
