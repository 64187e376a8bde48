"""Readings -> the same readings, each with the limit that it is held against and the judgement.

What the technician stated comes first, then what can be worked out from the words beside it, then the limits
of the vocabulary. A unit that cannot belong to what was measured is not judged, nor is a value that cannot be; where
another number sounds like that value, the reading is put in doubt.
"""

from __future__ import annotations

from fieldnotes.judge.context import near_words, surroundings_of
from fieldnotes.judge.doubts import doubt_of, is_possible
from fieldnotes.judge.kinds import Packs
from fieldnotes.judge.limits import between, rule_for
from fieldnotes.judge.sums.heard import Heard
from fieldnotes.judge.sums.working_out import WorkedOut, sums_about
from fieldnotes.judge.units import convert, measure_the_same
from fieldnotes.judge.words import ends_with
from fieldnotes.records import STATED, Doubt, Judgement, Limit, Reading, Visit
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.limits import LimitRule, LimitsFile
from fieldnotes.vocabulary.measures import Measures
from fieldnotes.vocabulary.quantities import QUANTITY_OF
from fieldnotes.vocabulary.sums import SumsFile

WRITTEN = 1.0  # confidence of words that were typed and not heard


def judge_readings(
    visit: Visit,
    limits: LimitsFile,
    sums: SumsFile,
    packs: Packs,
    measures: Measures,
    transcript: Transcript | None = None,
) -> tuple[Reading, ...]:
    """All readings with `limit`, `judgement`, `outside_by`, `doubt`, `sums` and, where the wording calls for it,
    `note` set anew."""
    visit = visit.model_copy(update={"readings": tuple(_as_heard(r, limits, sums) for r in visit.readings)})
    around = surroundings_of(visit, limits, packs, transcript)
    near = near_words(visit.readings, transcript)
    heard = Heard(visit, near, around, packs, measures, transcript)
    judged: list[Reading] = []
    for clean, words, read in zip(visit.readings, near, heard.reads, strict=True):
        misfit = _misfit(clean, limits)
        worked_out = WorkedOut() if misfit else sums_about(read, sums, heard, limits.vague)
        clean = clean.model_copy(update={"sums": worked_out.sums})
        clean = _noted(clean, worked_out.note) if worked_out.note else clean
        if clean.limit and clean.limit.status == STATED:
            judged.append(_held_against(clean, clean.limit))
            continue
        nothing = {"limit": None, "judgement": "no limit known", "outside_by": None}
        clean = clean.model_copy(update=nothing)
        if misfit:
            judged.append(_noted(clean, limits.unit_does_not_fit))
        elif worked_out.limit:
            judged.append(_held_against(clean, worked_out.limit))
        else:
            judged.append(_by_rule(clean, rule_for(clean, words, limits, around), measures))
    return tuple(judged)


def _by_rule(reading: Reading, rule: LimitRule | None, measures: Measures | None) -> Reading:
    if rule is None:
        return reading
    if not is_possible(reading.value, reading.unit, rule):
        doubt = doubt_of(reading, rule, measures) if measures else None
        return _doubted(reading, doubt, rule) if doubt else reading
    return _held_against_rule(reading, rule)


def _doubted(reading: Reading, doubt: Doubt, rule: LimitRule) -> Reading:
    """The reading with the value that fits in place of one that cannot be, where that lies within the limit.

    What was written stays: only speech is misheard.
    """
    meant = _held_against_rule(reading.model_copy(update={"value": doubt.fits}), rule)
    taken = meant.judgement == "within" and reading.evidence.confidence < WRITTEN
    return (meant if taken else reading).model_copy(update={"doubt": doubt, "sums": ()})


def _held_against_rule(reading: Reading, rule: LimitRule) -> Reading:
    low, high = rule.bounds
    if low is None and high is None:
        return _noted(reading, rule.note or "")
    limit = Limit(
        minimum=low, maximum=high, unit=rule.unit, source=rule.source, status=rule.status, note=rule.note
    )
    return _held_against(reading, limit)


def _held_against(reading: Reading, limit: Limit) -> Reading:
    judgement: Judgement = "no limit known"
    beyond: float | None = None
    bounded = limit.minimum is not None or limit.maximum is not None
    if bounded and measure_the_same(reading.unit, limit.unit):
        value = convert(reading.value, reading.unit, limit.unit)
        judgement = "within" if between(value, limit.minimum, limit.maximum) else "outside"
        if judgement == "outside":
            bound = limit.minimum if limit.minimum is not None and value < limit.minimum else limit.maximum
            assert bound is not None  # the value lies beyond one of the two
            beyond = float(f"{value - bound:.4g}")  # four figures, as a meter reads
    return reading.model_copy(update={"limit": limit, "judgement": judgement, "outside_by": beyond})


def _misfit(reading: Reading, limits: LimitsFile) -> bool:
    """Whether `about` names a quantity that the unit cannot measure ("supply voltage", ohm)."""
    named = [name.quantity for name in limits.quantity_names if ends_with(reading.about, name.ends_with)]
    return bool(named) and QUANTITY_OF.get(reading.unit) not in named


def _noted(reading: Reading, text: str) -> Reading:
    return reading.model_copy(update={"note": f"{reading.note}; {text}" if reading.note else text})


def _as_heard(reading: Reading, limits: LimitsFile, sums: SumsFile) -> Reading:
    """The reading without what an earlier judging made of it, so that judging again starts clean."""
    value = reading.doubt.heard if reading.doubt else reading.value
    note = _without_ours(reading.note, limits, sums)
    return reading.model_copy(update={"value": value, "doubt": None, "note": note, "sums": ()})


def _without_ours(note: str | None, limits: LimitsFile, sums: SumsFile) -> str | None:
    """The note without what an earlier judging wrote there."""
    ours = [
        limits.unit_does_not_fit,
        sums.needs_coolprop,
        *(rule.note for rule in limits.limits if rule.note),
    ]
    for text in ours:
        note = note.replace(f"; {text}", "").replace(text, "") if note else note
    return note or None
