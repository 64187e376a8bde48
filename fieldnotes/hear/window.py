"""The stretch of a recording that is at hand; no more of it is ever held."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fieldnotes.hear.sound import RATE, Sound


class Window:
    """What is held of a stream of blocks. The first `start_s` seconds of it are read over."""

    def __init__(self, blocks: Iterator[Sound], start_s: float) -> None:
        self._blocks = blocks
        self._held = np.zeros(0, dtype=np.float32)
        self._start = 0
        self.ended = False
        self._skip(round(start_s * RATE))

    @property
    def start_s(self) -> float:
        return self._start / RATE

    def fill(self, seconds: float) -> Sound:
        """Read on until so much is at hand or the stream ends."""
        blocks, size = [self._held], len(self._held)
        while size < seconds * RATE:
            block = next(self._blocks, None)
            if block is None:
                self.ended = True
                break
            blocks.append(block)
            size += len(block)
        self._held = np.concatenate(blocks)
        return self._held

    def drop(self, seconds: float) -> None:
        """Forget the window's first seconds; the next begins there."""
        samples = round(seconds * RATE)
        self._held = self._held[samples:].copy()
        self._start += samples

    def _skip(self, samples: int) -> None:
        while self._start < samples:
            block = next(self._blocks, None)
            if block is None:
                break
            taken = min(len(block), samples - self._start)
            self._start += taken
            self._held = block[taken:]
