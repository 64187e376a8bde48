"""Outcome words in a clause, with what a negation makes of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from fieldnotes.records import Certainty, Outcome
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.narration import Mark, Narration

NEGATION_REACH = 6  # words between a negation and what it turns ("don't really feel any sort of play")
TURNED: dict[Outcome, Outcome] = {"good": "fault", "fault": "good"}
PERSONS = ("you", "she", "he")
AFTERTHOUGHT = 3  # words after a doubt at the end of a breath
PRESENCE = 4  # words before a fault's noun in which "a", "some", "there's" say that it is there


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
        if gone.isdisjoint(range(m.first, m.last))
        and (m.rule.strength == "noun" or not _inside_a_name(narration, m))
        and (m.value not in TURNED or not any(_overlap(m, other) for other in hidden))
    ]
    hedged = bool(narration.marked("hedge", clause.first, clause.last)) or _hedged_after(narration, clause)
    found: list[Found] = []
    floor = clause.first
    for mark in marks:
        negators = _negators_before(narration, mark, floor) or _negators_carried(narration, clause, mark)
        if not _means_something(narration, clause, mark, bool(negators)):
            continue
        if _about_people(narration, clause, mark):
            continue
        outcome: Outcome = next(value for value in get_args(Outcome) if value == mark.value)
        if negators and outcome in TURNED:  # "don't have no rust" denies once
            outcome = TURNED[outcome]
        found.append(
            Found(
                outcome=outcome,
                first=min([mark.first, *(n for n in negators if n >= clause.first)]),
                last=mark.last,
                firm=mark.rule.strength == "firm",
                certainty="likely" if hedged else "certain",
                name=mark.rule.name,
                standing_alone=_stands_alone(narration, clause, min([mark.first, *negators]), mark.last),
            )
        )
        floor = mark.last
    return found


def _overlap(mark: Mark, other: Mark) -> bool:
    return (
        mark.first < other.last
        and other.first < mark.last
        and mark.last - mark.first <= other.last - other.first
    )


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
    """Negations that reach the mark. "No" that only answers ("no, it's fine") is none."""
    grammar, words = narration.grammar, narration.words
    first = max(floor, mark.first - NEGATION_REACH)
    return [
        n
        for n in range(first, mark.first)
        if words[n] in grammar.negators
        and not (words[n] == "no" and (narration.tokens[n].stop or words[n + 1] in grammar.pronouns))
    ]


def _means_something(narration: Narration, clause: Clause, mark: Mark, negated: bool) -> bool:
    """Whether an outcome word judges here: plain words need a verb of seeming, a part or nothing before them."""
    strength, words = mark.rule.strength, narration.words
    if strength == "state":
        return True
    if strength == "noun":
        shows = words[mark.first - 1] in narration.grammar.being and words[mark.first].endswith("ing")
        return negated or shows or _is_present(narration, clause, mark)
    if words[clause.first] in ("while", "whilst") and strength == "word":
        return False
    if mark.last - mark.first > 1 or mark.value in ("unclear", "not tested"):
        return True
    if negated or _stands_alone(narration, clause, mark.first, mark.last):
        return True
    if _describes_what_follows(narration, clause, mark):
        return False
    before = words[mark.first - 1] if mark.first > clause.first else ""
    if before in narration.grammar.seemings:
        return True
    return mark.value == "good" and any(
        m.last == mark.first for m in narration.named(clause.first, mark.first)
    )


def _about_people(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether the subject before the outcome is a person who was spoken to or of ("you cannot sit in the drum")."""
    return mark.value in TURNED and any(w in PERSONS for w in narration.words[clause.first : mark.first])


def _describes_what_follows(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a single word only describes the noun behind it ("the right rear")."""
    if mark.last >= clause.last or narration.tokens[mark.last - 1].stop:
        return False
    after, grammar = narration.words[mark.last], narration.grammar
    if narration.words[mark.first] in grammar.place_words and after in grammar.prepositions:
        return True
    if mark.value == "good" and narration.words[mark.last - 1].endswith("s"):
        return False  # a verb: "the igniter glows bright orange"
    return (
        after not in grammar.goes_with_judgement
        and after not in grammar.prepositions
        and after not in grammar.joiners
    )


def _is_present(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a fault's noun is said to be there: "there's a crack", "got some play"; "the leak test" says nothing."""
    if any(m.first <= mark.first and mark.last < m.last for m in narration.mentions):
        return False
    if mark.first == clause.first:
        return True  # "waveguide cover, burn mark the size of a dime"
    window = narration.words[max(clause.first, mark.first - PRESENCE) : mark.first]
    return any(word in narration.grammar.presence for word in window)


def _stands_alone(narration: Narration, clause: Clause, first: int, last: int) -> bool:
    grammar, words = narration.grammar, narration.words
    rest = [*words[clause.first : first], *words[last : clause.last]]
    return all(w in grammar.openers or w in grammar.seemings or w in grammar.determiners for w in rest)
