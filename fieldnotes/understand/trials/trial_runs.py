"""What was run in a trial: a named cycle or test, the appliance itself, a heat source, or a load.

A run is told by a verb of running with its object ("ran a rinse", "gave it her duvet"), by a heading ("Short wash,
eight glasses.", "Second go, ...") or by what a named programme did ("the rinse went right through").
"""

from __future__ import annotations

from fieldnotes.understand.trials.programmes import (
    NOT_DONE,
    SELF,
    SET_AT,
    Run,
    has_verb,
    heads,
    is_of_others,
    named_runs,
    word_before,
)
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.noun_phrases import is_known, noun_phrase
from fieldnotes.understand.words.things import heads_of, things_in

WHOLE = ("it", "her", "him", "them", "that", "machine", "unit", "again", "empty", "same", "start", "for")
TURNS = ("go", "try", "attempt", "round", "around", "one", "time", "again", "more", "over")
RESISTANCE = ("ohm", "kohm", "Mohm")
BESIDES = ("also", "up", "me", "then", "him", "her")
DETERMINING = ("no", "without", "zero", "nil", "nae")
TRIED = ("tried", "try", "retried", "tested", "repeated")
ALONG = ("round", "around", "over", "through", "along", "down", "up", "into", "under", "across", "between", "from",
         "to", "off")  # fmt: skip


