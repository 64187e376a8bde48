"""Whether a sentence names a cause, and how sure: told by its weakest word."""

from __future__ import annotations

from fieldnotes.records import Certainty
from fieldnotes.understand.conclusions.blame import Blame
from fieldnotes.understand.conclusions.cause_names import LOOKED_BY
from fieldnotes.understand.conclusions.talk import only_talks
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.things import things_in

TROUBLE = 5  # words behind "that's your" in which the trouble has to be named
NO_HEADING = (
    "of",
    "it",
    "i",
    "they",
    "she",
    "he",
    "we",
    "you",
    "that",
    "this",
    "there",
    "the",
    "is",
    "was",
    "'s",
)
WOULD = ("'d", "would")  # "that'd be why"
CONDITIONS = ("if", "unless", "whether")


def certainty_of(
    blame: Blame, clauses: list[Clause], whole: list[Clause], gone: frozenset[int], closing: bool
) -> Certainty | None:
    """How sure a cause is, or None where the sentence names none."""
    narration = blame.narration
    if not clauses:
        return None
    first, last = clauses[0].first, clauses[-1].last
    marks = [
        (c, m)
        for c in clauses
        for m in narration.marked("cause", c.first, c.last)
        if m.first not in gone and not _denied(narration, c, m)
    ]
    heading = any(m.value == "heading" and _announces(narration, c, m) for c, m in marks)
    of_trouble = (closing or marks) and any(c.stance == "fact" and blame.of_trouble(c) for c in clauses)
    if not (marks or of_trouble) or (
        not heading and (narration.marked("history", first, last) or _depends(narration, first, last))
    ):
        return None
    softened = any(
        m.value == "softens" or (m.first + 1 < len(narration.words) and narration.words[m.first + 1] in WOULD)
        for _, m in marks
    )
    if (
        heading
        or of_trouble
        or any(
            (c.stance == "fact" or (c.stance == "hypothetical" and softened and m.value in LOOKED_BY))
            and _names_cause(blame, clauses, whole, c, m, closing)
            for c, m in marks
        )
    ):
        return degree(narration, whole)
    guesses = [
        m
        for c, m in marks
        if c.stance in ("fact", "hypothetical", "general", "plan")
        and m.value in ("likely", "possible", "afterthought")
        and _names_something(narration, clauses, c, m)
    ]
    undecided = narration.marked(
        "verdict", first, last
    )  # "I can't tell those apart" leaves both causes standing
    judged = [
        m
        for m in narration.marked("outcome", first, last)
        if m.value == "unclear" and not any(v.first < m.last and m.first < v.last for v in undecided)
    ]
    if not closing or not guesses or any("maybe" not in narration.words[m.first : m.last] for m in judged):
        return None  # "could be dirt, hard to say" judges the part
    doubted = any(m.value == "afterthought" for _, m in marks)  # "my best guess is the pin, it's a maybe"
    return "likely" if any(m.value == "likely" for m in guesses) and not doubted else "possible"


def _depends(narration: Narration, first: int, last: int) -> bool:
    """Whether a sentence holds only on a condition; "if you made me bet" is none."""
    return any(
        word in CONDITIONS and narration.words[n + 1 : n + 2] != ("you",)
        for n, word in enumerate(narration.words[first:last], first)
    )


