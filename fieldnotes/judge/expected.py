"""Which checks a complete diagnosis of the complaint covers, and whether they were heard."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fieldnotes.judge.kinds import Packs, kinds_said
from fieldnotes.judge.words import says
from fieldnotes.records import Item, Visit
from fieldnotes.vocabulary.limits import GapsFile
from fieldnotes.vocabulary.packs import ExpectedCheck

State = Literal["heard", "not heard", "said not done"]


@dataclass(frozen=True)
class Expected:
    """One expected check, or cycle or service test (`is_trial`).

    `not_done`: the checks, by name, that were said not to be made."""

    name: str
    why: str
    state: State
    not_done: tuple[str, ...] = ()
    is_trial: bool = False


def checks_expected(visit: Visit, gaps: GapsFile, packs: Packs) -> tuple[Expected, ...]:
    """Expected checks of the kind and its wider kinds, for the complaints that were heard; each once.

    Without a complaint only those that hold for any complaint.
    """
    found: dict[tuple[str, ...], Expected] = {}
    kinds = kinds_said(visit.appliance, packs)
    trials = {trial.name for kind in kinds if kind in packs for trial in packs[kind].trials}
    for kind in kinds:
        pack = packs.get(kind)
        for expectation in pack.expects if pack else ():
            if expectation.complaint and not _complained(visit, expectation.complaint):
                continue
            for check in expectation.look_for:
                found.setdefault(check.about, _state(check, visit, gaps, trials))
    return tuple(found.values())


def _complained(visit: Visit, names: tuple[str, ...]) -> bool:
    return any(says(complaint.about, [name]) for complaint in visit.complaints for name in names)


def _state(check: ExpectedCheck, visit: Visit, gaps: GapsFile, trials: set[str]) -> Expected:
    is_trial = check.about[0] in trials
    done: list[Item] = [c for c in visit.checks if c.outcome != "not tested"]
    done += [*visit.readings, *visit.trials, *visit.work, *visit.parts]
    left_out = tuple(
        c.about for c in visit.checks if c.outcome == "not tested" and says(c.about, check.about)
    )
    codes_read = bool(visit.codes) and any(says(name, gaps.codes_are) for name in check.about)
    whole = is_trial and any(says(trial.about, gaps.whole_cycles) for trial in visit.trials)
    if codes_read or whole or any(says(item.about, check.about) for item in done):
        return Expected(check.about[0], check.why, "heard", (), is_trial)
    state: State = "said not done" if left_out else "not heard"
    return Expected(check.about[0], check.why, state, left_out, is_trial)
