"""Where a recording was split in the middle of speech: from where to where it is heard again across the cut.

A recorder that begins a new file by itself, or a thumb on the button, cuts words and numbers in two; each half
alone is heard as something else ("two hund|red and forty" as 140). All times of a part are on its own clock.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fieldnotes.hear.breaths import moved
from fieldnotes.hear.pieces import PAD_S, Stretch
from fieldnotes.transcript import Breath

EDGE_S = 0.2  # speech that comes so near to the end of a file was not over
REACH_S = 5.0  # heard again of speech at a cut of which no word was understood


@dataclass(frozen=True, slots=True)
class Side:
    """A part of the visit on one side of a cut. `speech` reaches from its first to its last; None: nobody speaks."""

    breaths: tuple[Breath, ...]
    seconds: float
    speech: Stretch | None


def runs_on(before: Side, after: Side) -> bool:
    """Whether somebody speaks up to the end of one part and from the start of the next."""
    return (
        before.speech is not None
        and after.speech is not None
        and before.speech.end >= before.seconds - EDGE_S
        and after.speech.start <= EDGE_S
    )


def stretch_across(before: Side, after: Side) -> tuple[float, float]:
    """From where of the first part to where of the second: whole breaths, as far as words were heard at the cut.

    Some of the pauses around them comes along, as the recogniser's word times are not exact.
    """
    begin = max(0.0, before.seconds - REACH_S)
    if before.breaths:
        start, end = _times(before.breaths[-1])
        rest = _times(before.breaths[-2])[1] if len(before.breaths) > 1 else 0.0
        begin = max(start - PAD_S, (rest + start) / 2, 0.0) if end > begin else max(begin, end)
    until = min(after.seconds, REACH_S)
    if after.breaths:
        start, end = _times(after.breaths[0])
        rest = _times(after.breaths[1])[0] if len(after.breaths) > 1 else after.seconds
        until = min(end + PAD_S, (end + rest) / 2, after.seconds) if start < until else until
    return begin, until


def rejoined(
    before: Side, after: Side, across: Sequence[Breath], begin: float, until: float
) -> tuple[tuple[Breath, ...], tuple[Breath, ...]]:
    """The breaths of both sides, with those heard across the cut (on the first part's clock) in their place.

    One that goes over the cut belongs to the side on which most of it lies.
    """
    first = [breath for breath in before.breaths if _times(breath)[0] < begin]
    second = [breath for breath in after.breaths if _times(breath)[1] > until]
    early = [breath for breath in across if sum(_times(breath)) / 2 < before.seconds]
    late = [moved(breath, -before.seconds, 0) for breath in across[len(early) :]]
    return (*first, *early), (*late, *second)


def _times(breath: Breath) -> tuple[float, float]:
    return breath.words[0].start or 0.0, breath.words[-1].end or 0.0
