"""How many points a stretch of advice or of open tasks makes: each becomes an item of its own."""

from __future__ import annotations

from typing import Literal

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import things_in

Label = Literal["advice", "follow_up"]
SHORT = 3  # words: a stretch this short is no point of its own
CONDITIONS = ("if", "when", "once", "should")


def points(narration: Narration, clauses: list[Clause], label: Label) -> list[list[Clause]]:
    """One list of clauses for each point: a new one starts at "and" before a new order ("and don't ...")."""
    points: list[list[Clause]] = [[clauses[0]]]
    for clause in clauses[1:]:
        another = _another_order if label == "advice" else _another_task
        if another(narration, points[-1], clause) or (
            label == "follow_up" and _tasks_in_next_sentence(narration, points[-1], clause, clauses)
        ):
            points.append([clause])
        else:
            points[-1].append(clause)
    return points


def _another_order(narration: Narration, point: list[Clause], clause: Clause) -> bool:
    """Whether a clause opens another point of advice, rather than more of the same ("and wash it with soap")."""
    words = narration.words[clause.first : clause.last]
    said = narration.words[point[0].first : point[-1].last]
    stopped = narration.tokens[clause.first - 1].stop
    if clause.sentence != point[-1].sentence and stopped and len(said) > SHORT + 1:
        named = bool(things_in(narration, clause.first, clause.last))
        return words[0] in narration.grammar.orders or words[0] in ("no", "never", "not") or named
    if len(words) <= SHORT or len(said) <= SHORT + 1 or words[0] not in ("and", "then", "plus", "also"):
        return False
    if narration.marked("advice", clause.first, clause.last):
        if not any(narration.marked("advice", c.first, c.last) for c in point):
            return False  # what was said before only led up to it
        return bool(things_in(narration, clause.first, clause.last)) or "that" not in words
    if words[1] in ("she", "he", "they"):
        return words[2] in ("should", "must", "ought", "mustn't", "shouldn't", "needs", "need")
    if words[1] in ("next", *CONDITIONS) and any(w in ("don't", "never", "just") for w in words[2:]):
        return True  # "and next time it dies don't touch it"
    if words[1] in ("get", "have") and words[2] in narration.grammar.others:
        return "to" in said  # "and get somebody to turn the heater up": another doer
    if {"it", "them"} & set(words[2:4]) and words[1] not in ("don't", "never", "not", *CONDITIONS):
        return False  # "and wash it with soap"
    if words[-1] in ("either", "too") or (words[1] == "to" and "to" not in said):
        return False
    if words[1].endswith("ing"):
        return any(word.endswith("ing") for word in said)
    conditional = any(word in CONDITIONS for word in said[3:5])  # "told him if it stops, leave it, and ..."
    firm = narration.tokens[clause.first - 1].stop in (",", ".", ";") and words[1] != "that"
    return not conditional and (
        words[1] in ("don't", "to", "never", "not") or (words[1] in narration.grammar.orders and firm)
    )


def _another_task(narration: Narration, point: list[Clause], clause: Clause) -> bool:
    """Whether a clause opens another task: "and" with a cue of its own and another doer than the customer or "I"."""
    words = narration.words[clause.first : clause.last]
    said = sum(c.last - c.first for c in point)
    return (
        len(words) > SHORT < said
        and words[0] in ("and", "then", "plus", "also")
        and words[1] not in ("see", "she", "he", "they", "we", "i", "it")
        and bool(narration.marked("follow_up", clause.first, clause.last))
        and any(narration.marked("follow_up", c.first, c.last) for c in point)
    )


def _tasks_in_next_sentence(
    narration: Narration, point: list[Clause], clause: Clause, clauses: list[Clause]
) -> bool:
    """Whether the next sentence tells a task of its own ("She's ringing the plumber. Then we come back")."""
    if clause.sentence == point[-1].sentence or sum(c.last - c.first for c in point) <= SHORT:
        return False
    stretches = [point, [c for c in clauses if c.sentence == clause.sentence]]
    return all(
        any(m.value != "heading" for c in stretch for m in narration.marked("follow_up", c.first, c.last))
        for stretch in stretches
    )
