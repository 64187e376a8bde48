"""Outcome words in a clause, with what a negation makes of them and how sure they are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from fieldnotes.records import Certainty, Outcome
from fieldnotes.understand.checks.judging import judges, stands_alone
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration

NEGATION_REACH = 6  # words between a negation and what it turns ("don't really feel any sort of play")
TURNED: dict[Outcome, Outcome] = {"good": "fault", "fault": "good"}
AS_BEFORE = "as before"  # a value of outcome rules: "the other one's the same"
LOOK_BACK = 30  # words before "the same" in which what it repeats was said
HAVING = ("has", "have", "'ve", "had")
AFTERTHOUGHT = 3  # words after a doubt at the end of a breath


@dataclass(frozen=True, slots=True)
class Found:
    """An outcome said in the words [first, last), negation included. `firm`: a judgement in so many words."""

    outcome: Outcome
    first: int
    last: int
    firm: bool
    certainty: Certainty
    standing_alone: bool  # nothing but the outcome words is said in the clause
    name: str | None = None  # what the words themselves are about ("no gas": the gas leak)


def outcomes_in(
    narration: Narration, clause: Clause, gone: frozenset[int], hidden: list[Mark]
) -> list[Found]:
    """Outcomes in a clause, in order. `gone` are words taken back; `hidden` marks of doing that own their words
    ("the coil's clean now" tells of work)."""
    marks = [
        m
        for m in narration.marked("outcome", clause.first, clause.last)
        if m.value in (*get_args(Outcome), AS_BEFORE)
        and gone.isdisjoint(range(m.first, m.last))
        and (m.rule.strength == "noun" or not _inside_a_name(narration, m))
        and (m.value not in TURNED or not any(_owns(narration, other, m) for other in hidden))
        and not _is_the_subject(narration, clause, m)
    ]
    hedged = bool(narration.marked("hedge", clause.first, clause.last)) or _hedged_after(narration, clause)
    found: list[Found] = []
    floor = clause.first
    for mark in marks:
        negators = _negators_before(narration, mark, floor) or _negators_carried(narration, clause, mark)
        if not judges(narration, clause, mark, bool(negators)):
            continue
        outcome = _outcome_of(narration, mark)
        if outcome is None:
            continue
        if negators and outcome in TURNED:  # "don't have no rust" denies once
            outcome = TURNED[outcome]
        first, last = _without_names(narration, mark)
        first = min([first, *negators])
        found.append(
            Found(
                outcome=outcome,
                first=max(first, clause.first),
                last=last,
                firm=mark.rule.strength == "firm",
                certainty="likely" if hedged else "certain",
                name=mark.rule.name,
                standing_alone=stands_alone(narration, clause, first, mark.last),
            )
        )
        floor = mark.last
    return found


def _outcome_of(narration: Narration, mark: Mark) -> Outcome | None:
    """What a mark says; "the same" says what was said last. None: nothing was."""
    if mark.value != AS_BEFORE:
        return next(value for value in get_args(Outcome) if value == mark.value)
    for m in reversed(narration.marked("outcome", max(0, mark.first - LOOK_BACK), mark.first)):
        if m.value in TURNED and m.rule.strength != "noun":
            outcome: Outcome = "good" if m.value == "good" else "fault"
            return TURNED[outcome] if _negators_before(narration, m, m.first - 3) else outcome
    return None


def _without_names(narration: Narration, mark: Mark) -> tuple[int, int]:
    """The outcome's own words of a mark: a part named at its edge is what it is about ("the bearing | gone",
    "I've not had | the control board out")."""
    first, last = mark.first, mark.last
    for named in narration.named(max(0, mark.first - 4), mark.last + 4):
        if named.name.condition or named.last <= mark.first or named.first >= mark.last:
            continue
        if named.first > mark.first and mark.rule.holds_part:
            last = min(last, named.first)
        elif named.first <= mark.first and (
            mark.rule.holds_part
            or mark.rule.form == "bare"
            or (mark.rule.name is None and _has_own_verb(narration, named.last))
        ):
            first = named.last  # but "switches over" is no switch
    return (first, last) if first < last else (mark.first, mark.last)


def _has_own_verb(narration: Narration, last: int) -> bool:
    """Whether the name that ends there is the subject of what follows ("hinges | haven't dropped", "flap | swings")."""
    after, grammar = narration.words[last : last + 1], narration.grammar
    return any(
        word in grammar.being
        or word in grammar.negators
        or word in HAVING
        or (word.endswith("s") and len(word) > 3)
        for word in after
    )


def _owns(narration: Narration, other: Mark, mark: Mark) -> bool:
    """Whether words of doing or of safety have an outcome's words for their own. "Is snug" is no deed, and of a fault
    that is denied no test is told ("no leakage", "no dried suds")."""
    words, grammar = narration.words, narration.grammar
    if other.rule.form == "bare" and words[other.first - 1] in grammar.being:
        return False
    if mark.rule.strength == "noun" and other.rule.label == "safety":
        return not any(word in grammar.negators for word in words[max(0, mark.first - 2) : mark.first])
    return (
        mark.first < other.last
        and other.first < mark.last
        and mark.last - mark.first <= other.last - other.first
    )


def _is_the_subject(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a fault's noun is the part of which the clause tells something ("holes in it are clear")."""
    if mark.rule.strength != "noun" or mark.first != clause.first:
        return False
    part = any(
        m.first == mark.first and not m.name.condition for m in narration.named(mark.first, mark.first + 1)
    )
    said = narration.words[mark.last : clause.last]
    judged = any(m.first >= mark.last for m in narration.marked("outcome", mark.last, clause.last))
    return part and judged and not narration.grammar.being.isdisjoint(said)


