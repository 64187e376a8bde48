"""Readings -> the same readings, each with the limit that it is held against and the judgement.

What the technician stated comes first, then what can be worked out from the words beside it, then the limits
of the vocabulary. A unit that cannot belong to what was measured is not judged.
"""

from __future__ import annotations

from fieldnotes.judge.context import near_words, surroundings_of
from fieldnotes.judge.kinds import Packs
from fieldnotes.judge.limits import between, rule_for
from fieldnotes.judge.sums.heard import Heard
from fieldnotes.judge.sums.working_out import WorkedOut, sums_about
from fieldnotes.judge.units import convert, measure_the_same
from fieldnotes.judge.words import ends_with
from fieldnotes.records import Judgement, Limit, Reading, Visit
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.limits import LimitRule, LimitsFile
from fieldnotes.vocabulary.measures import Measures
from fieldnotes.vocabulary.quantities import QUANTITY_OF
from fieldnotes.vocabulary.sums import SumsFile

_STATED = "stated by the technician"


def judge_readings(
    visit: Visit,
    limits: LimitsFile,
    sums: SumsFile,
    packs: Packs,
    measures: Measures,
    transcript: Transcript | None = None,
) -> tuple[Reading, ...]:
    """All readings with `limit`, `judgement`, `sums` and, where the wording calls for it, `note` set anew."""
    around = surroundings_of(visit, limits, packs, transcript)
    near = near_words(visit.readings, transcript)
    heard = Heard(visit, near, around, packs, measures, transcript)
    judged: list[Reading] = []
    for reading, words, read in zip(visit.readings, near, heard.reads, strict=True):
        clean = reading.model_copy(update={"note": _without_ours(reading.note, limits, sums), "sums": ()})
        misfit = _misfit(clean, limits)
        worked_out = WorkedOut() if misfit else sums_about(read, sums, heard, limits.vague)
        clean = clean.model_copy(update={"sums": worked_out.sums})
        clean = _noted(clean, worked_out.note) if worked_out.note else clean
        if clean.limit and clean.limit.status == _STATED:
            judged.append(clean.model_copy(update={"judgement": _against(clean, clean.limit)}))
            continue
        clean = clean.model_copy(update={"limit": None, "judgement": "no limit known"})
        if misfit:
            judged.append(_noted(clean, limits.unit_does_not_fit))
        elif worked_out.limit:
            judged.append(_held_against(clean, worked_out.limit))
        else:
            judged.append(_by_rule(clean, rule_for(clean, words, limits, around)))
    return tuple(judged)


def _by_rule(reading: Reading, rule: LimitRule | None) -> Reading:
    if rule is None:
        return reading
    low, high = rule.bounds
    if low is None and high is None:
        return _noted(reading, rule.note or "")
    limit = Limit(
        minimum=low, maximum=high, unit=rule.unit, source=rule.source, status=rule.status, note=rule.note
    )
    return _held_against(reading, limit)


def _held_against(reading: Reading, limit: Limit) -> Reading:
    return reading.model_copy(update={"limit": limit, "judgement": _against(reading, limit)})


def _against(reading: Reading, limit: Limit) -> Judgement:
    if not measure_the_same(reading.unit, limit.unit) or (limit.minimum is None and limit.maximum is None):
        return "no limit known"
    value = convert(reading.value, reading.unit, limit.unit)
    return "within" if between(value, limit.minimum, limit.maximum) else "outside"


def _misfit(reading: Reading, limits: LimitsFile) -> bool:
    """Whether `about` names a quantity that the unit cannot measure ("supply voltage", ohm)."""
    named = [name.quantity for name in limits.quantity_names if ends_with(reading.about, name.ends_with)]
    return bool(named) and QUANTITY_OF.get(reading.unit) not in named


def _noted(reading: Reading, text: str) -> Reading:
    return reading.model_copy(update={"note": f"{reading.note}; {text}" if reading.note else text})


def _without_ours(note: str | None, limits: LimitsFile, sums: SumsFile) -> str | None:
    """The note without what an earlier judging wrote there, so that judging again starts clean."""
    ours = [
        limits.unit_does_not_fit,
        sums.needs_coolprop,
        *(rule.note for rule in limits.limits if rule.note),
    ]
    for text in ours:
        note = note.replace(f"; {text}", "").replace(text, "") if note else note
    return note or None
