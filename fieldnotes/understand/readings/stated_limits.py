"""What the technician says that a reading should be, as the limit that it is held against.

"The book says fifteen to thirty ohms for this pump", "it should be under four inches". Only bounds count: a single
figure ("plate says twenty four") leaves open how far off is too far. A limit is taken for the one reading beside it
that has its unit, or any unit where it was said without, and for the same thing measured elsewhere in the visit;
where it could be meant for two readings, or names something else, it is taken for none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fieldnotes.records import STATED, Limit, Reading
from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.readings.ranges import range_at
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import things_in
from fieldnotes.vocabulary.measures import NumberWords

BESIDE = 1  # breaths between a reading and its limit
WIDEST = 20  # times the lower end; a wider range was misheard, or its lower end said short
UNTOLD = ("question", "hypothetical", "customer", "history")  # stances that state nothing


@dataclass(frozen=True, slots=True)
class Placed:
    """A reading, and the breath in which it was told."""

    reading: Reading
    breath: int


@dataclass(frozen=True, slots=True)
class _Stated:
    lowest: float | None
    highest: float | None
    unit: str | None  # None: said without
    source: str
    breath: int
    things: tuple[str, ...]  # that are named with it
    either: bool  # may be lowest or highest, as far as the words go


def with_stated_limits(
    narration: Narration,
    clauses: Sequence[Clause],
    gone: frozenset[int],
    found: Sequence[Placed],
    numbers: NumberWords,
) -> list[Reading]:
    """The readings, each with the limit that was stated for it, if one was."""
    limits: dict[int, Limit] = {}
    for stated in _stated_in(narration, clauses, gone, numbers):
        beside = _beside(stated, found)
        if beside is None:
            continue
        about, unit = found[beside].reading.about, found[beside].reading.unit
        if stated.either and unit not in narration.trade.escaping:
            continue
        limit = Limit(
            minimum=stated.lowest, maximum=stated.highest, unit=unit,
            source=stated.source, status=STATED,
        )  # fmt: skip
        for n, placed in enumerate(found):
            same = placed.reading.about == about and placed.reading.unit == unit
            if n == beside or (same and n not in limits):
                limits[n] = limit
    return [
        placed.reading.model_copy(update={"limit": limits[n]}) if n in limits else placed.reading
        for n, placed in enumerate(found)
    ]


def _beside(stated: _Stated, found: Sequence[Placed]) -> int | None:
    """The one reading that a limit is meant for: in its own breath, else in the one before, else in the one behind."""
    for distance in (0, -BESIDE, BESIDE):
        near = [
            n
            for n, placed in enumerate(found)
            if placed.breath == stated.breath + distance and stated.unit in (None, placed.reading.unit)
        ]
        if near:
            fits = len(near) == 1 and _may_be_about(stated.things, found[near[0]].reading.about)
            return near[0] if fits else None
    return None


def _may_be_about(things: Sequence[str], about: str) -> bool:
    """Whether all that is named with a limit is the thing measured: "this pump" for the drain pump."""
    return all(thing == about or set(thing.split()) <= set(about.split()) for thing in things)


def _stated_in(
    narration: Narration, clauses: Sequence[Clause], gone: frozenset[int], numbers: NumberWords
) -> Iterator[_Stated]:
    for index, breath in enumerate(narration.breaths):
        told = [q for q in narration.numbers(*breath) if q.first not in gone and not q.replaced]
        for before, quantity in zip([None, *told], told, strict=False):
            here = [c for c in clauses if c.first < quantity.last and quantity.first < c.last]
            if any(c.stance in UNTOLD for c in here) or not _unit_is_clear(narration, quantity, breath[1]):
                continue
            ends = _range(narration, before, quantity, breath, numbers)
            bounds = ends or _bound(narration, quantity, breath)
            if bounds is None:
                continue
            first = min(bounds.first, *(c.first for c in here))
            last = max(bounds.last, *(c.last for c in here))
            yield _Stated(
                bounds.lowest,
                bounds.highest,
                quantity.unit,
                evidence_of(narration, first, last).quote.rstrip(".,;"),
                index,
                tuple(thing.name for thing in things_in(narration, first, last)),
                bounds.either,
            )


@dataclass(frozen=True, slots=True)
class _Bounds:
    """What words [first, last) state; None: no bound on that side."""

    lowest: float | None
    highest: float | None
    first: int
    last: int
    either: bool = False


def _range(
    narration: Narration,
    before: Quantity | None,
    quantity: Quantity,
    breath: tuple[int, int],
    numbers: NumberWords,
) -> _Bounds | None:
    """Both ends, where the number is the upper one of what should be ("fifteen to thirty")."""
    if before is None or not range_at(narration, before, quantity):
        return None
    told = [
        mark
        for mark in narration.marked("expected", *breath)
        if (mark.first < before.first and narration.words[mark.first] != "between")
        or mark.first >= quantity.last
    ]
    if not told:
        return None
    lowest = before.value
    for words, factor in ((numbers.hundred, 100), (numbers.thousand, 1000)):
        said_short = not words.isdisjoint(narration.words[quantity.first : quantity.last])
        if said_short and lowest < factor and lowest * factor < quantity.value:
            lowest *= factor  # "eight to twelve hundred"
    if quantity.value > WIDEST * lowest:
        return None
    return _Bounds(
        lowest, quantity.value, min(told[0].first, before.first), max(told[-1].last, quantity.last)
    )


def _bound(narration: Narration, quantity: Quantity, breath: tuple[int, int]) -> _Bounds | None:
    """The one end that the number is ("no more than three", "twenty or better")."""
    for mark in narration.marked("bound", *breath):
        if mark.first <= quantity.first and quantity.last <= mark.last:
            lowest, highest = (quantity.value, None) if mark.value == "lowest" else (None, quantity.value)
            return _Bounds(lowest, highest, mark.first, mark.last, either=mark.value == "limit")
    return None


def _unit_is_clear(narration: Narration, quantity: Quantity, end: int) -> bool:
    """Whether the number's unit is known, or it surely was said without: "more than one mega" was not."""
    if quantity.unit is not None or quantity.last >= end or narration.tokens[quantity.last - 1].stop:
        return True
    grammar = narration.grammar
    return narration.words[quantity.last] in grammar.prepositions | grammar.being | grammar.joiners
