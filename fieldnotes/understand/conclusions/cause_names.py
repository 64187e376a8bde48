"""What a sentence that names a cause holds to be it, with its words."""

from __future__ import annotations

import itertools

from fieldnotes.records import Certainty
from fieldnotes.understand.conclusions.blame import Blame
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing, own_words, things_in

BACK = ("that", "which", "this", "hence", "so", "and", "there")
LOOKED_BY = ("certain", "owing", "yours", "cleft", "from", "ruin")


def abouts_in(blame: Blame, clauses: list[Clause], certainty: Certainty) -> list[tuple[str, int, int]]:
    """What a sentence holds to be the cause, with its words. "Could be a leak, or a restriction" names two."""
    narration = blame.narration
    groups = [clauses]
    if certainty == "possible":
        groups = [[clauses[0]]]
        for clause in clauses[1:]:
            if _guesses(narration, groups[-1]) and _opens_another(narration, clause):
                groups.append([clause])
            else:
                groups[-1].append(clause)
    spans = [(group[0].first, group[-1].last) for group in groups]
    if certainty == "possible":
        spans = [part for first, last in spans for part in _at_each_guess(narration, first, last)]
    found: list[tuple[str, int, int]] = []
    for start, end in spans:
        things = _at_the_cue(blame, clauses, start, end) or things_in(narration, start, end)
        tail = max([c.first for c in clauses if start <= c.first < end], default=start)
        said = own_words(narration, tail, end) or _before_the_guess(narration, start, end)
        about = things[0].name if things else said.name if said else " ".join(narration.words[start:end])
        found.append((about, start, end))
    return found


def _before_the_guess(narration: Narration, first: int, last: int) -> Thing | None:
    """The speaker's own name for what "could be it"."""
    cues = [m for m in narration.marked("cause", first, last) if m.value == "possible"]
    return own_words(narration, first, cues[0].first) if cues else None


def _at_each_guess(narration: Narration, first: int, last: int) -> list[tuple[int, int]]:
    """The stretches of "could be the module could be low pressure", said without a stop."""
    guesses = [
        m.first
        for m in narration.marked("cause", first, last)
        if m.value == "possible" and narration.words[m.first] in ("could", "may", "might")
    ]
    edges = [first, *(n for n in guesses[1:] if guesses[0] == first), last]
    return list(itertools.pairwise(edges))


def _guesses(narration: Narration, clauses: list[Clause]) -> bool:
    return any(m.value == "possible" for c in clauses for m in narration.marked("cause", c.first, c.last))


def _opens_another(narration: Narration, clause: Clause) -> bool:
    """Whether a clause names a second cause ("or ...", "could be the relay"); "I can't rule it out" does not."""
    marks = [m for m in narration.marked("cause", clause.first, clause.last) if m.value == "possible"]
    return narration.words[clause.first] == "or" or any(m.last < clause.last for m in marks)


def _at_the_cue(blame: Blame, clauses: list[Clause], first: int, last: int) -> list[Thing]:
    """What is named behind "caused by", "the cause was" and the like; before it, where the cue points back ("...,
    which is why", "that's what did it")."""
    narration = blame.narration
    cues = [m for m in narration.marked("cause", first, last) if m.value in LOOKED_BY]
    if not cues:
        being = next((at for c in clauses if first <= c.first < last and (at := blame.of_trouble(c))), None)
        return [] if being is None else things_in(narration, being, last)
    if cues[0].value in ("cleft", "ruin"):
        return things_in(narration, first, cues[0].first)
    head = narration.words[cues[0].first : cues[0].first + 2]
    points_back = (
        head[0] in BACK or head[-1] == "what"
    )  # "..., which is why", "a blocked vent is what did it"
    back = things_in(narration, first, cues[0].first) if points_back else []
    named = back or things_in(narration, cues[0].last - 1, last)
    return [thing for thing in named if not thing.condition] or named
