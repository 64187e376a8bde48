"""Sound files made on the spot, and a recogniser that knows its words beforehand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

import av
import numpy as np
import numpy.typing as npt

from fieldnotes.hear.engine import Heard
from fieldnotes.hear.pieces import Piece, Stretch
from fieldnotes.hear.sound import RATE, Sound
from fieldnotes.hear.terms import Terms
from fieldnotes.transcript import Word

DATA = Path(__file__).parent / "data"
Samples = npt.NDArray[np.int16]


def beeps(
    seconds: float,
    rate: int = RATE,
    every_s: float = 2.0,
    long_s: float = 1.0,
    spanish: tuple[float, float] = (0.0, 0.0),
) -> Samples:
    """A 440 Hz tone that sounds for `long_s` at the start of every `every_s`; else silence.

    In the seconds of `spanish` it is an octave higher.
    """
    t = np.arange(round(seconds * rate)) / rate
    pitch = np.where((t >= spanish[0]) & (t < spanish[1]), 880, 440)
    wave = 0.3 * np.sin(2 * np.pi * pitch * t) * (t % every_s < long_s)
    return (wave * 32767).astype(np.int16)


def write_sound(
    path: Path,
    samples: Samples,
    codec: str,
    *,
    rate: int = RATE,
    layout: str = "mono",
    form: str | None = None,
    right: Samples | None = None,
) -> Path:
    """The samples as a sound file; in stereo both sides are the same, unless the right one is given."""
    with av.open(str(path), "w", format=form) as container:
        stream = container.add_stream(codec, rate=rate)
        assert isinstance(stream, av.AudioStream)
        stream.layout = layout
        both = [samples, samples if right is None else right] if layout == "stereo" else [samples]
        for at in range(0, len(samples), 4800):
            block = np.stack([side[at : at + 4800] for side in both], axis=1).reshape(1, -1)
            frame = av.AudioFrame.from_ndarray(block, format="s16", layout=layout)
            frame.sample_rate, frame.pts = rate, at
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
    return path


class Beeper:
    """An engine to which a beep is speech. It hears one word a stretch: `w` and the second of its start.

    A low beep is English to it, a high one Spanish.
    """

    def __init__(self, folder: Path | None = None, doubtful_after: float | None = None) -> None:
        self.doubtful_after = doubtful_after
        self.calls: list[tuple[float, str]] = []  # length of sound in seconds, hotwords

    def speech(self, sound: Sound) -> list[Stretch]:
        size = RATE // 10
        loud = np.array(
            [np.abs(sound[at : at + size]).max() > 0.1 for at in range(0, len(sound), size)], dtype=int
        )
        edges = np.flatnonzero(np.diff(np.concatenate([[0], loud, [0]])))
        return [Stretch(a / 10, min(b / 10, len(sound) / RATE)) for a, b in edges.reshape(-1, 2).tolist()]

    def languages(self, sound: Sound, piece: Piece) -> Mapping[str, float]:
        blocks = [sound[round(s.start * RATE) : round(s.end * RATE)] for s in piece]
        turns = sum(int(np.count_nonzero(np.diff(np.sign(block)))) for block in blocks)
        beeping_s = sum(int(np.count_nonzero(np.abs(block) > 0.01)) for block in blocks) / RATE
        spanish = min(max(turns / max(beeping_s, 0.01) / 880 - 1, 0.0), 1.0)
        return {"es": spanish, "en": 1 - spanish}

    def fitting(self, hotwords: str) -> tuple[str, int]:
        return hotwords, 0

    def recognise(self, sound: Sound, pieces: Sequence[Piece], terms: Terms) -> Iterator[Heard]:
        self.calls.append((round(len(sound) / RATE, 1), terms.hotwords))
        for piece in pieces:
            words = tuple(
                Word(text=f"w{stretch.start + 0.4:.0f}", start=stretch.start, end=stretch.end, confidence=0.9)
                for stretch in piece
            )
            doubtful = self.doubtful_after is not None and piece[0].start >= self.doubtful_after
            yield Heard(piece, () if doubtful else words, doubtful, self.languages(sound, piece)["en"])
