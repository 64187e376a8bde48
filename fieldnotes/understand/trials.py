"""Trials: cycles and tests that were really run, and how they ended."""

from __future__ import annotations

from typing import get_args

from fieldnotes.records import Trial, TrialOutcome
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.nouns import Mention
from fieldnotes.understand.outcomes import outcomes_in
from fieldnotes.understand.sentences import trial_sentence
from fieldnotes.understand.things import heads_of, things_in

TEST_RUN = "test run"  # a trial that was not named


def trials_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Trial], frozenset[int], dict[int, int]]:
    """All trials in order; the clauses whose outcome words belong to them; and for each breath that tells of one,
    the word from which on "it" means the trial."""
    trials: list[Trial] = []
    used: set[int] = set()
    running: dict[int, int] = {}
    by_breath: dict[int, list[int]] = {}
    for index, clause in enumerate(clauses):
        if clause.stance == "fact" and index not in claimed:
            by_breath.setdefault(clause.breath, []).append(index)
    for breath, indices in by_breath.items():
        own = [clauses[i] for i in indices]
        run, outcomes, named = _in(narration, own, gone)
        if not named and not run:
            continue
        following = [clauses[i] for i in by_breath.get(breath + 1, [])] if named and not outcomes else []
        if following:
            more_run, more, more_named = _in(narration, following, gone)
            outcomes = [] if more_named or more_run else more
        judged = _judged(narration, own, gone) if not outcomes and (named or len(run) > 1) else []
        if any(m.value == "not tested" for c in own for m in narration.marked("outcome", c.first, c.last)):
            continue  # "self clean I didn't run"
        if not (outcomes or judged) or not (named or run):
            continue
        outcome = _outcome(outcomes) if outcomes else judged[-1]
        if _left_unclear(narration, own, gone):
            outcome = "unclear"
        first, last = own[0].first, max(own[-1].last, *(m.last for m in outcomes[-1:]), 0)
        about = named[0].name.name if named else _about(narration, own)
        about = about or (trials[-1].about if trials else TEST_RUN)  # "third try it spun"
        trials.append(
            Trial(
                about=about,
                text=trial_sentence(narration, about, outcome, first, last),
                evidence=evidence_of(narration, first, last),
                outcome=outcome,
            )
        )
        running[breath] = min([m.first for m in run] + [m.first for m in named])
        used |= {
            i
            for i in (*indices, *by_breath.get(breath + 1, []))
            for mark in outcomes
            if clauses[i].first <= mark.first < clauses[i].last
            and not any(m.name.condition for m in narration.named(clauses[i].first, clauses[i].last))
        }
    return trials, frozenset(used), running


def _in(
    narration: Narration, clauses: list[Clause], gone: frozenset[int]
) -> tuple[list[Mark], list[Mark], list[Mention]]:
    """Marks of running, marks of how it ended, and named trials. What the technician could not do is no ending."""
    marks = [m for c in clauses for m in narration.marked("trial", c.first, c.last) if m.first not in gone]
    named = [m for c in clauses for m in narration.named(c.first, c.last, "trial") if m.first not in gone]
    ended = [
        m
        for m in marks
        if m.value not in ("run", "begun")
        and not (m.value == "failed" and narration.words[m.first - 1] == "i")
    ]
    run = [
        m
        for m in marks
        if m.value == "run" and narration.words[m.first - 1 : m.first] not in (("it",), ("her",))
    ]
    return run, ended, named


def _left_unclear(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> bool:
    """Whether the speaker leaves it open how the trial went ("and I wouldn't call that either way")."""
    return any(
        f.outcome == "unclear"
        for c in clauses
        if not narration.named(c.first, c.last)
        for f in outcomes_in(narration, c, gone, [])
    )


def _judged(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> list[TrialOutcome]:
    """How a named trial went, where only a plain judgement says so ("low spin on its own, and that was smooth")."""
    found = [
        f
        for c in clauses
        if not narration.named(c.first, c.last)
        for f in outcomes_in(narration, c, gone, [])
    ]
    ended: dict[str, TrialOutcome] = {"good": "passed", "fault": "failed", "unclear": "unclear"}
    return [ended[f.outcome] for f in found if f.outcome in ended]


def _outcome(marks: list[Mark]) -> TrialOutcome:
    """The last word counts; a doubt outweighs it."""
    values = [m.value for m in marks]
    chosen = "unclear" if "unclear" in values else values[-1]
    return next(value for value in get_args(TrialOutcome) if value == chosen)


def _about(narration: Narration, clauses: list[Clause]) -> str | None:
    things = heads_of(narration, [t for c in clauses for t in things_in(narration, c.first, c.last)])
    return things[0].name if things else None
