"""The verdict: what was concluded."""

from __future__ import annotations

from typing import get_args

from fieldnotes.records import Cause, Check, Evidence, Finding, Verdict, Work
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import verdict_sentence
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration

POINTING = frozenset(["it", "her", "him"])
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
        evidence=evidence_of(narration, clause.first, max(clause.last, mark.last)),
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
    named = clause.stance == "general" and _is_its_name(narration, clause)
    return (clause.stance in ("fact", "plan") or rather or named) and not wished and not depends


def _is_its_name(narration: Narration, clause: Clause) -> bool:
    """Whether what makes a clause a general truth is the name of the verdict ("I'd describe it as now and then")."""
    said = narration.marked("verdict", clause.first, clause.last)
    cues = narration.marked("general", clause.first, clause.last)
    return bool(cues) and all(any(m.first <= c.first and c.last <= m.last for m in said) for c in cues)


def _headed(narration: Narration, clause: Clause) -> bool:
    """Whether its breath says that this is for the report ("for the sheet, ...", "put it down as ...")."""
    return any(m.value == "heading" for m in narration.marked("verdict", *narration.breaths[clause.breath]))


def _of_a_part(narration: Narration, mark: Mark) -> bool:
    """ "Nothing wrong with the motor" is no verdict on the unit, nor is "haven't found a fault yet"."""
    if narration.words[mark.last : mark.last + 1] == ("yet",):
        return True
    if mark.value != "no fault found":
        return False
    if narration.kind == "refrigerator" and narration.words[mark.first] == "freezer":
        return True  # its other compartment
    if not POINTING.isdisjoint(narration.words[mark.first : mark.last]) and _names_a_part(
        narration, mark.first
    ):
        return True
    return any(
        m.first - mark.last <= 2 and not m.name.condition
        for m in narration.named(mark.last - 1, mark.last + 6)
        if m.name.owner
        and narration.words[m.first - 1] in ("the", "that", "this", "her", "his", "either", "with", "in")
    )


def _names_a_part(narration: Narration, at: int) -> bool:
    """Whether "it" may be a part, named in this breath or the one before: "the pump, nothing wrong with it at all"."""
    breath = narration.breath_of(at)
    begin, _ = narration.breaths[max(0, breath - 1)]
    return any(
        m.name.sort == "part" and m.name.owner and not m.name.condition for m in narration.named(begin, at)
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
