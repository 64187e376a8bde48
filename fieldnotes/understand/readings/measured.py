"""Which numbers of a clause were measured: not what should be, a rating, a range, a setting or part of a name."""

from __future__ import annotations

from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.readings.expectation import is_expected
from fieldnotes.understand.readings.ranges import is_range_end
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import things_in

NEAR = 0.2  # share by which neighbours of a drifting reading differ at most
NEARER = 0.1  # the same where both have their unit
BY_THE_CLOCK = ("by", "on")
NUMBER_REACH = 3  # words between "part number" and its figures
DURATIONS = ("s", "min", "h")
DEGREES = ("degF", "degC")
LENGTHS = ("mm", "in", "ft", "m")
FAR = ("ft", "m")
# mostly read off a plate; they count where a measuring word says so
RATINGS = ("W", "kW", "gal", "L", "kg", "lb", "Hz", "%")
# units as they are said in front of a thing ("a nine volt battery") and in a rating ("line fuse, thirty amp")
SINGULARS = (
    "amp", "volt", "watt", "kilowatt", "inch", "foot", "gallon", "litre", "liter", "millimetre", "millimeter", "ohm",
    "microfarad", "mfd", "degree", "pound", "minute", "second", "hour", "kilo", "percent",
)  # fmt: skip
RATED = SINGULARS[:9]
HIGHEST = {"V": 1000}
MOST_OFF = 100  # "it runs forty degrees cold"
EXTREMES = ("low", "high", "lowest", "highest", "min", "max", "minimum", "maximum", "bottom", "top")
TEST_VOLTAGES = (250, 500, 1000)
SHOWING = frozenset(
    ("says", "say", "said", "reads", "read", "shows", "showed", "gives", "gave")
)  # what a gauge does
APPROXIMATE = ("about", "around", "roughly", "nearly", "almost", "maybe")


def measured_in(narration: Narration, clause: Clause, gone: frozenset[int]) -> list[Quantity]:
    """The numbers of a clause that a reading can rest on, in order."""
    return [
        q
        for q in narration.numbers(clause.first, clause.last)
        if not q.replaced
        and not q.ordinal_or_count
        and q.first not in gone
        and not is_expected(narration, clause, q)
        and not is_range_end(narration, clause, q)
        and not _drifts_on(narration, clause, q)
        and not _is_a_number_of_something(narration, q)
        and not _bound_or_step(narration, q)
        and not _broken_off(narration, clause, q)
        and not _applied(narration, clause, q)
    ]


def is_rated(narration: Narration, clause: Clause, quantity: Quantity, unit: str) -> bool:
    """Whether a number tells what something is made or set for: a duration counts only where it was timed, what is
    mostly read off a plate only where it was measured."""
    if unit in DURATIONS:
        begin, _ = narration.breaths[clause.breath]
        return not is_timed_behind(narration, clause, quantity) and not any(
            m.value == "after" or m.first < quantity.first
            for m in narration.marked("timed", begin, clause.last)
        )
    if quantity.value >= HIGHEST.get(unit, quantity.value + 1):
        return True  # four thousand volts: known, not metered
    measured = measuring(narration, clause.first, clause.last) or _was_given(narration, clause, quantity)
    if _describes_a_thing(narration, quantity) or _pictures(narration, clause, quantity, unit):
        return True
    partitive = narration.words[quantity.last : quantity.last + 1] == ("of",)  # "eleven foot of it"
    if (
        narration.words[quantity.last - 1] in RATED
        and not (measured or partitive)
        and quantity.value == int(quantity.value)
    ):
        return not _has_verb(narration, clause.first, quantity.first)  # "line fuse, twenty amp"
    return unit in RATINGS and not measured


