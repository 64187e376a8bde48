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
from fieldnotes.understand.things import (
    Thing,
    bare_name,
    heads_of,
    own_words,
    speaks_of_bystanders,
    things_in,
)

OPEN = ("not tested", "unclear")
PRONOUN_REACH = 2  # breaths over which "it" still points back
TOPIC_REACH = 1  # breaths after which "it" no longer means what was named


@dataclass
class _Memory:
    """What was named and still waits for its outcome."""

    fresh: list[Thing] = field(default_factory=list)  # named in this breath, no outcome yet
    listing: bool = False  # the last clause was nothing but names: more may follow
    topic: list[Thing] = field(default_factory=list)  # named last of all
    topic_breath: int = -9
    planned: list[Thing] = field(default_factory=list)  # named in a plan of this breath
    main: Thing | None = None  # the breath's main part, which takes what is said of its pieces
    carried: list[Thing] = field(default_factory=list)  # named in the breath before, no outcome yet
    open: Found | None = None  # "can't tell if ...": what it is about follows

    def next_breath(self) -> None:
        self.carried = self.fresh or self.planned
        self.fresh, self.planned, self.main, self.listing, self.open = [], [], None, False, None

    def name(self, things: list[Thing], breath: int, only_names: bool, joined: bool = False) -> None:
        """Things were named without an outcome."""
        more = only_names and (self.listing or joined)
        if self.fresh and not more:
            things = [t for t in things if not t.place] if not only_names else []
        if not things:
            return
        self.fresh = [*self.fresh, *things] if more else things
        self.listing = only_names
        self.topic, self.topic_breath = self.fresh, breath

    def settle(self, things: list[Thing], breath: int) -> None:
        """Things were given an outcome."""
        self.topic, self.topic_breath = things, breath
        self.fresh, self.carried, self.listing = [], [], False


@dataclass(frozen=True, slots=True)
class _Link:
    thing: Thing
    found: Found
    clause: Clause

    @property
    def names_itself(self) -> bool:
        """The outcome's own words are the thing ("no leaks")."""
        return self.thing.first < self.found.last and self.found.first < self.thing.last


def checks_in(
    narration: Narration,
    clauses: list[Clause],
    claimed: frozenset[int],
    gone: frozenset[int],
    measured: dict[int, Thing],
    running: dict[int, int],
) -> list[Check]:
    """All checks in order. `claimed` are indices of clauses that tell of something else (advice, cause ...);
    `measured` says, for the first word of a clause that holds a reading, what the reading was taken on; `running`,
    for a breath that tells of a trial, from which word on "it" means the trial."""
    memory = _Memory()
    links: list[_Link] = []
    breath = -1
    for index, clause in enumerate(clauses):
        if clause.breath != breath:
            breath = clause.breath
            memory.next_breath()
        if index in claimed or any(
            m.value in ("isolated", "restored", "left")
            for m in narration.marked("safety", clause.first, clause.last)
        ):
            things = things_in(narration, clause.first, clause.last)
            if things:
                memory.topic, memory.topic_breath = things, clause.breath
            continue
        links += [
            link
            for link in _clause_links(narration, clause, gone, memory)
            if not (
                link.found.first > running.get(clause.breath, link.found.first)
                and link.thing.last <= clause.first
            )
        ]
        if clause.first in measured and not any(link.clause is clause for link in links[-3:]):
            memory.fresh, memory.listing = [measured[clause.first]], False
            memory.topic, memory.topic_breath = memory.fresh, clause.breath
    return _merged(narration, links)


def _clause_links(narration: Narration, clause: Clause, gone: frozenset[int], memory: _Memory) -> list[_Link]:
    things = things_in(narration, clause.first, clause.last)
    if speaks_of_bystanders(narration, clause.first, clause.last):
        return []
    if clause.stance != "fact":
        return _left_open(narration, clause, things, gone, memory)
    if memory.main is None or (memory.main.piece and any(not t.piece for t in things)):
        memory.main = next((t for t in things if not t.piece), things[0] if things else memory.main)
    links: list[_Link] = []
    floor = clause.first
    for found in _outcomes(narration, clause, gone, memory):
        targets = _without_pieces(
            narration, _targets(narration, clause, found, things, floor, memory), memory
        )
        if found.outcome == "not tested":
            targets = [t for t in targets if not _is_way_in(narration, t)]
        links += [_Link(thing, found, clause) for thing in targets]
        if found.outcome == "unclear" and not targets:
            memory.open = found
        if targets:
            memory.settle(targets, clause.breath)
        floor = found.last
    waiting = heads_of(narration, [t for t in things if t.first >= floor and not _is_way_in(narration, t)])
    if waiting:
        joined = narration.words[clause.first] in ("and", "or", "plus", "nor")
        memory.name(waiting, clause.breath, _only_names(narration, clause, things), joined)
    elif narration.numbers(clause.first, clause.last) and not memory.fresh:
        memory.fresh = memory.topic if clause.breath - memory.topic_breath <= TOPIC_REACH else []
    elif not links and not things:
        memory.listing = False
        named = (
            bare_name(narration, clause.first, clause.last) if _opens_sentence(narration, clause) else None
        )
        if named and not memory.fresh:
            memory.name([named], clause.breath, True)
    return links


