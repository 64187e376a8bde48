"""Ranges: two numbers that say together what should be, or between which a reading swung."""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration

SWING_REACH = 5  # words between "it swings" and the lower end


def is_range_end(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether the number is one end of a range ("fifteen to thirty ohms", "between two and four"): that is what should
    be, unless it was seen to swing ("cycles between three thirty and three sixty")."""
    begin, end = narration.breaths[clause.breath]  # "and" may part the ends into two clauses
    for lower, upper in pairwise(q for q in narration.numbers(begin, end) if not q.ordinal_or_count):
        if quantity in (lower, upper) and range_at(narration, lower, upper):
            return not swings(narration, begin, lower)
    return False


def range_at(narration: Narration, lower: Quantity, upper: Quantity) -> bool:
    """Whether two neighbouring numbers are the ends of a range: "fifteen to thirty"."""
    words = narration.words
    if narration.tokens[lower.last - 1].stop or lower.value >= upper.value:
        return False
    if lower.last == upper.first:
        return words[upper.first].startswith("-") and upper.value > 0  # "15-30"
    before = words[lower.first - 1] if lower.first else ""
    joined = words[lower.last : upper.first]
    if joined == ("and",):
        return before == "between"
    return joined in (("to",), ("through",), ("up", "to")) and (
        lower.unit is None or lower.unit == upper.unit
    )


def swings(narration: Narration, begin: int, lower: Quantity) -> bool:
    """Whether the speaker saw it swing between this number and the next."""
    return any(
        m.value == "swings" and 0 <= lower.first - m.first <= SWING_REACH
        for m in narration.marked("measuring", begin, lower.first)
    )
