"""Characters that were misheard behind "model" or "serial", as what they must have been: tokens -> tokens.

Behind such a word characters are expected. "Serial, my climb, 404" is then "mike lima, 404", "and as in Nancy" is
N, "for 6-2" is 4 6 2. All that is put in place of something else is marked as guessed, and so is the end of a string
after which characters go on that could not be read: the report then asks to check it. Where fewer than `ENOUGH`
characters are certain, nothing is touched: "the model is fine for now" stays what it is.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from fieldnotes.tidy.characters import CharacterReader
from fieldnotes.tidy.lexicon import Lexicon
from fieldnotes.tidy.text import Token

REACH = 40  # tokens behind the announcement that are looked at
ENOUGH = 3  # certain characters of a string in which others are guessed
STRANGE = 3  # words before the first character that may be ones that were lost
LEFT_OVER = 12  # words behind a string in which further characters make it doubtful
_DECIMALS = re.compile(r"\d+(?:[.,]\d+)+")
_STOPPED = (".", "?", "!")


@dataclass(frozen=True, slots=True)
class _Read:
    """Tokens up to `last` as characters. `tokens`: what stands for them; `certain`: how many were read as heard."""

    tokens: tuple[Token, ...]
    text: str
    last: int
    certain: int
    firm: bool = True  # False: rests on likeness of sound alone


def mended_spelling(
    tokens: Sequence[Token], breaths: Sequence[tuple[int, int]], lexicon: Lexicon
) -> tuple[list[Token], list[tuple[int, int]]]:
    """The tokens and the breaths' ranges, with misheard characters replaced."""
    mender = _Mender(tokens, lexicon)
    out: list[Token] = []
    at = 0
    while at < len(tokens):
        stretch = mender.behind(at)
        if stretch is None:
            out.append(tokens[at])
            at += 1
        else:
            out += stretch.tokens
            at = stretch.last
    counts = [0] * len(breaths)
    for token in out:
        counts[token.breath] += 1
    ranges, first = [], 0
    for count in counts:
        ranges.append((first, first + count))
        first += count
    return out, ranges