def _names_cause(
    blame: Blame, clauses: list[Clause], whole: list[Clause], clause: Clause, mark: Mark, closing: bool
) -> bool:
    """Whether a mark alone makes its sentence name a cause."""
    narration = blame.narration
    first, last = clauses[0].first, clauses[-1].last
    if mark.value == "certain":
        begin = whole[0].first
        told = closing and last - mark.last > 1 and narration.words[mark.last - 1] != "why"
        return told or blame.something(begin, last) or blame.trouble(begin, last)
    if mark.value == "cleft":
        return blame.cleft(clauses, mark, closing)
    if mark.value == "from":
        return blame.origin(clauses, mark, closing)
    if mark.value == "ruin":
        return blame.hedged(first, last) and blame.something(first, mark.first)
    if mark.value == "adds":
        return closing and blame.something(first, mark.first)
    if mark.value == "yours":  # "that's your leak right there"
        begin, _ = narration.breaths[clause.breath]
        trouble = blame.trouble(mark.last, min(last, mark.last + TROUBLE))
        return trouble and (blame.something(begin, mark.first) or blame.something(mark.last, last))
    if mark.value == "did":  # "sediment did that", not "I did that"
        return closing and bool(
            things_in(narration, clause.first, mark.first)
            or narration.marked("soil", clause.first, mark.first)
        )
    if mark.value == "owing":
        return closing and bool(blame.trouble(first, last) or things_in(narration, first, last))
    if mark.value == "sure":
        return (
            closing
            and not blame.good(first, last)
            and _names_something(narration, clauses, clause, mark)
            and (
                blame.points(first, last) is not None or blame.trouble(first, last) or blame.acts(first, last)
            )
        )
    if mark.value == "of trouble":  # "the knocking was perhaps steam under the scale"
        named = blame.trouble(first, mark.first)
        return closing and bool(named) and _names_something(narration, clauses, clause, mark)
    return False


def degree(narration: Narration, whole: list[Clause]) -> Certainty:
    """How sure a sentence that names a cause is: its weakest word counts."""
    first, last = whole[0].first, whole[-1].last
    said = {m.value for m in narration.marked("cause", first, last)}
    if said & {"possible", "afterthought"}:
        return "possible"
    hedges = narration.marked("hedge", first, last)
    if any(
        word in narration.words[m.first : m.last] for m in hedges for word in ("maybe", "perhaps", "possibly")
    ):
        return "possible"
    return (
        "likely"
        if said & {"likely", "softens"} or hedges or "probable" in narration.words[first:last]
        else "certain"
    )


def _names_something(narration: Narration, clauses: list[Clause], clause: Clause, mark: Mark) -> bool:
    """Whether a guess goes on to name a thing ("could be the relay"), rather than to judge ("I think it's okay")
    or to stand alone ("no doubt")."""
    judged = narration.marked("outcome", mark.first, clause.last)
    if any(m.value == "good" and m.rule.strength != "verb" for m in judged):
        return False
    first, last = clauses[0].first, clauses[-1].last
    if _describes(narration, clause, mark):
        return False
    if things_in(narration, first, last):
        return True
    closes = (
        narration.words[mark.last - 1] in ("it", "cause", "culprit", "blame")
        and "of" not in narration.words[mark.first : mark.last]
    )
    if closes and mark.first > clause.first:  # "a downdraft could be it"
        named = narration.words[mark.first - 1] not in narration.grammar.pronouns
        return named and not narration.marked("bystander", clause.first, mark.first)
    if any(m.last == last for m in narration.marked("not a thing", mark.last, last)):
        return False  # "that could be a long job"
    cues = sum(m.last - m.first for m in narration.marked("cause", first, last))
    return last - first - cues > 2


def _describes(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether "could be" only describes its subject ("the pump could be cleaner"), rather than what caused it."""
    words = narration.words
    if words[mark.first] not in ("could", "may", "might") or words[mark.last - 1] != "be":
        return False
    before = words[mark.first - 1] if mark.first > clause.first else ""
    named = [m.last for m in narration.named(clause.first, mark.first)]
    return mark.first in named or (before != "" and before.endswith("s") and bool(named))


def _denied(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """ "Not the culprit" names no cause."""
    before = narration.words[max(clause.first, mark.first - 2) : mark.first]
    if only_talks(narration, clause, mark):
        return True
    behind = mark.value == "certain" and narration.words[mark.last : mark.last + 1] in (
        ("not",),
        ("unknown",),
    )
    return behind or any(word in narration.grammar.negators for word in before)


def _announces(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether "cause" stands as a heading: first in its clause with a stop behind it, or first in its breath."""
    if mark.first != clause.first or mark.last >= len(narration.words):
        return False
    at_start = mark.first == narration.breaths[clause.breath][0]
    return bool(narration.tokens[mark.last - 1].stop) or (
        at_start
        and narration.words[mark.last] not in NO_HEADING
        and mark.last < narration.breaths[clause.breath][1]
    )
