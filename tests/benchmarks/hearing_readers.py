"""People's voices: recordings with their words, as the test data of the CMU Sphinx recogniser keep them.

Debian's package pocketsphinx-testdata has a LibriVox reader (/usr/share/pocketsphinx/test/data/librivox, 70 words)
and a speaker of playing cards (.../cards, 20 words): too few for more than a look, but no synthetic voice.
"""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import soundfile  # type: ignore[import-untyped]

from tests.benchmarks.hearing_sounds import RATE, Line, Spoken

LINE = re.compile(r"<s>(.*)</s> \((.+)\)")
REST_S = 0.9  # between lines


def reader(folder: Path) -> Spoken:
    """All recordings of a folder one after the other, each a line. Raises ValueError where one has another rate."""
    (listed,) = folder.glob("*transcription")
    sounds, lines, at = [np.zeros(round(REST_S * RATE))], [], REST_S
    for said, name in LINE.findall(listed.read_text(encoding="utf-8")):
        sound, rate = soundfile.read(folder / f"{name}.wav")
        if rate != RATE:
            raise ValueError(f"{folder / name}.wav: has {rate} samples a second, not {RATE}")
        lines.append(Line(" ".join(said.split()), at, at + len(sound) / RATE))
        sounds += [sound, np.zeros(round(REST_S * RATE))]
        at = lines[-1].end + REST_S
    return Spoken(folder.name, "a person", np.concatenate(sounds), tuple(lines), ())
