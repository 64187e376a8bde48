"""Advice to the customer, and what is still to happen after the visit."""

from __future__ import annotations

from fieldnotes.records import Item
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.sentences import advice_sentence, follow_up_sentence
from fieldnotes.understand.things import things_in

SHORT = 3  # words: a stretch this short is no point of its own


def advice_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Item], frozenset[int]]:
    """Every point that the customer was told, and the clauses that tell it."""
    items: list[Item] = []
    used: set[int] = set()
    for group in _groups(narration, clauses, "advice", claimed, gone):
        used |= set(group)
        for point in _points(narration, [clauses[i] for i in group]):
            first, last = point[0].first, point[-1].last
            items.append(
                Item(
                    about=_about(narration, first, last),
                    text=advice_sentence(narration, first, last),
                    evidence=evidence_of(narration, first, last),
                )
            )
    return items, frozenset(used)


def follow_ups_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Item], frozenset[int]]:
    """What is still to be done, and the clauses that say so."""
    items: list[Item] = []
    used: set[int] = set()
    for group in _groups(narration, clauses, "follow_up", claimed, gone):
        used |= set(group)
        for point in _points(narration, [clauses[i] for i in group]):
            first, last = point[0].first, point[-1].last
            items.append(
                Item(
                    about=_about(narration, first, last),
                    text=follow_up_sentence(narration, first, last),
                    evidence=evidence_of(narration, first, last),
                )
            )
    return items, frozenset(used)


def _groups(
    narration: Narration, clauses: list[Clause], label: str, claimed: frozenset[int], gone: frozenset[int]
) -> list[list[int]]:
    """Runs of clauses from a cue to the end of its breath, or to where the speaker turns to something else."""
    groups: list[list[int]] = []
    open_breath = -1
    for index, clause in enumerate(clauses):
        cue = [m for m in narration.marked(label, clause.first, clause.last) if m.first not in gone]
        starts = bool(cue) and index not in claimed and clause.stance not in ("customer", "history", "question")
        if label == "follow_up" and clause.stance == "question":
            starts = bool(cue) and index not in claimed
        if starts and open_breath != clause.breath:
            groups.append([index])
            open_breath = clause.breath
        elif open_breath == clause.breath and index not in claimed and (starts or not _ends(narration, clause)):
            groups[-1].append(index)
        elif open_breath == clause.breath:
            open_breath = -1
    return groups


def _ends(narration: Narration, clause: Clause) -> bool:
    """Whether the speaker is back to facts ("..., so I left it running")."""
    words = narration.words[clause.first : clause.last]
    return clause.turn and bool(words) and ("i" in words[:3] or words[0] == "but")


def _points(narration: Narration, clauses: list[Clause]) -> list[list[Clause]]:
    """One list of clauses for each point: a new one starts at "and" before a new order ("and don't ...")."""
    points: list[list[Clause]] = [[clauses[0]]]
    for clause in clauses[1:]:
        words = narration.words[clause.first : clause.last]
        new_order = len(words) > SHORT and words[0] in ("and", "then", "plus", "also") and (
            words[1] in narration.grammar.orders
            or bool(narration.marked("advice", clause.first, clause.last))
            or bool(narration.marked("follow_up", clause.first, clause.last))
        )
        firm = narration.tokens[clause.first - 1].stop in (",", ".", ";") or words[1:2] in (["don't"], ["to"], ["never"], ["not"])
        said = sum(c.last - c.first for c in points[-1])
        if new_order and (firm or bool(narration.marked("follow_up", clause.first, clause.last))) and said > SHORT + 1:
            points.append([clause])
        else:
            points[-1].append(clause)
    return points


def _about(narration: Narration, first: int, last: int) -> str:
    things = things_in(narration, first, last)
    if things:
        return things[0].name
    return " ".join(w for w in narration.words[first:last])[:60].strip()
