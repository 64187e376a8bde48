"""What was run in a trial: a named cycle or test, the appliance itself, a heat source, or a load.

A run is told by a verb of running with its object ("ran a rinse", "gave it her duvet"), by a heading ("Short wash,
eight glasses.", "Second go, ...") or by what a named programme did ("the rinse went right through").
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.noun_phrases import is_known, noun_phrase
from fieldnotes.understand.things import heads_of, things_in

RUN_VERBS = ("run", "ran", "try", "tried", "do", "did", "start", "started", "test", "bother", "put", "repeat")
SELF = ("i", "we")
WHOLE = ("it", "her", "him", "them", "that", "machine", "unit", "again", "empty", "same", "start", "for")
TURNS = ("go", "try", "attempt", "round", "around", "one", "time", "again", "more", "over")
ADVERBS = (
    "then",
    "now",
    "just",
    "never",
    "still",
    "also",
    "only",
    "really",
    "already",
    "honestly",
    "set",
    "cut",
)
DEEDS = ("lit", "made", "drew", "put", "reran", "relit", "boil")
OWN_WORDS = 4  # words of a programme that the vocabulary does not know
RESISTANCE = ("ohm", "kohm", "Mohm")
ENDS = ("passed", "failed", "unclear")
RUNS_NAMED = (
    "heated",
    "boiled",
    "cooked",
    "warmed",
    "baked",
    "roasted",
    "microwaved",
    "reheated",
    "ran",
    "run",
    "reran",
    "forced",
    "selected",
    "initiated",
    "performed",
    "completed",
)
BESIDES = ("also", "up", "me", "then", "him", "her")
DETERMINING = ("no", "without", "zero", "nil", "nae")
GIVEN = ("gave", "give", "given")
TRIED = ("tried", "try", "retried", "tested", "repeated")
ALONG = ("round", "around", "over", "through", "along", "down", "up", "into", "under", "across", "between", "from",
         "to", "off")  # fmt: skip
WITHIN = ("in", "during", "after", "before", "under", "until", "till", "of", "like", "than", "between", "from",
          "by", "into", "or")  # fmt: skip
NOT_DONE = ("to", "will", "'ll", "can", "could", "would", "should", "must", "not", "you", "does", "do", "did")
QUANTIFIED = ("same", "another", "again", "full", "whole", "complete", "half", "long", "short", "hot", "cold", "wet",
              "empty", "quick", "ordinary", "plain", "proper", "actual", "loaded", "decent", "good", "big")  # fmt: skip
Told = Literal["verb", "heading", "subject"]


@dataclass(frozen=True, slots=True)
class Run:
    """What was run, and the words [first, last) that say so."""

    about: str | None
    first: int
    last: int
    told: Told = "verb"
    again: bool = False  # "second go": of what was run shortly before


def runs_in(narration: Narration, clauses: list[Clause], gone: frozenset[int]) -> list[Run]:
    """What was run: a trial that is named, or the appliance, one of its heat sources or a load."""
    marks = [m for c in clauses for m in narration.marked("trial", c.first, c.last) if m.first not in gone]
    begun = [m for m in marks if m.value in ("run", "begun", "counted")]
    if any(_before(narration, m.first) in narration.grammar.others for m in begun):
        return []  # "she ran a wash last night"
    begun = [m for m in begun if _is_deed(narration, m)]
    return _named_runs(narration, clauses, gone, begun) or _unnamed_runs(narration, clauses, begun, marks)


def _before(narration: Narration, at: int) -> str:
    """The word before one, if no stop and no other breath parts them; else nothing."""
    begin, _ = narration.breaths[narration.breath_of(at)]
    return "" if at == begin or narration.tokens[at - 1].stop else narration.words[at - 1]


def _is_deed(narration: Narration, mark: Mark) -> bool:
    """Whether words of running tell what was done: not "to run it", "it's running, it doesn't ...", "nothing lit"."""
    before = _before(narration, mark.first)
    if before in NOT_DONE or before in narration.grammar.negators:
        return False
    if narration.words[mark.first].endswith("ing") and (
        before == "been" or before in narration.grammar.being
    ):
        return False
    oven = mark.rule.name is None or "range" in (narration.kind or "")
    return oven and not any(narration.tokens[n].stop for n in range(mark.first, mark.last - 1))


def _named_runs(
    narration: Narration, clauses: list[Clause], gone: frozenset[int], begun: list[Mark]
) -> list[Run]:
    """Programmes and tests that are named as run."""
    runs = [
        Run(name, first, last, told)
        for clause in clauses
        for name, first, last in _programmes(narration, clause)
        if first not in gone
        and not _is_place(narration, first, begun)
        and _before(narration, first) not in narration.grammar.negators  # "it wouldn't pump out"
        and not _is_of_part(narration, clause, first)
        and (told := _how_told(narration, clauses, clause, first, last, begun))
    ]
    both = any("both" in narration.words[c.first : c.last] for c in clauses)
    different = list({run.about: run for run in reversed(runs)}.values())[::-1]
    return different if both else runs[:1]


def _programmes(narration: Narration, clause: Clause) -> list[tuple[str, int, int]]:
    """The programmes in a clause: named by the vocabulary, or in the speaker's own words ("a forty wash")."""
    named = [(m.name.name, m.first, m.last) for m in narration.named(clause.first, clause.last, "trial")]
    known = {n for m in narration.mentions for n in range(m.first, m.last)}
    own: list[tuple[str, int, int]] = []
    for mark in narration.marked("load", clause.first, clause.last):
        if mark.value not in ("programme", "mode") or not known.isdisjoint(range(mark.first, mark.last)):
            continue
        first = mark.first
        while (
            mark.value == "programme"
            and first > clause.first
            and mark.last - first < OWN_WORDS
            and _describes(narration, first - 1)
        ):
            first -= 1
        whole = mark.last - first > 1 or (mark.value == "mode" and _before(narration, first) == "the")
        if whole and known.isdisjoint(range(first, mark.last)):
            own.append((" ".join(narration.words[first : mark.last]), first, mark.last))
    return sorted([*named, *own], key=lambda programme: programme[1])


