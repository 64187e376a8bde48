"""Readings: numbers that were measured, with the thing that they were measured on.

A number beside words of expectation ("should be", "plate says") is what a reading is held against, not a reading.
A number without a unit takes the one that its breath or the reading before it gives, where that fits the thing.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from fieldnotes.records import Reading
from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.headings import heading_of, name_behind
from fieldnotes.understand.measured import DEGREES, DURATIONS, LENGTHS, LISTING, is_rated, measured_in, measuring
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.points import Measured, Series, shows, leads_on, things_of, was_named
from fieldnotes.understand.sentences import reading_sentence
from fieldnotes.understand.things import Thing, heads_of
from fieldnotes.vocabulary.measures import Measures
from fieldnotes.vocabulary.quantities import QUANTITY_OF

SERIES_REACH = 3  # breaths over which a number without a unit may take the one before
GAS_WORDS = ("regulator", "manometer", "manifold", "column")
GAS_REACH = 2  # breaths over which the gas is still spoken of
MOST_GAS = 15
ORDERS = (("that", "order"), ("same", "order"), ("in", "order"), ("this", "order"))
DRAWING = ("draws", "draw", "drawing", "drew", "drawn", "pulls", "pull", "pulling", "pulled", "pullin", "drawin")
SPOKEN_NEAR = 10  # words before a number in which what it is read by may be named
SPINNING = ("spin", "spins", "spun", "spinning")
SLOWEST_SPIN = 300
THERMOMETERS = ("thermocouple", "thermometer", "probe")
SWINGING = ("swung", "swinging", "swings", "cycling", "cycled", "cycles", "lowest", "highest", "average", "averaged")
COOLEST_SWING = 90
LEAD_WORDS = 5  # words of "at the valve plug"
MOST_AMPS = 60
MAINS = ((105, 130), (200, 255))
SMALLEST_BARE = 20  # a whole number below this that has no unit is a count


def readings_in(
    narration: Narration,
    clauses: list[Clause],
    claimed: frozenset[int],
    gone: frozenset[int],
    measures: Measures,
) -> tuple[list[Reading], dict[int, Thing]]:
    """All readings in order; and, for the first word of each clause that holds one, what it was taken on."""
    units = measures.units
    unit_words: dict[str, str] = {
        said: u.unit for u in units.units for said in u.said if len(said) > 2 and " " not in said
    }
    usual: dict[str, str] = {u.unit: u.usual_thing for u in units.units if u.usual_thing}
    usual |= {unit: units.degrees.usual_thing for unit in ("degF", "degC") if units.degrees.usual_thing}
    cues = measures.retractions.no
    series = Series()
    found: list[Reading] = []
    measured: dict[int, Thing] = {}
    for index, clause in enumerate(clauses):
        series.enter(clause)
        things = things_of(narration, clause)
        taken: Thing | None = None
        if index not in claimed and clause.stance == "fact":
            for quantity in measured_in(narration, clause, gone):
                unit = (
                    quantity.unit
                    or _hinted_unit(narration, quantity, unit_words, series.begins)
                    or _unit_of_wording(narration, clause, quantity)
                )
                behind = name_behind(narration, clauses, index, quantity) if not things else None
                if behind:
                    series.measure(behind[0])
                if unit == "in" and _of_gas(narration, clause, quantity, things):
                    unit = "inH2O"
                thing = _in_order(narration, clause, quantity, series) or (
                    Measured(narration, clause, quantity, unit, things, series, usual).point()
                )
                if thing and not unit:
                    unit = _unit_of_series(narration, clause, quantity, thing, series)
                    if unit and thing.measured_in and not shows(unit, thing):
                        thing = Measured(narration, clause, quantity, unit, things, series, usual).point()
                    unit = None if unit == "A" and quantity.value > MOST_AMPS else unit
                if not quantity.unit and thing and _only_set(narration, clause, thing, series):
                    continue
                if not thing or not unit or is_rated(narration, clause, quantity, unit):
                    continue
                if found and _said_again(narration, clause, quantity, found[-1], thing, series):
                    continue
                if found and _takes_back_last(narration, clause, thing, unit, series, cues):
                    found.pop()
                end = _end_of_timed(clauses, index) if unit in DURATIONS else clause.last
                reading = _reading(
                    narration, clause, quantity, unit, thing, series, behind[1] if behind else end
                )
                found.append(reading)
                taken = thing
                if was_named(thing, quantity, series):
                    measured[clause.first] = thing
                series.unit, series.unit_breath, series.value = reading.unit, clause.breath, reading.value
            for quantity in narration.numbers(clause.first, clause.last):
                if quantity.unit and quantity.first in gone:
                    lost = Measured(narration, clause, quantity, quantity.unit, things, series, {})
                    taken = lost.point() or taken
        if clause.stance in ("fact", "question", "plan"):
            series.name(heads_of(narration, things), leads_on(narration, things, clause.first))
        if taken:
            series.measure(taken)
        elif not things and (heading := heading_of(narration, clause.first, clause.last)):
            series.head(heading)
    return found, measured


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


def _of_gas(narration: Narration, clause: Clause, quantity: Quantity, things: list[Thing]) -> bool:
    """Whether inches are those of a water column: the gas is spoken of, and nothing that has a length beside it."""
    begin, _ = narration.breaths[max(0, clause.breath - GAS_REACH)]
    spoken = any(w in GAS_WORDS for w in narration.words[begin : quantity.first])
    lengths = any(unit in LENGTHS for thing in things for unit in thing.measured_in)
    return spoken and not lengths and quantity.value < MOST_GAS


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
    before = [q for q in narration.numbers(narration.breaths[clause.breath][0], quantity.first) if q.value == last.value]
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


def _hinted_unit(
    narration: Narration, quantity: Quantity, unit_words: Mapping[str, str], begin: int
) -> str | None:
    """The unit whose word stands earlier in the sentence ("volts at the pump, one nineteen point three")."""
    used = {n for q in narration.numbers(begin, quantity.first) for n in range(q.first, q.last)}
    named = {m.first for m in narration.named(begin, quantity.first)}  # feet to stand on
    for n in range(quantity.first - 1, begin - 1, -1):
        if n not in used and narration.words[n] in unit_words and n not in named:
            return unit_words[narration.words[n]]
    return None


def _unit_of_series(
    narration: Narration, clause: Clause, quantity: Quantity, thing: Thing, series: Series
) -> str | None:
    """The unit of a number said without one: that of the reading before it, or the thing's usual one."""
    before = narration.words[quantity.first - 1] if quantity.first > clause.first else ""
    recent = series.unit if clause.breath - series.unit_breath <= SERIES_REACH else None
    same_breath = series.unit_breath == clause.breath
    whole = quantity.value == int(quantity.value)
    if whole and quantity.value < SMALLEST_BARE and _is_a_label(narration, clause, quantity, same_breath):
        return None
    fits = recent in thing.measured_in or any(
        QUANTITY_OF.get(recent or "") == QUANTITY_OF.get(u) for u in thing.measured_in
    )
    if recent and (same_breath or fits) and _like(quantity.value, series.value):
        return recent  # "in at sixty one Fahrenheit, out at sixty two"
    measured = before == "at" and _reads_at(narration, clause, quantity)
    if whole and (
        (before in narration.grammar.prepositions and not measured) or quantity.value < SMALLEST_BARE
    ):
        return None
    if thing.measured_in:
        return recent if recent in thing.measured_in else thing.measured_in[0]
    return recent


