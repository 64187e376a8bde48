"""A number that cannot be, and the one that is easily heard as it: eighty and eighteen, one fifty and one fifteen.

Only where the limit says which values are possible at all. What was truly measured, however bad, stays as it is.
"""

from __future__ import annotations

import math
from functools import lru_cache

from fieldnotes.judge.limits import between
from fieldnotes.judge.units import convert
from fieldnotes.records import Doubt, Reading
from fieldnotes.sounds import sound_of
from fieldnotes.vocabulary.limits import LimitRule
from fieldnotes.vocabulary.measures import Measures

_DECIMALS = 9  # to which a value is rounded when its tens are exchanged: 80.3 - 62 is 18.3


def is_possible(value: float, unit: str, rule: LimitRule) -> bool:
    """Whether such a value can be measured at all at the rule's point."""
    bounds = rule.possible
    return bounds is None or between(convert(value, unit, rule.unit), bounds.minimum, bounds.maximum)


def doubt_of(reading: Reading, rule: LimitRule, measures: Measures) -> Doubt | None:
    """What an impossible value may have been; None where no possible one sounds like it."""
    fits = sounds_like(reading.value, measures)
    if fits is None or not is_possible(fits, reading.unit, rule):
        return None
    return Doubt(heard=reading.value, fits=fits)


def sounds_like(value: float, measures: Measures) -> float | None:
    """The value with a teen for the tens that sound like it, or the other way round: -80.5 -> -18.5, 115 -> 150.

    None where it ends, decimals aside, in no such number: 24, 12, 45.
    """
    size = abs(value)
    last = int(size) % 100
    other = _pairs(measures).get(last)
    return None if other is None else math.copysign(round(size - last + other, _DECIMALS), value)


@lru_cache(maxsize=4)
def _pairs(measures: Measures) -> dict[int, int]:
    """Teens and tens of which one sounds like the beginning of the other ("fifteen", "fifty"), both ways."""
    teens, tens = measures.numbers.teens, measures.numbers.tens
    alike = {teens[a]: tens[b] for a in teens for b in tens if sound_of(a).startswith(sound_of(b))}
    return alike | {ten: teen for teen, ten in alike.items()}
