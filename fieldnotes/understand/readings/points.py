"""What a number was measured on: the thing named beside it, before it in the breath, or last of all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.readings.measured import (
    DEGREES,
    DURATIONS,
    LENGTHS,
    SHOWING,
    is_timed_behind,
    measuring,
)
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing, own_words, thing_of, things_in
from fieldnotes.vocabulary.quantities import QUANTITY_OF

TOPIC_REACH = 2  # breaths over which "got twelve forty one ohms" still speaks of what was named
PAST_REACH = 6  # breaths over which a unit still finds what it is read on
POINT_REACH = 3  # words between "across" and the name of what the leads are on
ACROSS = ("across", "through", "between")  # before these words stand the things on which a meter's leads are
LEADS = (*ACROSS, "at")  # "at" says so only right behind the number ("119 volts at the pump plug")
PLACES = ("in", "on", "at", "across", "for", "from", "through", "off")
LOWEST_VOLTS = 10  # a bare figure below this is no supply's
MINE = ("mine", "hers", "his", "this", "ours")
OWN_KIND = ("dB", "ppm", "rpm", "mW/cm2")  # what is read in these is told by the unit alone
GAS = ("inH2O", "mbar")
PRESSURES = ("psi", "kPa", *GAS)
TERSE = ("mA", "mV", *GAS, *OWN_KIND)  # units of readings only: a bare number with one counts
ELECTRICAL = ("ohm", "kohm", "V", "mV", "A", "mA", "uA", "uF", "W", "kW")
OF_THE_UNIT = ("A", "mA", "W", "kW")  # "it's pulling eight amps": the whole appliance


@dataclass
class Series:
    """What the numbers that follow may lean on."""

    breath: int = -1
    sentence: int = -1
    begins: int = 0  # first word of the present sentence
    own: bool = False  # the present sentence has named something itself
    named: list[Thing] = field(default_factory=list)  # heads named so far in this breath
    heading: Thing | None = None  # the speaker's own name, said by itself
    topic: list[Thing] = field(default_factory=list)  # named last before this breath
    topic_breath: int = -9
    past: list[tuple[int, Thing]] = field(default_factory=list)  # all that was named, with the breath
    unit: str | None = None
    unit_breath: int = -9
    value: float = 0.0

    def enter(self, clause: Clause) -> None:
        if clause.breath != self.breath:
            if self.named:
                self.topic, self.topic_breath = self.named, self.breath
                self.past += [(self.breath, thing) for thing in self.named]
            alone = self.heading and self.heading.first >= self.begins and not self.named
            self.heading = self.heading if alone else None
            self.breath, self.named = clause.breath, []
        if clause.sentence != self.sentence:
            self.sentence, self.own, self.begins = clause.sentence, False, clause.first

    def name(self, heads: list[Thing], held: list[Thing]) -> None:
        """Heads of a clause: in a new sentence they take the place of those before. `held`: where the meter is."""
        heads = [t for t in heads if not (t.place and self.named)] or held
        if heads:
            self.named = [*self.named, *heads] if self.own else heads
            self.own = True

    def in_order(self, size: int) -> list[Thing]:
        """The things of the last breath that named as many, where numbers are told "in that order"."""
        named = [*self.past, *((self.breath, thing) for thing in self.named)]
        for breath in sorted({b for b, _ in named if self.breath - b <= PAST_REACH}, reverse=True):
            listed = [thing for b, thing in named if b == breath]
            if len(listed) == size:
                return listed
        return []

    def head(self, heading: Thing) -> None:
        """The speaker's own name stands by itself."""
        self.heading = heading

    def measure(self, thing: Thing) -> None:
        """A number was taken on a thing, whether it counts or was taken back: the next one is taken there too."""
        self.named = [*(t for t in self.named if t.name != thing.name), thing]
        self.own = True


def things_of(narration: Narration, clause: Clause) -> list[Thing]:
    """Parts, conditions and trials named in a clause ("Drain test again. Empty in seventy seconds")."""
    trials = [thing_of(narration, m) for m in narration.named(clause.first, clause.last, "trial")]
    named = [*things_in(narration, clause.first, clause.last), *trials]
    return sorted((t for t in named if not _was_wrong(narration, clause, t)), key=lambda t: t.first)


def _was_wrong(narration: Narration, clause: Clause, thing: Thing) -> bool:
    """Whether a thing is only what the leads were on by mistake ("wrong coil", "no, that was other wire")."""
    words = narration.words
    if words[thing.first - 1] == "wrong":
        return True
    begin = narration.sentence_begins(clause.first)
    return (
        words[thing.first - 1] == "other"
        and words[begin] in ("no", "nope", "nah", "wait", "sorry")
        and not narration.numbers(clause.first, clause.last)
    )