def _unit_of_wording(narration: Narration, clause: Clause, quantity: Quantity) -> str | None:
    """The unit that the words about a bare number leave no doubt of: amps where it was drawn ("she's pulling eighteen
    point six"), volts where the leads were held to something and the figure is that of the mains ("one twenty at the
    valve"), turns where it spun, degrees where an oven swings or a thermometer is spoken of."""
    words, value = narration.words, quantity.value
    before = words[max(clause.first, quantity.first - 2) : quantity.first]
    if any(w in DRAWING for w in before):
        return "A" if value < MOST_AMPS else None
    after = words[quantity.last : quantity.last + 1]
    named = narration.named(quantity.last, min(quantity.last + LEAD_WORDS, clause.last))
    held = bool(named) and after in (("across",), ("at",), ("on",)) or before[-1:] == ("across",)
    if held and any(low <= value <= high for low, high in MAINS):
        return "V"
    begin, end = narration.breaths[clause.breath]
    around = words[max(begin, quantity.first - SPOKEN_NEAR) : min(end, quantity.last + LEAD_WORDS)]
    if value >= SLOWEST_SPIN and any(w in SPINNING for w in around):
        return "rpm"
    if any(w in THERMOMETERS for w in around) or (value >= COOLEST_SWING and any(w in SWINGING for w in around)):
        scales = [q.unit for q in narration.quantities if q.unit in DEGREES]
        return max(set(scales), key=scales.count) if scales else "degF"
    return None


def _is_a_label(narration: Narration, clause: Clause, quantity: Quantity, in_list: bool) -> bool:
    """Whether a small bare number numbers the thing before it ("valve coil two") or is all that is said ("Ten")."""
    alone = not in_list and quantity.first == clause.first and quantity.last == clause.last
    named = any(m.last == quantity.first for m in narration.named(clause.first, quantity.first))
    return alone or (named and not narration.tokens[quantity.first - 1].stop)


def _reads_at(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether "at" is said of a reading: "voltage came in at two forty", "freezer's at four"."""
    words, grammar = narration.words[clause.first : quantity.first - 1], narration.grammar
    return any(w in grammar.being for w in words[-2:]) or any(
        m.last >= quantity.first - 2 and m.value != "swings"
        for m in narration.marked("measuring", clause.first, quantity.first)
    )


def _like(one: float, other: float) -> bool:
    return other != 0 and 0.5 < one / other < 2
