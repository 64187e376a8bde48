"""Unit words that were heard as another word: "238 bolts at the valve plug" is read as volts, and marked as guessed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fieldnotes.tidy.lexicon import Lexicon
from fieldnotes.tidy.numbers import Number, NumberReader
from fieldnotes.tidy.text import SENTENCE_ENDS, Token
from fieldnotes.vocabulary.measures import MisheardUnit

_LONGEST_NUMBER = 8  # tokens of "two hundred and thirty eight point six"


def with_units_as_said(tokens: Sequence[Token], lexicon: Lexicon) -> list[Token]:
    """The tokens with the unit in place of what it was heard as, where the number or its sentence tells it."""
    words = {word: unit for unit in lexicon.misheard_units for word in unit.heard_as}
    reader = NumberReader(tokens, lexicon)
    mended = list(tokens)
    for n, token in enumerate(tokens):
        unit = words.get(token.text)
        if unit and unit.said_short and tokens[n + 1 : n + 2] and tokens[n + 1].text == "per":
            continue  # "parts per million" is the unit itself
        if unit and (_behind_number(reader, unit, n) or _heads_reading(reader, unit, n)):
            mended[n] = replace(token, text=unit.word, guessed=token.guessed or not unit.said_short)
    return mended


def _behind_number(reader: NumberReader, unit: MisheardUnit, at: int) -> bool:
    """Whether a number that can be no count stands right before a token."""
    for first in range(max(0, at - _LONGEST_NUMBER), at):
        number = reader.at(first)
        if number is not None and number.last == at and not reader.tokens[at - 1].stop:
            return _no_count(reader, unit, number)
    return False


def _heads_reading(reader: NumberReader, unit: MisheardUnit, at: int) -> bool:
    """Whether a token opens its sentence and is read at something: "bolts at pump while humming, 119.3"."""
    tokens, begin, end = reader.tokens, *_sentence(reader.tokens, at)
    if at != begin or at + 1 >= end or tokens[at + 1].text not in ("at", "across"):
        return False
    numbers = [number for n in range(at + 2, end) if (number := reader.at(n)) is not None]
    return bool(numbers) and _no_count(reader, unit, numbers[0])


def _no_count(reader: NumberReader, unit: MisheardUnit, number: Number) -> bool:
    if number.form in ("ordinal", "count", "abandoned", "row"):
        return False
    if number.value % 1 or number.value >= unit.no_count_from:
        return True
    begin, end = _sentence(reader.tokens, number.first)
    near = any(reader.texts[n] in unit.near for n in range(begin, end))
    return near and number.value >= unit.near_from


def _sentence(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """The tokens of the sentence around one; none reaches over a breath."""
    breath, begin, end = tokens[at].breath, at, at + 1
    while begin > 0 and tokens[begin - 1].breath == breath and tokens[begin - 1].stop not in SENTENCE_ENDS:
        begin -= 1
    while end < len(tokens) and tokens[end].breath == breath and tokens[end - 1].stop not in SENTENCE_ENDS:
        end += 1
    return begin, end
