"""The same private words once more, in a string of the record: numbers as digits or words, a quote cut anywhere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fieldnotes.private.cues import table
from fieldnotes.private.digits import digits_at, unit_words
from fieldnotes.private.tokens import Token
from fieldnotes.records import PrivateKind
from fieldnotes.vocabulary.load import Vocabulary

WHOLE_NUMBER = 7  # a shorter one, such as a gate code, stands in serial numbers by chance
PROTECTED = 8  # words
PART_OF_NUMBER = 4  # so many digits of a longer number are private alone; a reading seldom has as many


@dataclass(frozen=True, slots=True)
class Piece:
    """A word, or neighbouring numbers as one string of digits; from tokens [first, last)."""

    text: str
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Said:
    """Private words as pieces without place: ("14", "larkspur", "lane")."""

    kind: PrivateKind
    pieces: tuple[str, ...]


def pieces_of_tokens(tokens: Sequence[Token], vocabulary: Vocabulary) -> list[Piece]:
    """The tokens with their numbers joined; a number before a unit is marked so, and equals no other."""
    found: list[Piece] = []
    units = unit_words(vocabulary)
    i, joins = 0, False
    while i < len(tokens):
        digits = digits_at(tokens, i, vocabulary.measures)
        if digits is None:
            found.append(Piece(tokens[i].text, i, i + 1))
            i, joins = i + 1, False
            continue
        after = digits.last
        if after < len(tokens) and not tokens[after - 1].stop and tokens[after].text in units:
            found.append(Piece(f"{digits.text} measured", i, after))
            joins = False
        elif joins:
            found[-1] = Piece(found[-1].text + digits.text, found[-1].first, after)
        else:
            found.append(Piece(digits.text, i, after))
            joins = True
        i = after
    return found


def said_again(
    tokens: Sequence[Token], private: Sequence[Said], vocabulary: Vocabulary
) -> Iterator[tuple[PrivateKind, int, int]]:
    """Kind and token range of every place where private words stand again, whole or cut off at an edge."""
    pieces, kept = pieces_of_tokens(tokens, vocabulary), _protected(tokens, vocabulary)
    texts = [piece.text for piece in pieces]
    for said in private:
        short = len(said.pieces) == 1 and said.pieces[0].isdigit() and len(said.pieces[0]) < WHOLE_NUMBER
        for first, last in _places(texts, said):
            if not (short and pieces[first].first in kept):
                yield said.kind, pieces[first].first, pieces[last - 1].last


def _protected(tokens: Sequence[Token], vocabulary: Vocabulary) -> set[int]:
    """Tokens behind "model", "serial number" and the like, up to the end of the sentence or breath."""
    kept: set[int] = set()
    for _, last in table(vocabulary, "protects").ends(tokens):
        for at in range(last, min(last + PROTECTED, len(tokens))):
            if tokens[at].breath != tokens[last - 1].breath or tokens[at - 1].stop in (".", "?", "!"):
                break
            kept.add(at)
    return kept


def _places(texts: list[str], said: Said) -> Iterator[tuple[int, int]]:
    form, count = list(said.pieces), len(said.pieces)
    for first in range(len(texts) - count + 1):
        if texts[first : first + count] == form:
            yield first, first + count
    if count == 1 and form[0].isdigit() and len(form[0]) >= PART_OF_NUMBER:
        yield from ((n, n + 1) for n, text in enumerate(texts) if _shares_digits(text, form[0]))
    for cut in range(2, min(count, len(texts) + 1)):  # the quote begins or ends inside the address
        if texts[:cut] == form[-cut:]:
            yield 0, cut
        if texts[-cut:] == form[:cut]:
            yield len(texts) - cut, len(texts)


def _shares_digits(text: str, number: str) -> bool:
    if not text.isdigit() or len(text) < PART_OF_NUMBER:
        return False
    return text in number or (number in text and len(number) >= WHOLE_NUMBER)