def _mere_opener(narration: Narration, clause: Clause, found: Found) -> bool:
    """Whether "okay" or "right" only opens the breath."""
    alone = found.first == clause.first and found.last == clause.last
    return alone and narration.words[found.first] in narration.grammar.openers


def _only_how(narration: Narration, clause: Clause, found: Found) -> bool:
    """Whether an outcome word only says how something was done ("plugged back in firmly", "until it clicks")."""
    if narration.words[clause.first] in ("until", "till"):
        return True
    before = narration.words[clause.first : found.first]
    if (
        found.last - found.first == 1
        and "i" in before
        and not things_in(narration, clause.first, found.first)
    ):
        return True  # "I held it", "I clicked ..."
    done = [m for m in narration.marked("work", clause.first, clause.last) if m.last <= found.first]
    between = narration.words[done[-1].last : found.first] if done else ()
    return (
        bool(done)
        and found.outcome in ("good", "fault")
        and not any(w in narration.grammar.being for w in between)
    )


def _left_open(
    narration: Narration, clause: Clause, things: list[Thing], gone: frozenset[int], memory: _Memory
) -> list[_Link]:
    """In a plan, a question or a guess nothing is found; but things named there may be left untested or unclear."""
    if clause.stance in ("plan", "question", "hypothetical"):
        memory.planned += things
    if clause.stance == "question" and things:
        memory.carried = memory.fresh = heads_of(narration, things)
    if clause.stance not in ("plan", "question", "hypothetical"):
        return []
    links: list[_Link] = []
    if memory.open and clause.stance == "hypothetical":
        links += [_Link(thing, memory.open, clause) for thing in heads_of(narration, things)]
        memory.open = None
    for found in _outcomes(narration, clause, gone, memory):
        if found.outcome in OPEN:
            targets = things or memory.planned or memory.fresh or memory.carried
            links += [_Link(thing, found, clause) for thing in heads_of(narration, targets)]
    return links


def _outcomes(narration: Narration, clause: Clause, gone: frozenset[int], memory: _Memory) -> list[Found]:
    """Outcomes that judge something: words of doing and of safety are none, nor is "okay" where nothing waits."""
    hidden = [m for label in ("work", "safety") for m in narration.marked(label, clause.first, clause.last)]
    first, _ = narration.breaths[clause.breath]
    waiting = bool(memory.fresh) or bool(narration.numbers(first, clause.first))
    return [
        f
        for f in outcomes_in(narration, clause, gone, hidden)
        if (waiting or not _mere_opener(narration, clause, f)) and not _only_how(narration, clause, f)
    ]


def _targets(
    narration: Narration, clause: Clause, found: Found, things: list[Thing], floor: int, memory: _Memory
) -> list[Thing]:
    before = heads_of(narration, [t for t in things if floor <= t.first and t.last <= found.first])
    if before and not (before[0].place and memory.fresh):
        return [*memory.fresh, *before] if memory.listing else before
    after = [t for t in things if t.first >= found.last]
    inside = [t for t in things if t.condition and t.first < found.last and found.first < t.last]
    if found.name and not before:
        return memory.fresh or [Thing(found.name, found.first, found.last)]
    recent = _recent(narration, clause, found, memory)
    if found.outcome in OPEN and not after:
        here = memory.topic if memory.topic_breath == clause.breath else []
        named = own_words(narration, clause.first, _before_person(narration, clause, found))
        own = [named] if named else []
        return heads_of(narration, memory.planned) or own or memory.fresh or here or memory.carried or recent
    carried = memory.carried if _goes_on(narration, clause) else []
    if found.standing_alone or found.first == clause.first:
        return memory.fresh or after[:1] or carried or inside[:1] or recent
    subject = own_words(narration, clause.first, found.first) if found.firm and not memory.fresh else None
    if subject and not after:
        return [subject]
    return memory.fresh or after[:1] or carried or inside[:1] or recent


