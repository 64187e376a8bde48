"""Readings: numbers that were measured, with the thing that they were measured on.

A number beside words of expectation ("should be", "plate says") is what a reading is held against, not a reading.
A number without a unit takes the one that its breath or the reading before it gives, where that fits the thing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fieldnotes.records import Reading
from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.sentences import reading_sentence
from fieldnotes.understand.things import Thing, heads_of, own_words, thing_of, things_in
from fieldnotes.vocabulary.measures import Measures
from fieldnotes.vocabulary.quantities import QUANTITY_OF

EXPECTATION_REACH = 6  # words between "should be" and its number
SERIES_REACH = 3  # breaths over which a number without a unit may take the one before
TOPIC_REACH = 2  # breaths over which "got twelve forty one ohms" still speaks of what was named
NEAR = 0.2  # share by which neighbours of a drifting reading differ at most
NEARER = 0.1  # the same where both have their unit
NUMBER_REACH = 3  # words between "part number" and its figures
OF_THE_UNIT = ("A", "mA", "W", "kW")  # "it's pulling eight amps": the whole appliance
DURATIONS = ("s", "min", "h")
RATINGS = (
    "W",
    "kW",
    "gal",
    "L",
    "kg",
    "lb",
    "Hz",
)  # mostly read off a plate; they count where a measuring word says so
SMALLEST_BARE = 20  # a whole number below this that has no unit is a count


@dataclass
class _Series:
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

    def name(self, heads: list[Thing]) -> None:
        """Heads of a clause: in a new sentence they take the place of those before."""
        heads = [t for t in heads if not (t.place and self.named)]
        if heads:
            self.named = [*self.named, *heads] if self.own else heads
            self.own = True


def readings_in(
    narration: Narration,
    clauses: list[Clause],
    claimed: frozenset[int],
    gone: frozenset[int],
    measures: Measures,
) -> tuple[list[Reading], dict[int, Thing]]:
    """All readings in order; and, for the first word of each clause that holds one, what it was taken on."""
    unit_words: dict[str, str] = {
        said: u.unit for u in measures.units.units for said in u.said if len(said) > 2 and " " not in said
    }
    usual: dict[str, str] = {u.unit: u.usual_thing for u in measures.units.units if u.usual_thing}
    series = _Series()
    found: list[Reading] = []
    measured: dict[int, Thing] = {}
    for index, clause in enumerate(clauses):
        series.enter(clause)
        things = _things(narration, clause)
        if index not in claimed and clause.stance == "fact":
            for quantity in _measured(narration, clause, gone):
                taken = _reading(narration, clause, quantity, things, series, unit_words, usual)
                if taken:
                    reading, thing = taken
                    found.append(reading)
                    measured[clause.first] = thing
                    series.unit, series.unit_breath, series.value = reading.unit, clause.breath, reading.value
        if clause.stance in ("fact", "question", "plan"):
            series.name(heads_of(narration, things))
    return found, measured


def _reading(
    narration: Narration,
    clause: Clause,
    quantity: Quantity,
    things: list[Thing],
    series: _Series,
    unit_words: Mapping[str, str],
    usual: Mapping[str, str],
) -> tuple[Reading, Thing] | None:
    unit = quantity.unit or _hinted_unit(narration, quantity, unit_words)
    thing = _measured_on(narration, clause, quantity, unit, things, series)
    if unit and unit in usual and (thing is None or unit not in thing.measured_in):
        thing = Thing(usual[unit], quantity.first, quantity.last)
    if thing is None:
        return None
    unit = unit or _unit_of_series(narration, clause, quantity, thing, series)
    if unit is None or _set_or_rated(narration, clause, quantity, unit, unit_words):
        return None
    begin, _ = narration.breaths[clause.breath]
    first = (
        min(clause.first, thing.first, series.begins)
        if thing.first >= begin
        else min(clause.first, series.begins)
    )
    reading = Reading(
        about=thing.name,
        text=reading_sentence(narration, thing.name, quantity.value, unit, first, clause.last),
        evidence=evidence_of(narration, first, clause.last),
        value=quantity.value,
        unit=unit,
    )
    return reading, thing


def _things(narration: Narration, clause: Clause) -> list[Thing]:
    """Parts, conditions and trials named in a clause ("Drain test again. Empty in seventy seconds")."""
    trials = [thing_of(narration, m) for m in narration.named(clause.first, clause.last, "trial")]
    return sorted([*things_in(narration, clause.first, clause.last), *trials], key=lambda t: t.first)


def _measured(narration: Narration, clause: Clause, gone: frozenset[int]) -> list[Quantity]:
    numbers = [
        q
        for q in narration.numbers(clause.first, clause.last)
        if not q.replaced
        and not q.ordinal_or_count
        and q.first not in gone
        and not _expected(narration, clause, q)
    ]
    return [
        q
        for q in numbers
        if not _drifts_on(narration, clause, q)
        and not _range_end(narration, q)
        and not _is_a_number_of_something(narration, q)
    ]


def _range_end(narration: Narration, quantity: Quantity) -> bool:
    """Whether the number is one end of a range ("fifteen to thirty ohms"): that is what should be."""
    numbers = [q for q in narration.quantities if not q.ordinal_or_count]
    return any(
        (
            q.last + 1 == quantity.first
            and narration.words[q.last] == "to"
            and q.unit is None
            and quantity.unit is not None
            and not narration.tokens[q.last - 1].stop
        )
        or (
            quantity.last + 1 == q.first
            and narration.words[quantity.last] == "to"
            and not narration.tokens[quantity.last - 1].stop
        )
        for q in numbers
    )


def _is_a_number_of_something(narration: Narration, quantity: Quantity) -> bool:
    """Whether it is part of a part, model or serial number."""
    return any(
        0 <= quantity.first - mark.last <= NUMBER_REACH
        for label in ("part number", "model", "serial")
        for mark in narration.marks.get(label, ())
        if mark.last - mark.first > 1 or label != "part number"
    )


def _drifts_on(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether a bare number is followed in its breath by one close to it that has the unit ("two thirty, two
    thirty-two, two thirty-four volts"): the reading was still moving."""
    _, end = narration.breaths[clause.breath]
    later = [
        q for q in narration.numbers(quantity.last, end) if q.unit is not None and not q.ordinal_or_count
    ]
    if not later or things_in(narration, quantity.last, later[0].first):
        return False
    between = narration.words[quantity.last : later[0].first]
    if quantity.unit is not None and (quantity.unit != later[0].unit or "and" in between or "to" in between):
        return False
    near = NEAR if quantity.unit is None else NEARER
    return abs(later[0].value - quantity.value) <= near * abs(later[0].value)


