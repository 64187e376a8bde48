"""What "both" and "neither" mean: the two things that were named last."""

from __future__ import annotations

from fieldnotes.understand.checks.outcomes import Found
from fieldnotes.understand.checks.targets import OPEN
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing

PAIRS = ("both", "neither")
ENDS = frozenset(("end", "ends", "side", "sides", "half", "halves"))


def both_meant(
    narration: Narration,
    clause: Clause,
    found: Found,
    things: list[Thing],
    pair: list[Thing],
    waiting: list[Thing],
) -> list[Thing]:
    """The two things, where an outcome is said of both or neither and no name with it; else nothing. `things`: named
    in the clause; `pair`: named last; `waiting`: named without an outcome so far."""
    grammar, words = narration.grammar, narration.words
    said = [n for n in range(clause.first, found.last) if words[n] in PAIRS]
    beside = [t for t in things if not found.first <= t.first < found.last]  # not "neither goes to earth"
    if found.outcome in OPEN or beside or not said or len(pair) < 2:
        return []
    after = said[0] + 1
    behind = words[after] if after < len(words) else ""
    if behind not in grammar.being and behind in narration.nouns | ENDS:
        return []  # "neither end of it", "both clips"
    if len(waiting) == 1 and pair[:1] != waiting and narration.breath_of(pair[0].first) != clause.breath:
        return []  # "Cutouts, there's two of them, both closed"
    if after < found.first and behind != "of" and behind not in grammar.seemings:
        return []  # "both times", "both ways"
    return list({t.name: t for t in pair}.values())
