"""The words around a line: what was said in the same breath, and right after it."""

from __future__ import annotations

from fieldnotes.records import Evidence
from fieldnotes.transcript import Breath, Transcript

GOES_ON_S = 1.0  # a breath that begins this soon after goes on with the same thought


def said_around(evidence: Evidence, transcript: Transcript | None) -> str:
    """The whole breaths that the evidence lies in, and one that goes right on; at least its own quote.

    Without times a breath is found by the words of the quote.
    """
    breaths = [b for b in (transcript.breaths if transcript else ()) if _holds(b, evidence)]
    return " / ".join(text_of(breath) for breath in breaths) or evidence.quote


def _holds(breath: Breath, evidence: Evidence) -> bool:
    first = next((w.start for w in breath.words if w.start is not None), None)
    last = next((w.end for w in reversed(breath.words) if w.end is not None), None)
    if evidence.start is None or evidence.end is None or first is None or last is None:
        return bool(evidence.quote) and evidence.quote in text_of(breath)
    return first <= evidence.end + GOES_ON_S and last >= evidence.start


def text_of(breath: Breath) -> str:
    """The words of a breath as heard."""
    return " ".join(word.text for word in breath.words)
