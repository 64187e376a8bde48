"""Letters and digits as people say them: "B as in boy", "zulu", "zed for zebra", "triple zero", "PXW"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from fieldnotes.tidy.lexicon import Lexicon
from fieldnotes.tidy.numbers import NumberReader
from fieldnotes.tidy.text import Token

MOST_CAPITALS = (
    5  # of a word that is written in capitals only, as letters are ("PXW"); longer ones are shouted words
)
LONG_NUMBER = 7  # digits; a number with hyphens that has so many is no range
_MIXED = re.compile(r"(?=.*\d)(?=.*[a-z])[a-z0-9]{2,}")
_ZERO = re.compile(
    r"(?<=\d)O|O(?=[O\d]*\d)"
)  # an "oh" among digits ("956O"), which the recogniser wrote as the letter
_ORDINAL = re.compile(r"\d+(st|nd|rd|th)")
_CONSONANTS = re.compile(r"[bcdfghjklmnpqrstvwxz]{2,4}")


@dataclass(frozen=True, slots=True)
class Characters:
    """One or more characters of a spelled string. `one_by_one`: said singly, not as "twenty one" or "PXW"."""

    text: str
    last: int
    one_by_one: bool = True


def is_character(written: str, lexicon: Lexicon) -> bool:
    """Whether a written word by itself can be one character or more: "B,", "5442", "PXW", "zulu", "double".

    "a" and "I" cannot; whether they are letters, their neighbours tell.
    """
    bare = "".join(sign for sign in written if sign.isalnum())
    if len(bare) == 1:
        return bare not in ("a", "I")
    if any(map(str.isdigit, bare)) or (_is_shouted(bare) and len(bare) <= MOST_CAPITALS):
        return True
    return bare.lower() in lexicon.alone_characters


def _is_shouted(written: str) -> bool:
    letters = [sign for sign in written if sign.isalpha()]
    return len(letters) > 1 and all(sign.isupper() for sign in letters)


class CharacterReader:
    """Reads the characters at a given token."""

    def __init__(self, tokens: Sequence[Token], lexicon: Lexicon) -> None:
        self.tokens, self.lexicon = tokens, lexicon
        self.reader = NumberReader(tokens, lexicon)
        self.texts = self.reader.texts
        self.plurals = {
            form: str(value)
            for word, value in [*lexicon.numbers.digits.items(), ("oh", 0)]
            for form in (word + "s", word + "es")
        }

    def at(self, i: int, before: str = "") -> Characters | None:
        """The characters at token `i`; `before` is what was read just before, "" at the start of a string."""
        if i >= len(self.texts):
            return None
        found = (
            self._letter(i, before) or self._repeated(i) or self._digits(i, before) or self._chunk(i, before)
        )
        return self._named_twice(found) if found else None

    def _letter(self, i: int, before: str) -> Characters | None:
        text, lexicon = self.texts[i], self.lexicon
        named = lexicon.letters.at(self.texts, i) or lexicon.code_words.at(self.texts, i)
        letter, last = (named[1], i + named[0]) if named else ("", i + 1)
        if not letter and len(text) == 1 and text.isascii() and text.isalpha():
            letter = text.upper()
        if not letter:
            return self._sound_alike(i, before)
        spelled = self.spelled_out(letter, last)
        if spelled:
            return spelled
        if text == "o" and (before[-1:].isdigit() or (before and self._digit_follows(last))):
            return Characters("0", last)
        if text in ("a", "i", "o") and not self._is_letter(i, before):
            return None
        return Characters(letter, last)

    def _digit_follows(self, i: int) -> bool:
        """Past a comma too: "O, 1, 9, 1"."""
        near = i < len(self.texts) and (self.reader.goes_on(i) or self.tokens[i - 1].stop == ",")
        return near and (self.texts[i].isdigit() or self.texts[i] in self.lexicon.numbers.digits)

    def spelled_out(self, letter: str, k: int) -> Characters | None:
        """ "... as in boy", "... for apple"."""
        if as_in := self.lexicon.as_in.at(self.texts, k):
            at = k + as_in[0]
            if at < len(self.texts):
                named, last = self.initial_at(at)
                return Characters(named or letter, last)
        joint = self.lexicon.for_word.at(self.texts, k)
        if joint and k + joint[0] < len(self.texts):
            at = k + joint[0]
            named, last = self.initial_at(at)
            if named == letter and (len(self.texts[at]) > 2 or last > at + 1):
                return Characters(letter, last)
        return None

    def initial_at(self, i: int) -> tuple[str, int]:
        """The letter that a word is spelled for, "" where it begins with none, and the token after it."""
        code = self.lexicon.code_words.at(self.texts, i)
        if code and code[0] > 1:
            return code[1], i + code[0]  # "x ray"
        return (self.texts[i][0].upper() if self.texts[i][0].isalpha() else ""), i + 1

    def _sound_alike(self, i: int, before: str) -> Characters | None:
        letter = self.lexicon.sound_alikes.get(self.texts[i])
        if letter is None:
            return None
        spelled = self.spelled_out(letter, i + 1) if self.lexicon.as_in.at(self.texts, i + 1) else None
        if spelled:
            return spelled
        inside = before and self.reader.goes_on(i) and self.reader.goes_on(i + 1) and self.at(i + 1, letter)
        return Characters(letter, i + 1) if inside else None

    def _is_letter(self, i: int, before: str) -> bool:
        """Whether "a", "i" or "o" is a letter here and not a word."""
        text, capital = self.texts[i], self.tokens[i].heard[:1].isupper() or self.tokens[i].heard == ""
        next_is_character = self.reader.goes_on(i + 1) and self.at(i + 1, text.upper()) is not None
        ends_here = not self.reader.goes_on(i + 1)
        if text == "a" and not capital and self._is_article(i):
            return False
        if before and text == "a" and capital and self._ends_breath(i):
            return True  # "..., double two, A."
        if capital and self.tokens[i].stop == "," and self.at(i + 1, text.upper()) is not None:
            return self.tokens[i + 1].breath == self.tokens[i].breath  # "model A, Q, one two ..."
        if before and self.reader.goes_on(i):
            return next_is_character or ends_here or (capital and text == "a")
        if text == "a" and not capital and i and self.texts[i - 1] in self.lexicon.spelling.article_after:
            return False
        return next_is_character

    def _is_article(self, i: int) -> bool:
        """ "then a B like boy": the letter that follows brings its own word."""
        following = self.texts[i + 1] if i + 1 < len(self.texts) else ""
        if self.texts[i - 1 : i] == ["then"] and self.reader.goes_on(i):
            return True  # "then a one"
        if len(following) != 1 or not following.isalpha():
            return False
        return self.spelled_out(following.upper(), i + 2) is not None

    def _ends_breath(self, i: int) -> bool:
        return (
            bool(self.tokens[i].stop)
            or i + 1 == len(self.tokens)
            or self.tokens[i + 1].breath != self.tokens[i].breath
        )

    def _repeated(self, i: int) -> Characters | None:
        times = self.lexicon.spelling.times.get(self.texts[i])
        comma = self.tokens[i].stop == "," and i + 1 < len(self.texts)  # "double, 3"
        if times and (self.reader.goes_on(i + 1) or comma):
            one = self.at(i + 1, "double")
            return Characters(one.text * times, one.last) if one and len(one.text) == 1 else None
        known = self.lexicon.below_hundred.get(self.texts[i])
        if known and known[0] == "one" and known[1] > 1 and self.reader.goes_on(i + 1):
            digit = self.plurals.get(self.texts[i + 1])
            return Characters(digit * known[1], i + 2) if digit else None
        return None

    def _digits(self, i: int, before: str) -> Characters | None:
        text, numbers = self.texts[i], self.lexicon.numbers
        if text in numbers.digits:
            return Characters(str(numbers.digits[text]), i + 1)
        if text == "oh" or (text == "o" and before):
            return Characters("0", i + 1)
        if text in self.lexicon.spelling.digit_names:
            return Characters(str(self.lexicon.spelling.digit_names[text]), i + 1)
        if text in numbers.teens:
            return Characters(str(numbers.teens[text]), i + 1, False)
        if text in numbers.tens:
            value, last = numbers.tens[text], i + 1
            if self.reader.goes_on(last) and numbers.digits.get(self.texts[last]):
                return Characters(str(value + numbers.digits[self.texts[last]]), last + 1, False)
            return Characters(str(value), last, False)
        if before[-1:].isdigit() and self.reader.goes_on(i):
            zeros = "00" if text in numbers.hundred else "000" if text in numbers.thousand else ""
            return Characters(zeros, i + 1, False) if zeros else None
        return None

    def _chunk(self, i: int, before: str) -> Characters | None:
        """Figures and letters that the recogniser wrote together."""
        token = self.tokens[i]
        bare = token.text.lstrip("+-") if not token.heard else token.text
        if bare.isascii() and bare.isdigit():
            word = self._word_of(i)
            written_apart = "-" in word and sum(map(str.isdigit, word)) >= LONG_NUMBER  # "441-920-66"
            return Characters(bare, i + 1, len(bare) == 1 or len(bare) >= 6 or written_apart)
        if _MIXED.fullmatch(bare) and not _ORDINAL.fullmatch(bare):
            return Characters(_ZERO.sub("0", bare.upper()), i + 1, False)
        if _is_shouted(token.heard) and bare.isalpha() and len(bare) <= MOST_CAPITALS:
            return Characters(bare.upper(), i + 1, False)
        following = self.texts[i + 1].lstrip("+-") if self.reader.goes_on(i + 1) else ""
        beside = before or following[:1].isdigit()
        is_word = bare in self.lexicon.units or bare in self.lexicon.spelling.no_letters
        if beside and _CONSONANTS.fullmatch(bare) and not is_word:
            return Characters(bare.upper(), i + 1, False)
        return None

    def _word_of(self, i: int) -> str:
        """The written word that token `i` is a piece of."""
        while i and not self.tokens[i].heard:
            i -= 1
        return self.tokens[i].heard

    def _named_twice(self, found: Characters) -> Characters:
        """ "A Z, zulu", "a B, B as in bravo": the word only makes the letter sure."""
        if len(found.text) == 1 and found.text.isalpha() and found.last < len(self.texts):
            again = self.lexicon.code_words.at(self.texts, found.last)
            if again and again[1] == found.text and len(self.texts[found.last - 1]) == 1:
                return Characters(found.text, found.last + again[0])
            if self.texts[found.last] == self.texts[found.last - 1] == found.text.lower():
                sure = self.spelled_out(found.text, found.last + 1)
                return sure if sure and sure.text == found.text else found
        return found
