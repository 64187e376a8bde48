"""Causes and the verdict: what the technician holds to be so."""

from __future__ import annotations

from typing import get_args

from fieldnotes.records import Cause, Certainty, Finding, Verdict
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.sentences import cause_sentence, verdict_sentence
from fieldnotes.understand.things import Thing, own_words, things_in

CLOSING = 0.45  # share of the visit after which a bare "could be" speaks of the cause
HEADING = 2  # words: a sentence this short only announces what follows


def verdict_in(
    narration: Narration, clauses: list[Clause], gone: frozenset[int]
) -> tuple[Verdict, frozenset[int]]:
    """The verdict said last, and the clauses that say one."""
    said: list[tuple[int, Mark]] = []
    for index, clause in enumerate(clauses):
        if clause.stance not in ("fact", "plan"):
            continue
        said += [
            (index, m)
            for m in narration.marked("verdict", clause.first, clause.last)
            if m.value != "heading" and m.first not in gone and not _of_a_part(narration, m)
        ]
    if not said:
        return Verdict(stated=False), frozenset()
    headed = [
        (i, m)
        for i, m in said
        if any(
            h.value == "heading" for h in narration.marked("verdict", *narration.breaths[clauses[i].breath])
        )
    ]
    index, mark = (headed or said)[-1]
    finding: Finding = next(value for value in get_args(Finding) if value == mark.value)
    clause = clauses[index]
    verdict = Verdict(
        finding=finding,
        text=verdict_sentence(finding),
        evidence=evidence_of(narration, clause.first, clause.last),
    )
    sentences = {clauses[i].sentence for i, _ in said}
    return verdict, frozenset(i for i, c in enumerate(clauses) if c.sentence in sentences and not c.turn) | {
        i for i, _ in said
    }


def _of_a_part(narration: Narration, mark: Mark) -> bool:
    """ "Nothing wrong with the motor" is no verdict on the unit, nor is "haven't found a fault yet"."""
    if narration.words[mark.last : mark.last + 1] == ("yet",):
        return True
    if mark.value != "no fault found":
        return False
    return any(
        m.first - mark.last <= 2 and not m.name.condition
        for m in narration.named(mark.last - 1, mark.last + 6)
        if m.name.owner
        and narration.words[m.first - 1] in ("the", "that", "this", "her", "his", "either", "with", "in")
    )


def verdict_from_causes(causes: list[Cause]) -> Verdict:
    """A verdict that was never said: a cause that was named for certain means that a fault was found. Marked as
    not stated, so that report and gaps say so; without such a cause it stays open."""
    sure = [cause for cause in causes if cause.certainty == "certain"]
    if not sure:
        return Verdict(finding=None, stated=False)
    return Verdict(
        finding="fault found",
        stated=False,
        text="Fault found. Not said in so many words; it follows from the cause that was named.",
        evidence=sure[-1].evidence,
    )


def causes_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Cause], frozenset[int]]:
    """All causes in order, and the clauses of the sentences that name them."""
    causes: list[Cause] = []
    used: set[int] = set()
    closing = int(len(narration.breaths) * CLOSING)
    done = -1  # the last sentence that was read as a cause
    for index, clause in enumerate(clauses):
        if (
            index in claimed
            or clause.sentence <= done
            or clause.stance not in ("fact", "hypothetical", "general", "plan")
        ):
            continue
        certainty = _certainty(narration, clause, clause.breath >= closing, gone)
        if certainty is None:
            continue
        together = [c for c in clauses if c.sentence == clause.sentence]
        if together[-1].last - together[0].first <= HEADING:  # "Cause. Sock got past the basket."
            together = [c for c in clauses if c.breath == clause.breath and c.sentence >= clause.sentence]
        done = together[-1].sentence
        used |= {i for i, c in enumerate(clauses) if together[0].first <= c.first < together[-1].last}
        for about, first, last in _abouts(narration, together, certainty):
            causes.append(
                Cause(
                    about=about,
                    text=cause_sentence(narration, certainty, first, last),
                    evidence=evidence_of(narration, first, last),
                    certainty=certainty,
                )
            )
    return causes, frozenset(used)


