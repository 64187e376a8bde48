"""What a misheard character must have been: "and as in Nancy" is N, "for" is 4, "mic" is mike, "8.51" is 851.

Each is read at a given token of a text in which characters are expected. All that is put in place of something else
is marked as guessed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from fieldnotes.tidy.characters import CharacterReader
from fieldnotes.tidy.text import Token

_DECIMALS = re.compile(r"\d+(?:[.,]\d+)+")


@dataclass(frozen=True, slots=True)
class Guess:
    """Tokens up to `last` as characters. `tokens`: what stands for them; `certain`: how many were read as heard."""

    tokens: tuple[Token, ...]
    text: str
    last: int
    certain: int = 0
    firm: bool = False  # False: rests on likeness of sound alone


class GuessReader:
    """Reads the characters at a given token, heard or misheard."""

    def __init__(self, characters: CharacterReader) -> None:
        self.characters = characters
        self.tokens, self.texts, self.lexicon = characters.tokens, characters.texts, characters.lexicon

    def at(self, i: int, limit: int, before: str) -> Guess | None:
        """Of tokens before `limit`; `before` is what was read just before, "" at the start of a string."""
        return (
            self.as_in(i)
            or self._as_heard(i, before)
            or self._figures(i)
            or self._code_words(i, limit)
            or self._homophone(i, before)
            or self._digit_between(i, before)
        )

    def as_in(self, i: int) -> Guess | None:
        """ "And as in Nancy", "G as in Bob", "C for 0": the letter that the word begins with."""
        for lead in (2, 1):
            joint = self.lexicon.as_in_guesses.at(self.texts, i + lead)
            at = i + lead + (joint[0] if joint else 0)
            if joint is None or at >= len(self.texts) or any(token.stop for token in self.tokens[i:at]):
                continue
            letter, last = self._spelled_for(at)
            said, by = " ".join(self.texts[i : i + lead]), " ".join(self.texts[i + lead : at])
            if letter and self._may_be(said, letter, by, self.texts[at].isdigit()):
                return replace(self._instead(i, last, letter), firm=True)
        return None

    def _spelled_for(self, i: int) -> tuple[str, int]:
        """The letter that a word stands for, "" where it is none that one spells with, and the token after it."""
        word, spelling = self.texts[i], self.lexicon.spelling
        if word in spelling.figures_for_letters:
            return spelling.figures_for_letters[word], i + 1
        letter, last = self.characters.initial_at(i)
        plain = len(word) > 2 and word.isalpha() and word not in spelling.times
        return (letter if plain or last > i + 1 else ""), last

    def _may_be(self, said: str, letter: str, joint: str, figure: bool) -> bool:
        """Whether what stands before "as in" can be the letter, and was not rightly read already.

        `figure`: the word behind it is a figure, which is never read as a word.
        """
        spelling = self.lexicon.spelling
        plain = joint in spelling.as_in or joint in spelling.for_word
        named = self.lexicon.letters.at(said.split(), 0)
        name = named[1] if named and named[0] == len(said.split()) else said.upper()
        if name == letter:
            return figure or not plain
        if said in spelling.letter_guesses.get(letter, ()):
            return True
        drawn = spelling.drawn_to_letter
        if joint in drawn.joints and said[0] == name[0].lower() and said[1:] in drawn.ends:
            return name[0] == letter
        return len(said) == 1 and said.isalnum() and (plain or joint in spelling.outweighs_letter)

    def _as_heard(self, i: int, before: str) -> Guess | None:
        here = self.characters.at(i, before)
        if here is None:
            return None
        return Guess(tuple(self.tokens[i : here.last]), here.text, here.last, len(here.text), firm=True)

    def _figures(self, i: int) -> Guess | None:
        """ "8.51": digits between which the recogniser set a point."""
        token = self.tokens[i]
        if not _DECIMALS.fullmatch(token.text):
            return None
        digits = re.sub(r"\D", "", token.text)
        return Guess((replace(token, text=digits, guessed=True),), digits, i + 1, len(digits), firm=True)

    def _code_words(self, i: int, limit: int) -> Guess | None:
        """One or two words that sound like one or two code words: "mic", "my climb", "victorciera"."""
        found = [
            (near[0], size, near[1])
            for size in (2, 1)
            if i + size <= limit and self._may_be_code_words(i, size)
            if (near := self.lexicon.code_sounds.nearest(" ".join(self.texts[i : i + size])))
        ]
        if not found:
            return None
        _, size, letters = max(found, key=lambda near: near[0])
        return self._instead(i, i + size, letters)

    def _may_be_code_words(self, i: int, size: int) -> bool:
        """Whether so many words are spoken in one go and are none that mean something here."""
        if size == 2 and (self.tokens[i].stop or self.characters.at(i + 1)):
            return False
        plain = self.lexicon.spelling.plain_words
        return all(
            len(word) > 1 and word.isascii() and word.isalpha() and word not in plain
            for word in self.texts[i : i + size]
        )

    def _homophone(self, i: int, before: str) -> Guess | None:
        """ "You be 5607", "P, for 6-2": ordinary words beside characters that sound like one."""
        book = self.lexicon.homophones
        found = book.at(self.texts, i)
        if found is None:
            return None
        last = i + found[0]
        beside = self.characters.at(last, "0") or book.at(self.texts, last)
        opens = beside and self.texts[i] not in self.lexicon.spelling.plain_words
        return self._instead(i, last, found[1]) if before or opens else None

    def _digit_between(self, i: int, before: str) -> Guess | None:
        """ "7, 7, not 4, 1": between single digits of a string that goes on; "4, 1, 9, not 4, 1, 8" corrects."""
        digit = self.lexicon.spelling.digits_between.get(self.texts[i])
        following = self.characters.at(i + 1, before)
        if digit is None or not before[-1:].isdigit() or following is None or self.tokens[i].stop:
            return None
        single = len(following.text) == 1 and following.text.isdigit()
        behind = self.characters.at(following.last, following.text)
        corrects = behind is not None and following.text + behind.text[:1] in before
        return self._instead(i, i + 1, str(digit)) if single and behind and not corrects else None

    def _instead(self, first: int, last: int, signs: str) -> Guess:
        """Tokens for characters in place of [first, last)."""
        old, end = self.tokens[first], self.tokens[last - 1]
        heard = " ".join(t.heard for t in self.tokens[first:last] if t.heard)
        sure = min(t.confidence for t in self.tokens[first:last])
        tokens = tuple(
            Token(
                text=text,
                heard=heard if n == 0 else "",
                breath=old.breath,
                stop=end.stop if n == len(signs) - 1 else "",
                start=old.start,
                end=end.end,
                confidence=sure,
                guessed=True,
            )
            for n, text in enumerate(self._said_as(signs))
        )
        return Guess(tokens, signs, last)

    def _said_as(self, signs: str) -> Iterable[str]:
        """Each digit as it is, each letter as its code word that is written as one word."""
        code_words = self.lexicon.spelling.code_words
        for sign in signs:
            yield sign if sign.isdigit() else next(word for word in code_words[sign] if " " not in word)
