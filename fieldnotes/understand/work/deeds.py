"""Deeds: verbs of doing that tell of something done here, each with what the verb governs, or what "it" means.

A verb that governs nothing tells of no deed.
"""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.noun_phrases import LISTED, NounPhrase, noun_phrase
from fieldnotes.understand.words.things import things_in
from fieldnotes.understand.work.doers import was_done, was_long_ago
from fieldnotes.understand.work.governed import ALSO, governed
from fieldnotes.understand.work.topics import Topics

NOTED = ("one", "two", "three", "four", "number", "quantity", "with", "too", "fitted")
MACHINES = ("machine", "unit", "appliance")


@dataclass(frozen=True, slots=True)
class Deed:
    """What was done (`mark`) and to what. `named`: the words name it; otherwise it was found for a pronoun."""

    mark: Mark
    objects: list[NounPhrase]
    named: bool


def deeds_in(
    narration: Narration, clauses: list[Clause], index: int, topics: Topics, gone: frozenset[int]
) -> list[Deed]:
    """The deeds that a clause tells of."""
    clause = clauses[index]
    if was_long_ago(clauses, index, narration):
        return []
    end = _sentence_end(clauses, index)
    found: list[Deed] = []
    for mark in _told(narration, clause):
        if mark.first in gone or not was_done(narration, clauses, index, mark):
            continue
        if any(deed.mark.value == mark.value and mark.first < deed.mark.last for deed in found):
            continue
        phrases = governed(narration, clauses, index, mark, end)
        meant: NounPhrase | None = None
        if phrases is None:
            stray = topics.stray(clause, mark.first) if mark.value == "removed" else None
            meant = stray or topics.here(clause.breath)
        elif phrases and phrases[0].pronoun:
            meant = _meant(narration, topics, clause, mark, phrases[0])
        if meant or phrases:
            named = bool(phrases) and not (phrases and phrases[0].pronoun)
            found.append(Deed(mark, [meant] if meant else phrases or [], named))
    if not found and (out := _told_to_be_out(narration, clauses, index)):
        found.append(out)
    if not found and _is_noted(narration, clauses, index):
        for mark in narration.marked("new part", clause.first, clause.last)[:1]:
            things = things_in(narration, mark.first, mark.last)
            found.append(Deed(mark, [NounPhrase(t.first, t.last, t) for t in things], named=True))
    return found


def _told(narration: Narration, clause: Clause) -> list[Mark]:
    """The verbs of doing, and the results that tell of a deed ("that's in now"); of two that overlap the longer."""
    marks = [m for label in ("work", "result") for m in narration.marked(label, clause.first, clause.last)]
    longest: list[Mark] = []
    for mark in sorted(marks, key=lambda m: m.first - m.last):
        if not any(m.first < mark.last and mark.first < m.last for m in longest):
            longest.append(mark)
    return sorted(longest, key=lambda m: m.first)


def _is_noted(narration: Narration, clauses: list[Clause], index: int) -> bool:
    """Whether a sentence without any verb notes a new part as an invoice does: with how many, or with its number ("New
    clamp on the hose, one.")."""
    grammar, words = narration.grammar, narration.words
    same = [c for c in clauses[max(0, index - 1) : index + 10] if c.sentence == clauses[index].sentence]
    first, last = clauses[index].first, same[-1].last
    while first < last and words[first] in grammar.openers:
        first += 1
    mark = next(iter(narration.marked("new part", first, first + 1)), None)
    if mark is None or same[0] is not clauses[index] or any(c.stance != "fact" for c in same):
        return False
    rest = words[mark.last : last]
    if _goes_on_from_new(narration, clauses, index):
        own = narration.words[mark.last : clauses[index].last]
        return grammar.being.isdisjoint(own) and grammar.modals.isdisjoint(own)
    if any(w in grammar.being or w in grammar.modals for w in rest) or narration.marked("part", first, last):
        return False
    return any(w in NOTED for w in rest) and not any(q.unit for q in narration.numbers(mark.last, last))


def _goes_on_from_new(narration: Narration, clauses: list[Clause], index: int) -> bool:
    """Whether a breath that opens with "and" or "plus" goes on from one that told of something replaced ("... a new
    block in. | And a brand new cord")."""
    clause = clauses[index]
    begin, _ = narration.breaths[clause.breath]
    before = [c for c in clauses[max(0, index - 12) : index] if c.breath == clause.breath - 1]
    return (
        clause.first == begin
        and narration.words[begin] in ALSO
        and bool(before)
        and before[-1].stance == "fact"
        and any(m.value == "replaced" for m in narration.marked("work", before[0].first, before[-1].last))
    )


def _told_to_be_out(narration: Narration, clauses: list[Clause], index: int) -> Deed | None:
    """What a sentence without a verb notes as taken out of a part ("Two coins and a hair grip out of the sump")."""
    words, clause = narration.words, clauses[index]
    first = next(c.first for c in clauses[max(0, index - 4) : index + 1] if c.sentence == clause.sentence)
    for mark in narration.marked("taken out", clause.first, clause.last):
        if words[mark.last - 1] in ("the", "its", "that"):
            continue  # out of something that is no part: "plugs out of the wall"
        things: list[NounPhrase] = []
        at = first
        while at < mark.first:
            phrase = noun_phrase(narration, at, mark.first)
            if phrase is None or phrase.thing is None or not (phrase.indefinite or phrase.matter):
                return None
            if words[phrase.last - 1] in (*MACHINES, *(narration.kind or "").split()):
                return None  # "dryer out of its slot"
            things.append(phrase)
            at = phrase.last
            while at < mark.first and words[at] in LISTED:
                at += 1
        if things and at == mark.first and words[things[0].last - 1] not in narration.trade.bites:
            return Deed(mark, things, named=True)
    return None


def _sentence_end(clauses: list[Clause], index: int) -> int:
    same = [c for c in clauses[index : index + 12] if c.sentence == clauses[index].sentence]
    return same[-1].last


def _meant(
    narration: Narration, topics: Topics, clause: Clause, mark: Mark, phrase: NounPhrase
) -> NounPhrase | None:
    """What a pronoun means: where something was taken out, what does not belong there."""
    at = phrase.last - 1
    if mark.value == "replaced" and not narration.trade.stand_ins.isdisjoint(
        narration.words[mark.first : mark.last]
    ):
        return topics.cut_to_length(clause)  # "a fresh piece"
    stray = topics.stray(clause, at) if mark.value == "removed" else None
    return stray or topics.before(clause, at)
