"""Which thing an outcome belongs to.

All that could be meant are candidates. What speaks for or against one are features with a weight each; the best
candidate takes the outcome where it reaches `ENOUGH`, else the outcome belongs to nothing and is left out.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from fieldnotes.understand.checks.outcomes import Found
from fieldnotes.understand.checks.subjects import Subject, own_subject, placed_subject
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing, firm_name, heads_of

Feature = Literal[
    "subject",  # said before the outcome in its clause: "the belt is fine"
    "object",  # said behind it: "found a worn belt"
    "bound",  # ... of a judgement or a fault's noun, and only a preposition between: "no play in the bearing"
    "head",  # set apart at the head of its sentence: "Gasket, I did the paper test, it grips"
    "waiting",  # named before in this breath, nothing said of it yet
    "last",  # named or judged last: "it"
    "pronoun",  # a pronoun points back
    "taken up",  # the breath before named it, and this one goes on: "and it clicks"
    "breath before",
    "own name",  # the speaker's own name, which the vocabulary lacks
    "outcome's own",  # the outcome's words name it: "no leaks"
    "place",  # only says where: "at the lid"
    "handled",  # the object of a deed: "I shoved the tub down and it came up"
    "trial",  # a trial is told of, and "it" is the trial
    "done",  # something was done in this breath: "it" is how it turned out
]
WEIGHTS: dict[Feature, int] = {
    "subject": 8,
    "object": 1,
    "bound": 5,
    "head": 6,
    "waiting": 5,
    "last": 2,
    "pronoun": 2,
    "taken up": 3,
    "breath before": -2,
    "own name": 4,
    "outcome's own": 2,
    "place": -3,
    "handled": -2,
    "trial": -6,
    "done": -6,
}
ENOUGH = 2
CONDUITS = ("through", "past", "across")  # "continuity through the fuse", "water getting past the gasket"
OPEN = ("not tested", "unclear")


@dataclass
class Spoken:
    """What was spoken of so far and may be meant by what follows."""

    head: list[Thing] = field(default_factory=list)  # set apart at the head of the sentence
    waiting: list[Thing] = field(default_factory=list)  # named in this breath, no outcome yet
    handled: bool = False  # what waits was the object of a deed
    stale: bool = False  # what waits was named in an earlier breath: a name here takes its place
    listing: bool = False  # the last clause was nothing but names: more may follow
    last: list[Thing] = field(default_factory=list)  # named or judged last
    last_breath: int = -9
    planned: list[Thing] = field(default_factory=list)  # named in a plan of this breath
    carried: list[Thing] = field(default_factory=list)  # named in the breath before, no outcome yet
    open: Found | None = None  # "can't tell if ...": what it is about follows

    def next_breath(self) -> None:
        self.carried = self.waiting or self.planned
        self.head, self.waiting, self.planned = [], [], []
        self.listing, self.handled, self.stale, self.open = False, False, False, None

    def name(
        self, things: list[Thing], breath: int, only_names: bool, joined: bool = False, handled: bool = False
    ) -> None:
        """Things were named without an outcome."""
        more = only_names and (self.listing or joined)
        if self.waiting and self.stale and not more:
            self.waiting = []
        self.stale = False
        if self.waiting and not more:
            things = [t for t in things if not t.place] if not only_names else []
        if not things:
            return
        self.waiting = [*self.waiting, *things] if more else things
        self.listing, self.handled = only_names, handled
        self.last, self.last_breath = self.waiting, breath

    @property
    def focus(self) -> Thing | None:
        """What "the left one" is one of."""
        spoken_of = self.head or self.waiting or self.last
        return spoken_of[0] if spoken_of else None

    def settle(self, things: list[Thing], breath: int) -> None:
        """Things were given an outcome."""
        self.last, self.last_breath = things, breath
        self.waiting, self.carried, self.listing = [], [], False

    def forget(self) -> None:
        """Something was told of that nothing later points back to."""
        self.waiting, self.carried, self.listing, self.last = [], [], False, []


@dataclass(frozen=True, slots=True)
class Candidate:
    things: tuple[Thing, ...]
    features: frozenset[Feature]

    @property
    def weight(self) -> int:
        return sum(WEIGHTS[feature] for feature in self.features)


def best_of(candidates: Iterable[Candidate]) -> list[Thing]:
    """The things of the weightiest candidate, of equals the first; none where it does not weigh enough."""
    best = max(candidates, key=lambda c: c.weight, default=None)
    return list(best.things) if best and best.weight >= ENOUGH else []


def candidates_of(
    narration: Narration,
    clause: Clause,
    found: Found,
    things: list[Thing],
    floor: int,
    spoken: Spoken,
    told: frozenset[Feature],
) -> Iterable[Candidate]:
    """All that an outcome may belong to. `things` are those of its clause, `floor` is where the outcome before it in
    the clause ends, `told` what else the breath tells of."""
    before = heads_of(narration, [t for t in things if floor <= t.first and t.last <= found.first])
    back = found.standing_alone or _points_back(narration, clause, found) or _confirms(narration, clause)
    pronoun: set[Feature] = {"pronoun"} if back else set()
    after = [t for t in things if t.first >= found.last and not t.condition]
    after = after or [t for t in things if t.first >= found.last]
    before = [t for t in before if not t.place] or before  # "in the drum the paddle is loose"
    before = [t for t in before if not _where_one_is(narration, t)]
    if before:
        subjects = [*spoken.waiting, *before] if spoken.listing else before
        yield _candidate(subjects, "subject", *_place(before))
    if spoken.head:
        yield _candidate(spoken.head, "head", *told)
    if spoken.waiting:
        aside: set[Feature] = {"handled"} if spoken.handled else _place(spoken.waiting)
        yield _candidate(spoken.waiting, "waiting", *aside, *told)
    if after:
        where = set() if _is_reached(narration, found, after[0]) else _place(after)
        yield _candidate(after[:1], "object", *where, *_bound(narration, found, after[0], things))
    own = placed_subject(narration, clause.first, found.first, spoken.focus)
    own = own or own_subject(narration, clause.first, found.first)
    if own and not before and _says_how_it_is(narration, own, found):
        is_so = narration.words[own.last] in narration.grammar.being
        if not own.part and not found.firm and not (is_so and found.outcome == "fault"):
            return  # "every towel was dry" is about no part
        yield _candidate([own.thing], "subject")
    subject = firm_name(narration, clause.first, found.first) if found.firm else None
    if subject:
        yield _candidate([subject], "own name")
    if spoken.carried and goes_on(narration, clause):
        yield _candidate(spoken.carried, "breath before", "taken up", *pronoun, *told)
    inside = [t for t in things if t.condition and t.first < found.last and found.first < t.last]
    if found.name:
        yield _candidate([Thing(found.name, found.first, found.last)], "outcome's own")
    elif inside and found.outcome == "good":
        denied = narration.words[found.first] in narration.grammar.negators
        yield _candidate(inside[:1], "outcome's own", *(() if denied else told))
    if spoken.last and clause.breath == spoken.last_breath:
        yield _candidate(spoken.last, "last", *pronoun, *_place(spoken.last), *told)


def _candidate(things: Iterable[Thing], *features: Feature) -> Candidate:
    return Candidate(tuple(things), frozenset(features))


def _where_one_is(narration: Narration, thing: Thing) -> bool:
    """Whether a thing only says where another one is ("the second one on the lowest rack has burned")."""
    words, grammar = narration.words, narration.grammar
    at = thing.first - 1
    while at > 0 and thing.first - at <= 3 and words[at] not in grammar.prepositions:
        at -= 1
    return thing.place and words[at] in grammar.prepositions - {"of"} and words[at - 1] in ("one", "ones")


def _place(things: list[Thing]) -> set[Feature]:
    return {"place"} if things[0].place else set()


def _is_reached(narration: Narration, found: Found, thing: Thing) -> bool:
    """Whether the preposition before a thing belongs to the words of leaving alone ("didn't get to | the belt")."""
    grammar, words = narration.grammar, narration.words
    said = [words[n] for n in range(found.first, found.last) if words[n] not in grammar.articles]
    behind = words[found.last : thing.first]
    return (
        found.outcome in OPEN
        and said[-1:] != []
        and said[-1] in grammar.prepositions
        and all(word in grammar.articles for word in behind)
    )


def _bound(narration: Narration, found: Found, thing: Thing, things: list[Thing]) -> set[Feature]:
    """Whether nothing but a preposition stands between a finding in the form of a noun ("no play", "a lot of slop",
    "nothing wrong") and the thing behind it."""
    grammar, words = narration.grammar, narration.words
    named = {n for t in things if t.condition for n in range(t.first, t.last)}  # "no signs of leaking at ..."
    between = [words[n] for n in range(found.last, thing.first) if n not in named]
    if found.outcome in OPEN:
        return {"bound"} if len(between) <= 3 else set()  # "not sure about", "no idea on"
    if len(between) > 3 or not all(w in grammar.prepositions or w in grammar.articles for w in between):
        return set()
    noun = any(
        m.last == found.last and m.rule.strength == "noun"
        for m in narration.marked("outcome", found.first, found.last)
    )
    present = words[found.first] in grammar.presence or words[found.first - 1] in grammar.presence
    if words[found.last - 1] in CONDUITS or (between and between[0] in CONDUITS):
        return {"bound"}
    said_of = noun or present or found.firm or words[found.first] in grammar.negators
    return {"bound"} if said_of else set()


def _says_how_it_is(narration: Narration, own: Subject, found: Found) -> bool:
    """Whether an outcome is said of the subject that opens its clause: right behind it, or behind its verb."""
    return own.last == found.first or narration.words[own.last] in narration.grammar.links


def _points_back(narration: Narration, clause: Clause, found: Found) -> bool:
    """Whether a pronoun stands before the outcome in its clause."""
    return any(w in narration.grammar.pronouns for w in narration.words[clause.first : found.first + 1])


def _confirms(narration: Narration, clause: Clause) -> bool:
    """Whether a breath says yes to what the one before it was looking for ("and yes, there is a crack")."""
    first, last = narration.breaths[clause.breath][0], clause.last
    opening = narration.words[first : first + 2]
    return not narration.grammar.affirming.isdisjoint(opening) and "there" in narration.words[first:last]


def goes_on(narration: Narration, clause: Clause) -> bool:
    """Whether a breath takes up the one before it: it opens with "and", "it", "that" or the like."""
    first, _ = narration.breaths[clause.breath]
    if narration.numbers(first, min(first + 4, clause.last)):
        return False  # "one twenty point two volts"
    opening = narration.words[first : first + 2]
    return bool(opening) and (
        opening[0] in ("and", "but", "so", "only", "except")
        or opening[0] in narration.grammar.affirming
        or opening[0] in narration.grammar.pronouns
        or opening[0] in narration.grammar.being
        or opening[0] in ("nothing", "neither", "none")
    )
