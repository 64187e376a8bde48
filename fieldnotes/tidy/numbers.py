"""The grammar of spoken and written numbers: "two forty one point six", "fifty four hundred", "1 20", "14.5".

A stop (comma, full stop, end of a breath) always ends a number, but a missing stop proves nothing.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from fieldnotes.tidy.wholes import CLOSE, Part, WholeNumbers

Form = Literal["plain", "row", "year", "fraction", "ordinal", "count", "abandoned"]
_FIGURE = re.compile(r"([+-]?)(\d[\d,]*(?:\.\d+)?|\.\d+)([a-zµμ°]\w*)?")
_ORDINAL_ENDINGS = {"st", "nd", "rd", "th"}


@dataclass(frozen=True, slots=True)
class Number:
    """A number without its unit. `row`: digits said one by one; `fraction`: counts only before a unit.

    `suffix` is what was written on to the figure ("k" in "10.8k"); `signed`: a plus or minus was said.
    """

    first: int
    last: int
    value: Decimal
    form: Form = "plain"
    signed: bool = False
    suffix: str = ""


class NumberReader(WholeNumbers):
    """Reads numbers at a given token."""

    def at(self, i: int) -> Number | None:
        """The longest number that begins at token `i`; None where none does."""
        text = self.texts[i]
        if text in self.words.minus or text in self.words.plus:
            number = self._unsigned(i + 1) if self.goes_on(i + 1) else None
            if number is None or number.form in ("ordinal", "count", "abandoned"):
                return None
            value = -number.value if text in self.words.minus else number.value
            return Number(i, number.last, value, number.form, True, number.suffix)
        return self._unsigned(i)

    # the kinds of number, most particular first

    def _unsigned(self, i: int) -> Number | None:
        text = self.texts[i]
        if text in self.words.point:
            return self._bare_decimal(i)
        if text in self.words.zero_in_a_row or text in self.words.zero_before_point:
            return self._from_oh(i)
        if text in self.words.counts:
            return self._counted(i)
        if text in self.words.fractions:
            return Number(i, i + 1, Decimal(str(self.words.fractions[text])), "fraction")
        if text in self.words.ordinals:
            return Number(i, i + 1, Decimal(self.words.ordinals[text]), "ordinal")
        if text == "a":
            return self._after_article(i)
        written = self._written(i)
        if written is not None:
            return written
        whole = self.whole(i)
        return self._finish(i, whole) if whole else None

    def _bare_decimal(self, i: int) -> Number | None:
        if self.goes_on(i) and self.texts[i - 1] in self.words.not_a_decimal_after:
            return None
        decimals = self._decimals(i + 1)
        if decimals is None:
            return None
        digits, last = decimals
        if self.goes_on(last) and self.texts[last] in self.words.hundred:
            return None
        return Number(i, last, Decimal(f"0.{digits}"))

    def _from_oh(self, i: int) -> Number | None:
        if self.goes_on(i + 1) and self.texts[i + 1] in self.words.point:
            decimals = self._decimals(i + 2)
            return Number(i, decimals[1], Decimal(f"0.{decimals[0]}")) if decimals else None
        row, last = self.row(i) if self.texts[i] in self.words.zero_in_a_row else ([], i)
        return Number(i, last, Decimal("".join(map(str, row))), "row") if len(row) >= 3 else None

    def _counted(self, i: int) -> Number:
        value, last = self.words.counts[self.texts[i]], i + 1
        if self.goes_on(last) and self.texts[last] in self.words.hundred:
            return Number(i, last + 1, Decimal(value * 100))
        if self.goes_on(last) and self.texts[last] == "of":
            last += 1
        return Number(i, last, Decimal(value), "count")

    def _after_article(self, i: int) -> Number | None:
        if not self.goes_on(i + 1):
            return None
        following = self.texts[i + 1]
        if following in self.words.hundred or following in self.words.thousand:
            whole = self.whole(i + 1)
            return self._finish(i, whole) if whole else None
        if following in self.words.fractions:
            return Number(i, i + 2, Decimal(str(self.words.fractions[following])), "fraction")
        if following in self.words.counts:
            counted = self._counted(i + 1)
            return Number(i, counted.last, counted.value, counted.form)
        return None

    def _written(self, i: int) -> Number | None:
        """A figure that says more than a bare whole number: decimals, a sign, letters on it, a fraction."""
        text, token = self.texts[i], self.tokens[i]
        if len(text) == 1 and not text.isdigit() and text.isnumeric():
            return Number(i, i + 1, Decimal(str(unicodedata.numeric(text))), "fraction")
        match = _FIGURE.fullmatch(text)
        if match is None:
            return None
        sign, figure, suffix = match.groups()
        figure, negative = figure.replace(",", ""), sign == "-" and token.heard != ""
        ratio = self.ratio(i)
        if ratio is not None:
            return Number(i, i + 2, ratio, "fraction")
        if suffix in _ORDINAL_ENDINGS:
            return Number(i, i + 1, Decimal(figure), "ordinal")
        if suffix:
            if any(sign.isdigit() for sign in suffix) and suffix not in self.lexicon.symbols:
                return None
            at = token.heard.lower().find(suffix)
            exact = token.heard[at : at + len(suffix)] if at >= 0 else suffix
            return Number(i, i + 1, Decimal(f"{sign if negative else ''}{figure}"), suffix=exact)
        if "." in figure or (sign and token.heard):
            return self._finish(
                i, Part(0, i + 1, "done"), Decimal(f"{'-' if negative else ''}{figure}"), sign != ""
            )
        return None

    # what follows a whole number

    def _finish(self, i: int, whole: Part, value: Decimal | None = None, signed: bool = False) -> Number:
        amount = Decimal(whole.value) if value is None else value
        k, form = whole.last, whole.form
        if form == "abandoned":
            return Number(i, k, amount, "abandoned")
        if value is None:
            tail = self._written_tail(k, amount)
            if tail is not None:
                return Number(i, k + 1, tail)
            if self.goes_on(k) and self.texts[k] in self.words.point:
                decimals = self._decimals(k + 1)
                if decimals:
                    return Number(i, decimals[1], Decimal(f"{whole.value}.{decimals[0]}"), signed=signed)
                if k + 1 >= len(self.texts) or self.tokens[k].stop or self.broken_off(k + 1):
                    return Number(i, k + 1, amount, "abandoned")
        part = self._and_a_fraction(k)
        if part is not None:
            return Number(i, part[1], amount + part[0], signed=signed)
        if self.goes_on(k) and self.texts[k] in self.words.fractions and form == "one":
            return Number(i, k + 1, amount * Decimal(str(self.words.fractions[self.texts[k]])), "fraction")
        known: Form = "row" if form == "row" else "year" if form == "year" else "plain"
        return Number(i, k, amount, known, signed)

    def _written_tail(self, k: int, head: Decimal) -> Decimal | None:
        """The "19.3" of "1 19.3"."""
        if not self.goes_on(k) or not 0 < head < 20:
            return None
        match = re.fullmatch(r"([1-9]\d)\.\d+", self.texts[k])
        if match is None or (head >= 10 and abs(int(match[1]) - head) <= CLOSE):
            return None
        return head * 100 + Decimal(match[0])

    def _decimals(self, i: int) -> tuple[str, int] | None:
        """The digits after "point" at token `i`, and the token after them."""
        if not self.goes_on(i):
            return None
        if self.digit(i) is not None:
            row, last = self.row(i)
            if len(row) > 1 and self.goes_on(last) and self.texts[last] in self.words.point:
                row, last = row[:-1], last - 1
            return "".join(map(str, row)), last
        two = self.below_hundred(i)
        if two is not None:
            return str(two.value), two.last
        figure = self.digits(i)
        return (figure, i + 1) if figure is not None else None

    def _and_a_fraction(self, k: int) -> tuple[Decimal, int] | None:
        """ "... and a half", "... and three quarters", and the "1/2" or "½" of "2 1/2"."""
        if self.goes_on(k) and self.texts[k] == "and" and self.goes_on(k + 2):
            times = 1 if self.texts[k + 1] == "a" else self.digit(k + 1)
            share = self.words.fractions.get(self.texts[k + 2])
            if times and share:
                return times * Decimal(str(share)), k + 3
        if self.goes_on(k) and self.texts[k] == "and" and self.goes_on(k + 1):
            share = self.words.fractions.get(self.texts[k + 1])
            if share and share in (0.5, 0.25):
                return Decimal(str(share)), k + 2  # "thirty one and half"
        if k < len(self.texts) and not self.tokens[k - 1].stop:
            written = self._written(k)
            if written is not None and written.form == "fraction":
                return written.value, written.last
        return None
