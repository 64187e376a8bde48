"""Causes: what the technician holds to be behind the complaint, and how sure that is.

A sentence names a cause by a word of causing ("what caused it", "that's why", "down to"), by a heading ("Cause:"),
or, in the closing part of a visit, by a guess that names a thing ("could be the relay", "it was the pump, no doubt
about it"). How sure it is, is told by the weakest word of the sentence.
"""

from __future__ import annotations

from fieldnotes.records import Cause, Certainty
from fieldnotes.understand.conclusions.blame import Blame, complained_of
from fieldnotes.understand.conclusions.cause_names import LOOKED_BY, abouts_in
from fieldnotes.understand.conclusions.certainty import certainty_of, degree
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import cause_sentence
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import things_in

CLOSING = 0.45  # share of the visit after which a bare "could be" speaks of the cause
HEADING = 3  # words: a sentence this short only announces what follows
POINTERS = frozenset(("that", "those", "this", "it", "these", "which"))


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
        certainty = certainty_of(blame, open_clauses, whole, gone, clauses[indices[0]].breath >= closing)
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
            return [(whole[:n], degree(narration, whole[:n])), (whole[n:], degree(narration, whole[n:]))]
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
