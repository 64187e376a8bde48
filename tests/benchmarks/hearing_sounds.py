"""Spoken narrations with known lines, and the noise of machines at a chosen level over them.

Speech comes from demo_audio/speak_visit.py, run by a Python that has the voices' packages. Noise is computed:
no recording of a real machine is behind it.
"""

from __future__ import annotations

import re
import subprocess
import zlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import soundfile  # type: ignore[import-untyped]
import yaml

from fieldnotes.hear.captions import read_captions

Samples = npt.NDArray[np.floating[Any]]  # shape (n,), RATE
Weight = Callable[[Samples], Samples]

RATE = 16_000
ROOT = Path(__file__).resolve().parents[2]
SPEAK = ROOT / "demo_audio" / "speak_visit.py"
NARRATIONS = ROOT / "tests" / "narrations"
GAP_S = "0.9"  # between lines
LEAD_S = 20.0  # of noise without speech before the first line and after the last


@dataclass(frozen=True)
class Line:
    say: str
    start: float  # seconds from the recording's start
    end: float


@dataclass(frozen=True)
class Spoken:
    """A narration in one voice, without noise. `identities`: models and serials as on the plate."""

    name: str
    voice: str
    sound: Samples
    lines: tuple[Line, ...]
    identities: tuple[str, ...]


def spoken(name: str, voice: str, most_lines: int | None, folder: Path, speaker: str) -> Spoken:
    """A narration of tests/narrations: of its lines those with a label, up to `most_lines` of them; None: all lines.

    `voice`: as of speak_visit.py, with `@0.85` behind it for a deeper one. Kept in `folder` once made.
    """
    wanted = yaml.safe_load((NARRATIONS / f"{name}.yaml").read_text(encoding="utf-8"))["lines"]
    labelled = [line for line in wanted if line.get("is")]
    lines = wanted if most_lines is None else labelled[:most_lines]
    count = "all" if most_lines is None else most_lines
    path = folder / f"{name}-{re.sub(r'[^a-z0-9.-]', '_', voice)}-{count}.flac"
    if not path.with_suffix(".vtt").is_file():
        folder.mkdir(parents=True, exist_ok=True)
        text = path.with_suffix(".txt")
        text.write_text("\n".join(line["say"] for line in lines), encoding="utf-8")
        kind, _, pitch = voice.partition("@")
        subprocess.run(
            [speaker, SPEAK, text, "--voice", kind, "--gap", GAP_S, "--pitch", pitch or "1", "--out", path],
            check=True,
            stdout=subprocess.DEVNULL,
        )
    labels = [label for line in lines for label in line.get("is") or []]
    said = [each["identity"] for each in labels if "identity" in each]
    return Spoken(
        name=f"{name}/{voice}",
        voice=voice,
        sound=soundfile.read(path)[0],
        lines=_lines(path.with_suffix(".vtt")),
        identities=tuple(str(each[key]) for each in said for key in ("model", "serial") if key in each),
    )


def recorded(path: Path) -> Spoken:
    """A recording at RATE with a .vtt of its lines beside it."""
    sound, rate = soundfile.read(path, always_2d=True)
    if rate != RATE:
        raise ValueError(f"{path}: has {rate} samples a second; save it with {RATE}")
    return Spoken(path.stem, "recorded", sound.mean(axis=1), _lines(path.with_suffix(".vtt")), ())


def _lines(captions: Path) -> tuple[Line, ...]:
    breaths, _ = read_captions(captions, captions.read_text(encoding="utf-8"))
    return tuple(
        Line(" ".join(w.text for w in b.words), b.words[0].start or 0.0, b.words[-1].end or 0.0)
        for b in breaths
    )


def in_noise(
    speech: Spoken, noise: str, level_db: float, lead_s: float = LEAD_S
) -> tuple[Samples, list[Line]]:
    """The speech with `lead_s` before and after it, and noise all over; and where its lines then are.

    `level_db`: loudness (root mean square) of the spoken stretches over that of the noise.
    """
    lead = np.zeros(round(lead_s * RATE))
    sound = np.concatenate([lead, speech.sound, lead])
    lines = [Line(line.say, line.start + lead_s, line.end + lead_s) for line in speech.lines]
    if noise != "clean":
        loud = loudness(np.concatenate([sound[round(n.start * RATE) : round(n.end * RATE)] for n in lines]))
        rng = np.random.default_rng(zlib.crc32(f"{speech.name} {noise}".encode()))
        sound = sound + NOISES[noise](rng, len(sound)) * loud / 10 ** (level_db / 20)
    return sound / max(1.0, float(np.abs(sound).max()) / 0.98), lines


