"""Words of expectation: whether a number is what should be, or what was set, rather than what was read."""

from __future__ import annotations

from dataclasses import replace

from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.readings.ranges import swings
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.vocabulary.quantities import QUANTITY_OF

EXPECTATION_REACH = 6  # words between "should be" and its number
FITTED_REACH = 4  # breaths over which "new one" is the part that was fitted
LISTING = ("and", "or", "to", "through", "maybe", "say", "uh", "um")
NEVER_SET = ("resistance", "voltage", "current", "capacitance")  # no dial or programme is set in these


def is_expected(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether words of expectation stand before the number or right behind it, or before the number that it goes on
    from ("book's got thirteen sixty, five seventy")."""
    if _is_expected(narration, clause.first, clause.last, quantity):
        return True
    begin, _ = narration.breaths[clause.breath]
    before = narration.numbers(begin, quantity.first)[-1:]
    if not before or before[0].unit not in (None, quantity.unit):
        return False
    gap = narration.words[before[0].last : quantity.first]
    if not all(w in LISTING for w in gap) or narration.tokens[before[0].last - 1].stop in (".", "?", "!"):
        return False
    return is_expected(narration, replace(clause, first=begin, last=before[0].last), before[0])


def _is_expected(narration: Narration, first: int, last: int, quantity: Quantity) -> bool:
    harmless = narration.marked("pseudo", first, last)
    begin, end = narration.breaths[narration.breath_of(quantity.first)]
    expected = [
        m
        for m in narration.marked("expected", begin, end)
        if not (m.value == "setting" and QUANTITY_OF.get(quantity.unit or "") in NEVER_SET)
    ]
    told = [m for m in expected if m.first < quantity.first < m.last]
    behind = [
        m for m in expected if quantity.last <= m.first < quantity.last + 2 and not _judges(narration, m)
    ]
    if told or any(m.value == "after" for m in behind):
        between = bool(told) and all(narration.words[m.first] == "between" for m in told)
        return not (between and swings(narration, begin, quantity))
    return any(
        first <= mark.first < last
        and mark.value != "after"
        and not any(p.first <= mark.first and mark.last <= p.last for p in harmless)
        and not narration.marked("measuring", mark.last, mark.last + 1)  # "new one's putting out ..."
        and not _is_the_fitted_one(narration, mark)
        and _reaches(narration, mark, quantity)
        for mark in expected
    )


def _reaches(narration: Narration, mark: Mark, quantity: Quantity) -> bool:
    """Whether the number, or the first of the range that it ends, is the next behind the words of expectation."""
    start = quantity.first
    for earlier in reversed(narration.numbers(mark.first, quantity.first)):
        joined = narration.words[earlier.last : start]
        if len(joined) <= 2 and any(w in ("to", "and", "or", "through") for w in joined):
            start = earlier.first
    return mark.first < start <= mark.last + EXPECTATION_REACH and not narration.numbers(mark.last, start)


def _judges(narration: Narration, mark: Mark) -> bool:
    """Whether words of expectation judge what was read, and do not tell what should be ("..., which is what it ought to
    pull", "... and that's what you'd want")."""
    words, at = narration.words, mark.first
    at -= words[at - 1] == "that"
    return words[at - 1] in ("which", "and")


def _is_the_fitted_one(narration: Narration, mark: Mark) -> bool:
    """Whether "new one reads" tells of a part that was just fitted, not of how a new one is."""
    words = narration.words
    if words[mark.first : mark.first + 2] not in (("new", "one"), ("new", "ones")):
        return False
    if words[mark.first - 1] in ("a", "any", "some"):
        return False
    breath = narration.breath_of(mark.first)
    begin, _ = narration.breaths[max(0, breath - FITTED_REACH)]
    return any(
        m.value == "replaced"
        for label in ("work", "result")
        for m in narration.marked(label, begin, mark.first)
    )
