"""How a trial ended, as told."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from fieldnotes.records import TrialOutcome
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration

SELF = ("i", "we")
ONCE = ("once", "even", "actually", "so", "much", "as", "really", "again")
DENIAL = 4  # words before an ending in which a negation turns it round ("not a single dropout")
TURNED: dict[TrialOutcome, TrialOutcome] = {"passed": "failed", "failed": "passed"}


@dataclass(frozen=True, slots=True)
class End:
    outcome: TrialOutcome
    first: int
    last: int
    firm: bool  # in so many words ("that's a pass")
    denied: bool  # told by what did not happen ("no leaks")
    step: bool  # only what it did on the way ("it filled")


def endings_in(
    narration: Narration, clauses: list[Clause], gone: frozenset[int], before: TrialOutcome | None
) -> list[End]:
    """How it ended, in the order told, so that the last one counts; what was said in so many words comes last of
    all. A negation turns an ending round. `before`: how the trial before ended, which "same thing" repeats."""
    found: list[End] = []
    for clause in clauses:
        floor = clause.first - (narration.words[clause.first] == "once")  # "it never | once banged"
        marks = [
            m for label in ("trial", "ending") for m in narration.marked(label, clause.first, clause.last)
        ]
        never = _never_did(narration, clause, marks)
        if never and never.first not in gone:
            found.append(never)
            marks = [m for m in marks if m.first >= never.last]
            floor = never.last
        for mark in sorted(marks, key=lambda m: m.first):
            value = before if mark.value == "same" else mark.value
            outcome = next((o for o in get_args(TrialOutcome) if o == value), None)
            if outcome is None or mark.first in gone or _is_of_speaker(narration, mark):
                continue
            if found and mark.first < found[-1].last:
                continue
            denied = mark.value != "same" and _is_denied(narration, floor, mark)
            if mark.rule.label == "ending" and not denied:
                continue  # "trip" alone tells nothing
            told = TURNED.get(outcome, outcome) if denied else outcome
            refused = narration.words[mark.first - 1] == "wouldn't"  # no "would" of a supposition
            firm = refused or mark.rule.strength == "firm"
            found.append(End(told, mark.first, mark.last, firm, denied, mark.rule.strength == "word"))
            floor = mark.last
    return sorted(found, key=lambda end: end.firm)


def _is_of_speaker(narration: Narration, mark: Mark) -> bool:
    """Whether it tells what the speaker did ("I failed to reach it"; not "I couldn't catch it at it")."""
    words = narration.words
    return words[mark.first - 1] in SELF and words[mark.first] not in narration.grammar.negators


def _never_did(narration: Narration, clause: Clause, marks: list[Mark]) -> End | None:
    """What it never did, in words that tell of no known end: the fault did not show ("it never drummed once")."""
    words = narration.words
    for n in range(clause.first, clause.last - 1):
        if words[n] != "never":
            continue
        at = next((k for k in range(n + 1, clause.last) if words[k] not in ONCE), clause.last - 1)
        if (words[at].endswith("ed") or words[at] in narration.trade.cut_short) and not any(
            m.first <= at < m.last and m.value in TURNED for m in marks
        ):
            return End("passed", n, at + 1, False, True, False)
    return None


def _is_denied(narration: Narration, floor: int, mark: Mark) -> bool:
    """Whether a negation stands right before an ending, with no stop between."""
    for n in range(mark.first - 1, max(floor, mark.first - DENIAL) - 1, -1):
        if narration.tokens[n].stop:
            return False
        if narration.words[n] in narration.grammar.negators:
            return True
    return False
