"""Words that the speaker takes back: nothing may rest on them."""

from __future__ import annotations

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.vocabulary.measures import Retractions
from fieldnotes.words import split_words

ANNOUNCING = ("part number", "model", "serial")
HEAD = 3  # words: a cue this near to a breath's start takes back the breath before


def taken_back(narration: Narration, clauses: list[Clause], cues: Retractions) -> frozenset[int]:
    """Indices of all words that do not count: what a cue ("scratch that") takes back, and what is off the record."""
    gone: set[int] = set()
    for at, end in _cues(narration, cues):
        breath = narration.breath_of(at)
        first, _ = narration.breaths[breath]
        if at - first > HEAD or _says_something(narration, first, at):
            gone |= set(range(_back_to(narration, clauses, first, at), end))
        elif breath:
            whole = [c for c in clauses if c.breath == breath - 1]
            gone |= (
                set(range(next(c.first for c in whole if c.sentence == whole[-1].sentence), end))
                if whole
                else set()
            )
    for clause in clauses:
        if clause.stance == "off record":
            gone |= _breath_or_the_one_before(narration, clause)
    return frozenset(gone)


def _says_something(narration: Narration, first: int, at: int) -> bool:
    """Whether the words before a cue name or measure something ("bottom switch, open, nah"): then they are taken
    back, not the breath before."""
    return bool(narration.named(first, at) or narration.numbers(first, at))


def _cues(narration: Narration, cues: Retractions) -> list[tuple[int, int]]:
    forms = [tuple(split_words(phrase)) for phrase in cues.takes_back]
    words, tokens = narration.words, narration.tokens
    answers = [
        (n, n + 1)
        for n in range(1, len(words))
        if words[n] in cues.no
        and tokens[n].stop == ","
        and tokens[n - 1].stop == ","
        and tokens[n].breath == tokens[n - 1].breath
        and words[n - 1] not in cues.calls
        and not _is_said_to_somebody(narration, n, cues)
    ]  # "it's blown, no, ..."
    said = [
        (n, n + len(f))
        for n in range(len(words))
        for f in forms
        if words[n] == f[0]
        and words[n : n + len(f)] == f
        and (words[n + len(f) : n + len(f) + 1] or ("",))[0] not in cues.keeps
    ]
    return answers + [
        (n, end)
        for n, end in said
        if not any(tokens[k].stop and words[k] not in cues.no for k in range(n, end - 1))
    ]


def _is_said_to_somebody(narration: Narration, at: int, cues: Retractions) -> bool:
    """Whether a short breath asks somebody for a thing ("Please, the flashlight, no, the other one")."""
    first, _ = narration.breaths[narration.breath_of(at)]
    return at - first <= HEAD and narration.words[first] in cues.calls


def _back_to(narration: Narration, clauses: list[Clause], first: int, end: int) -> int:
    """Start of the last clause before `end` that says something (more than two words), or what announces a number
    that is being spelled ("part seven, four, dash, no, no dash")."""
    start = first
    for clause in reversed(clauses):
        if first <= clause.first < end and min(clause.last, end) - clause.first > 2:
            start = clause.first
            break
    spelling = [m.first for label in ANNOUNCING for m in narration.marked(label, start, end)]
    return max([start, *spelling])


def _breath_or_the_one_before(narration: Narration, clause: Clause) -> set[int]:
    """An off-the-record breath; where it says nothing else, the breath before it is meant."""
    first, last = narration.breaths[clause.breath]
    gone = set(range(first, last))
    cue_words = sum(m.last - m.first for m in narration.marked("off record", first, last))
    if clause.breath and last - first - cue_words <= HEAD:
        gone |= set(range(*narration.breaths[clause.breath - 1]))
    return gone
