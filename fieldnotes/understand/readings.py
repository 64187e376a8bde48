"""Readings: numbers that were measured, with the thing that they were measured on.

A number beside words of expectation ("should be", "plate says") is what a reading is held against, not a reading.
A number without a unit takes the one of the reading before it, where that fits the thing.
"""

from __future__ import annotations

from fieldnotes.records import Reading
from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.sentences import reading_sentence
from fieldnotes.understand.things import Thing, own_words, things_in

EXPECTATION_REACH = 6  # words between "should be" and its number
SERIES_REACH = 3  # breaths over which a number without a unit may take the one before
DURATIONS = ("s", "min", "h")


def readings_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> list[Reading]:
    """All readings in order."""
    found: list[Reading] = []
    topic: list[Thing] = []
    last_unit: str | None = None
    last_breath = -10
    for index, clause in enumerate(clauses):
        things = things_in(narration, clause.first, clause.last)
        if index not in claimed and clause.stance == "fact":
            for quantity in _measured(narration, clause, gone):
                thing = _measured_on(narration, clause, quantity, things, topic)
                unit = quantity.unit or _unit_for(thing, last_unit, clause.breath - last_breath)
                if unit is None or thing is None or _is_set_or_elapsed(narration, clause, quantity, unit):
                    continue
                first, last = min(thing.first, clause.first) if thing.first >= clause.first - 60 else clause.first, clause.last
                if narration.breath_of(first) != clause.breath:
                    first = clause.first
                last_unit, last_breath = unit, clause.breath
                found.append(
                    Reading(
                        about=thing.name,
                        text=reading_sentence(narration, thing.name, quantity.value, unit),
                        evidence=evidence_of(narration, first, last),
                        value=quantity.value,
                        unit=unit,
                    )
                )
        if things and clause.stance in ("fact", "question", "plan"):
            topic = things
    return found


def _measured(narration: Narration, clause: Clause, gone: frozenset[int]) -> list[Quantity]:
    return [
        q
        for q in narration.numbers(clause.first, clause.last)
        if not q.replaced and not q.ordinal_or_count and q.first not in gone and not _expected(narration, clause, q)
    ]


def _expected(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether words of expectation stand just before or after the number, in its clause."""
    harmless = narration.marked("pseudo", clause.first, clause.last)
    for mark in narration.marked("expected", clause.first, clause.last):
        if any(p.first <= mark.first and mark.last <= p.last for p in harmless):
            continue
        between = range(mark.last, quantity.first)
        earlier = [q for q in narration.numbers(clause.first, clause.last) if mark.last <= q.first < quantity.first]
        if 0 <= quantity.first - mark.last <= EXPECTATION_REACH and not earlier and len(between) <= EXPECTATION_REACH:
            return True
        if mark.rule.value == "after" and mark.first - quantity.last in (0, 1):
            return True
    return False


def _measured_on(
    narration: Narration, clause: Clause, quantity: Quantity, things: list[Thing], topic: list[Thing]
) -> Thing | None:
    before = [t for t in things if t.last <= quantity.first]
    after = [t for t in things if t.first >= quantity.last]
    fitting = [t for t in (*reversed(before), *after) if quantity.unit in t.measured_in]
    if fitting:
        return fitting[0]
    if before or after:
        return (before[-1:] or after[:1])[0]
    return own_words(narration, clause.first, quantity.first) or (topic[0] if topic else None)


def _unit_for(thing: Thing | None, last_unit: str | None, breaths_since: int) -> str | None:
    """The unit of a number said without one."""
    if thing is not None and thing.measured_in:
        return last_unit if last_unit in thing.measured_in and breaths_since <= SERIES_REACH else thing.measured_in[0]
    return last_unit if breaths_since <= SERIES_REACH else None


def _is_set_or_elapsed(narration: Narration, clause: Clause, quantity: Quantity, unit: str) -> bool:
    """A duration counts only where it was timed as a result; a number alone needs its thing."""
    if unit in DURATIONS:
        return not narration.marked("timed", clause.first, clause.last)
    return False


