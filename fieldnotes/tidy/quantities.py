"""Numbers with their units over a whole text, and which of them are measurements."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from fieldnotes.tidy.lexicon import DEGREES, Lexicon
from fieldnotes.tidy.numbers import Form, Number, NumberReader
from fieldnotes.tidy.text import Token
from fieldnotes.tidy.units import SCALES, UnitReader

_FIGURE_STARTS = frozenset("0123456789+-.½¼¾⅛⅜⅝⅞")
_CLOCK_TIME = re.compile(r"\d:\d")
_SMALLER = {("h", "min"): 60, ("min", "s"): 60, ("ft", "in"): 12}
_DOWN = {"h": ("min", 60), "min": ("s", 60)}  # "a quarter of an hour" is 15 min
_COMPARABLE = 4  # the first of a list is no smaller than a quarter of the next
_NUMBERED = 10  # a bare whole number below this may number the thing before it
_LIST_GAP = 4  # tokens between two readings of which only the last has its unit said


@dataclass(slots=True)
class Found:
    """A quantity under way. `unit` may still be "deg"."""

    first: int
    last: int
    value: Decimal
    unit: str | None
    form: Form
    count: bool = False
    replaced: bool = False
    inferred: bool = False  # the unit was taken from a neighbour

    @property
    def decimals(self) -> int:
        exponent = self.value.as_tuple().exponent
        return -exponent if isinstance(exponent, int) and exponent < 0 else 0


def find_quantities(tokens: Sequence[Token], lexicon: Lexicon) -> list[Found]:
    """All quantities in spoken order, units shared along lists, none yet marked as replaced."""
    search = _Search(tokens, lexicon)
    found = search.run()
    _take_detached_scales(found, search)
    _share_units(found, search)
    return found


class _Search:
    def __init__(self, tokens: Sequence[Token], lexicon: Lexicon) -> None:
        self.tokens, self.lexicon, self.words = tokens, lexicon, lexicon.numbers
        self.reader = NumberReader(tokens, lexicon)
        self.units = UnitReader(self.reader)
        self.texts = self.reader.texts

    def run(self) -> list[Found]:
        found: list[Found] = []
        i, starters = 0, self.lexicon.starters
        while i < len(self.texts):
            text = self.texts[i]
            if text == "one" and self._before(i) in self.words.one_stands_for_thing_after:
                i += 1  # "new one, twelve point nine"
                continue
            if text == "zero" and self.reader.goes_on(i) and self._zeroes(i + 1):
                i += 1  # "let me zero the leads"
                continue
            if text not in starters and text[0] not in _FIGURE_STARTS:
                i += 1
                continue
            number = self.reader.at(i)
            quantity = self._with_unit(number, found[-1] if found else None) if number else None
            if quantity is None:
                i += 1
                continue
            if not (found and self._compound(found[-1], quantity)):
                found.append(quantity)
            i = quantity.last
        return found

    def _zeroes(self, i: int) -> bool:
        return self.reader.goes_on(i) and self.texts[i] in self.words.zero_as_verb_before

    def _with_unit(self, number: Number, before: Found | None) -> Found | None:
        """The number with its unit, and whether it is a measurement; None where it is no number after all."""
        spelled = self._after_letter(number, before)
        unit = None if number.form in ("ordinal", "count", "abandoned") else self.units.after(number)
        in_row = before is not None and before.last == number.first and before.unit is None
        named = spelled or self._before(number.first) in self.words.labels
        named = named or (in_row and self.reader.goes_on(number.first))  # "zero zero kilo"
        named = named or number.form == "row" or self._before(number.first) in self.lexicon.spelling.times
        if unit is not None and self._is_letter(unit.last - 1) and self._has_its_word(unit.last):
            named = True  # "six three eight K as in kilo"
        if unit is not None and named and (number.suffix or self._is_letter(unit.last - 1)):
            unit = None  # "P X W 5042 W": no watts
        quantity = Found(number.first, number.last, number.value, None, number.form)
        if unit is not None:
            quantity.value, quantity.unit, quantity.last = (
                _converted(number, unit.times),
                unit.unit,
                unit.last,
            )
            if number.form == "fraction" and unit.unit in _DOWN:
                smaller, times = _DOWN[unit.unit]
                quantity.value, quantity.unit = (quantity.value * times).normalize() + 0, smaller
        self._above_or_below(quantity, number)
        if quantity.unit is None and unit is None:
            if number.form == "fraction" and not self._as_ordinal(quantity):
                return None
            if not self._is_number(quantity):
                return None
            quantity.replaced = number.form == "abandoned"
            quantity.count = spelled or self._counts(quantity)
        return quantity

    def _above_or_below(self, quantity: Found, number: Number) -> None:
        """ "Eighteen below", "nine above", "plus nine": temperatures without the word."""
        k = quantity.last
        if quantity.unit not in (None, DEGREES, *SCALES) or number.form != "plain":
            return
        word = self.texts[k] if self.reader.goes_on(k) else ""
        if word in self.words.below or word in self.words.above:
            open_end = not self.reader.goes_on(k + 1)
            after = "" if open_end else self.texts[k + 1]
            if open_end or after in self.words.below_goes_on:
                if word in self.words.below:
                    quantity.value = -abs(quantity.value)
                quantity.last = k + 2 if after in ("zero", "freezing") else k + 1
                quantity.unit = quantity.unit or DEGREES
        elif number.signed and not quantity.unit and self.texts[number.first] in self.words.minus:
            quantity.unit, quantity.inferred = DEGREES, True  # nothing else that is read falls below nought
        elif not (word or quantity.unit) and number.signed and self.texts[number.first] in self.words.plus:
            quantity.unit = DEGREES

    def _as_ordinal(self, quantity: Found) -> bool:
        ordinal = self.words.ordinals.get(self.texts[quantity.first])
        if ordinal is None:
            return False
        quantity.value, quantity.form = Decimal(ordinal), "ordinal"
        return True

    def _before(self, i: int) -> str:
        return self.texts[i - 1] if self.reader.goes_on(i) else ""

    def _is_number(self, quantity: Found) -> bool:
        """Not "that one", "a second"."""
        before = self._before(quantity.first)
        if quantity.form == "ordinal":
            return before not in ("a", "one") and quantity.last > quantity.first
        if self.texts[quantity.first : quantity.last] != ["one"]:
            return True
        if before in self.words.labels:
            return True
        if before in self.words.thing_not_number or not self.reader.goes_on(quantity.last):
            return len(before) == 1 and before not in ("a", "i")
        following = self.texts[quantity.last]
        return following == "of" or following not in self.words.reading_goes_on

    def _after_letter(self, number: Number, before: Found | None) -> bool:
        """ "F twenty one", "R six hundred": part of a code."""
        i = number.first
        if i == 0 or self.tokens[i - 1].breath != self.tokens[i].breath or (before and before.last >= i):
            return False
        letter = self.tokens[i - 1]
        if letter.stop not in ("", ",") or not letter.text.isalpha():
            return False
        if letter.text in self.lexicon.code_words and not letter.stop:
            return True
        if len(letter.text) == 1:
            if not letter.heard:  # inside a word with hyphens
                return True
            return letter.text not in ("a", "i", "o") or (
                letter.capital and letter.text == "a" and letter.stop == ""
            )
        return len(letter.heard) > 2 and letter.heard.isupper() and letter.stop == "" and len(letter.text) < 5

    def _has_its_word(self, i: int) -> bool:
        """Whether the letter before token `i` is told by a word: "F for Frank", "K as in kilo"."""
        after, spelling = self.texts[i : i + 3], self.lexicon.spelling
        if not after or not self.reader.goes_on(i):
            return False
        word = after[1:2] if after[0] in spelling.for_word else after[2:3]
        introduced = after[0] in spelling.for_word or " ".join(after[:2]) in spelling.as_in
        return introduced and bool(word) and word[0][:1] == self.texts[i - 1]

    def _is_letter(self, i: int) -> bool:
        return len(self.texts[i]) == 1 or self.lexicon.code_words.at(self.texts, i) is not None

    def _counts(self, quantity: Found) -> bool:
        """Whether a number without a unit counts or names things rather than measures."""
        token, k = self.tokens[quantity.first], quantity.last
        if quantity.form in ("ordinal", "count", "row", "year"):
            return True
        if token.heard[:1] in self.words.currency_signs or _CLOCK_TIME.search(token.heard):
            return True
        before = self._before(quantity.first)
        if quantity.decimals or quantity.form == "abandoned":
            return False
        if before in self.words.labels or before in self.words.months | self.words.clock or before == "in":
            return True
        if self.texts[quantity.first - 2 : quantity.first] == ["out", "of"]:
            return True
        if 1950 <= quantity.value <= 2049 and (
            before in self.words.year_after
            or self.words.thousand.intersection(self.texts[quantity.first : k])
        ):
            return True
        if not self.reader.goes_on(k):
            return False
        following = self.texts[k]
        if following in self.words.clock or following in self.words.time_and_money:
            return True
        if (
            following in self.words.reading_goes_on
            or following in self.lexicon.starters
            or following.lstrip("+-")[:1].isdigit()
        ):
            return following == "of" and " ".join(self.texts[k + 1 : k + 2]) in self.words.some_of
        return quantity.value < 100 or (following.endswith("s") and len(following) > 3)

    def _compound(self, before: Found, quantity: Found) -> bool:
        """ "Two minutes thirty seconds", "five foot six inches": adds to the one before."""
        between = self.texts[before.last : quantity.first]
        if quantity.unit is None and before.unit in _DOWN and 10 <= quantity.value < 60:
            counts = self.reader.goes_on(quantity.last) and quantity.count
            if between in ([], ["and"]) and not counts:
                quantity.unit = _DOWN[before.unit][0]  # "two minutes ten", "one minute and fifty"
        times = _SMALLER.get((before.unit or "", quantity.unit or ""))
        if times is None or between not in ([], ["and"]) or before.decimals or quantity.value >= times:
            return False
        if not all(self.reader.goes_on(n) for n in range(before.last, quantity.first + 1)):
            return False
        before.value = before.value * times + quantity.value
        before.unit, before.last = quantity.unit, quantity.last
        return True


def _converted(number: Number, times: float) -> Decimal:
    return number.value if times == 1 else number.value * Decimal(str(times))


def _take_detached_scales(found: list[Found], search: _Search) -> None:
    """ "One thirty one low, one fifty two high, Fahrenheit": the scale goes to the numbers before it."""
    starts = [
        i for i, text in enumerate(search.texts) if text in search.lexicon.units and search.units.scale_at(i)
    ]
    for i in starts:
        scale = search.units.scale_at(i)
        edge, allowed = i, 2
        for quantity in reversed([q for q in found if q.first < i]):
            if quantity.last > i or scale is None or edge - quantity.last > allowed:
                break
            same_breath = search.tokens[quantity.first].breath == search.tokens[i].breath
            if not same_breath or quantity.count or quantity.unit not in (None, DEGREES):
                break
            quantity.unit, edge, allowed = scale[0], quantity.first, _LIST_GAP


def _share_units(found: list[Found], search: _Search) -> None:
    """ "Start winding two point nine, run winding two point four ohms": both are ohms."""
    words = search.words
    measured = [q for q in found if not q.count]
    for before, after in zip(reversed(measured[:-1]), reversed(measured[1:]), strict=True):
        if before.unit is not None or after.unit is None or before.form == "abandoned":
            continue
        span = range(before.last, after.first)
        gap = search.texts[before.last : after.first]
        same_breath = search.tokens[before.first].breath == search.tokens[after.first].breath
        ended = any(search.tokens[n].stop in (".", "?", "!") for n in range(before.last - 1, after.first))
        if not same_breath or ended or len(span) > _LIST_GAP:
            continue
        listed = all(word in words.side_by_side or word in words.fillers for word in gap)
        comparable = before.value * _COMPARABLE >= after.value  # not "element two, thirty one ohms"
        numbers_a_thing = (
            before.value < _NUMBERED and after.decimals > before.decimals
        )  # "coil two, point five k"
        if before.decimals or (listed and comparable and not numbers_a_thing):
            before.unit, before.inferred = after.unit, True
