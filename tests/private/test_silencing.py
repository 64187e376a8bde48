"""The silenced copy: silence where it was asked for, the source everywhere else, at the same times."""

from __future__ import annotations

import resource
from pathlib import Path

import av
import numpy as np
import numpy.typing as npt
import pytest

from fieldnotes.errors import RecordingError
from fieldnotes.private.silencing import silenced_copy

from ..hear.sounds import beeps, write_sound

SILENCES = [(1.25, 1.75), (4.0, 4.4)]
LOSSLESS = {
    "wav-16k": ("wav", "pcm_s16le", 16_000, "mono"),
    "wav-44k-stereo": ("wav", "pcm_s16le", 44_100, "stereo"),
    "flac-48k": ("flac", "flac", 48_000, "mono"),
}
LOSSY = {
    "mp3": ("mp3", "libmp3lame", 44_100, "stereo"),
    "m4a": ("m4a", "aac", 44_100, "mono"),
    "opus": ("opus", "libopus", 48_000, "mono"),
    "webm": ("webm", "libopus", 48_000, "stereo"),
}


def samples_of(path: Path) -> tuple[npt.NDArray[np.float64], int]:
    """All samples, (channels, n), -1..1 where the file has 16 bit; and their rate."""
    with av.open(str(path)) as container:
        stream = container.streams.audio[0]
        frames = list(container.decode(stream))
        rate = frames[0].sample_rate
        blocks = [
            f.to_ndarray() if f.format.is_planar else f.to_ndarray().reshape(-1, f.layout.nb_channels).T
            for f in frames
        ]
    joined = np.concatenate(blocks, axis=1)
    scale = 32768 if joined.dtype == np.int16 else 1
    return joined.astype(np.float64) / scale, rate


def tone(seconds: float, rate: int) -> npt.NDArray[np.int16]:
    """A sound that never rests: 300 Hz that swells and sinks, so that a shift in time shows."""
    t = np.arange(round(seconds * rate)) / rate
    wave = (0.2 + 0.15 * np.sin(2 * np.pi * 1.3 * t) * np.sin(2 * np.pi * 0.37 * t)) * np.sin(
        2 * np.pi * 300 * t
    )
    sound: npt.NDArray[np.int16] = (wave * 32767).astype(np.int16)
    return sound


@pytest.mark.parametrize(("suffix", "codec", "rate", "layout"), LOSSLESS.values(), ids=LOSSLESS.keys())
def test_lossless_copy_differs_in_the_stretches_alone(
    tmp_path: Path, suffix: str, codec: str, rate: int, layout: str
) -> None:
    source = write_sound(tmp_path / f"a.{suffix}", tone(6, rate), codec, rate=rate, layout=layout)

    copy = silenced_copy(source, tmp_path / "b", SILENCES)

    expected, _ = samples_of(source)
    for start, end in SILENCES:
        expected[:, int(np.floor(start * rate)) : int(np.ceil(end * rate))] = 0
    got, got_rate = samples_of(copy)
    assert (copy.name, got_rate) == ("b.flac", rate)
    assert np.array_equal(got, expected)


@pytest.mark.parametrize(("suffix", "codec", "rate", "layout"), LOSSY.values(), ids=LOSSY.keys())
def test_lossy_copy_is_silent_in_the_stretches_and_keeps_times(
    tmp_path: Path, suffix: str, codec: str, rate: int, layout: str
) -> None:
    source = write_sound(tmp_path / f"a.{suffix}", tone(6, rate), codec, rate=rate, layout=layout)

    copy = silenced_copy(source, tmp_path / "b", SILENCES)

    got, got_rate = samples_of(copy)
    assert (copy.name, got_rate) == ("b.opus", 48_000)
    for start, end in SILENCES:
        inside = got[:, int(start * 48_000) : int(end * 48_000)]
        assert 10 * np.log10(np.mean(inside**2) + 1e-20) < -60
    assert abs(offset_s(samples_of(source), (got, got_rate))) < 0.02
    assert np.sqrt(np.mean(got[:, 96_000:150_000] ** 2)) > 0.05  # elsewhere it is as loud as ever