@dataclass(frozen=True)
class Measured:
    """A number of a clause with its unit, where that is known, and what it may have been measured on.

    `things` are named in the clause; `usual` says what a reading in a unit is about where nothing else was named.
    """

    narration: Narration
    clause: Clause
    quantity: Quantity
    unit: str | None
    things: list[Thing]
    series: Series
    usual: Mapping[str, str]

    def point(self) -> Thing | None:
        """The thing that the number was measured on; None where nothing fits."""
        quantity, unit, series = self.quantity, self.unit, self.series
        before = [t for t in self.things if t.last <= quantity.first]
        after = [t for t in self.things if t.first >= quantity.last]
        subjects = [t for t in before if not t.place or self._right_before(t)] or before
        held = self._showing(
            leads_on(self.narration, after[:1], quantity.last, LEADS)
            + leads_on(self.narration, before, self.clause.first)
        )
        heads, after, named = (self._showing(some) for some in (subjects, after, series.named))
        if not heads and (timed := self._timed_here()):
            return timed
        heads = heads or [
            t for t in subjects[-1:] if self.unit in ELECTRICAL and not t.condition and _electrical(t)
        ]
        beside = after if self._right_behind(after) and not heads else []
        fitting = [
            t for t in (*held, *reversed(heads), *beside, *reversed(named), *after) if unit in t.measured_in
        ]
        homonym = not heads and not held and any(not t.place for t in subjects)
        if unit in self.usual and homonym and not any(t in after for t in fitting):
            return self._told_by_unit()  # "line pressure seven inches" is no water's
        if fitting:
            return fitting[0]
        if held and unit:
            return self._timed(heads) or held[0]
        return self._timed(heads) or self._loosely(heads, after, named, bool(subjects or series.named))

    def _loosely(
        self, heads: list[Thing], after: list[Thing], named: list[Thing], spoken_of: bool
    ) -> Thing | None:
        """The thing where none is usually read in the unit: what stands nearest, the speaker's own name, the whole
        appliance, or what the unit tells."""
        narration, clause, words = self.narration, self.clause, self.narration.words
        if heads and not (heads[-1].place and named and not self._right_before(heads[-1])):
            return heads[-1]
        verbs = narration.marked("measuring", clause.first, self.quantity.first)
        own = own_words(narration, clause.first, verbs[0].first if verbs else self.quantity.first)
        own = None if own and words[own.first - 1] == "my" else own  # an instrument
        if own and (measuring(narration, own.first, own.last) or words[own.first] in MINE):
            own = None
        if own and SHOWING.issuperset(words[own.first : own.last]):
            if self.series.named and self.unit in DEGREES:
                return self.series.named[
                    -1
                ]  # "probe on the coil, says nine degrees": anything has a temperature
            own = None
        if own and own.first == clause.first and words[own.last] in narration.grammar.being:
            return own  # "fridge is at thirty eight", whatever was named before
        pronoun = any(w in narration.grammar.pronouns for w in words[clause.first : self.quantity.first])
        whole = self._as_thing(narration.kind) if pronoun and self.unit in OF_THE_UNIT else None
        if named and (named[-1].measured_in or not whole):
            return named[-1]
        heading = self.series.heading
        if heading and not own and not pronoun and self.unit not in DURATIONS:
            return heading
        near = clause.breath - self.series.topic_breath <= TOPIC_REACH
        measured = measuring(narration, clause.first, clause.last)
        lengths = self.unit in LENGTHS and measured
        recent = (
            [t for t in self._showing(self.series.topic)[-1:] if t.measured_in or lengths] if near else []
        )
        shown = [t for t in recent if self.unit in t.measured_in]
        loose = [] if spoken_of and self.unit in self.usual else recent
        shown = shown or self._spoken_of_lately(pronoun)
        found = [*after[:1], *filter(None, (own, *shown, whole)), *loose]
        if found:
            return found[0]
        terse = spoken_of and (self.quantity.first, self.quantity.last) == (clause.first, clause.last)
        terse = terse or (self.unit in PRESSURES and bool(self.things))
        return self._told_by_unit() if self.unit and (terse or self._was_measured()) else None

    def _spoken_of_lately(self, pronoun: bool) -> list[Thing]:
        """What was named some breaths ago and is read in the very unit, where "it" or the bare number points back."""
        if self.unit not in ELECTRICAL or not (pronoun or self.quantity.first == self.clause.first):
            return []
        fitting = [
            thing
            for breath, thing in reversed(self.series.past)
            if self.clause.breath - breath <= PAST_REACH and self.unit in thing.measured_in
        ]
        return fitting[:1]

    def _showing(self, things: list[Thing]) -> list[Thing]:
        if self.unit is None:
            low = self.quantity.value < LOWEST_VOLTS
            return [
                t for t in things if not (low and t.measured_in == ("V",))
            ]  # "stator, phase to phase, six point one"
        return [t for t in things if shows(self.unit, t)]

    def _as_thing(self, name: str | None) -> Thing | None:
        return Thing(name, self.quantity.first, self.quantity.last) if name else None

    def _told_by_unit(self) -> Thing | None:
        return self._as_thing(self.usual.get(self.unit or ""))

    def _timed(self, heads: list[Thing]) -> Thing | None:
        """What took so long: "drain time" for "it drained in forty seconds"."""
        marks = self.narration.marked("timed", self.series.begins, self.clause.last)
        names = [m.rule.name for m in marks if m.rule.name]
        if not names or self.unit not in DURATIONS or any(t.name == names[-1] for t in heads):
            return None
        return self._as_thing(names[-1])

    def _timed_here(self) -> Thing | None:
        """What took so long by the words of its own clause ("she was full in four minutes"), whatever ran."""
        marks = self.narration.marked("timed", self.clause.first, self.quantity.first)
        named = [m.rule.name for m in marks if m.rule.name and m.last <= self.quantity.last]
        return self._as_thing(named[-1]) if named and self.unit in DURATIONS else None

    def _right_before(self, thing: Thing) -> bool:
        """Whether a name stands right before the number and behind no preposition: "thirteen ohms, lower element
        twelve"."""
        before = self.narration.words[max(0, thing.first - 2) : thing.first]
        prepositions = self.narration.grammar.prepositions
        return self.quantity.first == thing.last and not any(w in prepositions for w in before)

    def _right_behind(self, after: list[Thing]) -> bool:
        """Whether a name stands right behind the number and says where ("three point five in the fridge")."""
        last = self.quantity.last
        between = self.narration.words[last : after[0].first] if after else ()
        determined = (*self.narration.grammar.articles, *self.narration.grammar.determiners)
        return bool(between) and between[0] in PLACES and all(w in determined for w in between[1:])

    def _was_measured(self) -> bool:
        """Whether a number with no thing beside it was measured all the same: by a word of measuring in its sentence,
        by timing, or as the head of its clause with a place behind it ("two thirty nine volts on the line")."""
        narration, clause, quantity = self.narration, self.clause, self.quantity
        begin, _ = narration.breaths[clause.breath]
        labels = ("measuring", "instrument")
        told = any(narration.marked(label, self.series.begins, clause.last) for label in labels)
        timed = narration.marked("timed", begin, clause.last) or is_timed_behind(narration, clause, quantity)
        if quantity.unit in TERSE or told or timed:
            return True
        after = narration.words[quantity.last] if quantity.last < clause.last else ""
        return quantity.first == clause.first and after in ("on", "at", "across")


