"""Every format gives the same sound; what is no sound is told so."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from fieldnotes.errors import RecordingError
from fieldnotes.hear.sound import RATE, Sound, SoundFile, loud_enough

from .sounds import beeps, write_sound

FORMATS = {
    "wav": ("wav", "pcm_s16le", 16_000, "mono"),
    "wav-44k-stereo": ("wav", "pcm_s16le", 44_100, "stereo"),
    "wav-8k": ("wav", "pcm_s16le", 8_000, "mono"),
    "flac": ("flac", "flac", 48_000, "mono"),
    "mp3": ("mp3", "libmp3lame", 44_100, "stereo"),
    "m4a": ("m4a", "aac", 44_100, "mono"),
    "ogg": ("ogg", "libopus", 48_000, "mono"),
    "opus": ("opus", "libopus", 48_000, "mono"),
    "webm": ("webm", "libopus", 48_000, "mono"),
}


def decoded(path: Path) -> tuple[Sound, tuple[str, ...]]:
    with SoundFile(path) as file:
        return np.concatenate(list(file.blocks())), file.notices()


@pytest.mark.parametrize(("suffix", "codec", "rate", "layout"), FORMATS.values(), ids=FORMATS.keys())
def test_beeps_come_out_where_they_were_put_in(
    tmp_path: Path, suffix: str, codec: str, rate: int, layout: str
) -> None:
    path = write_sound(tmp_path / f"a.{suffix}", beeps(10.0, rate), codec, rate=rate, layout=layout)
    sound, notices = decoded(path)

    assert notices == ()
    assert (sound.dtype.name, sound.ndim) == ("float32", 1)
    assert len(sound) / RATE == pytest.approx(10.0, abs=0.1)  # lossy formats pad their ends
    for second in range(10):  # the middle half of each second: beep, silence, beep, ...
        middle = sound[round((second + 0.25) * RATE) : round((second + 0.75) * RATE)]
        assert np.abs(middle).max() == pytest.approx(0.3 if second % 2 == 0 else 0.0, abs=0.05)


@pytest.mark.parametrize(
    ("peak", "louder"),
    [(0.5, 1.0), (0.0212, 10.0), (1e-4, 300.0), (0.0, 1.0)],
    ids=["loud", "quiet", "faint", "silent"],
)
def test_quiet_sound_is_amplified_up_to_a_limit(peak: float, louder: float) -> None:
    sound = (peak * np.sin(np.arange(RATE))).astype(np.float32)

    assert np.abs(loud_enough(sound)).max() == pytest.approx(peak * louder, rel=0.01)


def test_sound_track_of_a_video_is_heard(tmp_path: Path) -> None:
    import av

    path = tmp_path / "door.mp4"
    with av.open(str(path), "w") as container:
        picture = container.add_stream("mpeg4", rate=10)
        picture.width, picture.height, picture.pix_fmt = 64, 64, "yuv420p"
        tone = container.add_stream("aac", rate=RATE)
        tone.layout = "mono"
        for n in range(20):
            image = av.VideoFrame.from_ndarray(np.zeros((64, 64, 3), dtype=np.uint8), format="rgb24")
            image.pts = n
            container.mux(picture.encode(image))
        container.mux(picture.encode(None))
        samples = beeps(2.0).reshape(1, -1)
        for at in range(0, samples.shape[1], 1600):
            frame = av.AudioFrame.from_ndarray(samples[:, at : at + 1600], format="s16", layout="mono")
            frame.sample_rate, frame.pts = RATE, at
            container.mux(tone.encode(frame))
        container.mux(tone.encode(None))

    assert len(decoded(path)[0]) / RATE == pytest.approx(2.0, abs=0.2)


def test_long_file_is_decoded_in_small_blocks(tmp_path: Path) -> None:
    path = write_sound(tmp_path / "long.wav", beeps(120.0), "pcm_s16le")
    with SoundFile(path) as file:
        assert max(len(block) for block in file.blocks()) < RATE


CUT_OFF = {"flac": ("flac", 16_000), "mp3": ("libmp3lame", 44_100), "webm": ("libopus", 48_000)}


@pytest.mark.parametrize(("suffix", "how"), CUT_OFF.items(), ids=CUT_OFF.keys())
def test_file_that_ends_early_is_heard_up_to_there_and_told(
    tmp_path: Path, suffix: str, how: tuple[str, int]
) -> None:
    codec, rate = how
    whole = write_sound(tmp_path / f"whole.{suffix}", beeps(60.0, rate), codec, rate=rate).read_bytes()
    path = tmp_path / f"kitchen.{suffix}"
    path.write_bytes(whole[: len(whole) // 2])
    sound, notices = decoded(path)

    assert 20 < len(sound) / RATE < 40
    assert notices == (f"kitchen.{suffix}: ends early, heard up to {len(sound) / RATE:.0f} s of 60 s",)


SPOILT = {"flac": ("flac", 16_000), "m4a": ("aac", 44_100)}  # mp3 carries no clock of its own


@pytest.mark.parametrize(("suffix", "how"), SPOILT.items(), ids=SPOILT.keys())
def test_times_stay_true_after_a_spoilt_spot(tmp_path: Path, suffix: str, how: tuple[str, int]) -> None:
    codec, rate = how
    path = write_sound(tmp_path / f"a.{suffix}", beeps(60.0, rate), codec, rate=rate)
    raw = bytearray(path.read_bytes())
    middle = len(raw) // 2
    raw[middle : middle + 3000] = bytes(range(256)) * 11 + bytes(184)
    path.write_bytes(raw)
    sound, notices = decoded(path)

    loud = [
        np.abs(sound[round((s + 0.25) * RATE) : round((s + 0.75) * RATE)]).max() > 0.2 for s in range(50, 59)
    ]
    assert loud == [True, False] * 4 + [True]
    if suffix == "m4a":  # FLAC packets are found by their heads, so nothing comes that cannot be decoded
        assert [notice.split(":")[0] for notice in notices] == ["a.m4a"]
        assert "damaged spots" in notices[0]


def _video_without_sound(path: Path) -> None:
    import av

    with av.open(str(path), "w", format="mp4") as container:
        picture = container.add_stream("mpeg4", rate=10)
        picture.width, picture.height, picture.pix_fmt = 64, 64, "yuv420p"
        for n in range(5):
            image = av.VideoFrame.from_ndarray(np.zeros((64, 64, 3), dtype=np.uint8), format="rgb24")
            image.pts = n
            container.mux(picture.encode(image))
        container.mux(picture.encode(None))


def _cut_off_before_its_index(path: Path) -> None:
    whole = write_sound(path, beeps(20.0, 44_100), "aac", rate=44_100).read_bytes()
    path.write_bytes(whole[: len(whole) // 2])


def _playlist(path: Path) -> None:
    """Without a guard the decoder follows it and returns the other file's sound (tried, PyAV 18.1)."""
    other = write_sound(path.parent / "other.mp3", beeps(1.0, 44_100), "libmp3lame", rate=44_100)
    path.write_text(f"#EXTM3U\n#EXT-X-TARGETDURATION:1\n#EXTINF:1,\n{other.name}\n#EXT-X-ENDLIST\n")


