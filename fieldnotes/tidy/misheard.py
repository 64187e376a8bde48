"""Characters that were misheard behind "model" or "serial", as what they must have been: tokens -> tokens.

Behind such a word characters are expected. "Serial, my climb, 404" is then "mike lima, 404". What had to be guessed
(`guesses.py`) is marked, and so is the end of a string after which characters go on that could not be read: the report
then asks to check it. Where fewer than `ENOUGH` characters are certain, nothing is touched: "the model is fine for now"
stays what it is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import accumulate, pairwise

from fieldnotes.tidy.characters import CharacterReader
from fieldnotes.tidy.guesses import Guess, GuessReader
from fieldnotes.tidy.lexicon import Lexicon
from fieldnotes.tidy.text import Token

REACH = 40  # tokens behind the announcement that are looked at
ENOUGH = 3  # certain characters of a string in which others are guessed
STRANGE = 3  # words before the first character that may be ones that were lost
LEFT_OVER = 12  # words behind a string in which further characters make it doubtful
_STOPPED = (".", "?", "!")


def mended_spelling(
    tokens: Sequence[Token], breaths: Sequence[tuple[int, int]], lexicon: Lexicon
) -> tuple[list[Token], list[tuple[int, int]]]:
    """The tokens and the breaths' ranges, with misheard characters replaced."""
    mender = _Mender(tokens, lexicon)
    out: list[Token] = []
    at = 0
    while at < len(tokens):
        mended = mender.behind(at)
        out += mended.tokens if mended else [tokens[at]]
        at = mended.last if mended else at + 1
    counts = Counter(token.breath for token in out)
    return out, list(pairwise(accumulate((counts[n] for n in range(len(breaths))), initial=0)))


class _Mender:
    """Finds what is announced in one text, and reads it."""

    def __init__(self, tokens: Sequence[Token], lexicon: Lexicon) -> None:
        self.tokens, self.lexicon = tokens, lexicon
        self.characters = CharacterReader(tokens, lexicon)
        self.guesses = GuessReader(self.characters)
        self.texts = self.characters.texts

    def behind(self, i: int) -> Guess | None:
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
        doubtful = start > first or self._goes_on_unread(read, limit)
        if not doubtful and read.tokens == tuple(self.tokens[start : read.last]):
            return None
        cue = replace(self.tokens[i], text=named[1])  # "cereals"
        *others, end = read.tokens
        end = replace(end, guessed=end.guessed or doubtful)
        return replace(read, tokens=(cue, *self.tokens[i + 1 : start], *others, end))

    def _limit(self, first: int) -> int:
        """Where the next announcement or the reach ends."""
        end = min(first + REACH, len(self.texts))
        return next((n for n in range(first, end) if self.lexicon.announced.at(self.texts, n)), end)

    def _is_past(self, i: int) -> bool:
        """Whether a word only leads from the announcement to the characters ("number", "is")."""
        leads = self.texts[i] in self.lexicon.spelling.announced_past
        return leads and self.characters.at(i) is None and self.guesses.as_in(i) is None

    def _aside(self, i: int) -> int:
        """How many words stand between the characters as the spelling allows them ("dash", "hang on", "sorry")."""
        found = self.lexicon.asides.at(self.texts, i)
        return found[0] if found else 0

    def _started(self, first: int, limit: int) -> tuple[int, Guess | None]:
        """Where the characters start, past a few strange words, and what they are."""
        for start in range(first, min(first + STRANGE + 1, limit)):
            read = self._stretch(start, limit)
            if read is not None and (start == first or read.firm):
                return start, read
            if self.tokens[start].stop in _STOPPED:
                break
        return first, None

    def _stretch(self, first: int, limit: int) -> Guess | None:
        """All characters from a token on, as far as they can be read; `firm`: the first of them is."""
        found = Guess((), "", first)
        kept: Guess | None = None  # up to the last that was no mere likeness
        while (at := found.last) < limit:
            if found.text and (step := self._aside(at)) and at + step < limit:
                aside = tuple(self.tokens[at : at + step])
                found = replace(found, tokens=found.tokens + aside, last=at + step)
                continue
            read = self.guesses.at(at, limit, found.text)
            if read is None or not (read.firm or at == first or self._runs_on(at)):
                break
            found = Guess(
                tokens=found.tokens + read.tokens,
                text=found.text + read.text,
                last=read.last,
                certain=found.certain + read.certain,
                firm=found.firm if found.text else read.firm,
            )
            if read.firm or self._closes(read.last, limit):
                kept = found
        return kept

    def _runs_on(self, i: int) -> bool:
        """Whether token `i` stands right behind a character, not behind a full stop or an aside."""
        before = self.tokens[i - 1]
        return before.stop not in _STOPPED and (
            self.characters.at(i - 1, "0") is not None or not self._aside(i - 1)
        )

    def _closes(self, i: int, limit: int) -> bool:
        """Whether a sentence ends before token `i`, as behind a string's last character ("..., 4, O, Quibbeck.")."""
        return i == limit or self.tokens[i - 1].stop in _STOPPED

    def _goes_on_unread(self, read: Guess, limit: int) -> bool:
        """Whether the same sentence has further characters behind the string, past words that were not read."""
        for n in range(read.last, min(read.last + LEFT_OVER, limit)):
            if self.tokens[n - 1].stop in _STOPPED:
                return False
            if self._is_sign(n):
                return True
        return False

    def _is_sign(self, i: int) -> bool:
        """Whether a token tells of a character: a figure, a single letter, "as in"."""
        text, spelling = self.texts[i], self.lexicon.spelling
        digits = text[:1].isdigit() or text in self.lexicon.numbers.digits
        letter = len(text) == 1 and text not in spelling.also_words
        return digits or letter or self.lexicon.as_in.at(self.texts, i) is not None
