"""Which words of the spelling alphabet a misheard text sounds like: "my climb" like mike lima."""

from __future__ import annotations

from fieldnotes.sounds import Sounding
from fieldnotes.vocabulary.measures import Spelling

# Likeness of a misheard code word: 0.75 for "my climb" and "mic", 0.71 for "tangle"; "problem" is like bravo lima by
# 0.67. Of 4,213 words of 103 narrations that are no code words, 36 come so near to one. A short word comes near to
# some other by chance ("gold", golf).
LIKE, LIKE_SHORT = 0.7, 0.75
SHORT = 4  # letters of such a word
PAIR = 7  # letters of two code words that were run together, at least


class CodeWords:
    """The first wording of each letter's code word, and all pairs of them."""

    def __init__(self, spelling: Spelling) -> None:
        single = [(letter, words[0]) for letter, words in spelling.code_words.items()]
        pairs = [(a + b, f"{one} {other}") for a, one in single for b, other in single]
        self._singles = len(single)
        self._letters = [letters for letters, _ in (*single, *pairs)]
        self._sounding = Sounding([words for _, words in (*single, *pairs)])

    def nearest(self, said: str) -> tuple[float, str] | None:
        """How like the most similar one or two code words are, and their letters; None where none is near."""
        size = len(said.replace(" ", ""))
        likeness = self._sounding.likeness([said])[0]
        if size < PAIR:
            likeness = likeness[: self._singles]
        at = int(likeness.argmax())
        if likeness[at] < (LIKE if size > SHORT else LIKE_SHORT):
            return None
        return float(likeness[at]), self._letters[at]
