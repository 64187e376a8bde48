"""Words as the finders compare them: in lower case, an "@" and a full stop inside a word spoken out.

So "r.olembe@mail.example" and "r dot olembe at mail dot example" are the same words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.words import pieces_of, stop_of

MARK = re.compile(r"\[[a-z-]+ struck out\]")
_WRITTEN = re.compile(rf"{MARK.pattern}\S*|\S+")
_SIGN = re.compile(r"(?<=\w)@(?=\w)|(?<=[^\W\d])\.(?=[^\W\d])|(?<=\w)\.(?=[^\W\d]{2,})")
_SPOKEN = {"@": " at ", ".": " dot ", "_": " underscore "}


@dataclass(frozen=True, slots=True)
class Token:
    """One compared word. `word` is the index of the written word in its breath that it is part of.

    `stop` ends the written word (".", ",", ...); `opens`: a sentence begins here; `mark`: struck out already.
    """

    text: str
    breath: int
    word: int
    capital: bool
    opens: bool
    stop: str = ""
    mark: bool = False


def tokens_of(transcript: Transcript) -> list[Token]:
    """All tokens in spoken order."""
    found: list[Token] = []
    for index, breath in enumerate(transcript.breaths):
        opens = True
        for place, word in enumerate(breath.words):
            tokens = list(_of_word(word.text, index, place, opens))
            found += tokens
            opens = (bool(tokens) and tokens[-1].stop in (".", "?", "!")) or (opens and not tokens)
    return found


def breath_of(text: str) -> Breath:
    """A string of the record as one breath; marks in it stay whole words."""
    return Breath(words=tuple(Word(text=match.group()) for match in _WRITTEN.finditer(text)))


def _of_word(text: str, breath: int, place: int, opens: bool) -> Iterator[Token]:
    stop = stop_of(text)
    if MARK.search(text):
        yield Token("", breath, place, False, opens, stop, mark=True)
        return
    pieces = _spoken_pieces(text)
    for n, (piece, capital) in enumerate(pieces):
        last = n == len(pieces) - 1
        yield Token(piece, breath, place, capital, opens and n == 0, stop if last else "")


def _spoken_pieces(text: str) -> tuple[tuple[str, bool], ...]:
    """The words that a written word is compared as, and whether each has a capital."""
    spoken = _SIGN.sub(lambda sign: _SPOKEN[sign.group()], text)
    if "@" in text:
        spoken = spoken.replace("_", _SPOKEN["_"])
    pieces = [piece for part in spoken.split() for piece in pieces_of(part)]
    # "202-555-0142": a hyphen between figures is no sign
    return tuple((piece.lstrip("+-"), capital) for piece, capital in pieces)