def _describes(narration: Narration, at: int) -> bool:
    """Whether a word may stand before the noun of a programme as part of its name."""
    grammar, word = narration.grammar, narration.words[at]
    return not (
        narration.tokens[at].stop
        or word in grammar.openers
        or word in grammar.determiners
        or word in grammar.prepositions
        or word in grammar.verbs
        or word in grammar.being
        or word in grammar.pronouns
        or word in grammar.negators
        or word in SELF
        or word in NOT_DONE
        or word in RUN_VERBS
    )


def _how_told(
    narration: Narration, clauses: list[Clause], clause: Clause, first: int, last: int, begun: list[Mark]
) -> Told | None:
    """How a breath says that a programme was run, if it does."""
    if any(clause.first <= m.first <= first for m in begun) or _is_verb(narration, first):
        return "verb"
    end = narration.breaths[clause.breath][1] if last - first > 1 else clause.last
    ended = any(
        m.value in ENDS and not first <= m.first < last for m in narration.marked("trial", clause.first, end)
    )
    if not (_heads(narration, clause, first) and _opens_sentence(narration, clauses, clause)):
        return "verb" if begun or (ended and last - first > 1) else None  # "sounded in the alarm test"
    if _stands_apart(narration, clause, last):
        return "heading"
    judged = last - first > 1 and any(
        m.value == "good" for m in narration.marked("outcome", last, clause.last)
    )
    return "subject" if ended or judged else None


def _is_verb(narration: Narration, at: int) -> bool:
    """Whether the name of a trial is told as a deed ("lit the left front")."""
    word = narration.words[at]
    return word in RUN_VERBS or word in DEEDS or word.endswith("ed")


def _stands_apart(narration: Narration, clause: Clause, last: int) -> bool:
    """Whether no verb makes a programme its subject: "Short wash, eight glasses", "rinse with nothing in it"."""
    grammar, words = narration.grammar, narration.words
    if _has_verb(narration, last, clause.last):
        return bool(narration.tokens[last - 1].stop)
    after = words[last] if last < clause.last else ""
    return (
        (not after and narration.words[last : last + 1] not in (("and",), ("or",)))
        or bool(narration.tokens[last - 1].stop)
        or after in grammar.prepositions
        or after in grammar.negators
        or after in grammar.determiners
        or any(q.first == last for q in narration.quantities)
    )