def _expected(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether words of expectation stand before the number or a range that it ends, or right behind it."""
    harmless = narration.marked("pseudo", clause.first, clause.last)
    for mark in narration.marked("expected", clause.first, clause.last):
        if any(p.first <= mark.first and mark.last <= p.last for p in harmless):
            continue
        if mark.value == "after":
            if mark.first - quantity.last in (0, 1):
                return True
            continue
        start = quantity.first
        for earlier in reversed(narration.numbers(mark.first, quantity.first)):
            joined = narration.words[earlier.last : start]
            if len(joined) <= 2 and any(w in ("to", "and", "or", "through") for w in joined):
                start = earlier.first
        if mark.first < start <= mark.last + EXPECTATION_REACH and not narration.numbers(mark.last, start):
            return True
    return False


def _hinted_unit(narration: Narration, quantity: Quantity, unit_words: Mapping[str, str]) -> str | None:
    """The unit whose word stands earlier in the breath ("volts at the pump, one nineteen point three")."""
    begin, _ = narration.breaths[narration.breath_of(quantity.first)]
    used = {n for q in narration.numbers(begin, quantity.first) for n in range(q.first, q.last)}
    for n in range(quantity.first - 1, begin - 1, -1):
        if n not in used and narration.words[n] in unit_words:
            return unit_words[narration.words[n]]
    return None


def _measured_on(
    narration: Narration,
    clause: Clause,
    quantity: Quantity,
    unit: str | None,
    things: list[Thing],
    series: _Series,
) -> Thing | None:
    before = [t for t in things if t.last <= quantity.first]
    after = [t for t in things if t.first >= quantity.last]
    heads = [t for t in before if not t.place] or before
    fitting = [
        t for t in (*reversed(heads), *reversed(series.named), *after) if unit and unit in t.measured_in
    ]
    recent = series.topic if clause.breath - series.topic_breath <= TOPIC_REACH else []
    recent = [t for t in recent if unit is None or not t.measured_in or _comparable(unit, t.measured_in)]
    if fitting:
        return fitting[0]
    if heads and not (heads[0].place and series.named):
        return heads[-1]
    if series.named:
        return series.named[-1]
    own = own_words(narration, clause.first, quantity.first)
    pronoun = any(w in narration.grammar.pronouns for w in narration.words[clause.first : quantity.first])
    whole = (
        [Thing(narration.kind, quantity.first, quantity.last)]
        if narration.kind and pronoun and unit in OF_THE_UNIT
        else []
    )
    fallback = [*after[:1], *([own] if own else []), *recent[-1:], *whole]
    return fallback[0] if fallback else None


def _comparable(unit: str, units: tuple[str, ...]) -> bool:
    """Whether a unit measures the same quantity as one of `units`."""
    return any(QUANTITY_OF.get(unit) == QUANTITY_OF.get(other) for other in units)


def _unit_of_series(
    narration: Narration, clause: Clause, quantity: Quantity, thing: Thing, series: _Series
) -> str | None:
    """The unit of a number said without one: that of the reading before it, or the thing's usual one."""
    before = narration.words[quantity.first - 1] if quantity.first > clause.first else ""
    recent = series.unit if clause.breath - series.unit_breath <= SERIES_REACH else None
    same_breath = series.unit_breath == clause.breath
    if recent and (same_breath or recent in thing.measured_in) and _like(quantity.value, series.value):
        return recent  # "in at sixty one Fahrenheit, out at sixty two"
    whole = quantity.value == int(quantity.value)
    if whole and (before in narration.grammar.prepositions or quantity.value < SMALLEST_BARE):
        return None
    if thing.measured_in:
        return recent if recent in thing.measured_in else thing.measured_in[0]
    return recent


def _like(one: float, other: float) -> bool:
    return other != 0 and 0.5 < one / other < 2


def _set_or_rated(
    narration: Narration, clause: Clause, quantity: Quantity, unit: str, unit_words: Mapping[str, str]
) -> bool:
    """A duration counts only where it was timed; what is mostly read off a plate only where it was measured."""
    if unit in DURATIONS:
        begin = next(a for a, b in narration.breaths if a <= clause.first < b)
        return not any(m.last <= quantity.first + 1 for m in narration.marked("timed", begin, clause.last))
    if _describes_a_thing(narration, quantity, unit_words):
        return True
    if unit in RATINGS:
        return not narration.marked("measuring", clause.first, clause.last)
    return False


def _describes_a_thing(narration: Narration, quantity: Quantity, unit_words: Mapping[str, str]) -> bool:
    """Whether the number with its unit only describes the noun behind it ("a nine volt battery")."""
    last = narration.words[quantity.last - 1]
    if (
        narration.words[quantity.first - 1 : quantity.first] == ("the",)
        and last.isalpha()
        and not last.endswith("s")
    ):
        return True  # "the eight millimetre": a tool
    if (
        quantity.last >= len(narration.words)
        or narration.tokens[quantity.last - 1].stop
        or last.endswith("s")
    ):
        return False
    after, grammar = narration.words[quantity.last], narration.grammar
    return (
        last.isalpha()
        and after.isalpha()
        and not any(
            after in group
            for group in (grammar.prepositions, grammar.joiners, grammar.goes_with_judgement, grammar.openers)
        )
    )
