"""Readings -> readings with the limit that they are held against, and the judgement.

A limit is only taken where quantity, point of measurement, kind of appliance and wording all fit: a wrong
"outside" is worse than "no limit known".
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from fieldnotes.judge.context import said_around, text_of
from fieldnotes.judge.kinds import Packs, kinds_of
from fieldnotes.judge.units import convert, measure_the_same
from fieldnotes.judge.words import ends_with, is_just, quotes_of, says
from fieldnotes.records import Judgement, Limit, Reading, Visit
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.limits import QUANTITY_OF, LimitRule, LimitsFile, SpeechHeard

_STATED = "stated by the technician"
_ROUNDING = 1e-9  # of a bound: what is lost when a value goes through another unit and back


@dataclass(frozen=True)
class _Words:
    """The words that a rule may look at for one reading. `own` and `whole` are empty where they are shared.

    A quote or a breath that holds several readings of one quantity tells nothing of any one of them.
    """

    about: str
    own: str  # its quote
    whole: str  # its breath
    all: str  # all of these, shared or not: what speaks against a rule


@dataclass(frozen=True)
class _Surroundings:
    """What the rest of the visit tells about one reading."""

    kinds: tuple[str, ...]
    speech: SpeechHeard
    heard: str


def judge_readings(
    visit: Visit, limits: LimitsFile, packs: Packs, transcript: Transcript | None = None
) -> tuple[Reading, ...]:
    """All readings with `limit`, `judgement` and, where the wording calls for it, `note` set anew.

    A limit that the technician stated stays and is the only one that counts.
    """
    rules = rules_for(visit, limits, packs, transcript)
    return tuple(_judged(r, rule, limits) for r, rule in zip(visit.readings, rules, strict=True))


def rules_for(
    visit: Visit, limits: LimitsFile, packs: Packs, transcript: Transcript | None = None
) -> tuple[LimitRule | None, ...]:
    """For each reading the rule that decides on it: the first that fits, or None."""
    quotes = tuple(quotes_of(visit))
    spoken = tuple(text_of(breath) for breath in transcript.breaths) if transcript else quotes
    around = _Surroundings(
        kinds=kinds_of(visit.appliance.kind, packs), speech=_speech(spoken, limits), heard=" / ".join(quotes)
    )
    return tuple(
        next((rule for rule in limits.limits if _applies(rule, reading, words, limits, around)), None)
        for reading, words in zip(visit.readings, _words_of(visit.readings, transcript), strict=True)
    )


def _words_of(readings: tuple[Reading, ...], transcript: Transcript | None) -> list[_Words]:
    breaths = [said_around(r.evidence, transcript) for r in readings]
    sorts = [QUANTITY_OF.get(r.unit) for r in readings]
    quotes = [r.evidence.quote for r in readings]
    per_quote, per_breath = (
        Counter(zip(quotes, sorts, strict=True)),
        Counter(zip(breaths, sorts, strict=True)),
    )
    return [
        _Words(
            about=reading.about,
            own=quote if per_quote[quote, sort] == 1 else "",
            whole=breath if per_breath[breath, sort] == 1 else "",
            all=f"{reading.about} / {quote} / {breath}",
        )
        for reading, quote, breath, sort in zip(readings, quotes, breaths, sorts, strict=True)
    ]


def _judged(reading: Reading, rule: LimitRule | None, limits: LimitsFile) -> Reading:
    note = _without_ours(reading.note, limits)
    if reading.limit and reading.limit.status == _STATED:
        return reading.model_copy(update={"note": note, "judgement": _against(reading, reading.limit)})
    plain = reading.model_copy(update={"note": note, "limit": None, "judgement": "no limit known"})
    if _misfit(reading, limits):
        return plain.model_copy(update={"note": _joined(note, limits.unit_does_not_fit)})
    if rule is None:
        return plain
    low, high = rule.bounds
    if low is None and high is None:
        return plain.model_copy(update={"note": _joined(note, rule.note or "")})
    limit = Limit(
        minimum=low, maximum=high, unit=rule.unit, source=rule.source, status=rule.status, note=rule.note
    )
    return plain.model_copy(update={"limit": limit, "judgement": _against(reading, limit)})


def _against(reading: Reading, limit: Limit) -> Judgement:
    if not measure_the_same(reading.unit, limit.unit) or (limit.minimum is None and limit.maximum is None):
        return "no limit known"
    value = convert(reading.value, reading.unit, limit.unit)
    return "within" if _between(value, limit.minimum, limit.maximum) else "outside"


def _between(value: float, low: float | None, high: float | None) -> bool:
    return (low is None or value >= low - _ROUNDING * max(1, abs(low))) and (
        high is None or value <= high + _ROUNDING * max(1, abs(high))
    )


def _misfit(reading: Reading, limits: LimitsFile) -> bool:
    """Whether `about` names a quantity that the unit cannot measure ("supply voltage", ohm)."""
    named = [name.quantity for name in limits.quantity_names if ends_with(reading.about, name.ends_with)]
    return bool(named) and QUANTITY_OF.get(reading.unit) not in named


def _applies(
    rule: LimitRule, reading: Reading, words: _Words, limits: LimitsFile, around: _Surroundings
) -> bool:
    if QUANTITY_OF.get(reading.unit) != rule.quantity:
        return False
    if rule.kinds and not set(rule.kinds) & set(around.kinds):
        return False
    if set(rule.not_kinds) & set(around.kinds) or (rule.speech and around.speech not in rule.speech):
        return False
    value = convert(reading.value, reading.unit, rule.unit)
    if not _between(value, rule.only_between.minimum, rule.only_between.maximum):
        return False
    return _worded_for(rule, words, limits, around)


def _worded_for(rule: LimitRule, words: _Words, limits: LimitsFile, around: _Surroundings) -> bool:
    """Whether the words name the rule's point, all else that it asks for, and nothing that it excludes."""
    nearby = f"{words.own} / {words.whole}"
    vague = is_just(words.about, (*limits.vague, *around.kinds))
    return (
        says(nearby if vague else words.about, rule.point)
        and all(says(f"{words.about} / {nearby}", group) for group in rule.also_said)
        and not says(words.all, rule.not_said)
        and (not rule.heard or says(around.heard, rule.heard))
    )


def _speech(spoken: tuple[str, ...], limits: LimitsFile) -> SpeechHeard:
    """Whose English it is, by which side's words occur in more breaths; unknown where that is even."""
    votes = {side: sum(says(text, words) for text in spoken) for side, words in limits.speech.items()}
    highest = max(votes.values(), default=0)
    winners = [side for side, count in votes.items() if count == highest and count > 0]
    return winners[0] if len(winners) == 1 else "unknown"


def _without_ours(note: str | None, limits: LimitsFile) -> str | None:
    """The note without what an earlier judging wrote there, so that judging again starts clean."""
    ours = [limits.unit_does_not_fit, *(rule.note for rule in limits.limits if rule.note)]
    for text in ours:
        note = note.replace(f"; {text}", "").replace(text, "") if note else note
    return note or None


def _joined(note: str | None, text: str) -> str:
    return f"{note}; {text}" if note else text
