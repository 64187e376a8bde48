"""How text is split into words: one way for speech and vocabulary alike, so that both always agree."""

from __future__ import annotations

import re
from functools import lru_cache

_APOSTROPHES = str.maketrans({"’": "'", "‘": "'", "ʼ": "'", "`": "'", "−": "-"})
_CLITIC = re.compile(r"(?<=[a-z0-9])('s|'re|'ve|'ll|'d|'m|'em)$")
# words, numbers with their decimals, and signs that carry meaning; a hyphen between letters splits
_PIECE = re.compile(
    r"'(?:s|re|ve|ll|d|m|em)(?![a-z])"
    r"|[+-]?\d+(?:,\d{3}(?!\d))*(?:\.\d+)?(?:[a-zµμ]+\d*[a-z]*)?|\.\d+"
    r"|[^\W_]+(?:'[^\W_]+)*|[%°µμΩ]",
    re.IGNORECASE,
)
_STOPS = ".?!;:,"


def split_words(text: str) -> list[str]:
    """The tokens of a phrase: `"Top-load washer isn't"` -> `["top", "load", "washer", "isn't"]`."""
    return [piece for word in text.split() for piece, _ in pieces_of(word)]


@lru_cache(maxsize=8192)  # people use few words, and often
def pieces_of(word: str) -> tuple[tuple[str, bool], ...]:
    """The tokens of one written word in lower case, each with whether it began with a capital."""
    found: list[tuple[str, bool]] = []
    for match in _PIECE.finditer(word.translate(_APOSTROPHES)):
        piece = match.group()
        capital, low = piece[:1].isupper(), piece.lower()
        clitic = _CLITIC.search(low)
        if clitic:
            found += [(low[: clitic.start()], capital), (clitic.group(), False)]
        else:
            found.append((low, capital))
    return tuple(found)


def stop_of(word: str) -> str:
    """The punctuation mark that ends a written word, or nothing."""
    tail = word.rstrip("\"'”’)]»")
    return tail[-1] if tail and tail[-1] in _STOPS else ""
