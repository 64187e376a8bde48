"""Checks: which part was found how.

An outcome belongs to the parts named just before it ("belt, pulleys and idler all good"), else to the part it
stands before ("no play in the bearing"), else to what was named last and has no outcome yet.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fieldnotes.records import Certainty, Check, Outcome
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.outcomes import Found, outcomes_in
from fieldnotes.understand.sentences import check_sentence
from fieldnotes.understand.things import Thing, heads_of, own_words, things_in


TOPIC_REACH = 1  # breaths after which "it" no longer means what was named


@dataclass
class _Memory:
    """What was named and still waits for its outcome."""

    fresh: list[Thing] = field(default_factory=list)  # named in this breath, no outcome yet
    topic: list[Thing] = field(default_factory=list)  # named last of all
    topic_breath: int = -9
    planned: list[Thing] = field(default_factory=list)  # named in a plan of this breath
    main: Thing | None = None  # the breath's main part, which takes what is said of its pieces
    carried: list[Thing] = field(default_factory=list)  # named in the breath before, no outcome yet


@dataclass(frozen=True, slots=True)
class _Link:
    thing: Thing
    found: Found
    first: int
    last: int


def checks_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> list[Check]:
    """All checks in order. `claimed` are indices of clauses that tell of something else (advice, cause ...)."""
    memory = _Memory()
    links: list[_Link] = []
    breath = -1
    for index, clause in enumerate(clauses):
        if clause.breath != breath:
            breath = clause.breath
            memory.carried, memory.fresh, memory.planned, memory.main = memory.fresh, [], [], None
        if index in claimed:
            memory.topic = things_in(narration, clause.first, clause.last) or memory.topic
            continue
        links += _clause_links(narration, clause, gone, memory)
    return _merged(narration, links)


def _clause_links(narration: Narration, clause: Clause, gone: frozenset[int], memory: _Memory) -> list[_Link]:
    things = things_in(narration, clause.first, clause.last)
    if clause.stance in ("plan", "question"):
        memory.planned += things
        if clause.stance == "question" and things:
            memory.topic = memory.carried = things
        found = [f for f in _outcomes(narration, clause, gone, memory) if f.outcome == "not tested"]
        return [_link(clause, thing, f) for f in found for thing in things or memory.planned]
    if clause.stance != "fact":
        return []
    if things and memory.main is None:
        memory.main = next((t for t in things if not t.piece), None)
    links: list[_Link] = []
    floor = clause.first
    for found in _outcomes(narration, clause, gone, memory):
        before = heads_of(narration, [t for t in things if floor <= t.first and t.last <= found.first])
        targets = _targets(narration, clause, found, before, things, memory)
        links += [_link(clause, thing, found) for thing in _without_pieces(targets, memory)]
        if targets:
            memory.topic, memory.fresh, memory.carried, memory.topic_breath = targets, [], [], clause.breath
        floor = found.last
    waiting = [t for t in things if t.first >= floor]
    if waiting:
        memory.topic, memory.topic_breath = heads_of(narration, waiting), clause.breath
        waiting = memory.topic
        memory.fresh = [*memory.fresh, *waiting] if _only_names(narration, clause, things) else waiting
    elif narration.numbers(clause.first, clause.last) and not memory.fresh:
        memory.fresh = memory.topic  # "Got twelve forty one ohms. Way high."
    return links


def _outcomes(narration: Narration, clause: Clause, gone: frozenset[int], memory: _Memory) -> list[Found]:
    """Outcomes that judge something: words of doing and of safety are none, nor is "okay" where nothing waits."""
    hidden = [m for label in ("work", "safety") for m in narration.marked(label, clause.first, clause.last)]
    first, _ = narration.breaths[clause.breath]
    waiting = bool(memory.fresh) or bool(narration.numbers(first, clause.first))
    return [
        f
        for f in outcomes_in(narration, clause, gone, hidden)
        if waiting or not (f.standing_alone and narration.words[f.first] in narration.grammar.openers)
    ]


def _targets(
    narration: Narration, clause: Clause, found: Found, before: list[Thing], things: list[Thing], memory: _Memory
) -> list[Thing]:
    if before:
        return [*memory.fresh, *before] if memory.fresh and not clause.turn else before
    after = [t for t in things if t.first >= found.last]
    inside = [t for t in things if t.first < found.last and found.first < t.last]
    recent = memory.topic if clause.breath - memory.topic_breath <= TOPIC_REACH else []
    if found.standing_alone or found.first == clause.first:
        return memory.fresh or after[:1] or inside[:1] or memory.carried or recent
    subject = own_words(narration, clause.first, found.first)
    if subject and not after:
        return [subject]
    return after[:1] or inside[:1] or memory.fresh or memory.carried or recent


def _without_pieces(things: list[Thing], memory: _Memory) -> list[Thing]:
    """Pieces give way to the main part of the breath ("terminal block, screws tight")."""
    main = memory.main
    if main is None:
        return things
    return list(dict.fromkeys(main if t.piece else t for t in things))


def _only_names(narration: Narration, clause: Clause, things: list[Thing]) -> bool:
    """Whether a clause is a bare list of things, whose outcome is still to come."""
    named = {n for t in things for n in range(t.first, t.last)}
    grammar = narration.grammar
    return all(
        n in named or narration.words[n] in grammar.determiners or narration.words[n] in grammar.openers
        for n in range(clause.first, clause.last)
    )


def _link(clause: Clause, thing: Thing, found: Found) -> _Link:
    near = thing.first if clause.first - 40 < thing.first < found.first else found.first
    first = min(near, found.first, clause.first)
    return _Link(thing, found, first if thing.first >= clause.first else clause.first, max(found.last, clause.last))


def _merged(narration: Narration, links: list[_Link]) -> list[Check]:
    """One check for each thing and breath; what was said of it there is taken together."""
    groups: dict[tuple[int, str], list[_Link]] = {}
    for link in links:
        groups.setdefault((narration.breath_of(link.found.first), link.thing.name), []).append(link)
    checks: list[Check] = []
    for (_, name), group in groups.items():
        outcome, certainty = _together([link.found for link in group])
        first, last = min(link.first for link in group), max(link.last for link in group)
        checks.append(
            Check(
                about=name,
                text=check_sentence(narration, name, outcome, certainty, first, last),
                evidence=evidence_of(narration, first, last),
                outcome=outcome,
                certainty=certainty,
            )
        )
    return checks


def _together(found: list[Found]) -> tuple[Outcome, Certainty]:
    """Several outcomes of one thing in one breath: doubt wins, then the last judgement, then a fault."""
    certainty: Certainty = "likely" if any(f.certainty == "likely" for f in found) else "certain"
    outcomes = [f.outcome for f in found]
    if "unclear" in outcomes:
        return "unclear", certainty
    judged = [f for f in found if f.outcome != "not tested"]
    if not judged:
        return "not tested", "certain"
    firm = [f for f in judged if f.firm]
    if firm:
        return firm[-1].outcome, certainty
    return ("fault" if any(f.outcome == "fault" for f in judged) else "good"), certainty
