"""No way in which two sides can relate makes the speech on them vanish."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import numpy.typing as npt
import pytest

from fieldnotes.hear.sides import Sides
from fieldnotes.hear.sound import RATE, SoundFile, centred, loud_enough

from .sounds import beeps, write_sound

Wave = npt.NDArray[np.float32]
T = np.arange(4 * RATE) / RATE
TONE = (0.3 * np.sin(2 * np.pi * 440 * T)).astype(np.float32)
HUM = (0.1 * np.sin(2 * np.pi * 50 * T)).astype(np.float32)
NOISE = np.random.default_rng(3).normal(0, 0.01, (2, len(T))).astype(np.float32)

# id: left, right, and how loud (root mean square) the mix is, as follows from the shapes of sine waves
CASES = {
    "equal": (TONE, TONE, 0.3 / 2**0.5),
    "left only": (TONE, TONE * 0, 0.15 / 2**0.5),
    "right only": (TONE * 0, TONE, 0.15 / 2**0.5),
    "opposite": (TONE, -TONE, 0.3 / 2**0.5),
    "opposite, one weaker": (TONE, -0.5 * TONE, 0.225 / 2**0.5),
    "opposite, each with its own noise": (TONE + NOISE[0], -TONE + NOISE[1], 0.3 / 2**0.5),
    "opposite, on the same offset": (TONE + 0.5, 0.5 - TONE, 0.3 / 2**0.5),
    "hum on the other side": (TONE, HUM, (0.15**2 + 0.05**2) ** 0.5 / 2**0.5),
    "silence": (TONE * 0, TONE * 0, 0.0),
}


def mixed(*sides: Wave) -> Wave:
    """In blocks of 1,000 samples, as a decoder gives them."""
    both, mixer = np.stack(sides).astype(np.float32), Sides(len(sides))
    blocks = [mixer.mixed(both[:, at : at + 1000]) for at in range(0, both.shape[1], 1000)]
    return np.concatenate(blocks)


def loudness(wave: Wave) -> float:
    return float(np.sqrt(np.mean(np.square(wave - wave.mean()))))


@pytest.mark.parametrize(("left", "right", "loud"), CASES.values(), ids=CASES.keys())
def test_mix_keeps_what_either_side_carries(left: Wave, right: Wave, loud: float) -> None:
    assert loudness(mixed(left, right)) == pytest.approx(loud, abs=0.01)


def test_mono_stays_as_it_is() -> None:
    assert np.array_equal(mixed(TONE), TONE)


def test_side_that_turns_over_on_the_way_is_followed() -> None:
    """As when a plug is put right: two seconds later all is heard again."""
    turned = np.where(T < 1.0, -TONE, TONE).astype(np.float32)

    assert loudness(mixed(TONE, turned)[3 * RATE :]) == pytest.approx(0.3 / 2**0.5, abs=0.01)


def test_file_with_opposite_sides_is_decoded_like_one_side(tmp_path: Path) -> None:
    one = beeps(4.0)
    path = write_sound(tmp_path / "a.wav", one, "pcm_s16le", layout="stereo", right=-one)
    with SoundFile(path) as file:
        got = np.concatenate(list(file.blocks()))

    assert np.abs(got - one / 32768).max() < 0.001


def test_quiet_sound_on_an_offset_is_amplified_like_one_without() -> None:
    quiet = TONE / np.float32(100)

    assert loudness(loud_enough(centred(quiet + np.float32(0.5)))) == pytest.approx(
        loudness(loud_enough(quiet)), rel=0.01
    )
