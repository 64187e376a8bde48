"""Where to cut: the engine gets speech in pieces that end in the longest pauses, so not within a number.

All times are seconds from the start of the sound at hand; stretches are half-open.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

LONGEST_PIECE_S = 29.5  # the window of the engine is 30 s; whatever is longer it leaves out
LATE = (
    0.85  # of the longest piece: it is cut in the longest pause after that; 0.67 made a quarter more pieces
)
PAD_S = 0.4  # of the pause kept on each side of speech
SLICE_S = 480.0  # the engine's memory grows with the length it gets at once
FIRST_S = 45.0  # of the visit, in which people say what they stand in front of
CUT_WITHIN_S = 20.0  # a slice is cut in the longest pause of its last seconds


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of speech, or of sound around it."""

    start: float
    end: float

    @property
    def seconds(self) -> float:
        return self.end - self.start


Piece = tuple[Stretch, ...]  # stretches that are recognised as if nothing lay between them


def padded(speech: Sequence[Stretch], length_s: float) -> list[Stretch]:
    """Each stretch with up to PAD_S of the pauses around it; short pauses are thus kept whole."""
    middles = [(a.end + b.start) / 2 for a, b in pairwise(speech)]
    starts, ends = [0.0, *middles], [*middles, length_s]
    return [
        Stretch(max(stretch.start - PAD_S, start), min(stretch.end + PAD_S, end))
        for stretch, start, end in zip(speech, starts, ends, strict=False)  # no speech: nothing
    ]


def pieces_of(speech: Sequence[Stretch], length_s: float, longest_s: float = LONGEST_PIECE_S) -> list[Piece]:
    """The speech packed into pieces of at most `longest_s`, each cut in its longest late pause.

    A single stretch that is longer stays whole; voice detection splits those before.
    """
    sounds = padded(speech, length_s)
    pieces: list[Piece] = []
    first = 0
    while first < len(sounds):
        last = _cut(speech, sounds, first, longest_s)
        pieces.append(tuple(sounds[first:last]))
        first = last
    return pieces


def _cut(speech: Sequence[Stretch], sounds: Sequence[Stretch], first: int, longest_s: float) -> int:
    """The stretch before which the piece that begins at `first` ends."""
    total = 0.0
    ends: list[
        tuple[float, int, float]
    ] = []  # of all that fit: pause after it, index after it, length so far
    for index in range(first, len(sounds)):
        total += sounds[index].seconds
        if total > longest_s:
            break
        if index + 1 == len(sounds):
            return len(sounds)
        ends.append((speech[index + 1].start - speech[index].end, index + 1, total))
    late = [end for end in ends if end[2] >= longest_s * LATE] or ends
    return max(late)[1] if late else first + 1


def full_slice_end(speech: Sequence[Stretch], length_s: float) -> float:
    """Where to end a slice that is not the last: so that no short piece is left over, which would cost as much time
    as a full one. What is behind the end is heard with the next slice.
    """
    end = slice_end(speech, length_s)
    within = [Stretch(s.start, min(s.end, end)) for s in speech if s.start < end]
    *full, last = pieces_of(within, end) or [()]
    if not full or sum(stretch.seconds for stretch in last) >= LONGEST_PIECE_S * LATE:
        return end
    return last[0].start


def slice_end(speech: Sequence[Stretch], length_s: float) -> float:
    """Where to end a full slice: in the middle of the longest pause of its last seconds, else at its end."""
    edges = [Stretch(0.0, 0.0), *speech, Stretch(length_s, length_s)]
    pauses = [(b.start - a.end, (a.end + b.start) / 2) for a, b in pairwise(edges)]
    late = [pause for pause in pauses if pause[1] >= length_s - CUT_WITHIN_S]
    longest, middle = max(late, default=(0.0, length_s))
    return middle if longest > 0 else length_s
