"""Visit -> what a complete report still lacks, heaviest first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import get_args

from fieldnotes.judge.expected import Expected, checks_expected
from fieldnotes.judge.kinds import Packs, kinds_said
from fieldnotes.judge.triggers import pointed_at
from fieldnotes.judge.words import quotes_of, says
from fieldnotes.records import Evidence, Gap, Item, Visit
from fieldnotes.vocabulary.limits import Condition, GapRule, GapsFile

# What a condition finds: (things, why) for each gap; an empty list: nothing lacks.
Found = list[tuple[str, str]]
_SAID_NOT_DONE: tuple[Condition, ...] = ("check said not done", "expected check said not done")


def gaps_of(visit: Visit, gaps: GapsFile, packs: Packs) -> tuple[Gap, ...]:
    """Ordered by weight, then as in the file. "Not heard" and "said not to be done" are told apart."""
    found: list[Gap] = []
    kinds = kinds_said(visit.appliance, packs)
    finding = visit.verdict.finding or "never said"
    for rule in gaps.gaps:
        if (rule.finding and finding not in rule.finding) or (
            rule.kinds and not set(rule.kinds) & set(kinds)
        ):
            continue
        found += [
            Gap(
                what=rule.what.replace("{things}", things),
                why=rule.why.replace("{why}", why),
                needed_by=rule.needed_by,
                weight=rule.weight,
                said_not_done=rule.when in _SAID_NOT_DONE,
            )
            for things, why in _lacking(rule, visit, gaps, packs)
        ]
    return tuple(sorted(found, key=lambda gap: gap.weight))


def _lacking(rule: GapRule, visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    if rule.missing:
        return [] if _is_there(visit, rule.missing) else [("", "")]
    if rule.called_by:
        return _unanswered(rule, visit)
    assert rule.when is not None  # the loader demands one of the three
    return _CONDITIONS[rule.when](visit, gaps, packs)


def _unanswered(rule: GapRule, visit: Visit) -> Found:
    """What calls for something, where nothing answers. Without times in the notes any answer will do."""
    calling = list(pointed_at(rule.called_by, visit))
    if not calling:
        return []
    begun = _first_start(calling) if rule.later else None
    for item in pointed_at(rule.answered_by, visit):
        if begun is None or item.evidence.end is None or item.evidence.end >= begun:
            return []
    return _together([item.about for item in calling])


def _is_there(visit: Visit, place: str) -> bool:
    at: object = visit
    for name in place.split("."):
        at = getattr(at, name)
    return bool(at)


def _part_without_number(visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    return _together([part.about for part in visit.parts if not part.number])


def _expected_not_heard(visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    return _by_reason(
        [one for one in checks_expected(visit, gaps, packs) if one.state == "not heard" and not one.is_trial]
    )


def _expected_trial_not_heard(visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    """A cycle or test that the complaint calls for; where no trial was heard at all that is a gap of its own."""
    if not visit.trials:
        return []
    return _by_reason(
        [one for one in checks_expected(visit, gaps, packs) if one.state == "not heard" and one.is_trial]
    )


def _expected_said_not_done(visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    return _by_reason([one for one in checks_expected(visit, gaps, packs) if one.state == "said not done"])


def _said_not_done(visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    """Checks said not to be made, beyond those that the complaint calls for anyway."""
    expected = {name for one in checks_expected(visit, gaps, packs) for name in one.not_done}
    return _together([c.about for c in visit.checks if c.outcome == "not tested" and c.about not in expected])


def _fault_left_open(visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    return [] if visit.work or visit.parts or visit.follow_ups else [("", "")]


def _state_not_heard(visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    """No word of how the unit was left; "plug out" counts where all work had been done by then."""
    busy = [*visit.checks, *visit.readings, *visit.trials, *visit.work]
    done = max((i.evidence.start for i in busy if i.evidence.start is not None), default=None)
    for item in visit.safety:
        text = " / ".join([item.about, *_quotes(item)])
        start = item.also[-1].start if item.also else item.evidence.start
        at_the_end = done is not None and start is not None and start > done
        if says(text, gaps.left) or (at_the_end and says(text, gaps.isolation)):
            return []
    return [("", "")]


def _opened_without_isolation(visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    """Hands in the machine, and nothing heard of the power being off."""
    opened = [work.about for work in visit.work if work.action in gaps.opens]
    opened += [part.about for part in visit.parts if part.status == "fitted"]
    isolated = any(says(quote, gaps.isolation) for quote in quotes_of(visit))
    isolated = isolated or any(says(item.about, gaps.isolation) for item in visit.safety)
    return [] if isolated else _together(opened)


def _measured_without_value(visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    """Checks that tell of a measurement, and no reading within their words or of the same thing."""
    bare = [
        check.about
        for check in visit.checks
        if check.outcome != "not tested"
        and says(check.evidence.quote, gaps.measuring)
        and not says(check.evidence.quote, gaps.shown_without_value)
        and not any(r.about == check.about or _overlap(r.evidence, check.evidence) for r in visit.readings)
    ]
    return _together(bare)


def _no_times(visit: Visit, gaps: GapsFile, packs: Packs) -> Found:
    """Nothing but notes without a clock."""
    timed = any(each.seconds is not None for each in visit.recording) or visit.job.started
    return [] if timed or not visit.recording else [("", "")]


_CONDITIONS: dict[Condition, Callable[[Visit, GapsFile, Packs], Found]] = {
    "part without a number": _part_without_number,
    "expected check not heard": _expected_not_heard,
    "expected trial not heard": _expected_trial_not_heard,
    "expected check said not done": _expected_said_not_done,
    "check said not done": _said_not_done,
    "fault without work or follow-up": _fault_left_open,
    "state on leaving not heard": _state_not_heard,
    "opened without isolation heard": _opened_without_isolation,
    "measured without a value": _measured_without_value,
    "no times": _no_times,
}
assert set(_CONDITIONS) == set(get_args(Condition))


def _together(names: Sequence[str]) -> Found:
    unique = tuple(dict.fromkeys(names))
    return [(", ".join(unique), "")] if unique else []


def _by_reason(expected: Sequence[Expected]) -> Found:
    """Checks that are expected for the same reason, in one gap."""
    reasons = dict.fromkeys(one.why for one in expected)
    return [
        (", ".join(dict.fromkeys(one.name for one in expected if one.why == why)), why) for why in reasons
    ]


def _overlap(one: Evidence, other: Evidence) -> bool:
    if one.start is None or one.end is None or other.start is None or other.end is None:
        return one.quote in other.quote or other.quote in one.quote
    return one.start < other.end and other.start < one.end


def _first_start(items: Sequence[Item]) -> float | None:
    starts = [item.evidence.start for item in items if item.evidence.start is not None]
    return min(starts, default=None)


def _quotes(item: Item) -> list[str]:
    return [item.evidence.quote, *(one.quote for one in item.also)]
