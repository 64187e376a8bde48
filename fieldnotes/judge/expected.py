"""Which checks a complete diagnosis of the complaint covers, and whether they were heard."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fieldnotes.judge.kinds import Packs, kinds_said
from fieldnotes.judge.words import says
from fieldnotes.records import Item, Visit
from fieldnotes.vocabulary.limits import GapsFile
from fieldnotes.vocabulary.packs import ExpectedCheck


@dataclass(frozen=True)
class Expected:
    """One expected check. `not_done`: the checks, by name, that were said not to be made."""

    name: str
    why: str
    state: Literal["heard", "not heard", "said not done"]
    not_done: tuple[str, ...] = ()


def checks_expected(visit: Visit, gaps: GapsFile, packs: Packs) -> tuple[Expected, ...]:
    """Expected checks of the kind and its wider kinds, for the complaints that were heard; each once.

    Without a complaint only those that hold for any complaint.
    """
    found: dict[tuple[str, ...], Expected] = {}
    for kind in kinds_said(visit.appliance, packs):
        pack = packs.get(kind)
        for expectation in pack.expects if pack else ():
            if expectation.complaint and not _complained(visit, expectation.complaint):
                continue
            for check in expectation.look_for:
                found.setdefault(check.about, _state(check, visit, gaps))
    return tuple(found.values())


def _complained(visit: Visit, names: tuple[str, ...]) -> bool:
    return any(says(complaint.about, [name]) for complaint in visit.complaints for name in names)


def _state(check: ExpectedCheck, visit: Visit, gaps: GapsFile) -> Expected:
    done: list[Item] = [c for c in visit.checks if c.outcome != "not tested"]
    done += [*visit.readings, *visit.trials, *visit.work, *visit.parts]
    left_out = tuple(
        c.about for c in visit.checks if c.outcome == "not tested" and says(c.about, check.about)
    )
    codes_read = bool(visit.codes) and any(says(name, gaps.codes_are) for name in check.about)
    if codes_read or any(says(item.about, check.about) for item in done):
        return Expected(check.about[0], check.why, "heard")
    return Expected(check.about[0], check.why, "said not done" if left_out else "not heard", left_out)