def _has_verb(narration: Narration, first: int, last: int) -> bool:
    """Whether a verb stands in the words [first, last)."""
    grammar = narration.grammar
    return any(
        word in grammar.being or (word in grammar.verbs and word not in ADVERBS)
        for word in narration.words[first:last]
    )


def _opens_sentence(narration: Narration, clauses: list[Clause], clause: Clause) -> bool:
    """Whether no other thing is spoken of before a clause in its sentence."""
    first = min(c.first for c in clauses if c.sentence == clause.sentence)
    return not any(
        m.first < clause.first and m.name.sort in ("part", "trial")
        for m in narration.mentions
        if first <= m.first < clause.first
    )


def _heads(narration: Narration, clause: Clause, at: int) -> bool:
    """Whether only words that open a sentence or count stand before a word of the clause."""
    grammar = narration.grammar
    counts = {n for q in narration.numbers(clause.first, at) for n in range(q.first, q.last)}
    return all(
        n in counts
        or narration.words[n] in grammar.openers
        or narration.words[n] in grammar.determiners
        or narration.words[n] in QUANTIFIED
        for n in range(clause.first, at)
    )


def _is_place(narration: Narration, first: int, begun: list[Mark]) -> bool:
    """Whether a programme only says when or where ("it hit sixty in the main wash", "in service mode")."""
    for n in range(first - 1, max(-1, first - 4), -1):
        if narration.tokens[n].stop or any(m.first <= n < m.last for m in begun):
            return False
        if narration.words[n] in WITHIN:
            return True
        if narration.words[n] not in narration.grammar.determiners and narration.words[n] not in QUANTIFIED:
            return False
    return False


def _unnamed_runs(
    narration: Narration, clauses: list[Clause], begun: list[Mark], marks: list[Mark]
) -> list[Run]:
    """The appliance itself, a heat source or a load."""
    first, last = clauses[0].first, clauses[-1].last
    firm = any(m.rule.strength == "firm" for m in marks)
    if any(q.unit in RESISTANCE for q in narration.numbers(first, last)):
        return []  # measured with the power off
    run = [m for m in begun if m.value != "begun" and _before(narration, m.first) not in ("it", "her")]
    on = [
        m
        for c in clauses
        for m in narration.marked("load", c.first, c.last)
        if m.value in ("source", "mode")
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
            firm or not things or (apart and _heads(narration, clause, mark.first))
        ):
            again = narration.words[mark.last - 1] in TURNS or narration.words[mark.first] in TURNS
            timed = any(q.first == mark.first for q in narration.quantities)
            name = None if again else " ".join(narration.words[mark.first + (not timed) : mark.last])
            return [Run(about if on else name, mark.first, mark.last, "heading", again and not firm)]
        if own := _programme(narration, mark, last):
            return [Run(own, mark.first, mark.last)]
    if loads and _is_heading(narration, clauses[0], loads[0]):
        return [Run(about, loads[0].first, loads[0].last, "heading")]
    return []


def was_not_run(narration: Narration, clauses: list[Clause]) -> bool:
    """Whether the speaker says that it was not run ("self clean I didn't run", "never ran the rinse")."""
    grammar, words = narration.grammar, narration.words
    return (
        any(
            words[n] in grammar.negators
            and words[n] not in DETERMINING  # "no bother"
            and (n == clause.first or words[n - 1] in SELF)
            and any(word in RUN_VERBS for word in words[n + 1 : n + 3])
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
    if work or narration.words[mark.first] not in RUNS_NAMED or narration.words[mark.last - 1] == "my":
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
        and _heads(narration, clause, load.first)
        and (words[0] not in narration.grammar.openers or words[0] in ("then", "now"))
        and not _has_verb(narration, clause.first, clause.last)
        and not any(word in SELF for word in words)
    )
