"""The only module that decodes sound: any recording -> 16 kHz mono blocks, as a stream.

PyAV carries its own decoders, so no other program is needed. An eight-hour file is never held as a whole.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Self

import numpy as np
import numpy.typing as npt

from fieldnotes.errors import RecordingError
from fieldnotes.hear.sides import Sides

if TYPE_CHECKING:
    from av import AudioFrame
    from av.audio.resampler import AudioResampler
    from av.audio.stream import AudioStream

Sound = npt.NDArray[np.float32]  # shape (n,), mono, RATE, -1..1
RATE = 16_000
SHORTFALL_S = 1.0  # a file that ends so much before the length in its head was cut off
LOUD = 0.15  # root mean square, full scale 1: that of the loudest syllables of speech recorded well
MOST_GAIN = 300.0  # 50 dB
GAP_S = (0.1, 600.0)  # jumps of the file's clock that are filled with silence, so that times stay true


def centred(sound: Sound) -> Sound:
    """The sound without its constant offset, which hides quiet speech from all that looks at loudness."""
    return sound - sound.mean(dtype=np.float64).astype(np.float32) if sound.size else sound


def loud_enough(sound: Sound) -> Sound:
    """A quiet sound amplified, by MOST_GAIN at most, until its loudest tenth of a second is LOUD.

    The voice detector needs it: of speech at -60 dB in as loud a fan it finds 37 %, once amplified 87 %
    (measured). The recogniser brings all sound to one level by itself.
    """
    size = RATE // 10
    frames = sound[: len(sound) // size * size].reshape(-1, size)
    loudest = float(np.sqrt(np.square(frames).mean(axis=1).max(initial=0.0)))
    gain = min(LOUD / loudest, MOST_GAIN) if loudest else 1.0
    return sound * np.float32(gain) if gain > 1 else sound


class SoundFile:
    """An open recording. `declared_s` is the length in its head, None where the format has none; `tags` its
    metadata by their names in lower case, the file's before those of its sound.

    Raises RecordingError on opening when the file holds no sound that can be decoded.
    """

    def __init__(self, path: Path) -> None:
        import av

        self.path = path
        self.decoded_s = 0.0
        self.damaged = 0  # packets that could not be decoded
        self._file = path.open("rb")
        try:
            # a playlist must not make this program open other files or addresses: it is given one open file
            self._container = av.open(
                self._file, "r", metadata_errors="ignore", options={"protocol_whitelist": "none"}
            )
        except (av.error.FFmpegError, OSError, ValueError) as fault:
            self._file.close()
            raise RecordingError(
                f"{path}: is no recording that can be decoded (it may be another kind of file, or have been"
                " cut off while it was saved); play it elsewhere to check, or save it again as WAV"
            ) from fault
        if not self._container.streams.audio:
            self._close()
            raise RecordingError(f"{path}: has no sound track; give the file that holds the recorded speech")
        self._stream: AudioStream = self._container.streams.audio[0]
        self.declared_s = self._declared()
        told = {**self._stream.metadata, **self._container.metadata}
        self.tags = {name.lower(): value for name, value in told.items()}

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._close()

    def _close(self) -> None:
        self._container.close()
        self._file.close()

    def blocks(self) -> Iterator[Sound]:
        """The sound from start to end in blocks of any length. Raises RecordingError when nothing decodes."""
        samples = 0
        for block in self._resampled():
            samples += len(block)
            self.decoded_s = samples / RATE
            yield block
        if not samples:
            raise RecordingError(f"{self.path}: holds no sound that can be decoded; save it again as WAV")

    def notices(self) -> tuple[str, ...]:
        """What is amiss with the file, known after the last block."""
        name, told = self.path.name, []
        if self.declared_s is not None and self.decoded_s < self.declared_s - SHORTFALL_S:
            told.append(f"{name}: ends early, heard up to {self.decoded_s:.0f} s of {self.declared_s:.0f} s")
        elif self.damaged:
            told.append(f"{name}: {self.damaged} damaged spots in the file could not be heard")
        return tuple(told)

    def _declared(self) -> float | None:
        stream, container = self._stream, self._container
        if stream.duration is not None and stream.time_base is not None:
            return float(stream.duration * stream.time_base)
        return container.duration / 1_000_000 if container.duration is not None else None

    def _frames(self) -> Iterator[AudioFrame]:
        import av

        packets = self._container.demux(self._stream)
        while True:
            try:
                packet = next(packets)
            except StopIteration:
                return
            except (av.error.FFmpegError, OSError):
                self.damaged += 1
                return
            try:
                yield from packet.decode()
            except (av.error.FFmpegError, OSError):
                self.damaged += 1

    def _resampled(self) -> Iterator[Sound]:
        resampler: AudioResampler | None = None
        sides = Sides(1)
        form: tuple[str, str, int] | None = None
        first_s: float | None = None
        done = 0
        for frame in self._frames():
            if first_s is None:
                first_s = frame.time or 0.0
            gap_s = frame.time - first_s - done / RATE if frame.time is not None else 0.0
            if GAP_S[0] < gap_s < GAP_S[1]:
                silence = np.zeros(round(gap_s * RATE), dtype=np.float32)
                done += len(silence)
                yield silence
            if resampler is None or (frame.format.name, frame.layout.name, frame.sample_rate) != form:
                if resampler is not None:  # some encoders change their form on the way
                    yield from _samples(resampler, None, sides)
                form = (frame.format.name, frame.layout.name, frame.sample_rate)
                resampler, sides = _new_resampler(frame.layout.name), Sides(frame.layout.nb_channels)
            frame.pts = None
            for block in _samples(resampler, frame, sides):
                done += len(block)
                yield block
        if resampler is not None:
            yield from _samples(resampler, None, sides)


def _new_resampler(layout: str) -> AudioResampler:
    from av.audio.resampler import AudioResampler

    return AudioResampler(format="fltp", layout=layout, rate=RATE)


def _samples(resampler: AudioResampler, frame: AudioFrame | None, sides: Sides) -> Iterator[Sound]:
    """The resampler's output for a frame; None drains what it still holds.

    All channels are averaged: the resampler's own mix of two equal sides is 3 dB louder than each.
    """
    for out in resampler.resample(frame):
        block = sides.mixed(out.to_ndarray().astype(np.float32, copy=False))
        if block.size:
            yield block
