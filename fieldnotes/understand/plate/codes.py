"""Fault codes that were shown or recalled, and that there were none."""

from __future__ import annotations

import re
from dataclasses import replace

from fieldnotes.records import Code
from fieldnotes.tidy.spelled import spell
from fieldnotes.tidy.text import Spelled
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import code_sentence
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.vocabulary.measures import Measures

DEFAULT_SHAPE = re.compile(r"[A-Z]{1,2}-?\d{1,3}[A-Z]?")
ANNOUNCED = ("part number", "model", "serial")  # what is spelled behind these is no code
OH_BEFORE_FIGURE = re.compile(
    r"(?<=[A-Z])O(?=\d)"
)  # "F, O, 9" is F09: no code has the letter there (common practice)
LETTERS_FIRST = re.compile(r"[b-z]{1,2}(\d{1,3}[a-z]?)?")  # how a code's first word looks; "a" is an article
LONE = re.compile(r"[b-gj-z]")  # a code of one letter; "a" and "I" are words, "h" says that a zone is hot
REACH = 7  # words of a code at most ("the letter E and after that a four")
AGAIN = frozenset(("again", "same", "another", "back"))
COUNTS = (
    "times",
    "time",
    "count",
    "counts",
    "events",
)  # "F nine, one count": the number is no part of the code
EXPLAINED = ("means", "mean", "meaning", "denotes", "signifies", "stands", "refers", "indicates", "is", "'s")


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
    told = (
        none_told
    ) = -2  # the breaths that told a code, or that there is none, last; no breath is next to -2
    for breath, indices in by_breath.items():
        cues = narration.marked("code cue", *narration.breaths[breath])
        instead = breath - 1 == told and _takes_back(narration, breath, measures)
        shown = [
            (index, code)
            for index in indices
            if cues or instead or told >= 0
            for code in _shown(narration, clauses[index], gone, measures, shapes)
        ]
        if not (cues or instead):
            shown = [(i, c) for i, c in shown if _comes_again(narration, c, found)]
        kept = _not_taken_back(narration, shown, measures)
        excepted = breath - 1 == none_told and _is_the_exception(narration, breath)
        if kept and (instead or excepted):
            found.pop()
        for index, text in [(i, code.text) for i, code in kept] or _flashed(
            narration, clauses, indices, cues
        ):
            used.add(index)
            told = breath
            found.append(_code(narration, clauses[index], text))
        if shown or told == breath:
            continue
        of_memory = any(m.value == "memory" for m in cues)
        none = [i for i in indices if _says_none(narration, clauses[i], of_memory, gone)]
        used.update(none)
        none_told = breath if none else none_told
        found += [_code(narration, clauses[i], "none", _end_of_none(narration, clauses, i)) for i in none[:1]]
    return _once(found), frozenset(used)


def _takes_back(narration: Narration, breath: int, measures: Measures) -> bool:
    """Whether a breath opens by taking back what was said before it ("Wait, no, it's i two zero")."""
    first, last = narration.breaths[breath]
    cues = measures.retractions.no | set(measures.retractions.interrupts)
    return not cues.isdisjoint(narration.words[first : min(first + 2, last)])


def _can_show_none(narration: Narration, breath: int) -> bool:
    """Whether a breath says that the unit has no codes at all ("no codes, the panel doesn't do codes")."""
    return any(
        m.value == "never" and narration.words[m.first] not in narration.grammar.negators | {"any"}
        for m in narration.marked("code", *narration.breaths[breath])
    )


def _comes_again(narration: Narration, code: Spelled, told: list[Code]) -> bool:
    """Whether a code that was told before is said to come once more ("and then again E15", "the same F2")."""
    again = not AGAIN.isdisjoint(narration.words[max(0, code.first - 3) : code.first])
    return again and any(before.code == code.text for before in told)


def _is_the_exception(narration: Narration, breath: int) -> bool:
    """Whether a breath opens with what "no codes" left out ("One stored though, F12", "Only an old F8")."""
    first, last = narration.breaths[breath]
    return not narration.grammar.excepting.isdisjoint(narration.words[first : min(first + 2, last)])


def _flashed(
    narration: Narration, clauses: list[Clause], indices: list[int], cues: list[Mark]
) -> list[tuple[int, str]]:
    """A code given by counted flashes or beeps ("four flashes, a pause, two flashes" is 4-2)."""
    if not cues:
        return []
    counts: list[tuple[int, int]] = []
    for index in indices:
        clause = clauses[index]
        for mark in narration.marked("blinks", clause.first, clause.last):
            counts += [
                (index, round(q.value))
                for q in narration.numbers(mark.first, mark.last)
                if q.value == round(q.value)
            ]
    return [(counts[0][0], "-".join(str(count) for _, count in counts))] if counts else []


