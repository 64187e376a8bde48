"""Safety: steps taken, hazards found, tests for leaks, and the state in which the unit was left."""

from __future__ import annotations

from fieldnotes.records import Item
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.sentences import safety_sentence, said

STATE = ("isolated", "restored", "left")  # one item a breath for all of these together
CLOSING = 0.8  # share of the visit after which a supply that is on tells how the unit was left


def safety_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> list[Item]:
    """All safety items in order: one a breath for the state of the supplies, one for each hazard or test."""
    items: list[Item] = []
    groups: dict[tuple[int, str], list[tuple[Clause, Mark]]] = {}
    closing = int(len(narration.breaths) * CLOSING)
    left = {narration.breath_of(m.first) for m in narration.marks.get("safety", ()) if m.value == "left"}
    for index, clause in enumerate(clauses):
        if clause.stance != "fact":
            continue
        for mark in narration.marked("safety", clause.first, clause.last):
            if (
                mark.first in gone
                or (index in claimed and mark.value not in ("hazard", "test"))
                or _denied(narration, clause, mark)
            ):
                continue
            if mark.value == "restored" and clause.breath < closing and clause.breath not in left:
                continue
            sort = "state" if mark.value in STATE else mark.rule.name or mark.value
            groups.setdefault((clause.breath, sort), []).append((clause, mark))
    for group in groups.values():
        first, last = group[0][0].first, group[-1][0].last
        names = [m.rule.name or said(narration, m.first, m.last) for _, m in group]
        about = "; ".join(dict.fromkeys(names))
        items.append(
            Item(
                about=about,
                text=safety_sentence(narration, first, last),
                evidence=evidence_of(narration, first, last),
            )
        )
    return items


def _denied(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether it is denied, or somebody else did it ("she's turned it off at the front")."""
    before = narration.words[max(clause.first, mark.first - 2) : mark.first]
    subject = narration.words[clause.first : mark.first]
    others = (
        any(word in narration.grammar.others for word in subject)
        and "i" not in subject
        and mark.value == "isolated"
    )
    return mark.value in STATE and (others or any(word in narration.grammar.negators for word in before))
