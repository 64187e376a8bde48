"""Fault codes that were shown or recalled, and that there were none."""

from __future__ import annotations

import re

from fieldnotes.records import Code
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.sentences import code_sentence

DEFAULT_SHAPE = re.compile(r"[A-Z]{1,2}-?\d{1,3}[A-Z]?")


def codes_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int], shapes: tuple[str, ...]
) -> tuple[list[Code], frozenset[int]]:
    """All codes in order, and the clauses that tell them."""
    found: list[Code] = []
    used: set[int] = set()
    for index, clause in enumerate(clauses):
        if index in claimed or clause.stance not in ("fact", "customer"):
            continue
        shown = [
            s.text
            for s in narration.spelled
            if clause.first <= s.first < clause.last and s.first not in gone and _fits(s.text, shapes)
        ]
        if shown and _spoken_of_codes(narration, clause):
            used.add(index)
            found += [_code(narration, clause, text) for text in shown]
        elif any(m.first not in gone for m in narration.marked("code", clause.first, clause.last)):
            used.add(index)
            found.append(_code(narration, clause, "none"))
    return _once(found), frozenset(used)


def _fits(text: str, shapes: tuple[str, ...]) -> bool:
    return any(re.fullmatch(shape, text) for shape in shapes) if shapes else bool(DEFAULT_SHAPE.fullmatch(text))


def _spoken_of_codes(narration: Narration, clause: Clause) -> bool:
    first, last = narration.breaths[clause.breath]
    return bool(narration.marked("code cue", first, last))


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
        near = kept and kept[-1].code == code.code and (code.evidence.start or 0) - (kept[-1].evidence.end or 0) < 2
        if not near:
            kept.append(code)
    return kept