def _goes_on(narration: Narration, clause: Clause) -> bool:
    """Whether a breath takes up the one before it: it opens with "and", "it", "that" or the like."""
    first, _ = narration.breaths[clause.breath]
    opening = narration.words[first : first + 2]
    return bool(opening) and (
        opening[0] in ("and", "but", "yes", "yeah", "so")
        or opening[0] in narration.grammar.pronouns
        or opening[0] in narration.grammar.being
    )


def _recent(narration: Narration, clause: Clause, found: Found, memory: _Memory) -> list[Thing]:
    """What "it" means: the thing of this breath, or one named a little before where a pronoun points back to it."""
    pronoun = any(w in narration.grammar.pronouns for w in narration.words[clause.first : found.first])
    reach = PRONOUN_REACH if pronoun else TOPIC_REACH if found.standing_alone else 0
    return memory.topic if clause.breath - memory.topic_breath <= reach else []


def _before_person(narration: Narration, clause: Clause, found: Found) -> int:
    """Where "I" stands between a name and its outcome ("control card I have not opened"), else the outcome."""
    return next(
        (n for n in range(clause.first, found.first) if narration.words[n] in ("i", "we")), found.first
    )


def _without_pieces(narration: Narration, things: list[Thing], memory: _Memory) -> list[Thing]:
    """Pieces give way to the main part of the breath ("terminal block, screws tight")."""
    main = memory.main
    if main is None or main.piece or _is_way_in(narration, main):
        return things
    return list(dict.fromkeys(main if t.piece else t for t in things))


def _is_way_in(narration: Narration, thing: Thing) -> bool:
    """Whether a thing is only a panel on the way: "haven't had the front panel off"."""
    return any(m.first <= thing.last - 1 < m.last for m in narration.marks.get("access", ()))


def _opens_sentence(narration: Narration, clause: Clause) -> bool:
    """Whether a clause stands at the head of its sentence and is set off from what follows."""
    before = clause.first - 1
    opens = clause.first == narration.breaths[clause.breath][0] or narration.tokens[before].stop in (
        ".",
        "?",
        "!",
        ";",
    )
    return opens and narration.tokens[clause.last - 1].stop in (",", ".", ":")


def _only_names(narration: Narration, clause: Clause, things: list[Thing]) -> bool:
    """Whether a clause is a bare list of things, whose outcome is still to come."""
    named = {n for t in things for n in range(t.first, t.last)}
    grammar = narration.grammar
    return all(
        n in named or narration.words[n] in grammar.articles or narration.words[n] in grammar.openers
        for n in range(clause.first, clause.last)
    )


def _merged(narration: Narration, links: list[_Link]) -> list[Check]:
    """One check for each thing and breath; what was said of it there is taken together."""
    groups: dict[tuple[int, str], list[_Link]] = {}
    for link in links:
        groups.setdefault((link.clause.breath, link.thing.name), []).append(link)
    checks: list[Check] = []
    for (_breath, name), group in groups.items():
        outcome, certainty = _together([link.found for link in group])
        last = max(link.clause.last for link in group)
        first = min(_begin(narration, link) for link in group)
        stretches = [
            (link.thing.first, link.thing.last)
            for link in group[:1]
            if link.thing.last <= group[0].clause.first
        ]
        stretches += [(link.clause.first, link.clause.last) for link in group]
        checks.append(
            Check(
                about=name,
                text=check_sentence(narration, name, outcome, certainty, list(dict.fromkeys(stretches))),
                evidence=evidence_of(narration, first, last),
                outcome=outcome,
                certainty=certainty,
            )
        )
    return checks


def _begin(narration: Narration, link: _Link) -> int:
    """Where the evidence begins: at the thing, where it was named in this breath or the one before."""
    near = 0 <= link.clause.breath - narration.breath_of(link.thing.first) <= TOPIC_REACH
    return min(link.thing.first, link.clause.first) if near else link.clause.first


def _together(found: list[Found]) -> tuple[Outcome, Certainty]:
    """Several outcomes of one thing in one breath: doubt wins, then the last judgement, then a fault."""
    certainty: Certainty = "likely" if any(f.certainty == "likely" for f in found) else "certain"
    outcomes = [f.outcome for f in found]
    if "unclear" in outcomes:
        return "unclear", certainty
    judged = [f for f in found if f.outcome != "not tested"]
    if not judged or ("not tested" in outcomes and all(f.outcome == "fault" for f in judged)):
        return "not tested", "certain"  # the fault is the reason: "seized, so I left it alone"
    firm = [f for f in judged if f.firm]
    if firm:
        return firm[-1].outcome, certainty
    return ("fault" if any(f.outcome == "fault" for f in judged) else "good"), certainty
