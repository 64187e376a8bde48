"""Whether a fault that is named is also there: "there's a crack", "it drips", "Rear roller. Flat spot."; a "leak test"
says nothing of a leak."""

from __future__ import annotations

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration

PRESENCE = 4  # words before a fault's noun in which "a", "some", "there's" say that it is there


def is_there(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a fault's noun is said of a thing, to be there, or all that is said."""
    return (
        _shows(narration, mark)
        or narration.words[clause.first : mark.first][-1:] in (("it",), ("they",))  # "it drips"
        or _is_present(narration, clause, mark)
        or _is_all_that_is_said(narration, clause, mark)
    )


def _shows(narration: Narration, mark: Mark) -> bool:
    """Whether a fault's noun in -ing is said of a thing ("is sagging")."""
    words = narration.words
    return words[mark.first - 1] in narration.grammar.being and words[mark.first].endswith("ing")


def _is_present(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a fault's noun is said to be there: "there's a crack", "got some play"; "the leak test" says nothing."""
    if any(m.first <= mark.first and mark.last < m.last for m in narration.mentions):
        return False
    if mark.first == clause.first:  # "burn mark the size of a dime", "drips on the floor"
        the = narration.words[mark.last : mark.last + 1] in (("the",), ("all",))
        return before_a_preposition(narration, clause, mark) or (the and mark.last < clause.last)
    window = narration.words[max(clause.first, mark.first - PRESENCE) : mark.first]
    return window[-1] != "any" and any(word in narration.grammar.presence for word in window)


def _is_all_that_is_said(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a fault's noun is all that its breath says of the thing that it names ("Rear roller. Flat spot.", "left
    rear roller, flat spot.", "vent hose, packed solid lint.")."""
    start, end = narration.breaths[clause.breath]
    begin = mark.first
    while begin > clause.first and any(
        m.first < begin <= m.last for m in narration.marked("outcome", clause.first, begin)
    ):
        begin -= 1  # another word of the same finding
    if not start < begin == clause.first or mark.last != clause.last:
        return False
    before, behind = narration.tokens[begin - 1].stop, narration.tokens[mark.last - 1].stop
    named = narration.named(start, begin)
    if not named:
        return False
    if (before, behind) == (".", "."):
        return True
    bare = all(
        any(m.first <= n < m.last for m in named) or narration.words[n] in narration.grammar.before_noun
        for n in range(start, begin)
    )
    return bare and before == "," and mark.last == end


def before_a_preposition(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a preposition follows the words in their clause."""
    return not ends_there(narration, clause, mark) and (
        narration.words[mark.last] in narration.grammar.prepositions
    )


def ends_there(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether the clause, or a stop, ends right behind the words."""
    return mark.last >= clause.last or bool(narration.tokens[mark.last - 1].stop)
