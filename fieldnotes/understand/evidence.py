"""The words that a line of the report rests on."""

from __future__ import annotations

from fieldnotes.records import Evidence
from fieldnotes.tidy.tokens import quote
from fieldnotes.understand.words.narration import Narration

GUESSED = 0.5  # confidence at most of what rests on a word that was heard as another one


def evidence_of(narration: Narration, first: int, last: int) -> Evidence:
    """Evidence for the words [first, last): their times, the words as heard, the mean of their probabilities,
    but never sure where one of them was guessed."""
    while first > 0 and not narration.tokens[first].heard:  # "isn't" counts whole, not from its middle
        first -= 1
    tokens = narration.tokens[first:last]
    starts = [t.start for t in tokens if t.start is not None]
    ends = [t.end for t in tokens if t.end is not None]
    sure = sum(t.confidence for t in tokens) / len(tokens) if tokens else 1.0
    return Evidence(
        start=round(min(starts), 3) if starts else None,
        end=round(max(ends), 3) if ends else None,
        quote=quote(tokens).strip(" ,;:"),
        confidence=round(min(sure, GUESSED) if any(t.guessed for t in tokens) else sure, 3),
    )
