"""What counts as trouble in the words of a customer, and where one complaint ends and the next begins."""

from __future__ import annotations

import itertools

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.nouns import Mention

SHORTEST = 4  # words of a complaint that names no trouble we know
PASSING = frozenset(
    [
        "also",
        "sometimes",
        "now",
        "lately",
        "every",
        "night",
        "day",
        "time",
        "half",
        "often",
        "some",
        "days",
        "nights",
        "then",
    ]
)
SET_AGAINST = frozenset(["second", "other", "none", "pattern", "since"])  # "and the second one's damp"
PERSONS = frozenset(["she", "he", "they", "we", "you", "i"])
OF_A_SUBJECT = frozenset(
    ["the", "her", "his", "their", "its", "a", "an", "some", "nothing", "everything", "one"]
)


def points_in(narration: Narration, clauses: list[Clause], first: int, last: int) -> list[tuple[int, int]]:
    """One stretch for each thing reported: "it squeals, and it smells hot" are two."""
    edges = [first]
    for clause in clauses:
        joined = narration.words[clause.first] in ("and", "also", "plus") or (
            narration.tokens[clause.first - 1].stop == "."
            and bool(narration.marked("customer", clause.first, clause.last))
        )
        if first < clause.first < last and _told_anew(narration, clause, edges[-1]):
            edges.append(clause.first)
        elif first < clause.first < last and joined:
            before = {m.name.name for m in narration.named(edges[-1], clause.first, "symptom")}
            after = {m.name.name for m in narration.named(clause.first, last, "symptom")}
            then = narration.words[clause.first + 1 : clause.first + 2] == ("then",)  # only what came of it
            if not before.isdisjoint(after):
                continue
            if (before and after and not then) or _tells_more(narration, clause, edges[-1]):
                edges.append(clause.first)
    return list(itertools.pairwise([*edges, last]))


def _told_anew(narration: Narration, clause: Clause, start: int) -> bool:
    """Whether a clause says once more whose words it passes on, behind a trouble that was told ("it bangs, ..., from
    what she's telling me it's mostly the bedding")."""
    anew = any(
        m.first == clause.first and narration.words[m.first] in narration.grammar.tellers
        for m in narration.marked("customer", clause.first, clause.first + 1)
    )
    return (
        anew and clause.last - clause.first > SHORTEST and bool(troubles_in(narration, start, clause.first))
    )


def _tells_more(narration: Narration, clause: Clause, start: int) -> bool:
    """Whether a clause with a subject of its own goes on to another trouble ("..., and the top rack's not getting
    washed"), of which the vocabulary need not know both; what works or once worked only sets it off."""
    words, grammar = narration.words, narration.grammar
    at = clause.first + 1
    while at < clause.last and (words[at] in PASSING or words[at] == "that"):
        at += 1
    subject = words[at : at + 1] and (words[at] in grammar.subjects or words[at] in OF_A_SUBJECT)
    verb = words[at + 1 : at + 2] and (words[at + 1] in grammar.verbs or words[at + 1] in grammar.being)
    if not (subject or verb) or clause.last - at < SHORTEST - 1:
        return False
    told = narration.marked("customer", start, clause.first)
    told += [m for m in narration.marked("complaint", start, clause.first) if m.value in ("reported", "said")]
    if not (told or troubles_in(narration, start, clause.first)):
        return False  # only says where he is
    if sets_off(narration, clause.first, clause.last):
        return False
    if "then" in words[clause.first : at]:  # mostly only what came of it
        return bool(troubles_in(narration, start, clause.first)) and bool(
            troubles_in(narration, at, clause.last)
        )
    if _tells_trouble(narration, clause.first, clause.last):
        return SET_AGAINST.isdisjoint(words[clause.first : clause.last])
    person = words[at] in PERSONS
    whens = whens_in(narration, clause.first, clause.last)
    return bool(troubles_in(narration, start, clause.first)) and not person and not whens


def _tells_trouble(narration: Narration, first: int, last: int) -> bool:
    """In what is passed on, a denial is a trouble as well ("the motor never pauses")."""
    return bool(troubles_in(narration, first, last)) or any(
        word in narration.grammar.negators for word in narration.words[first:last]
    )


def sets_off(narration: Narration, first: int, last: int) -> bool:
    """Whether a stretch tells what works, what used to be so or what a bystander did, rather than a trouble."""
    return (
        any(m.value == "good" for m in narration.marked("outcome", first, last))
        or bool(narration.marked("bystander", first, last))
        or any(narration.words[n : n + 2] == ("used", "to") for n in range(first, last))
    )


def troubles_in(narration: Narration, first: int, last: int) -> list[Mention | Mark]:
    """Symptoms of the vocabulary, and words that tell of trouble without being one ("the ice maker's quit")."""
    found: list[Mention | Mark] = [*narration.named(first, last, "symptom")]
    found += [m for m in narration.marked("outcome", first, last) if m.value == "fault"]
    found += [m for m in narration.marked("trial", first, last) if m.value == "failed"]
    found += [m for m in narration.marked("complaint", first, last) if m.value == "trouble"]
    return [
        m
        for m in found
        if narration.trade.no_trouble_before.isdisjoint(narration.words[m.last : m.last + 1])
        and "never" not in narration.words[max(first, m.first - 3) : m.first]  # "it's never been noisy"
        and narration.words[m.first - 1] not in narration.grammar.negators  # "no water on the floor"
    ]


def whens_in(narration: Narration, first: int, last: int) -> list[Mark]:
    return [m for m in narration.marked("complaint", first, last) if m.value == "when"]
