"""Checks: which part was found how. Walks the clauses and keeps what was spoken of."""

from __future__ import annotations

from dataclasses import replace

from fieldnotes.records import Check
from fieldnotes.understand.checks.merging import Link, merged
from fieldnotes.understand.checks.naming import (
    before_person,
    echoes,
    handled,
    has_a_name,
    introduces,
    is_way_in,
    names_more,
    new_one,
    only_names,
    own_topic,
    renewed_in,
    set_apart,
)
from fieldnotes.understand.checks.outcomes import Found, outcomes_in
from fieldnotes.understand.checks.pairs import both_meant
from fieldnotes.understand.checks.set_aside import judges_nothing, measures_ohms, not_said_of, set_both_ways
from fieldnotes.understand.checks.subjects import is_placed
from fieldnotes.understand.checks.targets import OPEN, Feature, Spoken, best_of, candidates_of, goes_on
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.things import (
    Thing,
    firm_name,
    heads_of,
    speaks_of_bystanders,
    things_in,
)

STATES = ("isolated", "restored", "left")  # steps of safety: what they name was switched, not looked at
GUESSES = ("plan", "question", "hypothetical")


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
    walk = _Walk(narration, gone, running)
    for index, clause in enumerate(clauses):
        states = narration.marked("safety", clause.first, clause.last)
        switched = any(m.value in STATES and not walk.tells_of_a_circuit(m) for m in states)
        walk.enter(clause, measured.get(clause.first), index in claimed or switched)
    return merged(narration, walk.links)


