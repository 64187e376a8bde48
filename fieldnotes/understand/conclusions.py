"""Causes and the verdict: what the technician holds to be so."""

from __future__ import annotations

from typing import get_args

from fieldnotes.records import Cause, Certainty, Finding, Verdict
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.sentences import cause_sentence, verdict_sentence
from fieldnotes.understand.things import own_words, things_in

CLOSING = 0.45  # share of the visit after which a bare "could be" speaks of the cause


def verdict_in(
    narration: Narration, clauses: list[Clause], gone: frozenset[int]
) -> tuple[Verdict, frozenset[int]]:
    """The verdict said last, and the clauses that say one."""
    said: list[tuple[int, Mark]] = []
    for index, clause in enumerate(clauses):
        if clause.stance not in ("fact", "plan", "general"):
            continue
        said += [
            (index, m) for m in narration.marked("verdict", clause.first, clause.last)
            if m.value != "heading" and m.first not in gone
        ]
    if not said:
        return Verdict(), frozenset()
    headed = [
        (i, m) for i, m in said
        if any(h.value == "heading" for h in narration.marked("verdict", *narration.breaths[clauses[i].breath]))
    ]
    index, mark = (headed or said)[-1]
    finding: Finding = next(value for value in get_args(Finding) if value == mark.value)
    clause = clauses[index]
    verdict = Verdict(
        finding=finding,
        text=verdict_sentence(finding),
        evidence=evidence_of(narration, clause.first, clause.last),
    )
    return verdict, frozenset(i for i, _ in said)


def causes_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Cause], frozenset[int]]:
    """All causes in order, and the clauses of the sentences that name them."""
    causes: list[Cause] = []
    used: set[int] = set()
    closing = int(len(narration.breaths) * CLOSING)
    done: set[int] = set()
    for index, clause in enumerate(clauses):
        if index in claimed or clause.sentence in done or clause.stance in ("history", "question", "customer", "off record"):
            continue
        sentence = [c for c in clauses if c.sentence == clause.sentence]
        first, last = sentence[0].first, sentence[-1].last
        certainty = _certainty(narration, clause, first, last, clause.breath >= closing, gone)
        if certainty is None:
            continue
        done.add(clause.sentence)
        used |= {i for i, c in enumerate(clauses) if c.sentence == clause.sentence}
        causes += [
            Cause(
                about=about,
                text=cause_sentence(narration, certainty, first, last),
                evidence=evidence_of(narration, first, last),
                certainty=certainty,
            )
            for about in _abouts(narration, clause, first, last)
        ]
    return causes, frozenset(used)


def _certainty(
    narration: Narration, clause: Clause, first: int, last: int, closing: bool, gone: frozenset[int]
) -> Certainty | None:
    """How sure a cause is, or None where the clause names none."""
    marks = [m for m in narration.marked("cause", clause.first, clause.last) if m.first not in gone]
    values = {m.value for m in marks}
    if not marks or (clause.stance in ("hypothetical", "general", "plan") and "certain" not in values and not closing):
        return None
    everywhere = {m.value for m in narration.marked("cause", first, last)}
    hedged = bool(narration.marked("hedge", first, last))
    if "certain" in values:
        if clause.stance in ("hypothetical", "general"):
            return None
        if "possible" in everywhere:
            return "possible"
        return "likely" if "likely" in everywhere or hedged else "certain"
    if not closing:
        return None
    return "likely" if "likely" in values else "possible"


def _abouts(narration: Narration, clause: Clause, first: int, last: int) -> list[str]:
    things = things_in(narration, first, last)
    if things:
        return [things[0].name]
    said = own_words(narration, clause.first, clause.last)
    return [said.name if said else " ".join(narration.words[first:last])]
