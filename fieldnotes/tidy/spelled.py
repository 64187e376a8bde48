"""Strings that were spelled aloud: "P X W, five oh four two, W" -> PXW5042W. Where they begin, and which are none."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from fieldnotes.tidy.characters import CharacterReader
from fieldnotes.tidy.lexicon import Lexicon, lexicon_of
from fieldnotes.tidy.repairs import SHORTEST, SpelledString
from fieldnotes.tidy.spelled_run import RunReader
from fieldnotes.tidy.text import Quantity, Spelled, Token
from fieldnotes.vocabulary.measures import Measures


def spell(
    tokens: Sequence[Token], first: int, last: int, measures: Measures, quantities: Iterable[Quantity] = ()
) -> Spelled | None:
    """The first spelled string of two or more characters in tokens `first` to `last`, e.g. after "model".

    `quantities`, where given, keep measurements ("120 volts") out of it.
    """
    return Speller(tokens, lexicon_of(measures), quantities).spell(first, last)


def find_spelled(
    tokens: Sequence[Token], measures: Measures, quantities: Iterable[Quantity] = ()
) -> tuple[Spelled, ...]:
    """All strings that look spelled: letters with digits, three or more letters, four or more digits."""
    return Speller(tokens, lexicon_of(measures), quantities).find()


class Speller:
    """Reads spelled strings in one text."""

    def __init__(
        self, tokens: Sequence[Token], lexicon: Lexicon, quantities: Iterable[Quantity] = ()
    ) -> None:
        self.tokens, self.lexicon = tokens, lexicon
        self.characters = CharacterReader(tokens, lexicon)
        self.texts = self.characters.texts
        self._also_words = lexicon.spelling.also_words
        self._measured = {
            n
            for q in quantities
            if (q.unit or q.value % 1) and not self._is_inside(q)
            for n in range(q.first, q.last)
        }
        self._runs = RunReader(self.characters, self._measured)

    def _is_inside(self, quantity: Quantity) -> bool:
        """Whether what looks like a measurement stands inside a spelled string ("x-ray zero kilo", "I-0-F-0"): its
        unit is a character too, and a letter comes right before it."""
        before, unit = quantity.first - 1, quantity.last - 1
        if before < 0 or self.characters.at(unit) is None:
            return False
        ends = [self.characters.at(k) for k in range(max(0, before - 1), before + 1)]
        spelled_before = any(found and found.last == quantity.first for found in ends)
        return spelled_before and self.tokens[before].breath == self.tokens[unit].breath

    def spell(self, first: int, last: int) -> Spelled | None:
        """The first spelled string of two or more characters that begins in `first` to `last`."""
        last = min(last, len(self.texts))
        for i in range(first, last):
            if i in self._measured or self._is_year(i):
                continue
            run = self._runs.at(i, last)
            if run and len(run.text) >= 2 and (any(c.isdigit() for c in run.text) or run.one_by_one):
                return self._spelled(i, run)
        return None

    def find(self) -> tuple[Spelled, ...]:
        """All strings of at least `SHORTEST` characters that look spelled."""
        found: list[Spelled] = []
        i = 0
        while i < len(self.texts):
            run = self._runs.at(i, len(self.texts)) if self._may_start(i) else None
            if run and len(run.text) >= SHORTEST and self._looks_spelled(run):
                found.append(self._spelled(i, run))
                i = run.last
            elif run and run.text.isdigit():
                i = max(i + 1, run.last)  # nor does a number said in pairs look spelled from its middle on
            else:
                i += 1
        return tuple(found)

    def _spelled(self, first: int, run: SpelledString) -> Spelled:
        places = range(first, run.last)
        sure = not any(self.tokens[n].guessed or self._rhymes(n) for n in places)
        return Spelled(first, run.last, run.text, run.repaired, sure)

    def _rhymes(self, i: int) -> bool:
        """Whether token `i` is a letter that was heard (not typed) and that no word tells from those that rhyme."""
        token, following = self.tokens[i], self.texts[i + 1 : i + 2]
        signs = [sign for sign in token.heard or token.text if sign.isalpha()]
        written = len(token.text) == 1 or any(map(str.isdigit, token.text)) or "".join(signs).isupper()
        if (
            token.confidence == 1.0
            or not written
            or self.lexicon.spelling.rhyming.isdisjoint(token.text.upper())
        ):
            return False
        told = self.lexicon.as_in.at(self.texts, i + 1) or (
            following and following[0] in self.lexicon.spelling.for_word
        )
        return not told

    def _may_start(self, i: int) -> bool:
        text = self.texts[i]
        if i in self._measured or (text in self._also_words and not self._letter_opens(i)):
            return False
        if text == "one" and self._is_a_thing(i):
            return False
        return self.characters.at(i) is not None and not self._is_year(i)

    def _letter_opens(self, i: int) -> bool:
        """Whether "a" or "I" can be a string's first letter: "A for apple", "I, N, D", "I N D"."""
        token, following = self.tokens[i], self.texts[i + 1 : i + 2]
        if self.characters.spelled_out(token.text.upper(), i + 1):
            return True
        if token.text == "a":
            return token.capital
        lone = bool(following) and len(following[0]) == 1 and following[0] not in self._also_words
        return token.stop == "," or lone

    def _is_a_thing(self, i: int) -> bool:
        """ "The long one, two zero ..." or "the one, ...": no digit."""
        numbers, before = self.lexicon.numbers, self.texts[max(0, i - 2) : i]
        return (
            bool(self.tokens[i].stop)
            and before[:1] in (["the"], ["a"], ["this"])
            and before[-1] not in numbers.labels
        )

    def _looks_spelled(self, run: SpelledString) -> bool:
        digits = sum(sign.isdigit() for sign in run.text)
        if digits == len(run.text):
            return digits > SHORTEST and run.one_by_one
        return digits > 0 or run.one_by_one

    def _is_year(self, i: int) -> bool:
        numbers = self.lexicon.numbers
        if i == 0 or self.texts[i - 1] not in numbers.year_after | numbers.months | {"in"}:
            return False
        number = self.characters.reader.at(i)
        return number is not None and (number.form == "year" or 1950 <= number.value <= 2049)
