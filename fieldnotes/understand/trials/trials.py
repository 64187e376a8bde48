"""Trials: cycles and tests that were really run, and how they ended.

A run and its end are often told breaths apart ("Back together, short wash on. | ... | Went right through."). A run
without an end stays open for a few breaths, until the next one begins.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from fieldnotes.records import Trial, TrialOutcome
from fieldnotes.understand.checks.outcomes import outcomes_in
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import trial_sentence
from fieldnotes.understand.trials.programmes import Run
from fieldnotes.understand.trials.trial_ends import SELF, End, endings_in
from fieldnotes.understand.trials.trial_runs import TRIED, TURNS, runs_in, was_not_run
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import heads_of, things_in

TEST_RUN = "test run"  # a trial that was not named
SHORTLY = 6  # breaths within which "the same again" means the trial told last
UNTIL = ("till", "until")
SMALL = ("and", "but", "then", "so", "now", "the", "a", "well", "okay", "right")
AT_HEAD = 4  # words
OPEN = 3  # breaths for which a run waits for its end


@dataclass(frozen=True, slots=True)
class Begun:
    """A run whose end was not told with it."""

    runs: list[Run]
    breath: int
    first: int
    ends: tuple[End, ...] = ()  # what it did on the way
    last: int = 0


class _Walk:
    """Goes through the breaths in order and keeps the trials found so far."""

    def __init__(
        self, narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
    ):
        self._narration = narration
        self._clauses = clauses
        self._gone = gone
        self._begun: Begun | None = None
        self._told: tuple[Begun, int] | None = None  # the trial added last, and the breath in which it ended
        self.trials: list[Trial] = []
        self.used: set[int] = set()
        self.running: dict[int, int] = {}
        self._facts: dict[int, list[int]] = {}
        self._verdicts: dict[int, list[Clause]] = {}  # may only tell in so many words how it ended
        for index, clause in enumerate(clauses):
            if clause.stance == "fact" and index not in claimed:
                self._facts.setdefault(clause.breath, []).append(index)
            elif clause.stance in ("plan", "general", "hypothetical"):
                self._verdicts.setdefault(clause.breath, []).append(clause)

    def hear(self, breath: int) -> None:
        """Takes up what one breath tells."""
        own = [self._clauses[i] for i in self._facts.get(breath, [])]
        for told in self._runs_apart(breath, own):
            self._hear_part(breath, told)

    def _runs_apart(self, breath: int, own: list[Clause]) -> list[list[Clause]]:
        """The clauses of one breath, apart where behind the end of a run another is set against it ("her duvet alone,
        tripped out, same duvet with a towel, spun right through")."""
        for n, clause in enumerate(own):
            if n == 0 or not _sets_against(self._narration, clause):
                continue
            before, after = own[:n], own[n:]
            runs = runs_in(self._narration, after, self._gone)
            anew = runs and 0 <= runs[0].first - clause.first <= AT_HEAD
            if anew and runs_in(self._narration, before, self._gone) and self._ends(breath, before):
                return [before, *self._runs_apart(breath, after)]
        return [own]

    def _hear_part(self, breath: int, own: list[Clause]) -> None:
        """Takes up clauses that tell of one run at most."""
        runs = runs_in(self._narration, own, self._gone) if own else []
        if (
            runs
            and runs[0].again
            and self._narration.words[runs[0].first] in TRIED
            and not self._before(breath)
        ):
            runs = []  # "tried it again": may be any part
        timed = runs and runs[0].first == own[0].first
        if timed and self._begun and any(q.first == runs[0].first for q in self._narration.quantities):
            runs = []  # "thirty minutes flat out": of the run that goes on
        if runs and not was_not_run(self._narration, own):
            self._hear_run(breath, runs, own)
        elif not self._begun:
            self._hear_verdict(breath, own)
        elif self._begun:
            if breath - self._begun.breath <= OPEN:
                self._hear_on(breath, self._begun, own)
            else:
                self.close()

    def _hear_verdict(self, breath: int, own: list[Clause]) -> None:
        """The breath after a trial may still judge it in so many words ("..., so I'm failing that"), or take the
        judgement back ("And I wouldn't want to call that either way")."""
        if not self._told or breath != self._told[1] + 1 or (own and _names_part(self._narration, own[0])):
            return
        ends = [e for e in self._ends(breath, own) if e.firm]
        outcome: TrialOutcome | None = ends[-1].outcome if ends else None
        if not ends and self._takes_judgement_back(breath):
            outcome = "unclear"
        if outcome:
            begun, _ = self._told
            del self.trials[-len(begun.runs) :]
            last = self._narration.breaths[breath][1] if not ends else ends[-1].last
            self._add(begun, outcome, max([last, *(c.last for c in own[-1:])]), ends)

    def _takes_judgement_back(self, breath: int) -> bool:
        """Whether a breath names nothing, asks nothing, and leaves open how the trial went that seemed to pass."""
        asked = any(c.breath == breath and c.stance == "question" for c in self._clauses)
        named = self._narration.named(*self._narration.breaths[breath])
        passed = self.trials[-1].outcome == "passed"
        return passed and not asked and not named and _not_seen(self._narration, breath)

    def close(self) -> None:
        """Takes a run for ended of which no more is told."""
        begun, self._begun = self._begun, None
        if begun and begun.ends:
            self._add(begun, begun.ends[-1].outcome, begun.last, list(begun.ends))

    def _hear_run(self, breath: int, runs: list[Run], own: list[Clause]) -> None:
        narration, gone = self._narration, self._gone
        self.close()
        ends = self._ends(breath, own)
        begin = runs[0].first if runs[0].told == "subject" else runs[0].last
        judged = (
            []
            if runs[0].again and (runs[0].told != "heading" or _speaks_of_self(narration, own))
            else [c for c in own if c.first >= begin or (runs[0].told == "subject" and c.last > begin)]
        )
        outcome = ends[-1].outcome if ends else _judged(narration, judged, gone)
        if _not_seen(narration, breath, ends) or (outcome and _left_unclear(narration, own, gone)):
            outcome = "unclear"
        begun = Begun(runs, breath, own[0].first)
        if not outcome:
            self._begun = begun
        elif outcome == "passed" and ends and all(e.step for e in ends):
            self._begun = replace(begun, ends=tuple(ends), last=own[-1].last)
            self.running[breath] = min(run.first for run in runs)
        else:
            self._add(begun, outcome, own[-1].last, ends)

    def _hear_on(self, breath: int, begun: Begun, own: list[Clause]) -> None:
        """A breath after the one in which a run began: it may tell how it ended."""
        narration, gone = self._narration, self._gone
        at_once = breath == begun.breath + 1
        told = self._ends(breath, own)
        aside = not own or _names_part(narration, own[0])
        ends = [e for e in told if e.firm or not (aside or (e.denied and not at_once))]
        outcome: TrialOutcome | None = ends[-1].outcome if ends else None
        if outcome and (_not_seen(narration, breath, ends) or _left_unclear(narration, own, gone)):
            outcome = "unclear"
        last = own[-1].last if own else ends[-1].last if ends else 0
        if not outcome:
            return
        self.running.setdefault(breath, narration.breaths[breath][0])
        if outcome == "passed" and all(e.step for e in ends):
            self._begun = replace(begun, ends=(*begun.ends, *ends), last=last)
        else:
            self._add(begun, outcome, last, [*begun.ends, *ends])
            self._begun = None

    def _ends(self, breath: int, own: list[Clause]) -> list[End]:
        """How a run ended, in the order told: as a fact, in so many words ("I'd call that a pass"), or as the time
        to which it ran ("till it cut out")."""
        narration = self._narration
        others = [c for c in self._verdicts.get(breath, []) if "if" not in narration.words[c.first : c.last]]
        until = [c for c in others if narration.words[c.first] in UNTIL]
        told = endings_in(narration, [*until, *own], self._gone, self._before(breath))
        return [*told, *(e for e in endings_in(narration, others, self._gone, None) if e.firm)]

    def _before(self, breath: int) -> TrialOutcome | None:
        """How the trial before ended, where it was told shortly before."""
        near = self.trials and breath - max(self.running, default=-SHORTLY - 1) <= SHORTLY
        return self.trials[-1].outcome if near else None

    def _add(self, begun: Begun, outcome: TrialOutcome, last: int, ends: list[End]) -> None:
        first, last = begun.first, max(last, *(e.last for e in ends[-1:]), 0)
        for run in begun.runs:
            before = self.trials[-1].about if self.trials else None
            said = self._narration.words[run.first : run.last + 1]
            again = run.again or "again" in said or ("another" in said and not set(said).isdisjoint(TURNS))
            again = again or not self._narration.trade.turns.isdisjoint(said)
            about = (before if run.again else None) or run.about or (before if again else None) or TEST_RUN
            self.trials.append(
                Trial(
                    about=about,
                    text=trial_sentence(self._narration, about, outcome, first, last),
                    evidence=evidence_of(self._narration, first, last),
                    outcome=outcome,
                )
            )
        self._told = (begun, self._narration.breath_of(last - 1))
        self.running[begun.breath] = min(run.first for run in begun.runs)
        self.used |= {
            i
            for i, clause in enumerate(self._clauses)
            for end in ends
            if clause.first <= end.first < clause.last
            and not any(m.name.condition for m in self._narration.named(clause.first, clause.last))
        }


def trials_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Trial], frozenset[int], dict[int, int]]:
    """All trials in order; the clauses whose outcome words belong to them; and for each breath that tells of one,
    the word from which on "it" means the trial."""
    walk = _Walk(narration, clauses, claimed, gone)
    for breath in range(len(narration.breaths)):
        walk.hear(breath)
    walk.close()
    return walk.trials, frozenset(walk.used), walk.running


