"""Fault codes that were shown or recalled, and that there were none."""

from __future__ import annotations

import re

from fieldnotes.records import Code
from fieldnotes.tidy.spelled import spell
from fieldnotes.tidy.text import Spelled
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.sentences import code_sentence
from fieldnotes.vocabulary.measures import Measures

DEFAULT_SHAPE = re.compile(r"[A-Z]{1,2}-?\d{1,3}[A-Z]?")
ANNOUNCED = ("part number", "model", "serial")  # what is spelled behind these is no code
LETTERS_FIRST = re.compile(r"[b-z]{1,2}(\d{1,3}[a-z]?)?")  # how a code's first word looks; "a" is an article
REACH = 5  # words of a code at most


def codes_in(
    narration: Narration,
    clauses: list[Clause],
    claimed: frozenset[int],
    gone: frozenset[int],
    measures: Measures,
    shapes: tuple[str, ...],
) -> tuple[list[Code], frozenset[int]]:
    """All codes in order, and the clauses that tell them."""
    found: list[Code] = []
    used: set[int] = set()
    by_breath: dict[int, list[int]] = {}
    for index, clause in enumerate(clauses):
        if index not in claimed and clause.stance in ("fact", "customer"):
            by_breath.setdefault(clause.breath, []).append(index)
    for breath, indices in by_breath.items():
        cues = narration.marked("code cue", *narration.breaths[breath])
        talks_of_codes = bool(cues)
        of_memory = any(m.value == "memory" for m in cues)
        shown = [
            (index, code)
            for index in indices
            if talks_of_codes
            for code in _shown(narration, clauses[index], gone, measures, shapes)
        ]
        for index, code in _not_taken_back(narration, shown, measures):
            used.add(index)
            found.append(_code(narration, clauses[index], code.text))
        if shown:
            continue
        none = [i for i in indices if _says_none(narration, clauses[i], of_memory, gone)]
        used.update(none)
        found += [_code(narration, clauses[i], "none") for i in none[:1]]
    return _once(found), frozenset(used)


def _says_none(narration: Narration, clause: Clause, of_memory: bool, gone: frozenset[int]) -> bool:
    """ "No codes stored", or "it's empty" in a breath that speaks of codes or the memory."""
    marks = [m for m in narration.marked("code", clause.first, clause.last) if m.first not in gone]
    return any(m.value == "none" or of_memory for m in marks)


def _not_taken_back(
    narration: Narration, shown: list[tuple[int, Spelled]], measures: Measures
) -> list[tuple[int, Spelled]]:
    """Codes of one breath less those that a "no", "wait" or "sorry" before the next one takes back."""
    cues = measures.retractions.no | set(measures.retractions.interrupts) | {"scratch", "correction"}
    return [
        (index, code)
        for n, (index, code) in enumerate(shown)
        if n + 1 == len(shown) or cues.isdisjoint(narration.words[code.last : shown[n + 1][1].first])
    ]


def _shown(
    narration: Narration, clause: Clause, gone: frozenset[int], measures: Measures, shapes: tuple[str, ...]
) -> list[Spelled]:
    """Codes in a clause: a letter, then figures, said one by one or as a number ("F twenty one")."""
    codes: list[Spelled] = []
    begin, _ = narration.breaths[clause.breath]
    if any(narration.marked(label, begin, clause.last) for label in ANNOUNCED):
        return []
    letters = {word for words in measures.spelling.code_words.values() for word in words}
    at = clause.first
    while at < clause.last:
        word = narration.words[at]
        opens = at not in gone and bool(LETTERS_FIRST.fullmatch(word) or word in letters)
        spelled = spell(narration.tokens, at, min(at + REACH, clause.last), measures) if opens else None
        if spelled and spelled.first == at and _fits(spelled.text, shapes):
            codes.append(spelled)
            at = spelled.last
        else:
            at += 1
    return codes


def _fits(text: str, shapes: tuple[str, ...]) -> bool:
    return (
        any(re.fullmatch(shape, text) for shape in shapes) if shapes else bool(DEFAULT_SHAPE.fullmatch(text))
    )


def _code(narration: Narration, clause: Clause, code: str) -> Code:
    return Code(
        about="fault code",
        text=code_sentence(code),
        evidence=evidence_of(narration, clause.first, clause.last),
        code=code,
    )


def _once(codes: list[Code]) -> list[Code]:
    """A code said again in the same or the next breath is not shown twice."""
    kept: list[Code] = []
    for code in codes:
        near = (
            kept
            and kept[-1].code == code.code
            and (code.evidence.start or 0) - (kept[-1].evidence.end or 0) < 2
        )
        if not near:
            kept.append(code)
    return kept