def loudness(sound: Samples) -> float:
    return float(np.sqrt(np.mean(np.square(sound))))


def shaped(rng: np.random.Generator, n: int, weight: Weight) -> Samples:
    """Noise of loudness 1 whose spectrum follows weight(frequency in Hz)."""
    spectrum = np.fft.rfft(rng.standard_normal(n)) * weight(np.fft.rfftfreq(n, 1 / RATE))
    sound: Samples = np.fft.irfft(spectrum, n)
    return sound / (loudness(sound) + 1e-12)


def sway(rng: np.random.Generator, n: int, hertz: float) -> Samples:
    """A slow random movement around 0, mostly within -1 to 1."""
    return shaped(rng, n, lambda f: ((f > 0) & (f < hertz)).astype(float)) / 2


def bangs(rng: np.random.Generator, n: int, at: Sequence[int] | Any, hertz: float, fade_s: float) -> Samples:
    """Ringing knocks that begin at the samples `at` and die away within `fade_s`."""
    out, t = np.zeros(n), np.arange(int(3 * fade_s * RATE)) / RATE
    for start in at:
        ring = np.sin(2 * np.pi * hertz * rng.uniform(0.8, 1.3) * t) + 0.4 * rng.standard_normal(len(t))
        ring *= np.exp(-t / fade_s) * rng.uniform(0.4, 1)
        out[start : start + len(t)] += ring[: n - start]
    return out


def pump(rng: np.random.Generator, n: int) -> Samples:
    """A drain pump on 60 Hz mains: its harmonics, and a little water."""
    t = np.arange(n) / RATE
    tones = ((60, 0.5), (120, 1.0), (180, 0.4), (240, 0.5), (360, 0.3), (480, 0.15), (720, 0.1))
    hum = sum(loud * np.sin(2 * np.pi * f * t + rng.uniform(0, 6.28)) for f, loud in tones)
    return unit(
        hum * (1 + 0.2 * sway(rng, n, 0.5)) + 0.3 * shaped(rng, n, lambda f: 1 / (1 + (f / 400) ** 2))
    )


def wash(rng: np.random.Generator, n: int) -> Samples:
    """Water thrown to and fro by a drum that turns round every 0.9 s."""
    water = shaped(rng, n, lambda f: (f > 150) / (1 + (f / 900) ** 0.9))
    stroke = np.abs(np.sin(np.pi * np.arange(n) / RATE / 0.9))
    return unit(water * (0.4 + stroke + 0.3 * sway(rng, n, 4)) + 0.4 * stroke * pump(rng, n))


def spin(rng: np.random.Generator, n: int) -> Samples:
    """Each minute a drum runs up to 1200 rpm, holds and coasts; below 450 rpm it bangs once a turn."""
    rpm = np.interp(np.arange(n) / RATE % 60, [0, 25, 50, 60], [60, 1200, 1200, 60])
    turns, speed = np.cumsum(rpm) / 60 / RATE, rpm / 1200
    whine = sum(loud * np.sin(2 * np.pi * k * turns) for k, loud in ((11, 1.0), (44, 0.6), (88, 0.2)))
    rush = shaped(rng, n, lambda f: (f > 30) / (1 + (f / 600) ** 1.1))
    at = np.flatnonzero(np.diff(np.floor(turns)) * (rpm[1:] > 150) * (rpm[1:] < 450))
    return unit(speed * whine + 1.2 * speed**1.5 * rush + 3 * bangs(rng, n, at, 110, 0.06))


def fan(rng: np.random.Generator, n: int) -> Samples:
    """Moving air, and blades that pass 175 times a second."""
    air = shaped(rng, n, lambda f: (f > 40) / (1 + (f / 500) ** 1.2))
    blades = np.sin(2 * np.pi * 175 * np.arange(n) / RATE + sway(rng, n, 1))
    return unit(air * (1 + 0.15 * sway(rng, n, 1)) + 0.3 * blades)


def kitchen(rng: np.random.Generator, n: int) -> Samples:
    """A refrigerator, an extractor fan, dishes, and now and then a door."""
    dishes = bangs(rng, n, rng.integers(0, n, n // (4 * RATE)), 2800, 0.05)
    doors = bangs(rng, n, rng.integers(0, n, n // (15 * RATE)), 90, 0.12)
    return unit(0.4 * pump(rng, n) + 0.6 * fan(rng, n) + 1.5 * dishes + 3 * doors)


def unit(sound: Samples) -> Samples:
    """The same at loudness 1."""
    return sound / loudness(sound)


NOISES: dict[str, Callable[[np.random.Generator, int], Samples]] = {
    each.__name__: each for each in (pump, wash, spin, fan, kitchen)
}
