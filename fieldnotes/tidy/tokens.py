"""Transcript -> tokens, split by the same rule as the vocabulary's phrases."""

from __future__ import annotations

from collections.abc import Iterable

from fieldnotes.tidy.text import Token
from fieldnotes.transcript import Transcript
from fieldnotes.words import pieces_of, stop_of


def tokens_of(transcript: Transcript) -> tuple[list[Token], list[tuple[int, int]]]:
    """All tokens in spoken order, and each breath's token range."""
    tokens: list[Token] = []
    ranges: list[tuple[int, int]] = []
    for index, breath in enumerate(transcript.breaths):
        first = len(tokens)
        for word in breath.words:
            pieces = pieces_of(word.text)
            for n, (piece, capital) in enumerate(pieces):
                tokens.append(
                    Token(
                        text=piece,
                        heard=word.text if n == 0 else "",
                        breath=index,
                        stop=stop_of(word.text) if n == len(pieces) - 1 else "",
                        capital=capital,
                        start=word.start,
                        end=word.end,
                        confidence=word.confidence,
                    )
                )
        ranges.append((first, len(tokens)))
    return tokens, ranges


def quote(tokens: Iterable[Token]) -> str:
    """The words as heard, in order."""
    return " ".join(token.heard for token in tokens if token.heard)
