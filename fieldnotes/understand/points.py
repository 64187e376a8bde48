"""What a number was measured on: the thing named beside it, before it in the breath, or last of all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.measured import DEGREES, DURATIONS, measuring
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.things import Thing, own_words, thing_of, things_in
from fieldnotes.vocabulary.quantities import QUANTITY_OF

TOPIC_REACH = 2  # breaths over which "got twelve forty one ohms" still speaks of what was named
POINT_REACH = 3  # words between "across" and the name of what the leads are on
ACROSS = ("across", "through", "between")  # before these words stand the things on which a meter's leads are
LEADS = (*ACROSS, "at")  # "at" says so only right behind the number ("119 volts at the pump plug")
MINE = ("mine", "hers", "his", "this", "ours")
OWN_KIND = ("dB", "ppm", "rpm", "mW/cm2")  # what is read in these is told by the unit alone
TERSE = ("mA", "mV", "inH2O", "mbar", *OWN_KIND)  # units of readings only: a bare number with one counts
OF_THE_UNIT = ("A", "mA", "W", "kW")  # "it's pulling eight amps": the whole appliance


@dataclass
class Series:
    """What the numbers that follow may lean on."""

    breath: int = -1
    sentence: int = -1
    begins: int = 0  # first word of the present sentence
    own: bool = False  # the present sentence has named something itself
    named: list[Thing] = field(default_factory=list)  # heads named so far in this breath
    topic: list[Thing] = field(default_factory=list)  # named last before this breath
    topic_breath: int = -9
    unit: str | None = None
    unit_breath: int = -9
    value: float = 0.0

    def enter(self, clause: Clause) -> None:
        if clause.breath != self.breath:
            if self.named:
                self.topic, self.topic_breath = self.named, self.breath
            self.breath, self.named = clause.breath, []
        if clause.sentence != self.sentence:
            self.sentence, self.own, self.begins = clause.sentence, False, clause.first

    def name(self, heads: list[Thing], held: list[Thing]) -> None:
        """Heads of a clause: in a new sentence they take the place of those before. `held`: where the meter is."""
        heads = [t for t in heads if not (t.place and self.named)] or held
        if heads:
            self.named = [*self.named, *heads] if self.own else heads
            self.own = True

    def measure(self, thing: Thing) -> None:
        """A number was taken on a thing, whether it counts or was taken back: the next one is taken there too."""
        self.named = [*(t for t in self.named if t.name != thing.name), thing]
        self.own = True


def things_of(narration: Narration, clause: Clause) -> list[Thing]:
    """Parts, conditions and trials named in a clause ("Drain test again. Empty in seventy seconds")."""
    trials = [thing_of(narration, m) for m in narration.named(clause.first, clause.last, "trial")]
    return sorted([*things_in(narration, clause.first, clause.last), *trials], key=lambda t: t.first)


def point_of(
    narration: Narration,
    clause: Clause,
    quantity: Quantity,
    unit: str | None,
    things: list[Thing],
    series: Series,
    usual: Mapping[str, str],
) -> Thing | None:
    """The thing that a number was measured on; None where nothing fits."""
    before = [t for t in things if t.last <= quantity.first]
    after = [t for t in things if t.first >= quantity.last]
    held = leads_on(narration, after[:1], quantity.last, LEADS) + leads_on(narration, before, clause.first)
    heads = [t for t in before if not t.place or _right_before(narration, t, quantity)] or before
    spoken_of = bool(heads or series.named)
    here = [t for t in heads if not t.place]
    if unit:
        held, heads, after = ([t for t in some if _can_show(unit, t)] for some in (held, heads, after))
    named = [t for t in series.named if unit is None or _can_show(unit, t)]
    near = [*held, *reversed(heads), *reversed(named), *after]
    fitting = [t for t in near if unit and unit in t.measured_in]
    recent = series.topic if clause.breath - series.topic_breath <= TOPIC_REACH else []
    recent = [t for t in recent if unit is None or _can_show(unit, t)]
    if unit in usual and here and not heads and not held and not any(t in after for t in fitting):
        return Thing(usual[unit], quantity.first, quantity.last)  # "line pressure seven inches" is no water's
    if fitting:
        return fitting[0]
    timed = [m for m in narration.marked("timed", series.begins, clause.last) if m.rule.name]
    if timed and unit in DURATIONS and not any(t.name == timed[-1].rule.name for t in heads):
        return Thing(timed[-1].rule.name or "", timed[-1].first, timed[-1].last)
    if held and unit and not any(unit in t.measured_in for t in heads):
        return held[0]
    pronoun = any(w in narration.grammar.pronouns for w in narration.words[clause.first : quantity.first])
    whole = (
        [Thing(narration.kind, quantity.first, quantity.last)]
        if narration.kind and pronoun and unit in OF_THE_UNIT
        else []
    )
    if heads and not (heads[-1].place and named and not _right_before(narration, heads[-1], quantity)):
        return heads[-1]
    own = own_words(narration, clause.first, quantity.first)
    if own and (measuring(narration, own.first, own.last) or narration.words[own.first] in MINE):
        own = None
    if own and own.first == clause.first and narration.words[own.last] in narration.grammar.being:
        return own  # "fridge is at thirty eight", whatever was named before
    if named and (named[-1].measured_in or not whole):
        return named[-1]
    shown = [t for t in recent[-1:] if unit and unit in t.measured_in]
    fallback = [
        *after[:1],
        *([own] if own else []),
        *shown,
        *whole,
        *([] if spoken_of and unit in usual else recent[-1:]),
    ]
    terse = spoken_of and (quantity.first, quantity.last) == (
        clause.first,
        clause.last,
    )  # "Exhaust, fifty eight C."
    if (
        not fallback
        and quantity.unit in usual
        and (terse or _was_measured(narration, clause, quantity, series.begins))
    ):
        return Thing(usual[quantity.unit], quantity.first, quantity.last)
    return fallback[0] if fallback else None


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


def _right_before(narration: Narration, thing: Thing, quantity: Quantity) -> bool:
    """Whether a name stands right before a number and behind no preposition: "thirteen ohms, lower element twelve"."""
    words, grammar = narration.words, narration.grammar
    before = words[max(0, thing.first - 2) : thing.first]
    return quantity.first == thing.last and not any(w in grammar.prepositions for w in before)


def _was_measured(narration: Narration, clause: Clause, quantity: Quantity, sentence: int) -> bool:
    """Whether a number with no thing beside it was measured all the same: by a word of measuring in its sentence, by
    timing, or as the head of its clause with a place behind it ("two thirty nine volts on the line")."""
    begin, _ = narration.breaths[clause.breath]
    told = any(narration.marked(label, sentence, clause.last) for label in ("measuring", "instrument"))
    if quantity.unit in TERSE or told or narration.marked("timed", begin, clause.last):
        return True
    after = narration.words[quantity.last] if quantity.last < clause.last else ""
    return quantity.first == clause.first and after in ("on", "at", "across")


def _can_show(unit: str, thing: Thing) -> bool:
    """Whether a thing can be read in a unit: in the same quantity as its own units, where it has any. What is read in
    a unit of its own kind ("thirty two rpm") is never a thing without one."""
    if thing.measured_in:
        return any(QUANTITY_OF.get(unit) == QUANTITY_OF.get(other) for other in thing.measured_in)
    return unit not in OWN_KIND
