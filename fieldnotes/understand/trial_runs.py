"""What was run in a trial: a named cycle or test, the appliance itself, a heat source, or a load."""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.noun_phrases import is_known, noun_phrase
from fieldnotes.understand.things import heads_of, things_in

RUN_VERBS = (
    "run",
    "ran",
    "try",
    "tried",
    "do",
    "did",
    "start",
    "started",
    "test",
    "bother",
    "put",
    "repeat",
    "power",
)
SELF = ("i", "we")
WHOLE = (
    "it",
    "her",
    "them",
    "that",
    "machine",
    "unit",
    "again",
    "empty",
    "same",
    "start",
    "for",
)  # what is run: the appliance
COUNTED = (
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "last",
    "final",
    "next",
    "another",
    "retest",
    "rerun",
    "more",
)
TURNS = ("go", "try", "attempt", "round", "around", "one")
RUNS_NAMED = ("ran", "run", "reran", "forced", "selected", "initiated", "performed", "completed")
GIVEN = ("gave", "give", "given")
TRIED = ("tried", "try", "retried", "tested", "repeated")
ALONG = (
    "round",
    "around",
    "over",
    "through",
    "along",
    "down",
    "up",
    "into",
    "under",
    "across",
    "between",
    "from",
    "to",
    "off",
)


@dataclass(frozen=True, slots=True)
class Run:
    """What was run, and the words [first, last) that say so."""

    about: str | None
    first: int
    last: int
    again: bool = False  # "second go": of what was run shortly before


def runs_in(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> list[Run]:
    """What was run: a trial that is named, or the appliance, one of its heat sources or a load."""
    first, last = clauses[0].first, clauses[-1].last
    marks = [m for c in clauses for m in narration.marked("trial", c.first, c.last) if m.first not in gone]
    others = [
        m
        for m in marks
        if m.value in ("run", "begun") and narration.words[m.first - 1] in narration.grammar.others
    ]
    if others:
        return []  # "she ran a wash last night"
    run = [m for m in marks if m.value == "run" and narration.words[m.first - 1] not in ("it", "her")]
    begun = [m for m in marks if m.value in ("run", "begun")]
    firm = any(m.rule.strength == "firm" for m in marks)
    named = [
        m
        for c in clauses
        for m in narration.named(c.first, c.last, "trial")
        if m.first not in gone
        and (narration.words[m.first - 1], narration.words[m.last - 1])
        != ("in", "mode")  # no run: "in service mode"
        and narration.words[m.first - 1] not in narration.grammar.negators  # "it wouldn't pump out"
        and (m.last - m.first > 1 or begun or firm)
        and not _is_of_part(narration, c, m.first)
    ]
    if named:
        different = {m.name.name: m for m in reversed(named)}
        both = "both" in narration.words[first:last]
        chosen = list(reversed(different.values())) if both else named[:1]
        return [Run(m.name.name, m.first, m.last) for m in chosen]
    on = [
        m
        for c in clauses
        for m in narration.marked("load", c.first, c.last)
        if m.value == "source"
        or not any(
            p.first <= m.first and m.last <= p.last and (p.first, p.last) != (m.first, m.last)
            for p in narration.mentions
            if p.name.sort == "part"
        )
    ]
    loads = [m for m in on if m.value == "load"]
    things = heads_of(narration, [t for c in clauses for t in things_in(narration, c.first, c.last)])
    repeated = "again" in narration.words[first:last]
    about = narration.words[on[0].last - 1] if on else things[0].name if things and not repeated else None
    for mark in begun if loads else run:
        clause = next(c for c in clauses if c.first <= mark.first < c.last)
        with_it = any(mark.first <= m.first < clause.last for m in on)
        if with_it or (mark.value == "run" and on and narration.words[mark.first] not in TRIED):
            return [Run(about, mark.first, mark.last)]
        if _is_of_whole(narration, mark) and not any(
            t.condition and t.last <= mark.first for t in things[:1]
        ):
            return [Run(about, mark.first, mark.last)]
    for mark in run:
        if any(word in COUNTED for word in narration.words[mark.first : mark.last]) and (firm or not things):
            return [
                Run(about, mark.first, mark.last, again=not firm and narration.words[mark.last - 1] in TURNS)
            ]
        if own := _programme(narration, mark, last):
            return [Run(own, mark.first, mark.last)]
    if loads and _is_heading(narration, clauses[0], loads[0]):
        return [Run(about, loads[0].first, loads[0].last)]
    return []


def was_not_run(narration: Narration, clauses: list[Clause]) -> bool:
    """Whether the speaker says that it was not run ("self clean I didn't run", "never ran the rinse")."""
    grammar, words = narration.grammar, narration.words
    return any(
        words[n] in grammar.negators
        and (n == clause.first or words[n - 1] in SELF)
        and any(word in RUN_VERBS for word in words[n + 1 : n + 3])
        for clause in clauses
        for n in range(clause.first, clause.last)
    ) or any(m.value == "not tested" for c in clauses for m in narration.marked("outcome", c.first, c.last))


def _is_of_whole(narration: Narration, mark: Mark) -> bool:
    """Whether it is the appliance that is run ("ran it again"); what is only tried or put may be anything."""
    if mark.value != "run":
        return False
    words = narration.words[mark.first : mark.last + 1]
    return words[0] not in (*TRIED, *COUNTED) and any(word in WHOLE for word in words)


def _is_of_part(narration: Narration, clause: Clause, at: int) -> bool:
    """Whether it is a part that is moved by hand ("gave the drum a spin")."""
    return any(
        m.value in ("run", "begun")
        and narration.words[m.first] in GIVEN
        and any(t.first < at for t in things_in(narration, m.first, at))
        for m in narration.marked("trial", clause.first, at)
    )


def _programme(narration: Narration, mark: Mark, end: int) -> str | None:
    """What was run in the speaker's own words ("ran a full dry on cottons"; not "ran a brush round it")."""
    work = any(m.first < mark.last and mark.first < m.last for m in narration.marks.get("work", ()))
    if work or narration.words[mark.first] not in RUNS_NAMED:
        return None  # "ran the calibration" is work
    phrase = noun_phrase(narration, mark.first + 1, end)
    if phrase is None or phrase.thing is None or phrase.matter or is_known(narration, phrase):
        return None
    through = phrase.last < end and narration.words[phrase.last] in ALONG
    return None if through and not narration.tokens[phrase.last - 1].stop else phrase.thing.name


def _is_heading(narration: Narration, clause: Clause, load: Mark) -> bool:
    """Whether a breath opens with a load and no more ("her comforter, by itself")."""
    words = narration.words[clause.first : clause.last]
    return (
        load.last <= clause.last
        and words[0] not in narration.grammar.openers
        and not any(
            word in narration.grammar.verbs or word in narration.grammar.being or word in SELF
            for word in words
        )
    )