def _inside_a_name(narration: Narration, mark: Mark) -> bool:
    """Whether the words belong to a part's name ("switches" in "door switches")."""
    return any(
        m.first <= mark.first and mark.last <= m.last and not m.name.condition
        for m in narration.named(max(0, mark.first - 4), mark.last + 4)
    )


def _hedged_after(narration: Narration, clause: Clause) -> bool:
    """Whether a doubt follows as an afterthought ("it's good, I think")."""
    _, end = narration.breaths[clause.breath]
    return any(
        m.first - clause.last <= 1 and end - m.last <= AFTERTHOUGHT
        for m in narration.marked("hedge", clause.last, min(end, clause.last + 2))
    )


def _negators_carried(narration: Narration, clause: Clause, mark: Mark) -> list[int]:
    """A negation that reaches across "or" ("not kinked or blocked")."""
    if narration.words[mark.first - 1] not in ("or", "nor") or mark.first - 1 > clause.first:
        return []
    begin, _ = narration.breaths[clause.breath]
    before = range(max(begin, mark.first - NEGATION_REACH), mark.first - 1)
    return [n for n in before if narration.words[n] in narration.grammar.negators]


def _negators_before(narration: Narration, mark: Mark, floor: int) -> list[int]:
    """Negations that reach the mark. "No" that only answers ("no, it's fine") is none, nor is "no doubt"."""
    grammar, words = narration.grammar, narration.words
    first = max(floor, mark.first - NEGATION_REACH)
    return [
        n
        for n in range(first, mark.first)
        if words[n] in grammar.negators
        and not any(q.first <= n < q.last - 1 for q in narration.quantities)  # "not point one": nought
        and words[n + 1] not in grammar.negates_nothing
        and not (words[n] == "no" and (narration.tokens[n].stop or _answers(narration, n + 1)))
    ]


def _answers(narration: Narration, at: int) -> bool:
    """Whether what follows "no" shows that it only answers or mends ("no it's fine", "no nine ohms, good")."""
    return narration.words[at] in narration.grammar.pronouns or any(
        q.first == at for q in narration.quantities
    )