WRONG = {
    "text named wav": ("a.wav", lambda p: p.write_text("Checked the drain pump.\n" * 50), "is no recording"),
    "random bytes named mp4": ("a.mp4", lambda p: p.write_bytes(bytes(range(256)) * 40), "is no recording"),
    "m4a cut off while it was saved": ("a.m4a", _cut_off_before_its_index, "is no recording .* cut off"),
    "video without sound": ("a.mp4", _video_without_sound, "has no sound track"),
    "wav head alone": ("a.wav", lambda p: _head_alone(p), "holds no sound"),
    "playlist of another file": ("a.m3u8", _playlist, "is no recording"),
}


def _head_alone(path: Path) -> None:
    whole = write_sound(path, beeps(1.0), "pcm_s16le").read_bytes()
    path.write_bytes(whole[: whole.index(b"data") + 8])


@pytest.mark.parametrize(("name", "make", "message"), WRONG.values(), ids=WRONG.keys())
def test_what_is_no_sound_is_refused(tmp_path: Path, name: str, make: object, message: str) -> None:
    path = tmp_path / name
    assert callable(make)
    make(path)
    before = sorted(tmp_path.iterdir())

    with pytest.raises(RecordingError, match=message):
        decoded(path)
    assert sorted(tmp_path.iterdir()) == before