def runs_in(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> list[Run]:
    """What was run: a trial that is named, or the appliance, one of its heat sources or a load."""
    marks = [m for c in clauses for m in narration.marked("trial", c.first, c.last) if m.first not in gone]
    begun = [m for m in marks if m.value in ("run", "begun", "counted")]
    if any(is_of_others(narration, m.first) for m in begun):
        return []
    begun = [m for m in begun if _is_deed(narration, m)]
    return named_runs(narration, clauses, gone, begun) or _unnamed_runs(narration, clauses, begun, marks)


def _is_deed(narration: Narration, mark: Mark) -> bool:
    """Whether words of running tell what was done: not "to run it", "it's running, it doesn't ...", "nothing lit"."""
    before = word_before(narration, mark.first)
    begin, _ = narration.breaths[narration.breath_of(mark.first)]
    subject = narration.words[max(begin, mark.first - 2) : mark.first]
    if mark.value == "counted" and not narration.grammar.others.isdisjoint(subject):
        return False  # "she runs two loads a day"
    if before in NOT_DONE or before in narration.grammar.negators:
        return False
    if narration.words[mark.first].endswith("ing") and (
        before == "been" or before in narration.grammar.being
    ):
        return False
    oven = mark.rule.name != "bake" or "range" in (narration.kind or "")
    return oven and not any(narration.tokens[n].stop for n in range(mark.first, mark.last - 1))


def _unnamed_runs(
    narration: Narration, clauses: list[Clause], begun: list[Mark], marks: list[Mark]
) -> list[Run]:
    """The appliance itself, a heat source or a load."""
    first, last = clauses[0].first, clauses[-1].last
    firm = any(m.rule.strength == "firm" for m in marks)
    if any(q.unit in RESISTANCE for q in narration.numbers(first, last)):
        return []  # measured with the power off
    run = [m for m in begun if m.value != "begun" and word_before(narration, m.first) not in ("it", "her")]
    on = [
        m
        for c in clauses
        for m in narration.marked("load", c.first, c.last)
        if m.value in ("source", "mode")
        or (m.value == "place" and _cooks(narration))
        or (
            m.value == "load"
            and not any(  # "drip pan"
                p.first <= m.first and m.last <= p.last and (p.first, p.last) != (m.first, m.last)
                for p in narration.mentions
                if p.name.sort == "part"
            )
        )
    ]
    loads = [m for m in on if m.value == "load"]
    things = heads_of(narration, [t for c in clauses for t in things_in(narration, c.first, c.last)])
    repeated = "again" in narration.words[first:last]
    about = (
        " ".join(narration.words[on[0].first : on[0].last])
        if on
        else things[0].name
        if things and not repeated
        else None
    )
    about = about if on or not (things and things[0].condition) else None
    about = about or next((m.rule.name for m in run if m.rule.name), None)
    about = about or _counted_name(narration, clauses[0], run)
    for mark in begun if loads else run:
        clause = next(c for c in clauses if c.first <= mark.first < c.last)
        with_it = any(mark.first <= m.first < clause.last for m in on)
        if with_it or (mark.value == "run" and on and narration.words[mark.first] not in TRIED):
            return [Run(about, mark.first, mark.last)]
        if _is_of_whole(narration, mark) and not any(t.last <= mark.first for t in things[:1]):
            return [Run(about, mark.first, mark.last)]
    for mark in run:
        clause = next(c for c in clauses if c.first <= mark.first < c.last)
        apart = not any(t.last <= mark.first for t in things if not t.condition)
        if mark.value == "counted" and (
            firm or not things or (apart and heads(narration, clause, mark.first))
        ):
            again = narration.words[mark.last - 1] in TURNS or narration.words[mark.first] in TURNS
            timed = any(q.first == mark.first for q in narration.quantities)
            said = " ".join(narration.words[mark.first + (not timed) : mark.last])
            name = mark.rule.name or (None if again else said)
            return [Run(about if on else name, mark.first, mark.last, "heading", again and not firm)]
        if own := _programme(narration, mark, last):
            return [Run(own, mark.first, mark.last)]
    if on and narration.words[first] in SET_AT and any(m.value == "same" for m in marks):
        return [Run(about, on[0].first, on[0].last, "heading")]  # "on the rear zone his pot does the same"
    if loads and _is_heading(narration, clauses[0], loads[0]):
        return [Run(about, loads[0].first, loads[0].last, "heading")]
    return []


def _cooks(narration: Narration) -> bool:
    """Whether the appliance may have burners or zones."""
    return narration.kind is None or "range" in narration.kind or "cooktop" in narration.kind


def _counted_name(narration: Narration, clause: Clause, run: list[Mark]) -> str | None:
    """What is counted at the head of a breath ("first reheat, I let it recover"); no more than a turn has no name."""
    for mark in run:
        if mark.value == "counted" and mark.first < clause.last and heads(narration, clause, mark.first):
            noun = narration.words[mark.last - 1]
            return None if noun in TURNS else noun
    return None


def was_not_run(narration: Narration, clauses: list[Clause]) -> bool:
    """Whether the speaker says that it was not run ("self clean I didn't run", "never ran the rinse")."""
    grammar, words = narration.grammar, narration.words
    return (
        any(
            words[n] in grammar.negators
            and words[n] not in DETERMINING  # "no bother"
            and (n == clause.first or words[n - 1] in SELF)
            and any(word in narration.trade.run_verbs for word in words[n + 1 : n + 3])
            for clause in clauses
            for n in range(clause.first, clause.last)
        )
        or any(m.value == "not tested" for c in clauses for m in narration.marked("outcome", c.first, c.last))
    )


def _is_of_whole(narration: Narration, mark: Mark) -> bool:
    """Whether it is the appliance that is run ("ran it again"); what is only tried or put may be anything."""
    if mark.value != "run":
        return False
    words = narration.words[mark.first : mark.last + 1]
    return words[0] not in (*TRIED, *SELF) and any(word in WHOLE for word in words)


def _programme(narration: Narration, mark: Mark, end: int) -> str | None:
    """What was run in the speaker's own words ("ran a full dry on cottons"; not "ran a brush round it")."""
    work = any(m.first < mark.last and mark.first < m.last for m in narration.marks.get("work", ()))
    if (
        work
        or narration.words[mark.first] not in narration.trade.programme_verbs
        or narration.words[mark.last - 1] == "my"
    ):
        return None  # "ran the calibration" is work
    at = next(n for n in range(mark.first + 1, end + 1) if n == end or narration.words[n] not in BESIDES)
    phrase = noun_phrase(narration, at, end)
    if phrase is None or phrase.thing is None or phrase.matter or is_known(narration, phrase):
        return None
    through = phrase.last < end and narration.words[phrase.last] in ALONG
    return None if through and not narration.tokens[phrase.last - 1].stop else phrase.thing.name


def _is_heading(narration: Narration, clause: Clause, load: Mark) -> bool:
    """Whether a breath opens with a load and no more ("her comforter, by itself")."""
    words = narration.words[clause.first : clause.last]
    return (
        load.last <= clause.last
        and heads(narration, clause, load.first)
        and (words[0] not in narration.grammar.openers or words[0] in ("then", "now"))
        and not has_verb(narration, clause.first, clause.last)
        and not any(word in SELF for word in words)
    )
