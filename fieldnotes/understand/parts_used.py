"""Parts that were fitted, ordered or are needed, with their numbers and quantities."""

from __future__ import annotations

from typing import get_args

from fieldnotes.records import Part, PartStatus
from fieldnotes.tidy.spelled import spell
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.noun_phrases import NounPhrase, is_known, noun_phrases
from fieldnotes.understand.sentences import part_sentence
from fieldnotes.understand.things import Thing, things_in
from fieldnotes.understand.topics import Topics, topics_of
from fieldnotes.vocabulary.measures import Measures

REACH = 12  # words of a part number at most


def parts_in(
    narration: Narration,
    clauses: list[Clause],
    claimed: frozenset[int],
    gone: frozenset[int],
    fitted: dict[int, list[Thing]],
    measures: Measures,
) -> list[Part]:
    """All parts in order. `fitted`: by clause, the things that were replaced."""
    parts: list[Part] = []
    topics = Topics(narration)
    for index, clause in enumerate(clauses):
        parts += [_part(narration, clause, "fitted", thing) for thing in fitted.get(index, [])]
        if clause.stance in ("fact", "plan", "hypothetical"):
            parts += _wanted(narration, clauses, index, topics, gone, named=index in claimed)
        topics.take_in(clause)
    return _with_numbers(narration, _one_status(parts), measures)


def _wanted(
    narration: Narration, clauses: list[Clause], index: int, topics: Topics, gone: frozenset[int], named: bool
) -> list[Part]:
    """Parts ordered or needed. `named`: only those that the clause names, as it tells of something else too."""
    clause = clauses[index]
    found: list[Part] = []
    if narration.marked("bystander", clause.first, clause.last):
        return []  # "my van needs a new belt"
    if clause.stance == "hypothetical" and "if" in narration.words[clause.first : clause.last]:
        return []
    end = next(
        (c.last for c in reversed(clauses[index : index + 6]) if c.sentence == clause.sentence), clause.last
    )
    for mark in narration.marked("part", clause.first, clause.last):
        before = narration.words[max(clause.first, mark.first - 3) : mark.first]
        if mark.first in gone or any(word in narration.grammar.negators for word in before):
            continue
        if mark.value == "needed" and any(
            e.first < mark.last and mark.first < e.last
            for e in narration.marked("expected", clause.first, clause.last)
        ):
            continue  # "the tech sheet wants one to two"
        status: PartStatus = next(value for value in get_args(PartStatus) if value == mark.value)
        if status == "ordered" and clause.stance != "fact":
            continue
        things = [
            p.thing
            for p in _objects(narration, clause, mark, None if named else topics, end)
            if p.thing and (not named or is_known(narration, p))
        ]
        found += [_part(narration, clause, status, thing) for thing in things]
    return found


def _objects(
    narration: Narration, clause: Clause, mark: Mark, topics: Topics | None, end: int
) -> list[NounPhrase]:
    """What is ordered or needed: what stands behind the words, or in them, or before them; else what "it" means."""
    after = noun_phrases(narration, mark.last, end)
    if after and after[0].thing and not narration.tokens[mark.last - 1].stop:
        return after
    within = [NounPhrase(t.first, t.last, t) for t in things_in(narration, mark.first, mark.last)]
    before = topics_of(narration, clause.first, mark.first, alone=True)
    if within or before:
        return within or before[:1]
    meant = topics.before(clause, mark.first) if topics else None
    return [meant] if meant else []


def _part(narration: Narration, clause: Clause, status: PartStatus, thing: Thing) -> Part:
    counts = [
        q
        for q in narration.numbers(clause.first, thing.last)
        if q.ordinal_or_count and q.value == int(q.value) and 0 < q.value < 20 and thing.first - q.last <= 2
    ]
    return Part(
        about=thing.name,
        text=part_sentence(narration, thing.name, status, clause.first, clause.last),
        evidence=evidence_of(narration, clause.first, clause.last),
        status=status,
        quantity=int(counts[-1].value) if counts else 1,
    )


def _one_status(parts: list[Part]) -> list[Part]:
    seen: dict[tuple[str, str], Part] = {}
    for part in parts:
        seen.setdefault((part.status, part.about), part)
    return list(seen.values())


def _with_numbers(narration: Narration, parts: list[Part], measures: Measures) -> list[Part]:
    """Part numbers: a spelled string behind "part number" belongs to the part that was named last before it."""
    numbered = list(parts)
    for mark in narration.marks.get("part number", ()):
        spelled = spell(narration.tokens, mark.last, mark.last + REACH, measures)
        if spelled is None:
            continue
        breath = narration.breaths[narration.breath_of(mark.first)]
        start = narration.tokens[breath[0]].start
        near = [
            n
            for n, part in enumerate(numbered)
            if part.number is None
            and start is not None
            and part.evidence.end is not None
            and part.evidence.end > start - 8
            and (part.evidence.start or 0) <= (narration.tokens[mark.first].start or 0)
        ]
        if near:
            numbered[near[-1]] = numbered[near[-1]].model_copy(update={"number": spelled.text})
    return numbered
