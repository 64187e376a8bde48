"""The unit that follows a number, and what it turns the value into."""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.tidy.lexicon import CELSIUS, FAHRENHEIT, UnitMeaning
from fieldnotes.tidy.numbers import Number, NumberReader

_NEAR_WORDS = 8  # how far back a word like "manifold" tells which inches are meant
_FOLLOWING_WORDS = 3  # ... and how far ahead: "sixty pounds of water pressure"
SCALES = (FAHRENHEIT, CELSIUS)


@dataclass(frozen=True, slots=True)
class UnitFound:
    """`unit` is a record's unit, "deg" for bare degrees, or None for one that the record does not have."""

    unit: str | None
    times: float
    last: int


class UnitReader:
    """Reads the unit after a number."""

    def __init__(self, reader: NumberReader) -> None:
        self._reader = reader
        self._tokens, self._texts = reader.tokens, reader.texts
        self._lexicon = reader.lexicon

    def after(self, number: Number) -> UnitFound | None:
        """The unit of `number`, or None where none was said."""
        if number.suffix:
            return self._glued(number)
        k = self._skip(number)
        if k is None:
            return None
        found = self._lexicon.units.at(self._texts, k)
        if found is None or not self._whole_phrase(k, found[0]):
            return self._symbol(number, k)
        length, meaning = found
        if len(self._texts[k]) == 1 and length == 1 and not self._lone_letter_is_unit(k, number):
            return self._symbol(number, k)
        return self._with_context(number, meaning, k + length)

    def scale_at(self, i: int) -> tuple[str, int] | None:
        """A temperature scale that stands by itself ("..., Fahrenheit") and the token after it."""
        found = self._lexicon.units.at(self._texts, i)
        if found and found[1].unit in SCALES and len(self._texts[i]) > 1:
            return str(found[1].unit), i + found[0]
        return None

    def _skip(self, number: Number) -> int | None:
        """Where the unit would stand: past "some", "of an", and a pause before a full unit word."""
        k, texts = number.last, self._texts
        if k >= len(texts):
            return None
        if not self._reader.goes_on(k):
            if not self._tokens[k - 1].stop:  # a pause for breath
                return k if len(texts[k]) > 2 and texts[k] != "second" else None
            pause = self._tokens[k - 1].stop == "," or self._tokens[k - 1].heard.endswith("...")
            return k if pause and self._closing_unit(k) else None
        if texts[k] in self._lexicon.numbers.between_number_and_unit and texts[k + 1 : k + 2]:
            return k + 1 if texts[k + 1] in self._lexicon.units else k
        if texts[k] == "of" and texts[k + 1 : k + 2] in (["a"], ["an"]):
            return k + 2 if k + 2 < len(texts) else None
        if number.form == "fraction" and texts[k] in ("a", "an") and k + 1 < len(texts):
            return k + 1
        return k

    def _closing_unit(self, k: int) -> bool:
        """A unit word after a pause counts if nothing but a stop follows it: "one twenty, volts."."""
        found = self._lexicon.units.at(self._texts, k)
        if found is None or len(self._texts[k]) < 3 or self._texts[k] == "second":
            return False
        last = k + found[0] - 1
        return (
            bool(self._tokens[last].stop)
            or last + 1 == len(self._tokens)
            or (self._tokens[last + 1].breath != self._tokens[last].breath)
        )

    def _whole_phrase(self, k: int, length: int) -> bool:
        return all(self._tokens[n].stop in ("", ",", ".") for n in range(k, k + length - 1))

    def _lone_letter_is_unit(self, k: int, number: Number) -> bool:
        """ "Eleven point eight K", "seventy F": not where letters or digits follow, as in a serial number."""
        if not self._reader.goes_on(k + 1) or number.value % 1:
            return True
        following = self._texts[k + 1]
        return not (
            (len(following) == 1 and following not in ("a", "i"))
            or following.isdigit()
            or following in self._lexicon.below_hundred
        )

    def _symbol(self, number: Number, k: int) -> UnitFound | None:
        """A written symbol; a single letter only after figures and as a capital, and "in" never."""
        if len(self._texts[k]) == 1 and not self._texts[k - 1][-1].isdigit():
            return None
        found = self._lexicon.symbols.at(self._texts, k)
        if found is None or self._texts[k] == "in":
            return None
        length, meaning = found
        if length == 1 and len(self._texts[k]) == 1 and self._texts[k].isalpha() and self._texts[k] != "ω":
            if not self._tokens[k].capital or not self._lone_letter_is_unit(k, number):
                return None
            meaning = self._lexicon.exact_symbols.get(self._texts[k].upper(), meaning)
        return self._with_context(number, meaning, k + length)

    def _glued(self, number: Number) -> UnitFound | None:
        exact = self._lexicon.exact_symbols.get(number.suffix)
        follows = [token.text for token in self._tokens[number.last : number.last + 2] if not token.heard]
        found = self._lexicon.symbols.at([number.suffix.lower(), *follows], 0)
        if found and found[0] > 1:
            return UnitFound(found[1].unit, found[1].times, number.last + found[0] - 1)
        meaning = exact or (found[1] if found else None)
        return UnitFound(meaning.unit, meaning.times, number.last) if meaning else None

    def _with_context(self, number: Number, meaning: UnitMeaning, last: int) -> UnitFound:
        following = self._texts[last] if self._reader.goes_on(last) else ""
        if following == "per":
            return UnitFound(None, 1, last)
        if meaning.near_unit is not None and self._is_near(number.first, last, meaning):
            return UnitFound(meaning.near_unit, 1, last)
        return UnitFound(meaning.unit, meaning.times, last)

    def _is_near(self, first: int, last: int, meaning: UnitMeaning) -> bool:
        breath, end = self._tokens[first].breath, last
        while end < last + _FOLLOWING_WORDS and self._reader.goes_on(end):
            end += 1
        start = max(0, first - _NEAR_WORDS)
        around = tuple(self._texts[n] for n in range(start, end) if self._tokens[n].breath == breath)
        return any(
            around[n : n + len(words)] == words for words in meaning.near_words for n in range(len(around))
        )