def is_timed_behind(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether a duration that opens its clause is told to be timed right behind it ("ninety seconds, by the watch")."""
    end = narration.breaths[clause.breath][1]
    behind = [
        m
        for m in narration.marked("timed", clause.last, min(clause.last + 1, end))
        if narration.words[m.first] in BY_THE_CLOCK
    ]
    return (
        quantity.first == clause.first
        and quantity.unit in DURATIONS
        and any(m.value == "after" for m in behind)
    )


def measuring(narration: Narration, first: int, last: int) -> bool:
    """Whether words of measuring ("reads", "I get") stand in a stretch; "it ran" alone is none."""
    return any(m.value != "swings" for m in narration.marked("measuring", first, last))


def _is_a_number_of_something(narration: Narration, quantity: Quantity) -> bool:
    """Whether it is part of a part, model or serial number."""
    return any(
        0 <= quantity.first - mark.last <= NUMBER_REACH
        for label in ("part number", "model", "serial")
        for mark in narration.marks.get(label, ())
        if mark.last - mark.first > 1 or label != "part number"
    )


def _bound_or_step(narration: Narration, quantity: Quantity) -> bool:
    """Whether it is a bound ("below about ten degrees"), a rating ("right for a ..."), a step ("down twenty degrees")
    or a distance to stand off ("five centimetres off the door")."""
    words, at = narration.words, quantity.first
    while at > 0 and words[at - 1] in APPROXIMATE:
        at -= 1
    before = words[at - 1] if at else ""
    after = words[quantity.last] if quantity.last < len(words) else ""
    return (
        before == "all"  # "all four feet"
        or (before in ("below", "under") and not any(q.first < at <= q.last for q in narration.quantities))
        or (before in ("a", "an") and words[at - 2 : at - 1] == ("for",))  # "that's right for a 2,500 watt"
        or (before in ("a", "an") and quantity.unit is None)  # "what a forty five hundred ought to pull"
        or (quantity.unit in DEGREES and after in narration.trade.deviating and quantity.value < MOST_OFF)
        or (before in ("over", "above") and quantity.unit is None)
        or (before in ("up", "down") and quantity.unit in DEGREES)
        or (quantity.unit in LENGTHS and after in ("off", "away", "from", "back", "clear"))
    )


def _broken_off(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether a bare number is dropped at once: "reading five point two, no, no, wrong range"."""
    rest = narration.words[quantity.last : clause.last]
    return (
        quantity.unit is None
        and rest[:1] == ("no",)
        and (len(rest) == 1 or rest[1] in ("no", "wait", "sorry"))
    )


def _drifts_on(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether a bare number is followed in its breath by one close to it that has the unit ("two thirty, two
    thirty-two, two thirty-four volts"): the reading was still moving."""
    begin, end = narration.breaths[clause.breath]
    if any(w in narration.trade.several_windings for w in narration.words[begin : quantity.first]):
        return False  # a number for each of them
    later = [
        q for q in narration.numbers(quantity.last, end) if q.unit is not None and not q.ordinal_or_count
    ]
    if not later or things_in(narration, quantity.last, later[0].first):
        return False
    between = narration.words[quantity.last : later[0].first]
    if any(w in EXTREMES for w in between):
        return False
    joined = "and" in between or between[:1] == ("to",)
    if quantity.unit is not None and (quantity.unit != later[0].unit or joined):
        return False
    near = NEAR if quantity.unit is None else NEARER
    return abs(later[0].value - quantity.value) <= near * abs(later[0].value)


def _applied(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether it is the voltage that an insulation tester puts on ("insulation to earth, at five hundred volts")."""
    if quantity.unit not in (None, "V") or quantity.value not in TEST_VOLTAGES:
        return False
    begin, end = narration.breaths[clause.breath]
    return any(w in narration.trade.insulation_testers for w in narration.words[begin:end])


def _has_verb(narration: Narration, first: int, last: int) -> bool:
    grammar = narration.grammar
    return any(word in grammar.being or word in grammar.links for word in narration.words[first:last])


def _was_given(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether a word of measuring ends the clause before a number ("cold gave me, um, two gallons")."""
    if quantity.first != clause.first:
        return False
    begin = narration.sentence_begins(quantity.first)
    marks = [m for m in narration.marked("measuring", begin, clause.first) if m.value != "swings"]
    return any(clause.first - 1 <= m.last <= clause.first for m in marks)


def _pictures(narration: Narration, clause: Clause, quantity: Quantity, unit: str) -> bool:
    """Whether a length only pictures how much of something lies there ("three feet of sausages on it"), which is
    neither water, dirt nor a part."""
    words, at = narration.words, quantity.last
    if unit not in FAR or words[at : at + 1] != ("of",) or at + 1 >= clause.last:
        return False
    named = narration.named(at, clause.last) or words[at + 1] in narration.grammar.pronouns
    stuff = any(narration.marked(label, at, clause.last) for label in ("soil", "matter"))
    return not (named or stuff or words[at + 1] in narration.nouns)


def _describes_a_thing(narration: Narration, quantity: Quantity) -> bool:
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
        or last not in SINGULARS
    ):
        return False
    after, grammar = narration.words[quantity.last], narration.grammar
    return (
        after.isalpha()
        and not narration.marked("outcome", quantity.last, quantity.last + 1)
        and not any(
            after in group
            for group in (grammar.prepositions, grammar.joiners, grammar.goes_with_judgement, grammar.openers)
        )
    )
