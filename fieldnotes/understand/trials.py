"""Trials: cycles and tests that were really run, and how they ended."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from fieldnotes.records import Trial, TrialOutcome
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.noun_phrases import is_known, noun_phrase
from fieldnotes.understand.outcomes import outcomes_in
from fieldnotes.understand.sentences import trial_sentence
from fieldnotes.understand.things import heads_of, things_in

TEST_RUN = "test run"  # a trial that was not named
RUN_VERBS = (
    "run",
    "ran",
    "try",
    "tried",
    "do",
    "did",
    "start",
    "started",
    "test",
    "bother",
    "put",
    "repeat",
    "power",
)
SELF = ("i", "we")
WHOLE = (
    "it",
    "her",
    "them",
    "that",
    "machine",
    "unit",
    "again",
    "empty",
    "same",
    "start",
    "for",
)  # what is run: the appliance
COUNTED = (
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "last",
    "final",
    "next",
    "another",
    "retest",
    "rerun",
    "more",
)
TURNS = ("go", "try", "attempt", "round", "around", "one")
SHORTLY = 6  # breaths
RUNS_NAMED = ("ran", "run", "reran", "forced", "selected", "initiated", "performed", "completed")
GIVEN = ("gave", "give", "given")
TRIED = ("tried", "try", "retried", "tested", "repeated")
ALONG = (
    "round",
    "around",
    "over",
    "through",
    "along",
    "down",
    "up",
    "into",
    "under",
    "across",
    "between",
    "from",
    "to",
    "off",
)
DENIAL = 4  # words before an ending in which a negation turns it round ("not a single dropout")
TURNED: dict[TrialOutcome, TrialOutcome] = {"passed": "failed", "failed": "passed"}


@dataclass(frozen=True, slots=True)
class _Run:
    """What was run, and the words [first, last) that say so."""

    about: str | None
    first: int
    last: int
    again: bool = False  # "second go": of what was run shortly before


@dataclass(frozen=True, slots=True)
class _End:
    outcome: TrialOutcome
    first: int
    last: int
    firm: bool  # in so many words ("that's a pass")


def trials_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Trial], frozenset[int], dict[int, int]]:
    """All trials in order; the clauses whose outcome words belong to them; and for each breath that tells of one,
    the word from which on "it" means the trial."""
    trials: list[Trial] = []
    used: set[int] = set()
    running: dict[int, int] = {}
    by_breath: dict[int, list[int]] = {}
    verdicts: dict[int, list[Clause]] = {}  # clauses that may only tell in so many words how it ended
    for index, clause in enumerate(clauses):
        if clause.stance == "fact" and index not in claimed:
            by_breath.setdefault(clause.breath, []).append(index)
        elif clause.stance in ("plan", "general", "hypothetical"):
            verdicts.setdefault(clause.breath, []).append(clause)
    for breath, indices in by_breath.items():
        own = [clauses[i] for i in indices]
        runs = _runs(narration, own, gone)
        if not runs or _was_not_run(narration, own):
            continue
        if runs[0].again and breath - max(running, default=-SHORTLY - 1) > SHORTLY:
            continue
        ends = _endings(narration, own, gone)
        ends += [e for e in _endings(narration, verdicts.get(breath, []), gone) if e.firm]
        following = [clauses[i] for i in by_breath.get(breath + 1, [])]
        if not ends and following and _goes_on(narration, following, gone):
            ends = _endings(narration, following, gone)
        outcome = ends[-1].outcome if ends else _judged(narration, own, gone)
        if _not_seen(narration, breath) or (outcome and _left_unclear(narration, own, gone)):
            outcome = "unclear"
        if not outcome:
            continue  # begun, but not seen to the end
        first, last = own[0].first, max(own[-1].last, *(e.last for e in ends[-1:]), 0)
        for run in runs:
            about = run.about or (trials[-1].about if trials else TEST_RUN)  # "third try it spun"
            trials.append(
                Trial(
                    about=about,
                    text=trial_sentence(narration, about, outcome, first, last),
                    evidence=evidence_of(narration, first, last),
                    outcome=outcome,
                )
            )
        running[breath] = min(run.first for run in runs)
        used |= {
            i
            for i in (*indices, *by_breath.get(breath + 1, []))
            for end in ends
            if clauses[i].first <= end.first < clauses[i].last
            and not any(m.name.condition for m in narration.named(clauses[i].first, clauses[i].last))
        }
    return trials, frozenset(used), running


def _runs(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> list[_Run]:
    """What was run: a trial that is named, or the appliance, one of its heat sources or a load."""
    first, last = clauses[0].first, clauses[-1].last
    marks = [m for c in clauses for m in narration.marked("trial", c.first, c.last) if m.first not in gone]
    others = [
        m
        for m in marks
        if m.value in ("run", "begun") and narration.words[m.first - 1] in narration.grammar.others
    ]
    if others:
        return []  # "she ran a wash last night"
    run = [m for m in marks if m.value == "run" and narration.words[m.first - 1] not in ("it", "her")]
    begun = [m for m in marks if m.value in ("run", "begun")]
    firm = any(m.rule.strength == "firm" for m in marks)
    named = [
        m
        for c in clauses
        for m in narration.named(c.first, c.last, "trial")
        if m.first not in gone
        and (narration.words[m.first - 1], narration.words[m.last - 1])
        != ("in", "mode")  # no run: "in service mode"
        and narration.words[m.first - 1] not in narration.grammar.negators  # "it wouldn't pump out"
        and (m.last - m.first > 1 or begun or firm)
        and not _is_of_part(narration, c, m.first)
    ]
    if named:
        different = {m.name.name: m for m in reversed(named)}
        both = "both" in narration.words[first:last]
        chosen = list(reversed(different.values())) if both else named[:1]
        return [_Run(m.name.name, m.first, m.last) for m in chosen]
    on = [
        m
        for c in clauses
        for m in narration.marked("load", c.first, c.last)
        if m.value == "source"
        or not any(
            p.first <= m.first and m.last <= p.last and (p.first, p.last) != (m.first, m.last)
            for p in narration.mentions
            if p.name.sort == "part"
        )
    ]
    loads = [m for m in on if m.value == "load"]
    things = heads_of(narration, [t for c in clauses for t in things_in(narration, c.first, c.last)])
    about = narration.words[on[0].last - 1] if on else things[0].name if things else None
    for mark in begun if loads else run:
        clause = next(c for c in clauses if c.first <= mark.first < c.last)
        with_it = any(mark.first <= m.first < clause.last for m in on)
        if with_it or (mark.value == "run" and on and narration.words[mark.first] not in TRIED):
            return [_Run(about, mark.first, mark.last)]
        if _is_of_whole(narration, mark) and not any(
            t.condition and t.last <= mark.first for t in things[:1]
        ):
            return [_Run(about, mark.first, mark.last)]
    for mark in run:
        if any(word in COUNTED for word in narration.words[mark.first : mark.last]) and (firm or not things):
            return [
                _Run(about, mark.first, mark.last, again=not firm and narration.words[mark.last - 1] in TURNS)
            ]
        if own := _programme(narration, mark, last):
            return [_Run(own, mark.first, mark.last)]
    if loads and _is_heading(narration, clauses[0], loads[0]):
        return [_Run(about, loads[0].first, loads[0].last)]
    return []


def _is_of_whole(narration: Narration, mark: Mark) -> bool:
    """Whether it is the appliance that is run ("ran it again"); what is only tried or put may be anything."""
    if mark.value != "run":
        return False
    words = narration.words[mark.first : mark.last + 1]
    return words[0] not in (*TRIED, *COUNTED) and any(word in WHOLE for word in words)


def _is_of_part(narration: Narration, clause: Clause, at: int) -> bool:
    """Whether it is a part that is moved by hand ("gave the drum a spin")."""
    return any(
        m.value in ("run", "begun")
        and narration.words[m.first] in GIVEN
        and any(t.first < at for t in things_in(narration, m.first, at))
        for m in narration.marked("trial", clause.first, at)
    )


def _programme(narration: Narration, mark: Mark, end: int) -> str | None:
    """What was run in the speaker's own words ("ran a full dry on cottons"; not "ran a brush round it")."""
    if narration.words[mark.first] not in RUNS_NAMED or narration.marked("work", mark.first, mark.first + 1):
        return None  # "ran the calibration" is work
    phrase = noun_phrase(narration, mark.first + 1, end)
    if phrase is None or phrase.thing is None or phrase.matter or is_known(narration, phrase):
        return None
    through = phrase.last < end and narration.words[phrase.last] in ALONG
    return None if through and not narration.tokens[phrase.last - 1].stop else phrase.thing.name


