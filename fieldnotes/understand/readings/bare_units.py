"""The unit of a number that was said without one: from the words around it, the reading before it, or the thing."""

from __future__ import annotations

from collections.abc import Mapping

from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.readings.measured import DEGREES, LENGTHS, measuring
from fieldnotes.understand.readings.points import Series
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing
from fieldnotes.vocabulary.quantities import QUANTITY_OF

SERIES_REACH = 3  # breaths over which a number without a unit may take the one before
GAS_REACH = 2  # breaths over which the gas is still spoken of
MOST_GAS = 15
SPOKEN_NEAR = 10  # words before a number in which what it is read by may be named
SLOWEST_SPIN = 300
COOLEST_SWING = 90
LEAD_WORDS = 5  # words of "at the valve plug"
MOST_AMPS = 60
BOILING_C = 100
MAINS = ((105, 130), (200, 255))
SMALLEST_BARE = 20  # a whole number below this that has no unit is a count


def told_unit(
    narration: Narration,
    clause: Clause,
    quantity: Quantity,
    unit_words: Mapping[str, str],
    begin: int,
    things: list[Thing],
) -> str | None:
    """The unit that was said with a number or that the words of its sentence, from `begin`, leave no doubt of."""
    unit = quantity.unit or _hinted_unit(narration, quantity, unit_words, begin)
    unit = unit or _unit_of_wording(narration, clause, quantity)
    return "inH2O" if unit == "in" and _of_gas(narration, clause, quantity, things) else unit


def unit_of_series(
    narration: Narration, clause: Clause, quantity: Quantity, thing: Thing, series: Series
) -> str | None:
    """The unit of a number said without one: that of the reading before it, or the thing's usual one. A whole number
    behind a deed ("new pump fitted, 880, 417") is no reading unless it is said to be one."""
    if _told_with_deed(narration, clause, quantity):
        return None
    unit = _unit_of_series(narration, clause, quantity, thing, series)
    return None if unit == "A" and quantity.value > MOST_AMPS else unit


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


def _unit_of_wording(narration: Narration, clause: Clause, quantity: Quantity) -> str | None:
    """The unit that the words about a bare number leave no doubt of: amps where it was drawn ("she's pulling eighteen
    point six"), volts where the leads were held to something and the figure is that of the mains ("one twenty at the
    valve"), turns where it spun, degrees where an oven swings or a thermometer is spoken of."""
    words, value = narration.words, quantity.value
    before = words[max(clause.first, quantity.first - 2) : quantity.first]
    if any(w in narration.trade.drawing for w in before):
        return "A" if value < MOST_AMPS else None
    after = words[quantity.last : quantity.last + 1]
    named = narration.named(quantity.last, min(quantity.last + LEAD_WORDS, clause.last))
    held = (bool(named) and after in (("across",), ("at",), ("on",))) or before[-1:] == ("across",)
    if held and any(low <= value <= high for low, high in MAINS):
        return "V"
    begin, end = narration.breaths[clause.breath]
    around = words[max(begin, quantity.first - SPOKEN_NEAR) : min(end, quantity.last + LEAD_WORDS)]
    if value >= SLOWEST_SPIN and any(w in narration.trade.spinning for w in around):
        return "rpm"
    if any(w in narration.trade.thermometers for w in around) or (
        value >= COOLEST_SWING and any(w in narration.trade.swinging for w in around)
    ):
        return narration.degrees
    if value >= COOLEST_SWING and _climbs(narration, clause, quantity):
        return narration.degrees
    return None


def _climbs(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether an oven that was spoken of came up to a number ("it only got to one ninety")."""
    if not (narration.kind or "").endswith("range"):
        return False
    marks = narration.marked("measuring", clause.first, quantity.first + 1)
    return any(m.value == "climbs" and m.last in (quantity.first, quantity.last) for m in marks)


def _of_gas(narration: Narration, clause: Clause, quantity: Quantity, things: list[Thing]) -> bool:
    """Whether inches are those of a water column: the gas is spoken of, and nothing that has a length beside it."""
    begin, _ = narration.breaths[max(0, clause.breath - GAS_REACH)]
    spoken = any(w in narration.trade.gas_words for w in narration.words[begin : quantity.first])
    lengths = any(unit in LENGTHS for thing in things for unit in thing.measured_in)
    return spoken and not lengths and quantity.value < MOST_GAS


def _unit_of_series(
    narration: Narration, clause: Clause, quantity: Quantity, thing: Thing, series: Series
) -> str | None:
    before = narration.words[quantity.first - 1] if quantity.first > clause.first else ""
    recent = series.unit if clause.breath - series.unit_breath <= SERIES_REACH else None
    if _behind_stands_another_unit(narration, clause, quantity):
        recent = None
    same_breath = series.unit_breath == clause.breath
    whole = quantity.value == int(quantity.value)
    if whole and quantity.value < SMALLEST_BARE and _is_a_label(narration, clause, quantity, same_breath):
        return None
    fits = recent in thing.measured_in or any(
        QUANTITY_OF.get(recent or "") == QUANTITY_OF.get(u) for u in thing.measured_in
    )
    none_there = quantity.value == 0 and same_breath and recent in thing.measured_in
    if recent and (same_breath or fits) and (none_there or _like(quantity.value, series.value)):
        return recent  # "in at sixty one Fahrenheit, out at sixty two"
    measured = before == "at" and _reads_at(narration, clause, quantity)
    if whole and (
        (before in narration.grammar.prepositions and not measured) or quantity.value < SMALLEST_BARE
    ):
        return None
    if thing.measured_in:
        usual = thing.measured_in[0]
        if usual in DEGREES:
            boils = "water" in thing.name.split() and quantity.value > BOILING_C
            usual = "degF" if boils else narration.degrees
        return recent if recent in thing.measured_in else usual
    return recent


def _behind_stands_another_unit(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether a word that is nowhere known follows a decimal at once ("16.3 kylem"): a unit that was misheard, and so
    hardly that of the reading before."""
    at, grammar = quantity.last, narration.grammar
    if at >= clause.last or narration.tokens[at - 1].stop or quantity.value == int(quantity.value):
        return False
    word = narration.words[at]
    known = (
        grammar.prepositions | grammar.joiners | grammar.being | grammar.openers | grammar.pronouns
        | grammar.articles | grammar.verbs | grammar.seemings | grammar.goes_with_judgement | grammar.subjects
        | grammar.negators | grammar.modals | grammar.extents | grammar.name_ends | grammar.particles
    )  # fmt: skip
    marked = any(m.first <= at < m.last for marks in narration.marks.values() for m in marks)
    return word.isalpha() and word not in known and not marked and not narration.named(at, at + 1)


def _told_with_deed(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether a whole number stands in a sentence behind something done or fitted, and nothing was read there."""
    begin = narration.sentence_begins(quantity.first)
    done = any(
        narration.marked(label, begin, quantity.first) for label in ("work", "result", "new part", "part")
    )
    return quantity.value == int(quantity.value) and done and not measuring(narration, begin, clause.last)


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
