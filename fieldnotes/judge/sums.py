"""Limits that are worked out from other numbers in the same breath: a rating, a mark, a count of elbows.

Formulas: R = V x V / P (Ohm's and Joule's laws); a dryer duct's length less its elbows (IRC M1502.4.6.1).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fieldnotes.judge.units import convert
from fieldnotes.judge.words import says
from fieldnotes.records import Limit, Reading
from fieldnotes.tidy import tidy
from fieldnotes.tidy.text import Quantity, TidyText
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.vocabulary.measures import Measures
from fieldnotes.vocabulary.quantities import QUANTITY_OF, SpeechHeard
from fieldnotes.vocabulary.sums import RatingSum, SumsPart

_WORDS_BACK = 8  # how far before a number its "marked" or "plate says" may stand


@dataclass(frozen=True)
class Calculator:
    """Works out limits for the readings of one visit."""

    sums: SumsPart
    measures: Measures
    kinds: tuple[str, ...]
    speech: SpeechHeard

    def limit_for(self, reading: Reading, said: str) -> Limit | None:
        """The limit that follows from `said`, the words around the reading; None where there is none."""
        return self._by_rating(reading, said) or self._by_elbows(reading, said)

    def _by_rating(self, reading: Reading, said: str) -> Limit | None:
        quantity = QUANTITY_OF.get(reading.unit)
        for rule in self.sums.ratings:
            if rule.quantity != quantity or not says(reading.about, rule.point) or says(said, rule.not_said):
                continue
            if set(rule.not_kinds) & set(self.kinds):
                return None
            due = self._due(rule, reading, _heard(said, self.measures))
            if due is None:
                return None
            value, unit, how = due
            measured = convert(reading.value, reading.unit, unit)
            if not value / self.sums.beyond <= measured <= value * self.sums.beyond:
                return None
            return Limit(
                minimum=_figures(value * (1 + rule.low_percent / 100)),
                maximum=_figures(value * (1 + rule.high_percent / 100)),
                unit=unit,
                source=rule.source,
                status=rule.status,
                note=f"{how}. {rule.note}",
            )
        return None

    def _due(self, rule: RatingSum, reading: Reading, text: TidyText) -> tuple[float, str, str] | None:
        """What the reading should be, its unit, and how that comes about."""
        if rule.formula == "as rated":
            rating = _only([q.value for q in _usable(text) if self._is_rated(q, text, reading)])
            return None if rating is None else (rating, reading.unit, f"Marked {rating:g} {reading.unit}")
        watts = _only([convert(q.value, q.unit, "W") for q in _usable(text) if q.unit in ("W", "kW")])
        volts = _only([q.value for q in _usable(text) if q.unit == "V"]) or self._supply()
        if watts is None or volts is None or watts <= 0:
            return None
        ohms = volts * volts / watts
        return ohms, "ohm", f"{watts:g} W at {volts:g} V is {_figures(ohms):g} ohm"

    def _is_rated(self, quantity: Quantity, text: TidyText, reading: Reading) -> bool:
        """Whether "marked" or the like stands before the number, with no other number between."""
        if quantity.unit not in (None, reading.unit):
            return False
        earlier = max((q.last for q in text.quantities if q.last <= quantity.first), default=0)
        first = max(earlier, quantity.first - _WORDS_BACK)
        return says(" ".join(token.text for token in text.tokens[first : quantity.first]), self.sums.rated)

    def _supply(self) -> float | None:
        for supply in self.sums.supplies:
            fits_speech = not supply.speech or self.speech in supply.speech
            if fits_speech and (not supply.kinds or set(supply.kinds) & set(self.kinds)):
                return supply.volts
        return None

    def _by_elbows(self, reading: Reading, said: str) -> Limit | None:
        duct = self.sums.duct
        if QUANTITY_OF.get(reading.unit) != "length" or not set(duct.kinds) & set(self.kinds):
            return None
        if not says(reading.about, duct.point) or says(said, duct.not_said):
            return None
        text = _heard(said, self.measures)
        elbows = _only([q.value for q in text.quantities if _counts(q, text, duct.elbows)])
        if not elbows:
            return None
        feet = convert(reading.value, reading.unit, "ft")
        strict, loose = (duct.longest_ft - elbows * each for each in (duct.mitred_ft, duct.smooth_ft))
        if strict < feet <= loose:
            return None
        allowed = strict if feet <= strict else loose
        return Limit(maximum=allowed, unit="ft", source=duct.source, status=duct.status, note=duct.note)


def _heard(said: str, measures: Measures) -> TidyText:
    words = tuple(Word(text=word) for word in said.split())
    return tidy(Transcript(breaths=(Breath(words=words),), recordings=()), measures)


def _usable(text: TidyText) -> list[Quantity]:
    return [q for q in text.quantities if not q.replaced and not q.ordinal_or_count]


def _counts(quantity: Quantity, text: TidyText, things: Sequence[str]) -> bool:
    """Whether it is a count of these: "two elbows"."""
    after = " ".join(token.text for token in text.tokens[quantity.last : quantity.last + 1])
    return quantity.unit is None and not quantity.replaced and says(after, things)


def _only(values: list[float]) -> float | None:
    """The one value that was said; None where none or several different ones were."""
    return values[0] if len(set(values)) == 1 else None


def _figures(value: float) -> float:
    """To four figures, as a meter reads."""
    return float(f"{value:.4g}")
