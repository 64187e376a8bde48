"""The verdict: what was concluded."""

from __future__ import annotations

from typing import get_args

from fieldnotes.records import Cause, Check, Evidence, Finding, Verdict, Work
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import verdict_sentence
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration

MENDING = ("replaced", "repaired", "reconnected")


def verdict_in(
    narration: Narration, clauses: list[Clause], gone: frozenset[int]
) -> tuple[Verdict, frozenset[int]]:
    """The verdict said last, and the clauses that say one."""
    said: list[tuple[int, Mark]] = []
    for index, clause in enumerate(clauses):
        if not _is_said(narration, clauses, clause):
            continue
        said += [
            (index, m)
            for m in narration.marked("verdict", clause.first, clause.last)
            if m.value != "heading"
            and m.last - 1 not in gone
            and not _of_a_part(narration, m)
            and (m.rule.form != "bare" or _headed(narration, clause))
        ]
    if not said:
        return Verdict(stated=False), frozenset()
    headed = [(i, m) for i, m in said if _headed(narration, clauses[i])]
    index, mark = (headed or said)[-1]
    finding: Finding = next(value for value in get_args(Finding) if value == mark.value)
    clause = clauses[index]
    verdict = Verdict(
        finding=finding,
        text=verdict_sentence(finding),
        evidence=evidence_of(narration, clause.first, clause.last),
    )
    sentences = {clauses[i].sentence for i, _ in said}
    begins = {c.sentence: i for i, c in reversed(list(enumerate(clauses))) if _is_heading(narration, c)}
    return verdict, frozenset(
        i
        for i, c in enumerate(clauses)
        if c.sentence in sentences and not c.turn and i >= begins.get(c.sentence, 0)
    ) | {i for i, _ in said}


def _is_heading(narration: Narration, clause: Clause) -> bool:
    """Whether a clause is no more than the word that announces a verdict: what is told before it ("..., left in
    service, verdict, ...") is no part of that."""
    return any(
        m.value == "heading" and (m.first, m.last) == (clause.first, clause.last)
        for m in narration.marked("verdict", clause.first, clause.last)
    )


def _is_said(narration: Narration, clauses: list[Clause], clause: Clause) -> bool:
    """Whether a clause is the technician's own word: no "if", no wish of the customer's."""
    words = narration.words[clause.first : clause.last]
    rather = clause.stance == "hypothetical" and "rather" in words  # "I'd rather put it down as ..."
    wished = any(word in ("wants", "want", "wanted") for word in words) and "i" not in words
    depends = any(
        "if" in narration.words[c.first : c.last] and c.stance == "hypothetical"
        for c in clauses
        if c.sentence == clause.sentence
    )
    return (clause.stance in ("fact", "plan") or rather) and not wished and not depends


def _headed(narration: Narration, clause: Clause) -> bool:
    """Whether its breath says that this is for the report ("for the sheet, ...", "put it down as ...")."""
    return any(m.value == "heading" for m in narration.marked("verdict", *narration.breaths[clause.breath]))


def _of_a_part(narration: Narration, mark: Mark) -> bool:
    """ "Nothing wrong with the motor" is no verdict on the unit, nor is "haven't found a fault yet"."""
    if narration.words[mark.last : mark.last + 1] == ("yet",):
        return True
    if mark.value != "no fault found":
        return False
    return any(
        m.first - mark.last <= 2 and not m.name.condition
        for m in narration.named(mark.last - 1, mark.last + 6)
        if m.name.owner
        and narration.words[m.first - 1] in ("the", "that", "this", "her", "his", "either", "with", "in")
    )


def verdict_from_causes(causes: list[Cause]) -> Verdict:
    """A verdict that was never said: a cause that was named for certain means that a fault was found."""
    sure = [cause.evidence for cause in causes if cause.certainty == "certain"]
    return _unsaid(sure, "the cause that was named")


def verdict_from_repair(checks: list[Check], work: list[Work]) -> Verdict:
    """A verdict that was never said, where a part was found at fault and that very part was then put right."""
    mended = {item.about for item in work if item.action in MENDING}
    found = [check.evidence for check in checks if check.outcome == "fault" and check.about in mended]
    return _unsaid(found, "the part that was found at fault and put right")


def _unsaid(rests_on: list[Evidence], what: str) -> Verdict:
    """Fault found, marked as not stated, so that report and gaps say so; open where it rests on nothing."""
    if not rests_on:
        return Verdict(finding=None, stated=False)
    return Verdict(
        finding="fault found",
        stated=False,
        text=f"Fault found. Not said in so many words; it follows from {what}.",
        evidence=rests_on[-1],
    )
