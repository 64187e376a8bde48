"""Breaths -> clauses, each with how it stands to the facts of this visit.

A clause ends at a stop, a joining word, or where a new subject opens without one, since recognised speech has no
punctuation that can be trusted. A stance ("if ...", "the last fellow ...") holds from its cue to the end of the
sentence or until the speaker turns ("but", "anyway", "so I").
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace
from typing import Literal

from fieldnotes.tidy.text import SENTENCE_ENDS
from fieldnotes.understand.words.narration import Mark, Narration

Stance = Literal[
    "fact", "plan", "hypothetical", "general", "history", "customer", "question", "off record"
]  # fmt: skip
# Strongest first, where cues of several stances stand in one clause.
STANCES: tuple[Stance, ...] = (
    "off record",
    "question",
    "history",
    "hypothetical",
    "customer",
    "plan",
    "general",
)


MOST_ADJECTIVES = 2  # words between "a" and the part's name
TOLD = ("customer", "history")  # stances of what others told
HAVING = (
    "needs",
    "need",
    "wants",
    "want",
    "got",
    "get",
    "put",
    "ordered",
    "ordering",
    "fitted",
    "found",
    "'ve",
)
RELATIVES = ("which", "when", "where", "how", "what", "who")


@dataclass(frozen=True, slots=True)
class Clause:
    """Words [first, last) of one breath. `sentence` numbers the stretches between full stops."""

    first: int
    last: int
    breath: int
    sentence: int
    stance: Stance
    turn: bool  # the speaker turns here


def clauses_of(narration: Narration) -> list[Clause]:
    """All clauses in order."""
    found: list[Clause] = []
    sentence = 0
    for breath, (first, last) in enumerate(narration.breaths):
        for start, end in _sentences(narration, first, last):
            edges = [start, *(n for n in range(start + 1, end) if _opens(narration, n, start)), end]
            found += _with_stances(narration, list(itertools.pairwise(edges)), breath, sentence)
            sentence += 1
    return found


def _sentences(narration: Narration, first: int, last: int) -> list[tuple[int, int]]:
    if first == last:
        return []  # nothing but fillers was said
    ends = [n + 1 for n in range(first, last) if narration.tokens[n].stop in SENTENCE_ENDS or n == last - 1]
    return list(zip([first, *ends[:-1]], ends, strict=True))


def _opens(narration: Narration, at: int, start: int) -> bool:
    """Whether a new clause starts at a word."""
    grammar, words = narration.grammar, narration.words
    word, before = words[at], words[at - 1]
    after = words[at + 1] if at + 1 < len(words) else ""
    if at in narration.inside:
        return False  # "two hundred and thirty eight"
    if narration.tokens[at - 1].stop in (",", ":"):
        return True
    if word in grammar.joiners:
        return before not in grammar.joiners_not_after and after not in grammar.joiners_not_before.get(
            word, ()
        )
    if (
        _new_thing_opens(narration, at, start)
        or _judgement_opens(narration, at)
        or _all_done_opens(narration, at, start)
    ):
        return True
    if word in grammar.subjects and before not in grammar.subjects_not_after and at - start > 1:
        return after in grammar.verbs or (after.endswith("ed") and len(after) > 3)
    return False


def _judgement_opens(narration: Narration, at: int) -> bool:
    """Whether a judgement follows a measured value without a stop between ("nine point eight ohms | good")."""
    return at in narration.measured and any(
        m.value in ("good", "fault") for m in narration.marked("outcome", at, at + 1)
    )


def _all_done_opens(narration: Narration, at: int, start: int) -> bool:
    """Whether "all cleaned out" follows a list of what was found without a comma ("two pins and a button | all cleaned
    out now"): no verb and no part of the appliance stands right before it."""
    grammar, words = narration.grammar, narration.words
    if words[at] != "all" or at - start < 2:
        return False
    done = any(m.rule.form == "done" and m.first == at + 1 for m in narration.marked("work", at + 1, at + 2))
    begin = at
    while begin > start and not narration.tokens[begin - 1].stop and words[begin - 1] not in grammar.joiners:
        begin -= 1
    parts = [
        m
        for m in narration.named(begin, at)
        if m.last == at and m.name.name not in narration.trade.foreign_matter
    ]
    verbs = grammar.being | grammar.verbs | grammar.pronouns | grammar.subjects
    return done and begin < at and not parts and verbs.isdisjoint(words[begin:at])


def _new_thing_opens(narration: Narration, at: int, start: int) -> bool:
    """Whether a part opens a new clause without a joining word ("... it every time | flame's blue"): it has its
    own verb, and another part was named before it."""
    words, grammar = narration.words, narration.grammar
    ends = [m.last for m in narration.named(at, at + 8) if m.first == at]
    if any(m.last == at for m in narration.named(max(0, at - 6), at)):
        return False  # "lock coil" is one name
    if not ends or words[at - 1] in grammar.prepositions or words[at - 1] in grammar.determiners:
        return False
    verb = words[ends[0]] if ends[0] < len(words) else ""
    judged = any(m.last == at for m in narration.marked("outcome", max(start, at - 4), at))
    return (verb in grammar.being or judged) and bool(narration.named(start, at))


def _is_rhetorical(narration: Narration, first: int, last: int) -> bool:
    """Whether a sentence only sounds like a question: "receipt's on the fridge, would you believe, March 2021?"."""
    return any(
        not narration.grammar.rhetorical.isdisjoint(narration.words[mark.first : mark.last])
        for mark in narration.marked("pseudo", first, last)
    )


def _with_stances(
    narration: Narration, spans: list[tuple[int, int]], breath: int, sentence: int
) -> list[Clause]:
    first, last = spans[0][0], spans[-1][1]
    marks = {stance: _cues(narration, stance, first, last) for stance in STANCES}
    asked = narration.tokens[last - 1].stop == "?" and not _is_rhetorical(narration, first, last)
    clauses: list[Clause] = []
    held: Stance = "fact"
    for start, end in spans:
        unsaid = is_yet_to_be_said(narration, start)
        own: Stance | None = next(
            (
                s
                for s in STANCES
                if s != "question"
                and any(start <= m.first < end for m in marks[s])
                and not (unsaid and s == "customer")
            ),
            None,
        )
        if asked or any(
            _asks(narration, first, start, m) for m in marks["question"] if start <= m.first < end
        ):
            own = "question"
        turn = _turns(narration, start, end)
        if turn:
            held = "fact"
        own = own or ("general" if _speaks_of_any(narration, start, end) else None)
        stance = own or _carried(narration, held, start)
        if own and own != "plan":
            held = own
        elif own == "plan":
            held = "plan"
        elif stance == "fact":
            held = "fact"
        clauses.append(Clause(start, end, breath, sentence, stance, turn))
    if len(clauses) > 1 and _only_names_the_teller(narration, clauses[-1]):
        return [replace(c, stance=clauses[-1].stance) if c.stance == "fact" else c for c in clauses]
    return clauses


def is_yet_to_be_said(narration: Narration, start: int) -> bool:
    """Whether the clause that starts at a word only says what somebody may yet say ("before she tells me off")."""
    return narration.words[start] in narration.grammar.not_yet and bool(
        narration.marked("customer", start, start + 2)
    )


def _only_names_the_teller(narration: Narration, clause: Clause) -> bool:
    """Whether a sentence's last clause only says whose words the rest is ("it never leaked, she says")."""
    return clause.stance in TOLD and any(
        _at_head(narration, clause.first, mark.first) and mark.last == clause.last
        for mark in narration.marked(clause.stance, clause.first, clause.last)
    )


def _speaks_of_any(narration: Narration, start: int, end: int) -> bool:
    """Whether the subject is any such part at all ("a bad inlet valve floods the pan") rather than this one."""
    words, grammar = narration.words, narration.grammar
    first = next((n for n in range(start, end) if words[n] not in grammar.openers), end)
    if first >= end or words[first] not in ("a", "an", "any"):
        return False
    return any(
        mention.first <= first + 1 + MOST_ADJECTIVES
        and mention.last < len(words)
        and not narration.tokens[mention.last - 1].stop
        and (words[mention.last] in grammar.modals or _in_the_present(words[mention.last], grammar.being))
        for mention in narration.named(first + 1, end)
    )


def _in_the_present(word: str, being: frozenset[str]) -> bool:
    """Whether a word behind a singular noun is its verb ("floods"); one of being says how this one is."""
    return word.endswith("s") and len(word) > 3 and word not in being


def _carried(narration: Narration, held: Stance, start: int) -> Stance:
    """What an earlier cue means for a clause without its own. A plan or question ends with its clause's subject."""
    if held in ("plan", "question"):
        word = narration.words[start]
        if word in ("that", "which", "who") and not narration.tokens[start - 1].stop:
            return held  # "was it the heater | that cooked the relay"
        after = narration.words[start + 1] if start + 1 < len(narration.words) else ""
        following = narration.words[start + 1 : start + 3]
        if any(w.endswith("ed") and not w.endswith("eed") and len(w) > 4 for w in following):
            return "fact"  # "... and then checked the valve"
        if (
            held == "plan"
            and word in ("and", "or", "before", "while", "then", "after", "once", "when", "as", "to")
            and (after not in narration.grammar.subjects)
        ):
            return held
        return "fact"
    return held


def _cues(narration: Narration, label: str, first: int, last: int) -> list[Mark]:
    """Marks of a stance, less those that a longer phrase of another meaning hides ("customer say", "I'd say")."""
    harmless = narration.marked("pseudo", first, last)
    others = [m for stance in STANCES if stance != label for m in narration.marked(stance, first, last)]
    return [
        mark
        for mark in narration.marked(label, first, last)
        if not any(
            p.first <= mark.first < p.last and p.last - p.first >= mark.last - mark.first for p in harmless
        )
        and not any(o.first <= mark.first and mark.last <= o.last and _longer(o, mark) for o in others)
        and not (label == "general" and _is_an_object(narration, mark))
    ]


def _is_an_object(narration: Narration, mark: Mark) -> bool:
    """Whether "a bulb, ... they'll" opens with the object of a verb ("it needs a bulb"): then it speaks of this one."""
    words = narration.words
    return words[mark.first] in ("a", "an", "any") and mark.first > 0 and words[mark.first - 1] in HAVING


def _longer(one: Mark, other: Mark) -> bool:
    return one.last - one.first > other.last - other.first


def _asks(narration: Narration, sentence: int, start: int, mark: Mark) -> bool:
    """Whether a question's words stand where they ask: at the head of a clause; "which", "how" and the like only
    at the head of the sentence ("..., which is fine" asks nothing)."""
    if mark.first > start and narration.words[mark.first - 1] == "there":
        return False  # "there aren't any"
    relative = narration.words[mark.first] in RELATIVES
    return _at_head(narration, sentence if relative else start, mark.first)


def _at_head(narration: Narration, start: int, at: int) -> bool:
    """Whether only openers ("okay so") stand before a word of the clause."""
    return all(word in narration.grammar.openers for word in narration.words[start:at])


def _turns(narration: Narration, start: int, end: int) -> bool:
    return any(_at_head(narration, start, mark.first) for mark in narration.marked("turn", start, end))
