"""Pieces of a sound put end to end for the engine, and the way back from its times to those of the whole."""

from __future__ import annotations

from bisect import bisect
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from fieldnotes.hear.pieces import Piece
from fieldnotes.hear.sound import RATE, Sound


class Packing:
    """Seconds of the packed sound <-> seconds of the whole."""

    def __init__(self, sound: Sound, pieces: Sequence[Piece]) -> None:
        self.pieces = pieces
        self._starts: list[list[float]] = []
        blocks, at = [], 0
        for piece in pieces:
            starts = []
            for stretch in piece:
                block = sound[round(stretch.start * RATE) : round(stretch.end * RATE)]
                starts.append(at / RATE)
                blocks.append(block)
                at += len(block)
            self._starts.append(starts)
        self._end_s = at / RATE
        self.sound: Sound = np.concatenate(blocks) if blocks else np.zeros(0, dtype=np.float32)

    def start(self, index: int) -> float:
        """Where a piece begins in the packed sound."""
        return self._starts[index][0]

    def piece(self, index: int) -> Sound:
        """The sound of one piece."""
        clip = self.clips()[index]
        return self.sound[round(clip["start"] * RATE) : round(clip["end"] * RATE)]

    def clips(self) -> list[dict[str, float]]:
        """Start and end of each piece within the packed sound."""
        edges = [starts[0] for starts in self._starts] + [self._end_s]
        return [{"start": a, "end": b} for a, b in pairwise(edges)]

    def index(self, start: float) -> int:
        """The piece that begins at a time of the packed sound, or up to 20 ms after it."""
        return bisect([starts[0] for starts in self._starts], start + 0.02) - 1

    def times(self, index: int, start: float, end: float) -> tuple[float, float]:
        """A word's times in the whole sound: those of the stretch in which most of it lies."""
        piece, starts = self.pieces[index], self._starts[index]
        best, most = (0.0, 0.0), float("-inf")
        for stretch, packed in zip(piece, starts, strict=True):
            stop = packed + stretch.seconds
            if (overlap := min(end, stop) - max(start, packed)) > most:
                a, b = (min(max(at, packed), stop) - packed + stretch.start for at in (start, end))
                most, best = overlap, (a, b)
        return best
