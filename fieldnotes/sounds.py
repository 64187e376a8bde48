"""How alike words sound: one measure for what the recogniser was not sure of and for code words that it misheard.

Likeness is the mean of two: that of the letters, and that of the sounds. Either is 1 less the edit distance over the
length of the longer (library rapidfuzz). The sounds are consonants in Metaphone code (library jellyfish), with those
made one that noise makes alike.
"""

from __future__ import annotations

from collections.abc import Sequence

import jellyfish
import numpy as np
from rapidfuzz.distance import Levenshtein
from rapidfuzz.process import cdist

# Signs of the Metaphone code, one for each group. Common practice, no source: a voiced consonant and its voiceless
# twin, and the two nasals.
ALIKE = str.maketrans("BFVD0TGKQCSZXJMN", "PPPTTTKKKKSSSSNN")


def sound_of(text: str) -> str:
    """The consonants of one or more words: "drain pump" -> "TRNPNP"."""
    return "".join(jellyfish.metaphone(word) for word in text.split()).replace(" ", "").translate(ALIKE)


class Sounding:
    """Names, made ready to be held against what was heard."""

    def __init__(self, names: Sequence[str]) -> None:
        self._letters, self._sounds = _letters_of(names), [sound_of(name) for name in names]

    def likeness(self, heard: Sequence[str]) -> np.ndarray:
        """How much each text sounds like each name: float32, (texts, names), 0..1; 1 for a name itself."""
        letters = cdist(_letters_of(heard), self._letters, scorer=Levenshtein.normalized_similarity)
        sounds = cdist(
            [sound_of(text) for text in heard], self._sounds, scorer=Levenshtein.normalized_similarity
        )
        likeness: np.ndarray = (letters + sounds) / 2
        return likeness


def _letters_of(texts: Sequence[str]) -> list[str]:
    return [text.replace(" ", "") for text in texts]
