"""Text made ready for printed pages: what no font has stands as its code, long words can be broken, and words from
right to left keep to themselves."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from itertools import groupby

from fieldnotes.write.wording import one_line

LONGEST_WHOLE = 30  # characters of a word that is left whole: serial numbers and the like can be copied out
BREAK_EVERY = 10  # characters of a longer one: fits the narrowest column
_BREAK = "\N{ZERO WIDTH SPACE}"
_ISOLATE, _END_ISOLATE = "\N{FIRST STRONG ISOLATE}", "\N{POP DIRECTIONAL ISOLATE}"
# Invisible signs that turn the direction of what follows, also outside their own text (Unicode Standard Annex 9, 2),
# and the byte order mark, which PDF/A forbids in text (ISO 19005-3, 6.2.11.7.3).
_UNSAFE = {*map(ord, "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"), 0xFEFF}
_ATTACHED = {"Mn", "Mc", "Me"}
_JOINERS = {0x200D, 0xFE0E, 0xFE0F}


def legible(text: str, fonts: Sequence[frozenset[int]]) -> str:
    """The text on one line, each character of it in one of the fonts (code points each), e.g. "[U+4E2D]" for "中".

    ASCII is taken to be there. Letters and marks are composed where Unicode has them as one (form NFC): Typst 0.15
    tells a mark that stands over or under another twice when text is copied out of the PDF.
    """
    text = unicodedata.normalize("NFC", one_line(text))
    if text.isascii():
        return text if len(text) <= LONGEST_WHOLE else "".join(_breakable(list(text)))
    text = "".join(_breakable(list(_pieces(text, fonts))))
    if any(unicodedata.bidirectional(character) in {"R", "AL", "AN"} for character in text):
        return _ISOLATE + text + _END_ISOLATE
    return text


def _pieces(text: str, fonts: Sequence[frozenset[int]]) -> Iterator[str]:
    """Letters with the marks on them, and codes. A letter and its marks must stand in one font to be drawn."""
    cluster = ""
    for character in text:
        attached = unicodedata.category(character) in _ATTACHED or ord(character) in _JOINERS
        if not attached and cluster:
            yield cluster
            cluster = ""
        if (attached and not cluster) or not _drawn(cluster + character, fonts):
            if cluster:
                yield cluster
                cluster = ""
            yield f"[U+{ord(character):04X}]"
        else:
            cluster += character
    if cluster:
        yield cluster


def _drawn(cluster: str, fonts: Sequence[frozenset[int]]) -> bool:
    points = {ord(character) for character in cluster}
    if points & _UNSAFE or any(unicodedata.category(character) in {"Co", "Cs"} for character in cluster):
        return False  # private signs mean nothing elsewhere, and PDF/A wants a meaning for each
    return any(points <= font for font in fonts)


def _breakable(pieces: list[str]) -> Iterator[str]:
    """The pieces with places to break at in words that are too long for a line."""
    for blank, run in groupby(pieces, key=str.isspace):
        word = list(run)
        too_long = not blank and sum(map(len, word)) > LONGEST_WHOLE
        yield from _broken(word) if too_long else word


def _broken(word: list[str]) -> Iterator[str]:
    since = 0
    for piece in word:
        if since and since + len(piece) > BREAK_EVERY:
            yield _BREAK
            since = 0
        yield piece
        since += len(piece)
