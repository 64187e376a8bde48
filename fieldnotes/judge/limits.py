"""Which rule of vocab/limits.yaml a reading is held against.

A rule is only taken where quantity, point of measurement, kind of appliance and wording all fit: a wrong
"outside" is worse than "no limit known".
"""

from __future__ import annotations

from fieldnotes.judge.context import NearWords, Surroundings
from fieldnotes.judge.units import convert
from fieldnotes.judge.words import is_just, says
from fieldnotes.records import Reading
from fieldnotes.vocabulary.limits import LimitRule, LimitsFile
from fieldnotes.vocabulary.quantities import QUANTITY_OF

_ROUNDING = 1e-9  # of a bound: what is lost when a value goes through another unit and back


def rule_for(
    reading: Reading, words: NearWords, limits: LimitsFile, around: Surroundings
) -> LimitRule | None:
    """The rule that decides on a reading: the first in the file that fits, or None."""
    return next((rule for rule in limits.limits if _applies(rule, reading, words, limits, around)), None)


def between(value: float, low: float | None, high: float | None) -> bool:
    """Whether the value lies within bounds that are inclusive and may be open."""
    return (low is None or value >= low - _ROUNDING * max(1, abs(low))) and (
        high is None or value <= high + _ROUNDING * max(1, abs(high))
    )


def _applies(
    rule: LimitRule, reading: Reading, words: NearWords, limits: LimitsFile, around: Surroundings
) -> bool:
    if QUANTITY_OF.get(reading.unit) != rule.quantity:
        return False
    if rule.kinds and not set(rule.kinds) & set(around.kinds):
        return False
    if set(rule.not_kinds) & set(around.kinds) or (rule.speech and around.speech not in rule.speech):
        return False
    value = convert(reading.value, reading.unit, rule.unit)
    if not between(value, rule.only_between.minimum, rule.only_between.maximum):
        return False
    return _worded_for(rule, words, limits, around)


def _worded_for(rule: LimitRule, words: NearWords, limits: LimitsFile, around: Surroundings) -> bool:
    """Whether the words name the rule's point, all else that it asks for, and nothing that it excludes."""
    vague = is_just(words.about, (*limits.vague, *around.kinds))
    return (
        says(words.own if vague else words.about, rule.point)
        and all(says(f"{words.about} / {words.own}", group) for group in rule.also_said)
        and not says(words.all, rule.not_said)
        and (not rule.heard or says(around.heard, rule.heard))
    )
