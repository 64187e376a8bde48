"""Several channels -> one: the mean of all, once those that run opposite to the first are turned over."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

REMEMBERED = (
    16_000  # samples over which agreement is judged, older ones counting less and less: 1 s at 16 kHz
)
OPPOSITE = 0.5  # correlation with the first channel beyond which a channel is turned over, or back


class Sides:
    """Mixes the channels of one recording, block by block in order.

    A wrongly wired microphone, or a device that saves a balanced line as stereo, gives one side upside down:
    the plain mean of such sides is silence. Channels that have nothing in common (speech on one side, hum on
    the other) stay as they are.
    """

    def __init__(self, channels: int) -> None:
        self._signs = np.ones((channels, 1), dtype=np.float32)
        self._powers = np.zeros(channels)
        self._products = np.zeros(channels)

    def mixed(self, block: npt.NDArray[np.float32]) -> npt.NDArray[np.float32]:
        """The mean of a block of shape (channels, n)."""
        if len(block) > 1 and block.size:
            self._judge(block - block.mean(axis=1, keepdims=True))  # a constant offset is no agreement
        mean: npt.NDArray[np.float32] = (block * self._signs).mean(axis=0, dtype=np.float32)
        return mean

    def _judge(self, block: npt.NDArray[np.float32]) -> None:
        kept = math.exp(-block.shape[1] / REMEMBERED)
        self._powers = self._powers * kept + np.square(block, dtype=np.float64).sum(axis=1)
        self._products = self._products * kept + (block.astype(np.float64) * block[0]).sum(axis=1)
        alike = self._products / np.sqrt(np.maximum(self._powers * self._powers[0], 1e-30))
        self._signs[alike < -OPPOSITE] = -1
        self._signs[alike > OPPOSITE] = 1