class _Mender:
    """Finds what is announced in one text, and reads it."""

    def __init__(self, tokens: Sequence[Token], lexicon: Lexicon) -> None:
        self.tokens, self.lexicon = tokens, lexicon
        self.characters = CharacterReader(tokens, lexicon)
        self.texts = self.characters.texts

    def behind(self, i: int) -> _Read | None:
        """The announcement at token `i` with the characters behind it; None where there is nothing to mend."""
        named = self.lexicon.announced.at(self.texts, i)
        if named is None:
            return None
        first = i + named[0]
        limit = self._limit(first)
        while first < limit and (step := self._aside(first) or self._is_past(first)):
            first += step
        start, read = self._started(first, limit)
        if read is None or read.certain < ENOUGH:
            return None
        cue = self._cue(i, i + named[0], named[1])
        between = self.tokens[i + named[0] : start]
        doubtful = start > first or self._goes_on_unread(read, limit)
        if not doubtful and not any(t.guessed for t in read.tokens) and read.text == self._as_is(start, read):
            return None
        *others, end = read.tokens
        mended = (*others, replace(end, guessed=end.guessed or doubtful))
        return _Read((*cue, *between, *mended), read.text, read.last, read.certain)

    def _as_is(self, first: int, read: _Read) -> str:
        return read.text if read.tokens == tuple(self.tokens[first : read.last]) else ""

    def _limit(self, first: int) -> int:
        """Where the next announcement or the reach ends."""
        end = min(first + REACH, len(self.texts))
        return next((n for n in range(first, end) if self.lexicon.announced.at(self.texts, n)), end)

    def _is_past(self, i: int) -> bool:
        """Whether a word only leads from the announcement to the characters ("number", "is")."""
        text = self.texts[i]
        if text not in self.lexicon.spelling.announced_past:
            return False
        return self.characters.at(i) is None and self._as_in(i) is None

    def _aside(self, i: int) -> int:
        """How many words stand between the characters as the spelling allows them ("dash", "hang on", "sorry")."""
        book = self.lexicon
        if self.texts[i] in book.retractions.no or self.texts[i] == "again":
            return 1
        for phrases in (book.dropped, book.pauses, book.takes_back, book.interrupts, book.once_more):
            if found := phrases.at(self.texts, i):
                return found[0]
        return 0

    def _started(self, first: int, limit: int) -> tuple[int, _Read | None]:
        """Where the characters start, past a few strange words, and what they are."""
        for start in range(first, min(first + STRANGE + 1, limit)):
            read = self._stretch(start, limit)
            if read is not None and (start == first or read.firm):
                return start, read
            if self.tokens[start].stop in _STOPPED:
                break
        return first, None

    def _stretch(self, first: int, limit: int) -> _Read | None:
        """All characters from a token on, as far as they can be read."""
        found: list[Token] = []
        text, certain, at = "", 0, first
        opens_firmly = True
        kept = _Read((), "", first, 0)  # up to the last that was no mere likeness
        while at < limit:
            if text and (step := self._aside(at)) and at + step < limit:
                found += self.tokens[at : at + step]
                at += step
                continue
            read = self._next(at, limit, text)
            if read is None or not (read.firm or at == first or self._runs_on(at)):
                break
            opens_firmly = opens_firmly if text else read.firm
            found += read.tokens
            text, certain, at = text + read.text, certain + read.certain, read.last
            if read.firm or self._closes(at, limit):
                kept = _Read(tuple(found), text, at, certain)
        return replace(kept, firm=opens_firmly) if kept.text else None

    def _runs_on(self, i: int) -> bool:
        """Whether token `i` stands right behind a character, not behind a full stop or an aside."""
        before = self.tokens[i - 1]
        return before.stop not in _STOPPED and (
            self.characters.at(i - 1, "0") is not None or not self._aside(i - 1)
        )

    def _closes(self, i: int, limit: int) -> bool:
        """Whether a sentence ends before token `i`, as behind a string's last character ("..., 4, O, Quibbeck.")."""
        return i == limit or self.tokens[i - 1].stop in _STOPPED

    def _next(self, i: int, limit: int, before: str) -> _Read | None:
        return (
            self._as_in(i)
            or self._as_heard(i, before)
            or self._figures(i)
            or self._code_words(i, limit)
            or self._homophone(i, before)
        )

    def _as_heard(self, i: int, before: str) -> _Read | None:
        here = self.characters.at(i, before or "")
        if here is None:
            return None
        return _Read(tuple(self.tokens[i : here.last]), here.text, here.last, len(here.text))

    def _as_in(self, i: int) -> _Read | None:
        """ "And as in Nancy", "G as in Bob", "C for 0": the letter that the word begins with."""
        for lead in (2, 1):
            joint = self.lexicon.as_in_guesses.at(self.texts, i + lead)
            at = i + lead + (joint[0] if joint else 0)
            if joint is None or at >= len(self.texts):
                continue
            if any(self.tokens[n].stop for n in range(i, at)):
                continue
            said = " ".join(self.texts[i : i + lead])
            x_ray = self.texts[at : at + 2] == ["x", "ray"]
            letter, last = ("X", at + 2) if x_ray else (self._initial(at), at + 1)
            if letter is None or not (
                (letter == "Z" and said == "z" and self.texts[at] == "0")
                or self._may_be(said, letter, " ".join(self.texts[i + lead : at]))
            ):
                continue
            return replace(self._instead(i, last, [letter]), firm=True)
        return None

    def _initial(self, i: int) -> str | None:
        """The letter that a word stands for; None where it is none that one spells with."""
        word, spelling = self.texts[i], self.lexicon.spelling
        if word == "0":
            return "Z"
        if len(word) < 3 or not word.isalpha() or word in spelling.times:
            return None
        return word[0].upper()

    def _may_be(self, said: str, letter: str, joint: str) -> bool:
        """Whether what stands before "as in" can be the letter, and "as in" was not rightly read already."""
        plain = joint in self.lexicon.spelling.as_in or joint in self.lexicon.spelling.for_word
        named = self.lexicon.letters.at(said.split(), 0)
        name = named[1] if named and named[0] == len(said.split()) else said.upper()
        if name == letter:
            return not plain
        if said in self.lexicon.spelling.letter_guesses.get(letter, ()):
            return True
        if joint in ("in", "an") and said in (f"{name[0].lower()}{end}" for end in ("s", "as", "is")):
            return name[0] == letter  # "PS in pop"
        return len(said) == 1 and said.isalnum() and (plain or joint in ("is in", "as an"))

    def _figures(self, i: int) -> _Read | None:
        """ "8.51": digits between which the recogniser set a point."""
        token = self.tokens[i]
        if not _DECIMALS.fullmatch(token.text):
            return None
        digits = re.sub(r"\D", "", token.text)
        return _Read((replace(token, text=digits, guessed=True),), digits, i + 1, len(digits))

    def _code_words(self, i: int, limit: int) -> _Read | None:
        """One or two words that sound like one or two code words: "mic", "my climb", "victorciera"."""
        best: tuple[float, int, str] | None = None
        for size in (2, 1):
            words = self.texts[i : min(i + size, limit)]
            if len(words) < size or any(self.tokens[n].stop for n in range(i, i + size - 1)):
                continue
            if size == 2 and self.characters.at(i + 1):
                continue
            if not all(
                w.isascii() and w.isalpha() and len(w) > 1 and w not in self.lexicon.spelling.plain_words
                for w in words
            ):
                continue
            near = self.lexicon.code_sounds.nearest(" ".join(words))
            if near and (best is None or near[0] > best[0]):
                best = near[0], size, near[1]
        return self._instead(i, i + best[1], list(best[2])) if best else None

    def _homophone(self, i: int, before: str) -> _Read | None:
        """ "You be 5607", "P, for 6-2": ordinary words beside characters that sound like one."""
        found = self.lexicon.homophones.at(self.texts, i)
        if found is None:
            return None
        beside = self.characters.at(i + found[0], "0") or self.lexicon.homophones.at(self.texts, i + found[0])
        opens = beside and self.texts[i] not in self.lexicon.spelling.plain_words
        return self._instead(i, i + found[0], list(found[1])) if before or opens else None

    def _instead(self, first: int, last: int, signs: Iterable[str]) -> _Read:
        """Tokens for characters in place of [first, last)."""
        old, end, signs = self.tokens[first], self.tokens[last - 1], list(signs)
        heard = " ".join(t.heard for t in self.tokens[first:last] if t.heard)
        sure = min(t.confidence for t in self.tokens[first:last])
        tokens = tuple(
            Token(
                text=sign if sign.isdigit() else self._code_word(sign),
                heard=heard if n == 0 else "",
                breath=old.breath,
                stop=end.stop if n == len(signs) - 1 else "",
                start=old.start,
                end=end.end,
                confidence=sure,
                guessed=True,
            )
            for n, sign in enumerate(signs)
        )
        return _Read(tokens, "".join(signs), last, 0, firm=False)

    def _code_word(self, letter: str) -> str:
        """Its code word that is written as one word."""
        return next(word for word in self.lexicon.spelling.code_words[letter] if " " not in word)

    def _cue(self, first: int, last: int, name: str) -> tuple[Token, ...]:
        """The announcement itself, its first word put right ("cereals")."""
        return (replace(self.tokens[first], text=name), *self.tokens[first + 1 : last])

    def _goes_on_unread(self, read: _Read, limit: int) -> bool:
        """Whether the same sentence has further characters behind the string, past words that were not read."""
        if self.tokens[read.last - 1].stop in _STOPPED:
            return False
        for n in range(read.last, min(read.last + LEFT_OVER, limit)):
            text = self.texts[n]
            digits = text[:1].isdigit() or text in self.lexicon.numbers.digits
            if digits or self.lexicon.as_in.at(self.texts, n) or (len(text) == 1 and text not in ("a", "i")):
                return True
            if self.tokens[n].stop in _STOPPED:
                return False
        return False