def was_named(thing: Thing, quantity: Quantity, series: Series) -> bool:
    """Whether what is judged next can be a thing: not where the unit alone tells it beside other things, nor how long
    something took."""
    beside = thing.first == quantity.first and quantity.unit in DEGREES and bool(series.named)
    return not beside and quantity.unit not in DURATIONS


def leads_on(
    narration: Narration, things: list[Thing], first: int, leads: tuple[str, ...] = ACROSS
) -> list[Thing]:
    """The things at which a meter was held by the words before them: "across the winding"."""
    return [
        t
        for t in things
        if any(w in leads for w in narration.words[max(first, t.first - POINT_REACH) : t.first])
    ]


def _electrical(thing: Thing) -> bool:
    """Whether a meter is put on a thing at all ("the fan's pulling point one eight amps")."""
    return thing.measured_in != ("V",) and any(unit in ELECTRICAL for unit in thing.measured_in)


def shows(unit: str, thing: Thing) -> bool:
    """Whether a thing can be read in a unit: in the same quantity as its own units, where it has any. What is read in
    a unit of its own kind ("thirty two rpm") is never a thing without one."""
    if thing.measured_in and unit in GAS:
        return unit in thing.measured_in  # no water has a pressure of seven inches
    if thing.condition and not thing.measured_in and unit in ELECTRICAL:
        return False  # no scorch mark has ohms
    if thing.place and not thing.measured_in and unit in PRESSURES:
        return False  # "420 kilopascals at the tap" is the water's pressure
    if thing.measured_in:
        return any(QUANTITY_OF.get(unit) == QUANTITY_OF.get(other) for other in thing.measured_in)
    return unit not in OWN_KIND