class _Walk:
    """Takes clause after clause and links outcomes to things."""

    def __init__(self, narration: Narration, gone: frozenset[int], running: dict[int, int]) -> None:
        self.links: list[Link] = []
        self._narration = narration
        self._gone = gone
        self._running = running
        self._spoken = Spoken()
        self._breath = self._sentence = -1
        self._done: set[str] = set()  # what was done in this breath
        self._pair: list[Thing] = []  # the two things named last
        self._renewed: Thing | None = None  # fitted last
        self._main: Thing | None = None  # the breath's main part, which takes what is said of its pieces

    def tells_of_a_circuit(self, state: Mark) -> bool:
        """Whether "it's open" is said of what was just measured, not of a tap or a breaker."""
        spoken, words = self._spoken, self._narration.words
        of = (spoken.head or spoken.waiting)[:1]
        bare = words[state.first] in ("it", "she", "he") and words[state.last - 1] == "open"
        return bare and any(
            measures_ohms(t) and t.name.split()[-1] not in self._narration.trade.opened for t in of
        )

    def enter(self, clause: Clause, measured: Thing | None, claimed: bool) -> None:
        if clause.breath != self._breath:
            self._breath = clause.breath
            self._main = None
            self._done = set()
            self._spoken.next_breath()
        narration, spoken = self._narration, self._spoken
        things = things_in(narration, clause.first, clause.last)
        self._renewed = renewed_in(narration, clause, things) or self._renewed
        things = things or new_one(narration, clause, self._renewed)
        if clause.sentence != self._sentence and any(not t.place for t in things):
            spoken.head = []
        self._sentence = clause.sentence
        if measured and any(
            m.first <= measured.first < m.last for m in narration.marks.get("instrument", ())
        ):
            measured = None  # "clamp meter when it tries, nineteen amps"
        for thing in [*things, *([measured] if measured else [])]:
            if not thing.place and (not thing.piece or thing is measured):
                self._pair = [*(t for t in self._pair if t.first != thing.first), thing][-2:]
        self._pair = [t for t in self._pair if clause.breath - narration.breath_of(t.first) <= 2]
        if claimed or introduces(narration, clause):
            spoken.last = []
            return
        links: list[Link] = []
        if not speaks_of_bystanders(narration, clause.first, clause.last):
            if clause.stance == "fact":
                links = self._told(clause, things)
            elif clause.stance == "question" and narration.tokens[clause.last - 1].stop != "?" and things:
                links = self._echoed(clause, things)  # "... and so is the motor"
            if not links and clause.stance in GUESSES:
                links = self._left_open(clause, things)
        self.links += links
        if measured and not links and has_a_name(narration, measured):
            spoken.waiting, spoken.listing = [measured], False
            spoken.stale = narration.breath_of(measured.first) != clause.breath
            spoken.last, spoken.last_breath = spoken.waiting, clause.breath

    def _told(self, clause: Clause, things: list[Thing]) -> list[Link]:
        """Outcomes of a clause that states facts; what it names without one is remembered."""
        narration, spoken = self._narration, self._spoken
        if self._main is None or (self._main.piece and any(not t.piece for t in things)):
            self._main = next((t for t in things if not t.piece), things[0] if things else self._main)
        echoed = self._echoed(clause, things)
        links = list(echoed)
        floor = clause.first
        for found in self._outcomes(clause):
            told = self._told_of(clause, found)
            if "trial" in told and found.outcome == "fault":
                continue  # how a trial failed, or what was mended
            targets = self._targets(clause, found, things, floor, told)
            links += [Link(thing, found, clause) for thing in targets]
            if found.outcome == "unclear" and not targets:
                spoken.open = found
            if targets:
                spoken.settle(targets, clause.breath)
            floor = found.last
        self._done |= {m.value for m in narration.marked("work", clause.first, clause.last)}
        unsaid = [] if echoed else [t for t in things if t.first >= floor and not is_way_in(narration, t)]
        waiting = heads_of(narration, unsaid)
        if waiting:
            bare = only_names(narration, clause, things)
            joined = narration.words[clause.first] in ("and", "or", "plus", "nor")
            apart = [] if spoken.listing or links else set_apart(narration, clause, waiting)
            spoken.head = apart or spoken.head
            spoken.name(apart or waiting, clause.breath, bare, joined, handled(narration, clause, waiting[0]))
        elif narration.numbers(clause.first, clause.last) and not spoken.waiting:
            spoken.waiting = spoken.last if clause.breath == spoken.last_breath else []
        elif not links and not things:
            spoken.listing = False
            named = own_topic(narration, clause, spoken.focus)
            if named and (not spoken.waiting or not named.name.endswith(narration.words[clause.last - 1])):
                among = (
                    spoken.listing and spoken.waiting and is_placed(spoken.waiting[-1]) and is_placed(named)
                )
                spoken.head = spoken.waiting = [*spoken.waiting, named] if among else [named]
                spoken.listing = True
        return links

    def _targets(
        self, clause: Clause, found: Found, things: list[Thing], floor: int, told: frozenset[Feature]
    ) -> list[Thing]:
        """The things that an outcome belongs to; `floor` is where the outcome before it ends."""
        narration, spoken = self._narration, self._spoken
        if found.outcome in OPEN:  # "couldn't tell you without splitting the tub"
            things = [t for t in things if "without" not in narration.words[found.first : t.first]]
        if found.outcome in OPEN and not any(t.first >= found.last for t in things):
            targets = [] if "trial" in told else self._left_alone(clause, found, things)
        else:
            targets = best_of(candidates_of(narration, clause, found, things, floor, spoken, told))
        targets = both_meant(
            narration, clause, found, things, self._pair, spoken.waiting
        ) or self._without_pieces(targets)
        if found.outcome == "not tested" or narration.words[found.last - 1] == "away":
            targets = [t for t in targets if not is_way_in(narration, t)]
        return [t for t in targets if not not_said_of(narration, found, t)]

    def _echoed(self, clause: Clause, things: list[Thing]) -> list[Link]:
        """What was found last, of other things as well ("The belt is good and so is the motor")."""
        narration, spoken = self._narration, self._spoken
        last = self.links[-1] if self.links else None
        targets = heads_of(narration, things) or spoken.waiting
        if not last or clause.breath - last.clause.breath > 1 or not echoes(narration, clause, things):
            return []
        if not targets or any(t.condition for t in targets) or last.thing in targets:
            return []
        spoken.settle(targets, clause.breath)
        again = replace(last.found, first=clause.last, last=clause.last, name=None)
        return [Link(thing, again, clause) for thing in targets]

    def _told_of(self, clause: Clause, found: Found) -> frozenset[Feature]:
        """Whether the breath tells of a trial, or of something that was done before the outcome."""
        narration = self._narration
        told: set[Feature] = set()
        if clause.breath in self._running:
            told.add("trial")
        here = narration.marked("work", clause.first, found.first)
        relative = narration.words[clause.first] == "which"  # "..., which I found loose"
        got_out = found.outcome == "fault" and not here and (self._done == {"removed"} or relative)
        if found.outcome == "good" and self._done == {"adjusted"} and set_both_ways(narration, clause):
            return frozenset(
                told
            )  # "wound it down and it clicked off, wound it up and ..." tries a thermostat
        if (self._done or here) and not got_out:  # "I pulled the wheel out and it's stripped"
            told.add("done")
        return frozenset(told)

    def _left_alone(self, clause: Clause, found: Found, things: list[Thing]) -> list[Thing]:
        """What was left untested or unclear: the subject, else a plan's object, else what was named last.

        What the words of leaving alone name themselves ("didn't get to the motor") comes before a thing of which
        something was found already; nor is that meant where they name what the vocabulary lacks.
        """
        narration, spoken = self._narration, self._spoken
        before = heads_of(narration, [t for t in things if t.last <= found.first])
        if before and not (before[0].place and spoken.waiting):
            return [*spoken.waiting, *before] if spoken.listing else before
        here = spoken.last if spoken.last_breath == clause.breath else []
        inside = heads_of(narration, [t for t in things if found.first <= t.first])
        settled = here if inside or names_more(narration, clause, found) else []
        own = firm_name(narration, clause.first, before_person(narration, clause, found))
        return (
            ([own] if own else [])
            or [t for t in spoken.head if t not in settled]
            or heads_of(narration, spoken.planned)
            or spoken.waiting
            or inside
            or (here if not settled else [])
            or (spoken.carried if goes_on(narration, clause) else [])
        )

    def _left_open(self, clause: Clause, things: list[Thing]) -> list[Link]:
        """In a plan, a question or a guess nothing is found; but things named there may be left untested or
        unclear."""
        narration, spoken = self._narration, self._spoken
        if clause.stance != "hypothetical" or not (spoken.head or spoken.waiting):
            spoken.planned += things  # "there's damp round the pump, could be the hose" is about the pump
        if clause.stance == "question" and things:
            spoken.carried = spoken.waiting = heads_of(narration, things)
        links: list[Link] = []
        if spoken.open and clause.stance == "hypothetical":
            links += [Link(thing, spoken.open, clause) for thing in heads_of(narration, things)]
            spoken.open = None
        for found in self._outcomes(clause):
            if found.outcome in OPEN:
                here = spoken.last if spoken.last_breath == clause.breath else []
                targets = things or spoken.planned or spoken.waiting or spoken.carried or here
                links += [Link(thing, found, clause) for thing in heads_of(narration, targets)]
        return links

    def _outcomes(self, clause: Clause) -> list[Found]:
        """Outcomes that judge something: words of doing and of safety are none, nor is "okay" where nothing
        waits."""
        narration = self._narration
        hidden = [
            m
            for label in ("work", "safety")
            for m in narration.marked(label, clause.first, clause.last)
            if not self.tells_of_a_circuit(m)
        ]
        first, _ = narration.breaths[clause.breath]
        waiting = bool(self._spoken.waiting) or bool(narration.numbers(first, clause.first))
        return [
            f
            for f in outcomes_in(narration, clause, self._gone, hidden)
            if not judges_nothing(narration, clause, f, waiting)
        ]

    def _without_pieces(self, things: list[Thing]) -> list[Thing]:
        """Pieces give way to the main part of the breath ("terminal block, screws tight"), but not where that has
        its outcome and the piece is a subject of its own ("cup pops open, the spring's strong")."""
        main, narration = self._main, self._narration
        if main is None or main.piece or is_way_in(narration, main):
            return things
        judged = any(link.thing == main and link.clause.breath == self._breath for link in self.links)
        kept = (main if self._belongs_to_main(t, judged) else t for t in things)
        return list(dict.fromkeys(kept))

    def _belongs_to_main(self, thing: Thing, judged: bool) -> bool:
        """Whether what is said of a thing is said of the breath's main part; `judged`: that has its outcome."""
        words, main = self._narration.words, self._main
        if main and thing.name in self._narration.trade.pieces_of.get(main.name, ()):
            return True  # "anti-tip bracket, ... the foot isn't hooked in"
        own = judged and not self._narration.grammar.being.isdisjoint(words[thing.last : thing.last + 1])
        return thing.piece and not (own and words[thing.first - 1] not in ("its", "their"))