def _speaks_of_self(narration: Narration, clauses: list[Clause]) -> bool:
    """Whether the speaker tells of what he did or thought ("sixth time I'm thinking, great")."""
    return any(word in SELF for c in clauses for word in narration.words[c.first : c.last])


def _sets_against(narration: Narration, clause: Clause) -> bool:
    """Whether a clause opens with what is run to compare ("same duvet with a towel", "and another empty")."""
    opening = (word for word in narration.words[clause.first : clause.first + AT_HEAD] if word not in SMALL)
    return next(opening, "") in narration.grammar.set_against


def _names_part(narration: Narration, clause: Clause) -> bool:
    """Whether a clause speaks of a part of its own, and so no longer of the run."""
    return any(
        not t.condition
        for t in heads_of(narration, things_in(narration, clause.first, clause.last))
        if not t.place
    )


def _not_seen(narration: Narration, breath: int, ends: list[End] | None = None) -> bool:
    """Whether the speaker says that the end was not seen, or could not be judged; not where it was broken off for
    a fault ("stopped it partway, it was walking over the floor")."""
    told = [m for m in narration.marked("trial", *narration.breaths[breath]) if m.value == "unclear"]
    fault = ends is not None and any(e.outcome == "failed" for e in ends[-1:])
    return any(m.rule.strength != "word" or not fault for m in told)


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
