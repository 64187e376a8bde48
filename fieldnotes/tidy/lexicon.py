"""The measures' words, compiled once into look-ups."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Generic, TypeVar

from fieldnotes.tidy.code_words import CodeWords
from fieldnotes.vocabulary.measures import (
    Measures,
    MisheardUnit,
    NumberWords,
    Retractions,
    Spelling,
    UnitWords,
)
from fieldnotes.vocabulary.phrases import wordings
from fieldnotes.words import split_words

Meaning = TypeVar("Meaning")
DEGREES, FAHRENHEIT, CELSIUS = "deg", "degF", "degC"


class Phrasebook(Generic[Meaning]):
    """Phrases of one or more words with a meaning each; the longest that fits wins, then the earlier."""

    def __init__(self, entries: Iterable[tuple[str, Meaning]]) -> None:
        self._by_first: dict[str, list[tuple[tuple[str, ...], Meaning]]] = {}
        for phrase, meaning in entries:
            words = tuple(split_words(phrase))
            if words:
                self._by_first.setdefault(words[0], []).append((words, meaning))
        for listed in self._by_first.values():
            listed.sort(key=lambda entry: -len(entry[0]))

    def at(self, texts: Sequence[str], i: int) -> tuple[int, Meaning] | None:
        """Number of words and meaning of the longest phrase that starts at word `i`."""
        if i >= len(texts):
            return None
        for words, meaning in self._by_first.get(texts[i], ()):
            if len(words) == 1 or tuple(texts[i : i + len(words)]) == words:
                return len(words), meaning
        return None

    def __contains__(self, word: str) -> bool:
        """Whether some phrase begins with this word."""
        return word in self._by_first


@dataclass(frozen=True, slots=True)
class UnitMeaning:
    """`unit` None: a unit that the record does not have."""

    unit: str | None
    times: float = 1
    near_unit: str | None = None
    near_words: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True, eq=False)
class Lexicon:
    numbers: NumberWords
    spelling: Spelling
    retractions: Retractions
    below_hundred: dict[str, tuple[str, int]]  # word -> ("one" | "teen" | "ten", value)
    starters: frozenset[str]  # words that can begin a number
    units: Phrasebook[UnitMeaning]
    symbols: Phrasebook[UnitMeaning]
    misheard_units: tuple[MisheardUnit, ...]
    exact_symbols: dict[str, UnitMeaning]  # as written, for symbols that differ only by a capital ("m", "M")
    metric: frozenset[str]
    customary: frozenset[str]
    metric_speech: frozenset[str]
    customary_speech: frozenset[str]
    takes_back: Phrasebook[bool]
    interrupts: Phrasebook[bool]
    settles: Phrasebook[bool]
    code_words: Phrasebook[str]
    code_sounds: CodeWords
    alone_characters: frozenset[str]  # single words that tell of a character wherever they stand
    letters: Phrasebook[str]
    sound_alikes: dict[str, str]
    as_in: Phrasebook[bool]
    pauses: Phrasebook[bool]
    dropped: Phrasebook[bool]
    once_more: Phrasebook[bool]
    last_letter: Phrasebook[bool]
    not_that: Phrasebook[bool]
    one_more: Phrasebook[bool]
    on_the_end: Phrasebook[bool]
    asides: Phrasebook[bool]  # words between characters that are none, of whatever kind
    announced: Phrasebook[str]
    as_in_guesses: Phrasebook[bool]
    for_word: Phrasebook[bool]
    homophones: Phrasebook[str]


@lru_cache(maxsize=4)
def lexicon_of(measures: Measures) -> Lexicon:
    numbers, units, spelling = measures.numbers, measures.units, measures.spelling
    below: dict[str, tuple[str, int]] = {}
    for kind, table in (("one", numbers.digits), ("teen", numbers.teens), ("ten", numbers.tens)):
        below |= {word: (kind, value) for word, value in table.items()}
    scales = ((units.degrees, DEGREES), (units.fahrenheit, FAHRENHEIT), (units.celsius, CELSIUS))
    said = [(words, _meaning(unit)) for unit in units.units for words in unit.said]
    said += [(words, UnitMeaning(name)) for scale, name in scales for words in scale.said]
    said += [(words, UnitMeaning(None)) for words in units.not_recorded]
    written = [(sign, _meaning(unit)) for unit in units.units for sign in unit.symbols]
    written += [(sign, UnitMeaning(name)) for scale, name in scales for sign in scale.symbols]
    written += [("° C", UnitMeaning(CELSIUS)), ("° F", UnitMeaning(FAHRENHEIT))]
    return Lexicon(
        numbers=numbers,
        spelling=spelling,
        retractions=measures.retractions,
        below_hundred=below,
        starters=_starters(numbers) | set(below),
        units=Phrasebook(said),
        symbols=Phrasebook(written),
        misheard_units=units.misheard,
        exact_symbols=dict(reversed(written)),
        metric=frozenset(units.metric),
        customary=frozenset(units.customary),
        metric_speech=units.metric_speech,
        customary_speech=units.customary_speech,
        takes_back=_flags(measures.retractions.takes_back),
        interrupts=_flags(measures.retractions.interrupts),
        settles=_flags(measures.retractions.settles),
        code_words=_by_letter(spelling.code_words),
        code_sounds=CodeWords(spelling),
        alone_characters=frozenset(
            {*numbers.digits, *numbers.zero_in_a_row, *spelling.times}
            | {word for words in spelling.code_words.values() for word in words}
        ),
        letters=_by_letter(spelling.letter_names),
        sound_alikes={word: letter for letter, words in spelling.sound_alikes.items() for word in words},
        as_in=_flags(spelling.as_in),
        for_word=_flags([*spelling.for_word, *spelling.outweighs_letter]),
        pauses=_flags(spelling.pauses),
        dropped=_flags(spelling.dropped),
        once_more=_flags(spelling.once_more),
        last_letter=_wordings(spelling.last_letter),
        not_that=_wordings(spelling.not_that),
        one_more=_wordings(spelling.one_more),
        on_the_end=_wordings(spelling.on_the_end),
        asides=_flags(
            [
                *spelling.dropped, *spelling.pauses, *spelling.once_more, *measures.retractions.takes_back,
                *measures.retractions.interrupts, *measures.retractions.no,
            ]
        ),
        announced=_by_letter(spelling.announced),
        as_in_guesses=_flags(spelling.as_in_guesses),
        homophones=Phrasebook(
            [(word, str(digit)) for word, digit in spelling.digit_homophones.items()]
            + [(word, signs) for signs, words in spelling.letter_homophones.items() for word in words]
        ),
    )  # fmt: skip


def _starters(numbers: NumberWords) -> frozenset[str]:
    large = numbers.hundred | numbers.thousand
    zeros = numbers.zero_in_a_row | numbers.zero_before_point
    signs = numbers.point | numbers.minus | numbers.plus | zeros
    others = {*numbers.fractions, *numbers.counts, *numbers.ordinals, "a"}
    return frozenset(large | signs | others)


def _meaning(unit: UnitWords) -> UnitMeaning:
    if unit.near is None:
        return UnitMeaning(unit.unit, unit.times)
    return UnitMeaning(
        unit.unit, unit.times, unit.near.unit, tuple(tuple(split_words(words)) for words in unit.near.words)
    )


def _flags(phrases: Iterable[str]) -> Phrasebook[bool]:
    return Phrasebook((phrase, True) for phrase in phrases)


def _wordings(phrases: Iterable[str]) -> Phrasebook[bool]:
    """Of phrases in the vocabulary's language of phrases."""
    return _flags(" ".join(form) for phrase in phrases for form in wordings(phrase))


def _by_letter(table: dict[str, tuple[str, ...]]) -> Phrasebook[str]:
    return Phrasebook((phrase, letter) for letter, phrases in table.items() for phrase in phrases)
