"""The stretches of a piece put end to end for the engine, and the way back from its times to the whole's."""

from __future__ import annotations

import numpy as np

from fieldnotes.hear.pieces import Piece
from fieldnotes.hear.sound import RATE, Sound


class Packing:
    """One piece's sound without the pauses between its stretches. Times are seconds."""

    def __init__(self, sound: Sound, piece: Piece) -> None:
        self.piece = piece
        blocks = [sound[round(s.start * RATE) : round(s.end * RATE)] for s in piece]
        edges = np.cumsum([0, *map(len, blocks)]) / RATE
        self._starts: list[float] = edges[:-1].tolist()
        self.sound: Sound = np.concatenate(blocks)

    @property
    def seconds(self) -> float:
        return len(self.sound) / RATE

    def times(self, start: float, end: float) -> tuple[float, float]:
        """A word's times in the whole sound: those of the stretch in which most of it lies."""
        best, most = (0.0, 0.0), float("-inf")
        for stretch, packed in zip(self.piece, self._starts, strict=True):
            stop = packed + stretch.seconds
            if (overlap := min(end, stop) - max(start, packed)) > most:
                a, b = (min(max(at, packed), stop) - packed + stretch.start for at in (start, end))
                most, best = overlap, (a, b)
        return best