def _says_none(narration: Narration, clause: Clause, of_memory: bool, gone: frozenset[int]) -> bool:
    """ "No codes stored", or "it's empty" in a breath that speaks of codes or the memory."""
    marks = [m for m in narration.marked("code", clause.first, clause.last) if m.first not in gone]
    return not _can_show_none(narration, clause.breath) and any(
        m.value == "none" or (of_memory and m.value == "empty" and not _was_drained(narration, m))
        for m in marks
    )


def _was_drained(narration: Narration, mark: Mark) -> bool:
    """Whether it is water that was gone after a time ("empty in 70 seconds, pass, ... memory, empty now")."""
    return narration.words[mark.last : mark.last + 1] == ("in",) and any(
        q.first == mark.last + 1 for q in narration.quantities
    )


def _not_taken_back(
    narration: Narration, shown: list[tuple[int, Spelled]], measures: Measures
) -> list[tuple[int, Spelled]]:
    """Codes of one breath less those that a "no", "wait" or "sorry" before the next one takes back."""
    cues = measures.retractions.no | set(measures.retractions.interrupts) | {"scratch", "correction"}
    shown = [
        s for n, s in enumerate(shown) if n == 0 or shown[n - 1][1].last <= s[1].first
    ]  # "F, E, three": one
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
    begin, end = narration.breaths[clause.breath]
    if any(narration.marked(label, begin, clause.last) for label in ANNOUNCED):
        return []
    letters = {word for words in measures.spelling.code_words.values() for word in words}
    measured = {n for q in narration.numbers(clause.first, end) if q.unit for n in range(q.first, q.last)}
    at = clause.first
    while at < clause.last:
        word = narration.words[at]
        opens = (
            at not in gone and at not in measured and bool(LETTERS_FIRST.fullmatch(word) or word in letters)
        )
        spelled = _spelled(narration, at, (clause.last, end), measures, shapes) if opens else None
        if spelled is None or measured & set(range(at, spelled.last)):
            at += 1
            continue
        if not _is_explained(narration, spelled):
            codes.append(spelled)
        at = spelled.last
    return codes


def _spelled(
    narration: Narration, at: int, ends: tuple[int, int], measures: Measures, shapes: tuple[str, ...]
) -> Spelled | None:
    """The code that begins at a word: within its clause, else up to the end of its breath ("E, two, one")."""
    words = narration.words
    counted = next(
        (n - 1 for n in range(at + 2, min(at + REACH + 1, ends[1])) if words[n] in COUNTS), ends[1]
    )
    for end in ends:
        spelled = spell(narration.tokens, at, min(at + REACH, end, counted), measures)
        if spelled and spelled.first == at:
            spelled = replace(spelled, text=OH_BEFORE_FIGURE.sub("0", spelled.text))
            if _fits(spelled.text, shapes):
                return spelled
    return _lone_letter(narration, at)


def _lone_letter(narration: Narration, at: int) -> Spelled | None:
    """A code of one letter, said right behind what shows it ("flashing a U")."""
    shown = any(m.last == at and m.value == "letter" for m in narration.marked("code cue", at - 4, at))
    if not (shown and LONE.fullmatch(narration.words[at])):
        return None
    return Spelled(at, at + 1, narration.words[at].upper(), False)


def _is_explained(narration: Narration, code: Spelled) -> bool:
    """Whether a sentence only says what a code stands for ("E eleven means door lock")."""
    words = narration.words[code.last : code.last + 2]
    return bool(
        words
        and not narration.tokens[code.last - 1].stop
        and words[0] in EXPLAINED
        and (words[0] not in ("is", "'s") or words[1:] not in (("on",), ("in",), ("stored",), ("there",)))
        and not (words[0] in ("is", "'s") and words[1:] and words[1].endswith(("ing", "ed")))
    )


def _fits(text: str, shapes: tuple[str, ...]) -> bool:
    return (
        any(re.fullmatch(shape, text) for shape in shapes) if shapes else bool(DEFAULT_SHAPE.fullmatch(text))
    )


def _end_of_none(narration: Narration, clauses: list[Clause], index: int) -> int:
    """Where the clause ends in which it is said that there are none ("I cleared the codes, | and there's nothing
    stored")."""
    marks = narration.marked("code", clauses[index].first, clauses[index].last)
    last = max(m.last for m in marks if m.value in ("none", "empty"))
    return next(c.last for c in clauses[index:] if last <= c.last)


def _code(narration: Narration, clause: Clause, code: str, last: int = 0) -> Code:
    return Code(
        about="fault code",
        text=code_sentence(code),
        evidence=evidence_of(narration, clause.first, max(clause.last, last)),
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
