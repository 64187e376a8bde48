"""Which reading, number or figure is which input of a sum.

An input is taken where there is one value for it and no other: a wrong sum is worse than none.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fieldnotes.judge.limits import between
from fieldnotes.judge.sums.heard import Heard, Read
from fieldnotes.judge.units import convert, measure_the_same
from fieldnotes.judge.words import is_just, says
from fieldnotes.records import Evidence, Reading, SumInput
from fieldnotes.tidy.text import Quantity
from fieldnotes.vocabulary.formulas import Shape
from fieldnotes.vocabulary.quantities import QUANTITY_OF
from fieldnotes.vocabulary.sums import InputRule, ReadRule, SumsFile, Supply

_WORDS_BACK = 8  # how far before a number its "marked" or "plate says" may stand
_LIKE = 0.2  # share by which a voltage may differ from the usual one and still be that supply


class Unsure(Exception):
    """Two different values for one input."""


@dataclass(frozen=True)
class Found:
    """A value for one input: in the formula's unit, or a name; and as it goes into the record."""

    value: float | str
    shown: SumInput


@dataclass(frozen=True)
class Finder:
    """Looks for the inputs of a visit's sums."""

    file: SumsFile
    heard: Heard
    vague: tuple[str, ...]

    def fits(self, rule: ReadRule, read: Read, unit: str) -> bool:
        """Whether a reading is one that the rule takes; its bounds are in `unit`."""
        reading, near = read.reading, read.near
        if QUANTITY_OF.get(reading.unit) != rule.read or (rule.units and reading.unit not in rule.units):
            return False
        value = convert(reading.value, reading.unit, unit) if measure_the_same(reading.unit, unit) else None
        if value is not None and not between(value, rule.minimum, rule.maximum):
            return False
        vague = is_just(near.about, (*self.vague, *self.heard.around.kinds))
        beside = f"{near.about} / {read.at_number}"
        return (
            (says(near.about, rule.point) or (vague and says(near.own, rule.point)))
            and all(says(beside, group) for group in rule.beside)
            and not says(read.at_number, rule.not_beside)
            and all(says(near.all, group) for group in rule.also_said)
            and not says(near.all, rule.not_said)
        )

    def subject(self, read: Read, symbol: str, unit: str) -> Found:
        """The reading that a sum is about, as its input."""
        reading = read.reading
        shown = SumInput(
            symbol=symbol,
            what=reading.about,
            value=reading.value,
            unit=reading.unit,
            evidence=reading.evidence,
        )
        return Found(convert(reading.value, reading.unit, unit), shown)

    def find(self, rules: Sequence[InputRule], name: str, shape: Shape, about: Read) -> Found | None:
        """The input, by the first of the rules that gives one; None where none does. Raises Unsure."""
        symbol, unit = shape.inputs[name]
        for rule in rules:
            if found := self._one(self._all(rule, symbol, unit, about)):
                return found
        return None

    def supply(self) -> Supply | None:
        """What an appliance of this kind works on in the country whose English is spoken."""
        for supply in self.file.supplies:
            fits_speech = not supply.speech or self.heard.around.speech in supply.speech
            if fits_speech and (not supply.kinds or set(supply.kinds) & set(self.heard.around.kinds)):
                return supply
        return None

    @staticmethod
    def _one(found: list[Found]) -> Found | None:
        values = {round(one.value, 9) if isinstance(one.value, float) else one.value for one in found}
        if len(values) > 1:
            raise Unsure
        return found[0] if found else None

    def _all(self, rule: InputRule, symbol: str, unit: str, about: Read) -> list[Found]:
        if rule.read:
            return self._read(rule, rule.read, symbol, unit, about)
        if rule.said is not None:
            return list(self._said(rule, rule.said, symbol, unit, about))
        if rule.named:
            return list(self._refrigerants())
        return self._known(rule, symbol, unit, about)

    def _read(self, rule: InputRule, wanted: ReadRule, symbol: str, unit: str, about: Read) -> list[Found]:
        reads = [
            read
            for read in self.heard.reads
            if read is not about
            and (not rule.same or read.reading.about == about.reading.about)
            and self.fits(wanted, read, unit)
            and (
                not rule.like_supply or self._like_supply(convert(read.reading.value, read.reading.unit, "V"))
            )
        ]
        beside = [read for read in reads if read.breaths & about.breaths]
        return [self.subject(read, symbol, unit) for read in (beside or ([] if rule.here else reads))]

    def _like_supply(self, volts: float) -> bool:
        supply = self.supply()
        return supply is not None and abs(volts - supply.volts) <= _LIKE * supply.volts

    def _said(
        self, rule: InputRule, units: tuple[str, ...], symbol: str, unit: str, about: Read
    ) -> Iterator[Found]:
        if not (rule.anywhere or rule.shared or about.near.own):
            return
        breaths = range(len(self.heard.breaths)) if rule.anywhere else sorted(about.breaths)
        for n in breaths:
            said = self.heard.breaths[n]
            if says(said, rule.not_said) or not all(says(said, group) for group in rule.around):
                continue
            for number in self.heard.numbers(n):
                if _is_its_own(number, about.reading) or not self._worded(rule, units, number, n):
                    continue
                value = number.value
                if number.unit and measure_the_same(number.unit, unit):
                    value = convert(value, number.unit, unit)
                if between(value, rule.minimum, rule.maximum):
                    as_said = number.unit if number.unit and measure_the_same(number.unit, unit) else unit
                    evidence = self.heard.quoted(n, number.first, number.last)
                    yield Found(value, _shown(symbol, rule.what, number.value, as_said, evidence))

    def _worded(self, rule: InputRule, units: tuple[str, ...], number: Quantity, breath: int) -> bool:
        if number.unit is None and (rule.after or rule.before):
            if rule.after and not says(self.heard.words(number.first, number.last + 1), rule.after):
                return False
        elif number.unit not in units or number.ordinal_or_count:
            return False
        begin, end = self.heard.text.breaths[breath]
        begin = max([begin, *(q.last for q in self.heard.numbers(breath) if q.last <= number.first)])
        end = min([end, *(q.first for q in self.heard.numbers(breath) if q.first >= number.last)])
        if not all(says(self.heard.words(begin, end), group) for group in rule.beside):
            return False
        near = self.heard.words(max(begin, number.first - _WORDS_BACK), number.first)
        return not rule.before or says(near, rule.before)

    def _refrigerants(self) -> Iterator[Found]:
        for n, said in enumerate(self.heard.breaths):
            for refrigerant in self.file.refrigerants:
                if says(said, refrigerant.spoken):
                    evidence = self.heard.whole_breath(n)
                    yield Found(refrigerant.name, _shown("", refrigerant.name, None, "", evidence))

    def _known(self, rule: InputRule, symbol: str, unit: str, about: Read) -> list[Found]:
        value, what = rule.figure, rule.what
        if rule.supply == "frequency":
            speech = self.heard.around.speech
            value = None if speech == "unknown" else self.file.frequency.get(speech)
        elif rule.supply == "across" and (supply := self.supply()):
            value = supply.volts
        elif rule.supply == "to earth" and (supply := self.supply()):
            value = None if self.heard.around.speech == "unknown" else supply.to_earth
        elif rule.part and (thermistor := self.heard.thermistor(about.reading.about)):
            value = thermistor.r25_ohm if rule.part == "r25_ohm" else thermistor.beta_k
        return [] if value is None else [Found(value, _shown(symbol, what, value, unit, None))]


def _is_its_own(number: Quantity, reading: Reading) -> bool:
    """Whether it is the reading's own number with the next one's unit: "ten point nine, rated two kilowatts"."""
    other_unit = number.unit is not None and not measure_the_same(number.unit, reading.unit)
    return other_unit and math.isclose(number.value, reading.value)


def _shown(symbol: str, what: str, value: float | None, unit: str, evidence: Evidence | None) -> SumInput:
    return SumInput(symbol=symbol, what=what, value=value, unit=unit, evidence=evidence)
