"""Advice to the customer, and what is still to happen after the visit."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from fieldnotes.records import Item
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.sentences import advice_sentence, follow_up_sentence, reported
from fieldnotes.understand.things import things_in

Label = Literal["advice", "follow_up"]
SHORT_CUE = 4  # words: a cue this short speaks of what was said before it
SHORT = 3  # words: a stretch this short is no point of its own


def follow_ups_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Item], frozenset[int]]:
    """What is still to be done, and the clauses that say so."""
    return _items(narration, clauses, "follow_up", follow_up_sentence, claimed, gone)


def advice_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Item], frozenset[int]]:
    """Every point that the customer was told, and the clauses that tell it."""
    return _items(narration, clauses, "advice", advice_sentence, claimed, gone)


def _items(
    narration: Narration,
    clauses: list[Clause],
    label: Label,
    sentence: Callable[[Narration, int, int], str],
    claimed: frozenset[int],
    gone: frozenset[int],
) -> tuple[list[Item], frozenset[int]]:
    items: list[Item] = []
    used: set[int] = set()
    for group in _groups(narration, clauses, label, claimed, gone):
        used |= set(group)
        for point in _points(narration, [clauses[i] for i in group], label):
            first, last = point[0].first, point[-1].last
            items.append(
                Item(
                    about=_about(narration, first, last),
                    text=sentence(narration, first, last),
                    evidence=evidence_of(narration, first, last),
                )
            )
    return items, frozenset(used)


def _groups(
    narration: Narration, clauses: list[Clause], label: Label, claimed: frozenset[int], gone: frozenset[int]
) -> list[list[int]]:
    """Runs of clauses from a cue to the end of its breath, or to where the speaker turns to something else."""
    groups: list[list[int]] = []
    open_breath = -1
    for index, clause in enumerate(clauses):
        if index in claimed:
            continue
        starts = _starts(narration, clauses, clause, label, gone) or (
            label == "advice" and _goes_on(narration, clauses, index, groups)
        )
        if open_breath == clause.breath and (starts or not _ends(narration, clauses, index, label)):
            groups[-1].append(index)
        elif starts:
            groups.append([*_lead_in(narration, clauses, index, claimed), index])
            open_breath = clause.breath
        elif open_breath == clause.breath:
            open_breath = -1
    return groups


def _starts(
    narration: Narration, clauses: list[Clause], clause: Clause, label: Label, gone: frozenset[int]
) -> bool:
    marks = [m for m in narration.marked(label, clause.first, clause.last) if m.first not in gone]
    marks = [m for m in marks if not _refused(narration, clause, m.first)]
    if not marks or clause.stance in ("customer", "history"):
        return False
    if clause.stance == "hypothetical" and (
        label == "advice" or "if" in narration.words[clause.first : clause.last]
    ):
        return False
    if narration.words[clause.first] in ("till", "until", "before", "when", "once"):
        return False  # "... till I'm back" only says how long
    if label == "advice":
        return clause.stance != "question" and not narration.marked("follow_up", clause.first, marks[0].first)
    if (
        any(m.rule.id == "plan-next" for m in narration.marked("plan", clause.first, clause.last))
        and "minute" in (narration.words[clause.first : clause.last])
    ):
        return False  # "back in a minute"
    begin = next(c.first for c in clauses if c.sentence == clause.sentence)
    told_first = [m for m in narration.marked("advice", begin, clause.last) if m.first < marks[0].first]
    return not told_first or any(m.rule.id == "follow-up-office" for m in marks)


def _refused(narration: Narration, clause: Clause, at: int) -> bool:
    before = narration.words[max(clause.first, at - 2) : at]
    return any(word in narration.grammar.negators for word in before)


def _goes_on(narration: Narration, clauses: list[Clause], index: int, groups: list[list[int]]) -> bool:
    """Whether a breath goes on with the advice of the one before it: "And to pick the bedding cycle for those"."""
    clause = clauses[index]
    first, _ = narration.breaths[clause.breath]
    if clause.first != first or not groups or clauses[groups[-1][-1]].breath != clause.breath - 1:
        return False
    head = narration.words[clause.first : clause.first + 3]
    joined = head[0] in ("and", "also", "plus", "then")
    return joined and any(
        word in ("to", "don't", "never", "not", "no", "keep", "always", "leave", "use") for word in head[1:]
    )


def _lead_in(narration: Narration, clauses: list[Clause], index: int, claimed: frozenset[int]) -> list[int]:
    """Earlier clauses of the sentence that belong to the point ("She wants a paper for insurance, office please
    send"): only such as tell of nothing else."""
    lead: list[int] = []
    for before in range(index - 1, -1, -1):
        clause = clauses[before]
        if clause.sentence != clauses[index].sentence or before in claimed:
            break
        said = ("outcome", "work", "safety", "trial", "verdict", "cause", "part")
        if clauses[index].last - clauses[index].first <= SHORT_CUE and clause.stance != "history":
            lead.insert(0, before)  # "the seal wants a wipe now and again, I showed her"
            continue
        if any(narration.marked(label, clause.first, clause.last) for label in said) or (
            "i" in narration.words[clause.first : clause.last]
        ):
            break
        lead.insert(0, before)
    return lead


def _ends(narration: Narration, clauses: list[Clause], index: int, label: Label) -> bool:
    """Whether the speaker is back to facts ("..., so I left it running", "Breaker back on.")."""
    clause = clauses[index]
    words = narration.words[clause.first : clause.last]
    new_sentence = index > 0 and clauses[index - 1].sentence != clause.sentence
    if new_sentence and narration.marked("safety", clause.first, clause.last):
        return True
    return clause.turn and ("i" in words[:3] or (words[0] == "but" and label == "follow_up"))


def _points(narration: Narration, clauses: list[Clause], label: Label) -> list[list[Clause]]:
    """One list of clauses for each point: a new one starts at "and" before a new order ("and don't ...")."""
    points: list[list[Clause]] = [[clauses[0]]]
    for clause in clauses[1:]:
        words = narration.words[clause.first : clause.last]
        said = sum(c.last - c.first for c in points[-1])
        if len(words) <= SHORT or said <= SHORT + 1 or words[0] not in ("and", "then", "plus", "also"):
            points[-1].append(clause)
            continue
        cued = bool(narration.marked(label, clause.first, clause.last)) and words[1] != "see"
        firm = narration.tokens[clause.first - 1].stop in (",", ".", ";") or words[1] in (
            "don't",
            "to",
            "never",
            "not",
        )
        if cued or (words[1] in narration.grammar.orders and firm):
            points.append([clause])
        else:
            points[-1].append(clause)
    return points


def _about(narration: Narration, first: int, last: int) -> str:
    things = things_in(narration, first, last)
    if things:
        return things[0].name
    return reported(narration, first, last, past=False)
