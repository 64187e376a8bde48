"""Readings: numbers that were measured, with the thing that they were measured on.

A number beside words of expectation ("should be", "plate says") is what a reading is held against, not a reading."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.records import Reading
from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.readings.bare_units import told_unit, unit_of_series
from fieldnotes.understand.readings.expectation import LISTING
from fieldnotes.understand.readings.headings import heading_of, name_behind
from fieldnotes.understand.readings.measured import DURATIONS, is_rated, measured_in, measuring
from fieldnotes.understand.readings.points import Measured, Series, leads_on, shows, things_of, was_named
from fieldnotes.understand.readings.stated_limits import Placed, with_stated_limits
from fieldnotes.understand.sentences import reading_sentence
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing, heads_of
from fieldnotes.vocabulary.measures import Measures
from fieldnotes.vocabulary.quantities import QUANTITY_OF

ORDERS = (("that", "order"), ("same", "order"), ("in", "order"), ("this", "order"))


def readings_in(
    narration: Narration,
    clauses: list[Clause],
    claimed: frozenset[int],
    gone: frozenset[int],
    measures: Measures,
) -> tuple[list[Reading], dict[int, Thing]]:
    """All readings in order; and, for the first word of each clause that holds one, what it was taken on."""
    walk = _Walk(narration, clauses, gone, measures)
    for index in range(len(clauses)):
        walk.enter(index, index in claimed)
    return with_stated_limits(narration, clauses, gone, walk.placed, measures.numbers), walk.measured


class _Walk:
    """Takes clause after clause, and remembers what was named and measured so far."""

    def __init__(
        self, narration: Narration, clauses: list[Clause], gone: frozenset[int], measures: Measures
    ) -> None:
        self.placed: list[Placed] = []
        self.measured: dict[int, Thing] = {}  # by the first word of the clause
        self._narration, self._clauses, self._gone = narration, clauses, gone
        self._series = Series()
        units = measures.units
        self._unit_words = {
            said: u.unit for u in units.units for said in u.said if len(said) > 2 and " " not in said
        }
        self._usual: dict[str, str] = {u.unit: u.usual_thing for u in units.units if u.usual_thing}
        if units.degrees.usual_thing:
            self._usual |= dict.fromkeys(("degF", "degC"), units.degrees.usual_thing)
        self._no = measures.retractions.no

    def enter(self, index: int, claimed: bool) -> None:
        """`claimed`: the clause tells of something else, and its numbers are no readings."""
        narration, series, clause = self._narration, self._series, self._clauses[index]
        series.enter(clause)
        things = things_of(narration, clause)
        taken = None if claimed or clause.stance != "fact" else self._told(index, things)
        if clause.stance in ("fact", "question", "plan"):
            series.name(heads_of(narration, things), leads_on(narration, things, clause.first))
        if taken:
            series.measure(taken)
        elif not things and (heading := heading_of(narration, clause.first, clause.last)):
            series.head(heading)

    def _told(self, index: int, things: list[Thing]) -> Thing | None:
        """The readings of a clause; what the last of its numbers was taken on, also where that was taken back."""
        clause, narration = self._clauses[index], self._narration
        taken: Thing | None = None
        for quantity in measured_in(narration, clause, self._gone):
            taken = self._read(index, quantity, things) or taken
        for quantity in narration.numbers(clause.first, clause.last):
            if quantity.unit and quantity.first in self._gone:
                lost = Measured(narration, clause, quantity, quantity.unit, things, self._series, {})
                taken = lost.point() or taken
        return taken

    def _read(self, index: int, quantity: Quantity, things: list[Thing]) -> Thing | None:
        """Takes down one number; what it was taken on, None where it is no reading."""
        narration, series, clause = self._narration, self._series, self._clauses[index]
        behind = name_behind(narration, self._clauses, index, quantity) if not things else None
        if behind:
            series.measure(behind[0])
        thing, unit = self._point(clause, quantity, things)
        if not quantity.unit and thing and _only_set(narration, clause, thing, series):
            return None
        if not thing or not unit or is_rated(narration, clause, quantity, unit):
            return None
        last = self.placed[-1].reading if self.placed else None
        if last and _said_again(narration, clause, quantity, last, thing, series):
            return None
        if last and _takes_back_last(narration, clause, thing, unit, series, self._no):
            self.placed.pop()
        end = _end_of_timed(self._clauses, index) if unit in DURATIONS else clause.last
        reading = _reading(narration, clause, quantity, unit, thing, series, behind[1] if behind else end)
        self.placed.append(Placed(reading, clause.breath))
        if was_named(thing, quantity, series):
            self.measured[clause.first] = thing
        series.unit, series.unit_breath, series.value = unit, clause.breath, reading.value
        return thing

    def _point(
        self, clause: Clause, quantity: Quantity, things: list[Thing]
    ) -> tuple[Thing | None, str | None]:
        """What a number was measured on, and its unit: where none was said, that of the series."""
        narration, series = self._narration, self._series
        unit = told_unit(narration, clause, quantity, self._unit_words, series.begins, things)
        thing = _in_order(narration, clause, quantity, series) or (
            Measured(narration, clause, quantity, unit, things, series, self._usual).point()
        )
        if not thing or unit:
            return thing, unit
        unit = unit_of_series(narration, clause, quantity, thing, series)
        if unit and thing.place and not shows(unit, thing) and _by_instrument(narration, clause):
            thing = self._read_last(unit, quantity) or thing
        elif unit and thing.measured_in and not shows(unit, thing):
            thing = Measured(narration, clause, quantity, unit, things, series, self._usual).point()
        return thing, unit

    def _read_last(self, unit: str, quantity: Quantity) -> Thing | None:
        """What the last reading in a unit was taken on: the instrument is still there."""
        last = next((p.reading for p in reversed(self.placed) if p.reading.unit == unit), None)
        return Thing(last.about, quantity.first, quantity.last) if last else None


def _by_instrument(narration: Narration, clause: Clause) -> bool:
    """Whether a clause tells what an instrument shows ("the manometer drops to point one")."""
    return bool(narration.marked("instrument", clause.first, clause.last))


def _reading(
    narration: Narration,
    clause: Clause,
    quantity: Quantity,
    unit: str,
    thing: Thing,
    series: Series,
    last: int,
) -> Reading:
    """The record of a reading; its evidence begins where the thing was named, if that is in the same breath."""
    begin, _ = narration.breaths[clause.breath]
    first = min(clause.first, series.begins)
    first = min(first, thing.first) if thing.first >= begin else first
    return Reading(
        about=thing.name,
        text=reading_sentence(narration, thing.name, quantity.value, unit, first, last),
        evidence=evidence_of(narration, first, last),
        value=quantity.value,
        unit=unit,
    )


def _end_of_timed(clauses: list[Clause], index: int) -> int:
    """Where the words of a timed result end: what took so long is often told in the clause behind ("thirty eight
    minutes | and they came out dry")."""
    following = clauses[index + 1 : index + 2]
    goes_on = following and following[0].sentence == clauses[index].sentence and following[0].stance == "fact"
    return following[0].last if goes_on else clauses[index].last


def _in_order(narration: Narration, clause: Clause, quantity: Quantity, series: Series) -> Thing | None:
    """What a number was read on where several are told "in that order" of what a breath before listed."""
    begin, end = narration.breaths[clause.breath]
    before, _ = narration.breaths[max(0, clause.breath - 1)]
    words = narration.words[before:end]
    if not ("respectively" in words or any(pair in ORDERS for pair in pairwise(words))):
        return None
    numbers = [q for q in narration.numbers(begin, end) if not q.replaced and not q.ordinal_or_count]
    listed = series.in_order(len(numbers)) if len(numbers) > 1 and quantity in numbers else []
    return listed[numbers.index(quantity)] if listed else None


def _only_set(narration: Narration, clause: Clause, thing: Thing, series: Series) -> bool:
    """Whether a bare number beside a trial is what it was set to ("Bake again, three fifty")."""
    if series.unit_breath == clause.breath:
        return False  # "started at sixty eight Fahrenheit, ended at sixty nine"
    tried = any(m.first == thing.first for m in narration.named(thing.first, thing.last, "trial"))
    return tried and not measuring(narration, clause.first, clause.last)


def _said_again(
    narration: Narration, clause: Clause, quantity: Quantity, last: Reading, thing: Thing, series: Series
) -> bool:
    """Whether a number only repeats the reading before it in its breath ("three point eight amps, stays at three point
    eight"); equal numbers side by side are of several windings."""
    if series.unit_breath != clause.breath or last.value != quantity.value or last.about != thing.name:
        return False
    before = [
        q
        for q in narration.numbers(narration.breaths[clause.breath][0], quantity.first)
        if q.value == last.value
    ]
    gap = narration.words[before[-1].last : quantity.first] if before else ()
    if not gap:
        return bool(before) and before[-1].unit is not None and quantity.unit is None
    return not all(w in LISTING for w in gap)


def _takes_back_last(
    narration: Narration, clause: Clause, thing: Thing, unit: str, series: Series, cues: frozenset[str]
) -> bool:
    """Whether a breath that opens with "no" gives anew what the breath before it measured ("Nope, my thumb was on the
    probe, it's one point four K")."""
    first, _ = narration.breaths[clause.breath]
    again = narration.words[first] in cues and series.unit_breath == clause.breath - 1
    return again and thing in series.topic and QUANTITY_OF.get(unit) == QUANTITY_OF.get(series.unit or "")
