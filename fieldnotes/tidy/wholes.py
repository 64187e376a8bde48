"""Whole numbers, in words or figures: "two hundred and five", "ten eighty five", "1 20"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from fieldnotes.tidy.lexicon import Lexicon
from fieldnotes.tidy.text import Token

_WRITTEN_FRACTION = re.compile(r"\W*(?:\d+-)?(\d+)/(\d+)\W*")
_DENOMINATORS = {2, 3, 4, 8, 16, 32, 64}
CLOSE = 5  # "ten twelve", "twenty twenty one ohms": two readings, not 1012 or 2021


@dataclass(frozen=True, slots=True)
class Part:
    """A whole number under way. `form`: "one" (digit), "teen", "ten", "ten_one", "row", "year" or "more"."""

    value: int
    last: int
    form: str


class WholeNumbers:
    """Reads whole numbers at a given token."""

    def __init__(self, tokens: Sequence[Token], lexicon: Lexicon) -> None:
        self.tokens = tokens
        self.texts = [token.text for token in tokens]
        self.lexicon = lexicon
        self.words = lexicon.numbers
        self._unfinished = lexicon.numbers.point | {"and"}

    def goes_on(self, i: int) -> bool:
        """Whether token `i` follows without a stop, in the same breath or after "point" or "and"."""
        if not 0 < i < len(self.tokens):
            return False
        before = self.tokens[i - 1]
        return not before.stop and (before.breath == self.tokens[i].breath or before.text in self._unfinished)

    def whole(self, i: int) -> Part | None:
        large = self._upto_thousand(i)
        if large is None:
            return None
        k = large.last
        if large.form != "row" and self.goes_on(k) and self.texts[k] in self.words.thousand:
            return self._with_rest(Part(large.value * 1000, k + 1, "more"), 1000)
        return large

    def _upto_thousand(self, i: int) -> Part | None:
        text = self.texts[i]
        if text in self.words.thousand:
            return self._with_rest(Part(1000, i + 1, "more"), 1000)
        if text in self.words.hundred:
            return self._with_rest(Part(100, i + 1, "more"), 100)
        head = self.below_hundred(i)
        if head is None:
            figure = self.digits(i)
            if figure is None:
                return None
            large = Part(int(figure), i + 1, "more")
            return self._with_and(large, 100) if large.value % 100 == 0 else large
        if head.value and self.goes_on(head.last) and self.texts[head.last] in self.words.hundred:
            return self._with_rest(Part(head.value * 100, head.last + 1, "more"), 100)
        if head.form == "one":
            row, last = self.row(i)
            if len(row) >= 3:
                one_oh_six = len(row) == 3 and row[0] and row[1] == 0
                return Part(int("".join(map(str, row))), last, "more" if one_oh_six else "row")
        return self._pair(i, head) or head

    def _with_rest(self, large: Part, below: int) -> Part:
        """Adds what follows "hundred" or "thousand", with or without "and"."""
        joined = self._with_and(large, below)
        if joined.last != large.last or joined.form == "abandoned":
            return joined
        comma = below == 1000 and 0 < large.last < len(self.texts) and self.tokens[large.last - 1].stop == ","
        rest = self._rest(large.last, below) if comma or self.goes_on(large.last) else None
        if rest is None or (comma and rest.value < 100):
            return large
        return Part(large.value + rest.value, rest.last, "more")

    def _with_and(self, large: Part, below: int) -> Part:
        k = large.last
        if not self.goes_on(k) or self.texts[k] != "and":
            return large
        rest = self._rest(k + 1, below) if self.goes_on(k + 1) else None
        if rest is not None and rest.value:
            return Part(large.value + rest.value, rest.last, "more")
        left_hanging = k + 1 >= len(self.texts) or not self.goes_on(k + 1) or self.broken_off(k + 1)
        return Part(large.value, k + 1, "abandoned") if left_hanging else large

    def _rest(self, i: int, below: int) -> Part | None:
        head = self.below_hundred(i)
        if head is None:
            return None
        after = head.last
        if self.goes_on(after) and self.texts[after] in self.words.hundred:
            return self._with_rest(Part(head.value * 100, after + 1, "more"), 100) if below == 1000 else None
        if head.form == "one" and self.goes_on(after) and self.two_digits(after):
            return None
        return head

    def below_hundred(self, i: int) -> Part | None:
        known = self.lexicon.below_hundred.get(self.texts[i])
        if known is None:
            figure = self.digits(i)
            if figure is None or len(figure) > 2:
                return None
            value = int(figure)
            form = "one" if len(figure) == 1 else "teen" if value < 20 else "ten_one" if value % 10 else "ten"
            return Part(value, i + 1, form)
        kind, value = known
        if kind == "ten" and self.goes_on(i + 1):
            unit = self.lexicon.below_hundred.get(self.texts[i + 1])
            if unit and unit[0] == "one" and unit[1]:
                return Part(value + unit[1], i + 2, "ten_one")
        return Part(value, i + 1, kind)

    def two_digits(self, i: int) -> bool:
        part = self.below_hundred(i)
        return part is not None and part.form != "one"

    def _pair(self, i: int, head: Part) -> Part | None:
        """ "One twenty", "ten eighty five", "twenty nineteen": hundreds said as two numbers."""
        k = head.last
        if not head.value or not self.goes_on(k):
            return None
        if self.texts[k] in self.words.zero_in_a_row and self.goes_on(k + 1):
            unit = self.below_hundred(k + 1)
            if unit and unit.form == "one":
                return Part(head.value * 100 + unit.value, unit.last, "year" if head.value == 20 else "more")
        tail = self.below_hundred(k)
        if tail is None or tail.form == "one" or self.texts[k].startswith("-"):
            return None  # "15-30" is a range
        said_as_two = head.form == "one" and tail.form == "ten_one" and tail.last == k + 2
        if said_as_two and self.goes_on(tail.last) and self.two_digits(tail.last):
            tail = Part(tail.value - tail.value % 10, k + 1, "ten")  # "one twenty | one nineteen"
        if self.goes_on(tail.last) and self.texts[tail.last] in self.words.hundred | self.words.thousand:
            return None
        return self._joined_pair(i, head, tail)

    def _joined_pair(self, i: int, head: Part, tail: Part) -> Part | None:
        value, near = head.value * 100 + tail.value, abs(head.value - tail.value) <= CLOSE
        unit = self.lexicon.units.at(self.texts, tail.last) if self.goes_on(tail.last) else None
        measured = unit is not None or (self.goes_on(tail.last) and self.texts[tail.last] in self.words.point)
        if head.value in (19, 20) and not measured:
            return Part(value, tail.last, "year")
        clock_unit = unit is not None and unit[1].unit in ("s", "min", "h")
        if clock_unit and head.value < tail.value and (head.form == "teen" or tail.value == 10):
            return None  # "fifteen twenty minutes" is a range
        if head.form == "one":
            return Part(value, tail.last, "more")
        if near:
            return None
        if head.form == "teen":
            return Part(value, tail.last, "more")
        chained = self.goes_on(i) and self.below_hundred(i - 1) is not None
        longer = self.goes_on(tail.last) and self.below_hundred(tail.last) is not None
        if measured and head.value % 10 and abs(head.value - tail.value) > 10 and not chained and not longer:
            return Part(value, tail.last, "more")
        return None

    def row(self, i: int) -> tuple[list[int], int]:
        """Digits said one by one from token `i`; a digit that opens the next number is left to that."""
        row: list[int] = []
        k = i
        while k < len(self.texts) and (k == i or self.goes_on(k)):
            digit = self.digit(k)
            if digit is None:
                break
            row.append(digit)
            k += 1
        opens_next = self.goes_on(k) and (self.two_digits(k) or self.texts[k] in self.words.hundred)
        return (row[:-1], k - 1) if opens_next and len(row) > 1 else (row, k)

    def digit(self, i: int) -> int | None:
        text = self.texts[i]
        if text in self.words.zero_in_a_row:
            return 0
        if text in self.words.digits:
            return self.words.digits[text]
        figure = self.digits(i)
        return int(figure) if figure is not None and len(figure) == 1 else None

    def digits(self, i: int) -> str | None:
        """The figures of a whole number as written; a hyphen inside a word ("10-12") is no sign."""
        text = self.texts[i]
        if "/" in self.tokens[i].heard and self.ratio(i):
            return None
        bare = text[1:] if text[:1] in "+-" and not self.tokens[i].heard else text
        bare = bare.replace(",", "")
        return bare if bare.isascii() and bare.isdigit() else None

    def ratio(self, i: int) -> Decimal | None:
        """The value of "1/2", which is two tokens; not of "240/120"."""
        ratio = _WRITTEN_FRACTION.fullmatch(self.tokens[i].heard)
        if ratio is None or int(ratio[2]) not in _DENOMINATORS or self.texts[i] != ratio[1]:
            return None
        return Decimal(ratio[1]) / Decimal(ratio[2]) if self.texts[i + 1 : i + 2] == [ratio[2]] else None

    def broken_off(self, i: int) -> bool:
        """Whether what stands at `i` shows that the speaker dropped the number."""
        return (
            self.texts[i] in self.words.fillers
            or self.texts[i] in self.lexicon.retractions.no
            or self.lexicon.takes_back.at(self.texts, i) is not None
            or self.lexicon.interrupts.at(self.texts, i) is not None
            or self.lexicon.settles.at(self.texts, i) is not None
        )