def _is_heading(narration: Narration, clause: Clause, load: Mark) -> bool:
    """Whether a breath opens with a load and no more ("her comforter, by itself")."""
    words = narration.words[clause.first : clause.last]
    return (
        load.last <= clause.last
        and words[0] not in narration.grammar.openers
        and not any(
            word in narration.grammar.verbs or word in narration.grammar.being or word in SELF
            for word in words
        )
    )


def _was_not_run(narration: Narration, clauses: list[Clause]) -> bool:
    """Whether the speaker says that it was not run ("self clean I didn't run", "never ran the rinse")."""
    grammar, words = narration.grammar, narration.words
    return any(
        words[n] in grammar.negators
        and (n == clause.first or words[n - 1] in SELF)
        and any(word in RUN_VERBS for word in words[n + 1 : n + 3])
        for clause in clauses
        for n in range(clause.first, clause.last)
    ) or any(m.value == "not tested" for c in clauses for m in narration.marked("outcome", c.first, c.last))


def _endings(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> list[_End]:
    """How it ended, in the order told. A negation turns an ending round; the last one told counts."""
    found: list[_End] = []
    for clause in clauses:
        floor = clause.first
        marks = [
            m for label in ("trial", "ending") for m in narration.marked(label, clause.first, clause.last)
        ]
        for mark in sorted(marks, key=lambda m: m.first):
            outcome = next((value for value in get_args(TrialOutcome) if value == mark.value), None)
            if outcome is None or mark.first in gone or narration.words[mark.first - 1] in SELF:
                continue  # "I failed to reach it"
            denied = _is_denied(narration, floor, mark)
            if mark.rule.label == "ending" and not denied:
                continue  # "trip" alone tells nothing
            told = TURNED.get(outcome, outcome) if denied else outcome
            refused = narration.words[mark.first - 1] == "wouldn't"  # no "would" of a supposition
            found.append(_End(told, mark.first, mark.last, refused or mark.rule.strength == "firm"))
            floor = mark.last
    return found


def _is_denied(narration: Narration, floor: int, mark: Mark) -> bool:
    """Whether a negation stands right before an ending, with no stop between."""
    for n in range(mark.first - 1, max(floor, mark.first - DENIAL) - 1, -1):
        if narration.tokens[n].stop:
            return False
        if narration.words[n] in narration.grammar.negators:
            return True
    return False


def _goes_on(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> bool:
    """Whether a breath goes on telling of the trial of the one before: it runs nothing and names no part first."""
    first = clauses[0]
    return not _runs(narration, clauses, gone) and not heads_of(
        narration, things_in(narration, first.first, first.last)
    )


def _not_seen(narration: Narration, breath: int) -> bool:
    """Whether the speaker says that the end was not seen, or could not be judged."""
    return any(m.value == "unclear" for m in narration.marked("trial", *narration.breaths[breath]))


def _left_unclear(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> bool:
    """Whether the speaker leaves it open how the trial went ("I'm not sure about that one")."""
    return any(
        f.outcome == "unclear"
        for c in clauses
        if not narration.named(c.first, c.last)
        for f in outcomes_in(narration, c, gone, [])
    )


def _judged(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> TrialOutcome | None:
    """How a trial went, where only a plain judgement says so ("low spin on its own, and that was smooth")."""
    found = [
        f.outcome
        for c in clauses
        if not narration.named(c.first, c.last)
        for f in outcomes_in(narration, c, gone, [])
    ]
    ended: dict[str, TrialOutcome] = {"good": "passed", "fault": "failed", "unclear": "unclear"}
    return next((ended[outcome] for outcome in reversed(found) if outcome in ended), None)
