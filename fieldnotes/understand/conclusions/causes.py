"""Causes: what the technician holds to be behind the complaint, and how sure that is.

A sentence names a cause by a word of causing ("what caused it", "that's why", "down to"), by a heading ("Cause:"),
or, in the closing part of a visit, by a guess that names a thing ("could be the relay", "it was the pump, no doubt
about it"). How sure it is, is told by the weakest word of the sentence.
"""

from __future__ import annotations

from fieldnotes.records import Cause, Certainty
from fieldnotes.understand.conclusions.blame import Blame, complained_of
from fieldnotes.understand.conclusions.cause_names import LOOKED_BY, abouts_in
from fieldnotes.understand.conclusions.talk import only_talks
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import cause_sentence
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.things import things_in

CLOSING = 0.45  # share of the visit after which a bare "could be" speaks of the cause
HEADING = 3  # words: a sentence this short only announces what follows
TROUBLE = 5  # words behind "that's your" in which the trouble has to be named
POINTERS = frozenset(("that", "those", "this", "it", "these", "which"))
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


def causes_in(
    narration: Narration,
    clauses: list[Clause],
    claimed: frozenset[int],
    gone: frozenset[int],
    reported: frozenset[int],
) -> tuple[list[Cause], frozenset[int]]:
    """All causes in order, and the clauses of the sentences that name them. `reported` are the clauses of the
    complaints."""
    blame = Blame(narration, complained_of(narration, clauses, reported))
    causes: list[Cause] = []
    used: set[int] = set()
    closing = int(len(narration.breaths) * CLOSING)
    by_sentence: dict[int, list[int]] = {}
    for index, clause in enumerate(clauses):
        by_sentence.setdefault(clause.sentence, []).append(index)
    for sentence, indices in by_sentence.items():
        if indices[0] in used:
            continue
        following = by_sentence.get(sentence + 1, [])
        if following and (
            _only_says_how_sure(narration, clauses, following)
            or _is_told_next(narration, [clauses[i] for i in indices], [clauses[i] for i in following])
        ):
            indices = indices + following
        open_clauses = [clauses[i] for i in indices if i not in claimed]
        whole = _whole(narration, clauses, indices)
        certainty = _certainty(blame, open_clauses, whole, gone, clauses[indices[0]].breath >= closing)
        if certainty is None:
            continue
        first, last = whole[0].first, whole[-1].last
        used |= {i for i, c in enumerate(clauses) if c.sentence >= sentence and first <= c.first < last}
        for part, sure in _in_turn(narration, whole, certainty):
            causes += [
                Cause(
                    about=about,
                    text=cause_sentence(narration, sure, start, end),
                    evidence=evidence_of(narration, start, end),
                    certainty=sure,
                )
                for about, start, end in abouts_in(blame, part, sure)
            ]
    return causes, frozenset(used)


def _in_turn(
    narration: Narration, whole: list[Clause], certainty: Certainty
) -> list[tuple[list[Clause], Certainty]]:
    """A statement of one cause, or of one and then a guess at another ("that's your leak, the gasket, and my money's
    on the wire for making it"), each with how sure it is."""
    for n, clause in enumerate(whole[1:], 1):
        guess = [
            m
            for m in narration.marked("cause", clause.first, clause.last)
            if m.value in ("likely", "possible") and things_in(narration, m.last, clause.last)
        ]
        before = narration.marked("cause", whole[0].first, clause.first)
        if (
            guess
            and narration.words[clause.first] in ("and", "but")
            and any(m.value in LOOKED_BY for m in before)
        ):
            return [(whole[:n], _degree(narration, whole[:n])), (whole[n:], _degree(narration, whole[n:]))]
    return [(whole, certainty)]


def _only_says_how_sure(narration: Narration, clauses: list[Clause], indices: list[int]) -> bool:
    """Whether a sentence only adds how sure the one before it was ("No doubt about it.")."""
    first, last = clauses[indices[0]].first, clauses[indices[-1]].last
    cues = [*narration.marked("cause", first, last), *narration.marked("hedge", first, last)]
    told = {n for m in cues if m.value != "heading" for n in range(m.first, m.last)}
    rest = [
        n for n in range(first, last) if n not in told and narration.words[n] not in narration.grammar.openers
    ]
    return bool(told) and not rest and not things_in(narration, first, last)


def _is_told_next(narration: Narration, told: list[Clause], following: list[Clause]) -> bool:
    """Whether a sentence only points at a cause, which the next one names ("That's where the marks come from. It's the
    seal letting water by.")."""
    first, last = told[0].first, told[-1].last
    if (
        not narration.marked("cause", first, last)
        or narration.words[first] not in POINTERS | narration.grammar.openers
    ):
        return False
    named = [thing for thing in things_in(narration, first, last) if not thing.condition]
    begin, end = following[0].first, following[-1].last
    opening = narration.words[begin : begin + 2]
    it_is = opening[:1] == ("it",) and not narration.grammar.being.isdisjoint(opening[1:])
    return not named and it_is and bool(things_in(narration, begin, end))


def _whole(narration: Narration, clauses: list[Clause], indices: list[int]) -> list[Clause]:
    """The clauses of a statement: a sentence; with the rest of its breath, where it only announces that ("Cause.
    Sock got past the basket."); with the one before, where it only points back ("That's what did it")."""
    together = [clauses[i] for i in indices]
    first, last = together[0].first, together[-1].last
    if last - first <= HEADING:
        return [c for c in clauses if c.breath == together[0].breath and c.first >= first]
    before = [c for c in clauses if c.last == first or (c.sentence == together[0].sentence - 1)]
    if (
        before
        and narration.words[first] in POINTERS
        and all(thing.condition for thing in things_in(narration, first, last))
        and before[-1].breath >= together[0].breath - 1
        and things_in(narration, before[0].first, before[-1].last)
    ):
        return before + together
    return together


def _isolates(narration: Narration, mark: Mark) -> bool:
    """Whether what was killed is the supply, by the technician ("I killed the two-pole breaker")."""
    return any(
        m.value == "isolated" and m.first < mark.last and mark.first < m.last
        for m in narration.marked("safety", mark.first, mark.last)
    )


def _certainty(
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
        if m.first not in gone and not _denied(narration, c, m) and not _isolates(narration, m)
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
        return _degree(narration, whole)
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


def _degree(narration: Narration, whole: list[Clause]) -> Certainty:
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