def _certainty(narration: Narration, clause: Clause, closing: bool, gone: frozenset[int]) -> Certainty | None:
    """How sure a cause is, or None where the clause names none."""
    marks = [m for m in narration.marked("cause", clause.first, clause.last) if m.first not in gone]
    marks = [m for m in marks if not _denied(narration, clause, m)]
    values = {m.value for m in marks if m.value != "heading" or _announces(narration, clause, m)}
    if not values:
        return None
    sentence = narration.breaths[clause.breath]
    everywhere = {m.value for m in narration.marked("cause", *sentence)}
    hedged = bool(narration.marked("hedge", *sentence))
    if narration.marked("bystander", *sentence) and not values & {"heading"}:
        return None
    if narration.marked("history", *sentence) and not values & {"heading"}:
        return None
    if "sure" in values and closing:
        values.add("certain")
    values.discard("sure")
    if not values:
        return None
    if values & {"certain", "heading"}:
        if clause.stance != "fact":
            return None
        if "possible" in everywhere:
            return "possible"
        return "likely" if "likely" in everywhere or hedged else "certain"
    if any(m.value == "unclear" for m in narration.marked("outcome", *sentence)) and not everywhere & {
        "certain"
    }:
        return None
    if not any(_names_something(narration, clause, m) for m in marks):
        return None
    if not closing or (clause.stance != "fact" and "possible" not in values and not clause.turn):
        return None
    return "likely" if "likely" in values else "possible"


def _names_something(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a guess goes on to name a thing ("could be the relay"), rather than to judge ("I think it's okay")."""
    if any(m.value == "good" for m in narration.marked("outcome", mark.first, clause.last)):
        return False
    ends = mark.last >= clause.last or bool(narration.tokens[mark.last - 1].stop)
    return not ends or bool(things_in(narration, clause.first, clause.last))


def _after_the_cue(narration: Narration, first: int, last: int) -> list[Thing]:
    """What is named behind "caused by", "the cause was" and the like."""
    cues = [m for m in narration.marked("cause", first, last) if m.value == "certain"]
    return things_in(narration, cues[0].last - 1, last) if cues else []


def _denied(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """ "Not the culprit" names no cause."""
    before = narration.words[max(clause.first, mark.first - 2) : mark.first]
    return any(word in narration.grammar.negators for word in before)


def _announces(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether "cause" stands as a heading: first in its clause, with a stop behind it."""
    return mark.first == clause.first and bool(narration.tokens[mark.last - 1].stop)


def _abouts(narration: Narration, clauses: list[Clause], certainty: Certainty) -> list[tuple[str, int, int]]:
    """What a sentence holds to be the cause, with its words. "Could be a leak, or a restriction" names two."""
    first, last = clauses[0].first, clauses[-1].last
    groups = [clauses]
    if certainty == "possible":
        groups = [[clauses[0]]]
        for clause in clauses[1:]:
            other = narration.words[clause.first] == "or" or bool(
                narration.marked("cause", clause.first, clause.last)
            )
            if other and any(
                m.value == "possible" for c in groups[-1] for m in narration.marked("cause", c.first, c.last)
            ):
                groups.append([clause])
            else:
                groups[-1].append(clause)
    found: list[tuple[str, int, int]] = []
    for group in groups:
        start, end = (group[0].first, group[-1].last) if len(groups) > 1 else (first, last)
        things = _after_the_cue(narration, start, end) or things_in(narration, start, end)
        said = own_words(narration, group[-1].first, group[-1].last)
        found.append(
            (
                things[0].name if things else said.name if said else " ".join(narration.words[start:end]),
                start,
                end,
            )
        )
    return found