def offset_s(source: tuple[npt.NDArray[np.float64], int], copy: tuple[npt.NDArray[np.float64], int]) -> float:
    """By how much the copy is late: where loudness in steps of 5 ms agrees best, outside the stretches."""

    def loudness(sound: npt.NDArray[np.float64], rate: int) -> npt.NDArray[np.float64]:
        size = rate // 200
        mono = np.square(sound[0])
        frames = mono[: len(mono) // size * size].reshape(-1, size).mean(axis=1)
        level: npt.NDArray[np.float64] = np.sqrt(frames)[380:760]  # 1.9 s to 3.8 s
        mean = float(level.mean())
        level -= mean
        return level

    a, b = loudness(*source), loudness(*copy)
    scores = [float(np.dot(a[40:-40], np.roll(b, -shift)[40:-40])) for shift in range(-30, 31)]
    return (int(np.argmax(scores)) - 30) / 200


def test_metadata_of_the_source_is_dropped(tmp_path: Path) -> None:
    path = tmp_path / "a.flac"
    with av.open(str(path), "w") as out:
        out.metadata.update({"title": "Tansley kitchen", "location": "+51.5-0.1/"})
        stream = out.add_stream("flac", rate=16_000)
        assert isinstance(stream, av.AudioStream)
        stream.layout = "mono"
        frame = av.AudioFrame.from_ndarray(beeps(2.0).reshape(1, -1), format="s16", layout="mono")
        frame.sample_rate = 16_000
        out.mux(stream.encode(frame))
        out.mux(stream.encode(None))

    copy = silenced_copy(path, tmp_path / "b", [])

    assert b"Tansley" in path.read_bytes()
    assert b"Tansley" not in copy.read_bytes()
    with av.open(str(copy)) as read:
        assert set(read.metadata) | set(read.streams.audio[0].metadata) <= {"encoder"}


@pytest.mark.parametrize(
    ("suffix", "codec"), [("wav", "pcm_s16le"), ("mp3", "libmp3lame")], ids=["flac", "opus"]
)
def test_same_source_gives_the_same_bytes(tmp_path: Path, suffix: str, codec: str) -> None:
    source = write_sound(tmp_path / f"a.{suffix}", tone(3, 44_100), codec, rate=44_100)
    first, second = (silenced_copy(source, tmp_path / name, [(1, 2)]) for name in "bc")

    assert first.read_bytes() == second.read_bytes()


def test_gap_of_the_clock_is_filled_with_silence(tmp_path: Path) -> None:
    source = tmp_path / "a.mka"
    with av.open(str(source), "w", format="matroska") as out:
        stream = out.add_stream("flac", rate=16_000)
        assert isinstance(stream, av.AudioStream)
        stream.layout = "mono"
        sound = tone(4, 16_000)
        for at in range(0, len(sound), 1600):
            frame = av.AudioFrame.from_ndarray(
                sound[at : at + 1600].reshape(1, -1), format="s16", layout="mono"
            )
            frame.sample_rate = 16_000
            frame.pts = at + (16_000 if at >= 32_000 else 0)
            out.mux(stream.encode(frame))
        out.mux(stream.encode(None))

    got, rate = samples_of(silenced_copy(source, tmp_path / "b", []))

    assert got.shape[1] / rate == pytest.approx(5, abs=0.3)
    assert np.abs(got[:, int(2.4 * rate) : int(2.7 * rate)]).max() == 0


def test_what_is_no_sound_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "a.wav"
    path.write_bytes(b"no sound" * 200)

    with pytest.raises(RecordingError, match=r"a\.wav: cannot be decoded"):
        silenced_copy(path, tmp_path / "b", [])


def test_memory_does_not_grow_with_the_length(tmp_path: Path) -> None:
    quiet = np.zeros(16_000 * 60 * 30, dtype=np.int16)
    source = write_sound(tmp_path / "a.flac", quiet, "flac")
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss

    silenced_copy(source, tmp_path / "b", [(1, 2)])

    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 20_000  # KiB; as float it is 115,000
