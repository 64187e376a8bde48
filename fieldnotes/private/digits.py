"""Figures and number words as strings of digits: "five double oh, forty two" -> "50042"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from fieldnotes.private.tokens import Token
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.measures import Measures, NumberWords


@dataclass(frozen=True, slots=True)
class Digits:
    """Tokens [first, last) that say `text`, nothing but digits."""

    first: int
    last: int
    text: str


@lru_cache(maxsize=4)
def unit_words(vocabulary: Vocabulary) -> frozenset[str]:
    """First words of all units: a number before one of them is a reading."""
    units = vocabulary.measures.units
    said = [word for unit in units.units for word in (*unit.said, *unit.symbols)]
    said += [*units.degrees.said, *units.fahrenheit.said, *units.celsius.said, *units.not_recorded]
    said += vocabulary.measures.numbers.time_and_money
    return frozenset(word.lower().split()[0] for word in said) - {
        "in",
        "m",
        "a",
        "h",
        "s",
        "l",
        "k",
        "v",
        "c",
        "f",
    }


def digits_at(tokens: Sequence[Token], i: int, measures: Measures) -> Digits | None:
    """The one number that begins at token `i`: a figure, a digit, "forty two", "double five", "nine hundred"."""
    numbers, times = measures.numbers, measures.spelling.times
    text = tokens[i].text
    bare = text.replace(",", "")
    if bare.isascii() and bare.isdigit():
        return Digits(i, i + 1, bare)
    following = tokens[i + 1].text if i + 1 < len(tokens) and not tokens[i].stop else ""
    if text in times and (digit := _digit(following, numbers)):
        return Digits(i, i + 2, digit * times[text])
    if text in numbers.tens:
        unit = _digit(following, numbers)
        if unit and unit != "0":
            return Digits(i, i + 2, str(numbers.tens[text] + int(unit)))
        return Digits(i, i + 1, str(numbers.tens[text]))
    value = str(numbers.teens[text]) if text in numbers.teens else _digit(text, numbers)
    if not value:
        return None
    zeros = "00" if following in numbers.hundred else "000" if following in numbers.thousand else ""
    return Digits(i, i + 2, value + zeros) if zeros else Digits(i, i + 1, value)


def _digit(text: str, numbers: NumberWords) -> str:
    if text in numbers.digits:
        return str(numbers.digits[text])
    if text in numbers.zero_in_a_row:
        return "0"
    return text if len(text) == 1 and text.isascii() and text.isdigit() else ""


def runs_of(tokens: Sequence[Token], vocabulary: Vocabulary, pauses: frozenset[str]) -> list[list[Digits]]:
    """Numbers that follow on each other, over stops, the ends of breaths and up to two of `pauses`.

    A number before a unit is a reading and belongs to no run.
    """
    units = unit_words(vocabulary)
    runs: list[list[Digits]] = []
    i = 0
    while i < len(tokens):
        found = digits_at(tokens, i, vocabulary.measures)
        if found is None:
            i += 1
            continue
        i = found.last
        if _measured(tokens, found, units):
            continue
        if runs and _bridged(tokens, runs[-1][-1].last, found.first, pauses):
            runs[-1].append(found)
        else:
            runs.append([found])
    return runs


def _measured(tokens: Sequence[Token], found: Digits, units: frozenset[str]) -> bool:
    after = found.last
    return after < len(tokens) and not tokens[after - 1].stop and tokens[after].text in units


def _bridged(tokens: Sequence[Token], first: int, last: int, pauses: frozenset[str]) -> bool:
    between = tokens[first:last]
    return len(between) <= 2 and all(token.text in pauses for token in between)
