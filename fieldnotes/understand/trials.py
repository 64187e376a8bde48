"""Trials: cycles and tests that were really run, and how they ended."""

from __future__ import annotations

from fieldnotes.records import Trial, TrialOutcome
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.outcomes import outcomes_in
from fieldnotes.understand.sentences import trial_sentence
from fieldnotes.understand.things import heads_of, things_in
from fieldnotes.understand.trial_ends import endings_in
from fieldnotes.understand.trial_runs import runs_in, was_not_run

TEST_RUN = "test run"  # a trial that was not named
SHORTLY = 6  # breaths


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
        runs = runs_in(narration, own, gone)
        if not runs or was_not_run(narration, own):
            continue
        if runs[0].again and breath - max(running, default=-SHORTLY - 1) > SHORTLY:
            continue
        ends = endings_in(narration, own, gone)
        ends += [e for e in endings_in(narration, verdicts.get(breath, []), gone) if e.firm]
        following = [clauses[i] for i in by_breath.get(breath + 1, [])]
        if not ends and following and _goes_on(narration, following, gone):
            ends = endings_in(narration, following, gone)
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


def _goes_on(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> bool:
    """Whether a breath goes on telling of the trial of the one before: it runs nothing and names no part first."""
    first = clauses[0]
    return not runs_in(narration, clauses, gone) and not heads_of(
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
