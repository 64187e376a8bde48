"""Machine noise made quieter before the recogniser hears a piece, by what the pauses around it sound like.

The Wiener gain with decision-directed estimation of the signal-to-noise ratio (Ephraim and Malah, Speech
enhancement using a minimum mean-square error short-time spectral amplitude estimator, 1984, section V). The floor
is high: taking more noise away takes speech with it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any

import numpy as np
import numpy.typing as npt

from fieldnotes.hear.pieces import Piece, Stretch
from fieldnotes.hear.sound import RATE, Sound

FRAME, STEP = 512, 256  # samples: 32 ms, every 16 ms
FLOOR = 0.25  # amplitude that is left of what is only noise: -12 dB
STEADY = 0.9  # weight of the last frame's estimate
EDGE_S = 0.15  # beside speech counts as speech: its echo and its soft ends
NEAR_S = 20.0  # a pause so near to a piece tells its noise; machines change
ENOUGH_S = 0.5  # less pause tells nothing

Power = npt.NDArray[np.floating[Any]]  # shape (FRAME // 2 + 1,)
WINDOW = np.sqrt(np.hanning(FRAME + 1)[:-1]).astype(np.float32)


def quieter(sound: Sound, speech: Sequence[Stretch], pieces: Sequence[Piece]) -> Sound:
    """The sound with less noise where the pieces lie; a piece without pauses near it stays as it is.

    `speech` is where the voice detector finds speech, all between it are pauses.
    """
    pauses = list(_pauses(speech, len(sound) / RATE))
    out = sound.copy()
    for piece in pieces:
        noise = _noise(sound, pauses, piece)
        if noise is None:
            continue
        for stretch in piece:
            a, b = round(stretch.start * RATE), round(stretch.end * RATE)
            out[a:b] = _without(sound[a:b], noise)
    return out


def _pauses(speech: Sequence[Stretch], length_s: float) -> Iterator[Stretch]:
    edges = [Stretch(0.0, -EDGE_S), *speech, Stretch(length_s + EDGE_S, length_s)]
    for before, after in pairwise(edges):
        if after.start - before.end > 2 * EDGE_S + FRAME / RATE:
            yield Stretch(before.end + EDGE_S, after.start - EDGE_S)


def _noise(sound: Sound, pauses: Sequence[Stretch], piece: Piece) -> Power | None:
    """Mean power of the pauses near a piece; None where there are too few."""
    first, last = piece[0].start - NEAR_S, piece[-1].end + NEAR_S
    near = [
        Stretch(max(p.start, first), min(p.end, last)) for p in pauses if p.start < last and p.end > first
    ]
    frames = [_frames(sound[round(p.start * RATE) : round(p.end * RATE)]) for p in near]
    powers = [np.abs(np.fft.rfft(each * WINDOW)) ** 2 for each in frames if len(each)]
    if sum(map(len, powers)) * STEP / RATE < ENOUGH_S:
        return None
    mean: Power = np.concatenate(powers).mean(axis=0)
    return mean


def _without(sound: Sound, noise: Power) -> Sound:
    """A stretch of sound with the noise taken down."""
    padded = np.pad(sound, (STEP, FRAME))
    frames = np.fft.rfft(_frames(padded) * WINDOW)
    ratio = np.abs(frames) ** 2 / np.maximum(noise, 1e-12)
    gains, kept = np.empty_like(ratio), np.zeros(ratio.shape[1])
    for n, now in enumerate(ratio):
        before = STEADY * kept + (1 - STEADY) * np.maximum(now - 1, 0)
        gains[n] = np.maximum(before / (1 + before), FLOOR)
        kept = gains[n] ** 2 * now
    out = np.zeros(len(padded), dtype=np.float32)
    for n, frame in enumerate(np.fft.irfft(frames * gains).astype(np.float32) * WINDOW):
        out[n * STEP : n * STEP + FRAME] += frame
    return out[STEP : STEP + len(sound)]


def _frames(sound: Sound) -> Sound:
    """Overlapping frames, shape (n, FRAME); none where the sound is shorter than one."""
    if len(sound) < FRAME:
        return np.zeros((0, FRAME), dtype=np.float32)
    return np.lib.stride_tricks.sliding_window_view(sound, FRAME)[::STEP]
