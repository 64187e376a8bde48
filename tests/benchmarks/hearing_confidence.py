"""How often words are right at each confidence that the recogniser gives them: the table of a reliability diagram.

    python -m tests.benchmarks.hearing_confidence --speaker VENV/bin/python --conditions clean wash:10

A word is right where it was said there (hearing_figures.right_words). Tried and dropped: a rising line through
the shares right, learnt on every other recording, which took the error on the rest from 0.039 to 0.031 only.
"""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Iterable
from pathlib import Path

import numpy as np
import soundfile  # type: ignore[import-untyped]

from fieldnotes.hear import hear
from fieldnotes.trade_terms import terms_of
from fieldnotes.vocabulary.load import load_vocabulary
from tests.benchmarks.hearing import speech_options
from tests.benchmarks.hearing_figures import right_words
from tests.benchmarks.hearing_sounds import NOISES, RATE, in_noise, spoken

Judged = list[tuple[float, bool]]  # confidence, whether right
BINS = 10


def expected_error(words: Judged) -> float:
    """Expected calibration error over bins of equal width (Guo and others, On Calibration of Modern Neural
    Networks, 2017, equation 3)."""
    return sum(abs(sure - right) * count / len(words) for _, count, sure, right in bins(words))


def bins(words: Judged) -> Iterable[tuple[int, int, float, float]]:
    """Of each bin that holds words: its number, how many, mean confidence, share right."""
    for n in range(BINS):
        inside = [(sure, right) for sure, right in words if min(int(sure * BINS), BINS - 1) == n]
        if inside:
            sure, right = np.mean(inside, axis=0)
            yield n, len(inside), float(sure), float(right)


def show(words: Judged) -> None:
    print(f"{len(words)} words, expected calibration error {expected_error(words):.3f}")
    print("| confidence | words | mean | right |\n|---|---|---|---|")
    for n, count, sure, right in bins(words):
        print(f"| {n / BINS:.1f}-{(n + 1) / BINS:.1f} | {count} | {sure:.2f} | {right:.2f} |")


def heard(args: argparse.Namespace) -> list[Judged]:
    """The words of each recording."""
    terms = terms_of(load_vocabulary(), None)
    found: list[Judged] = []
    with tempfile.TemporaryDirectory() as folder:
        for condition in args.conditions:
            noise, _, level = condition.partition(":")
            for each in args.voices:
                name, _, voice = each.partition("=")
                speech = spoken(name, voice, args.lines, args.folder, args.speaker)
                sound, lines = in_noise(speech, noise, float(level or 0), lead_s=2.0)
                path = Path(folder) / "spoken.wav"
                soundfile.write(path, sound, RATE, subtype="PCM_16")
                got = hear([path], terms=terms, cache=None)
                found.append([(word.confidence, right) for word, right in right_words(got, lines)])
    return found


def arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    speech_options(parser)
    parser.add_argument(
        "--conditions",
        nargs="+",
        metavar="NOISE:DB",
        default=["clean", *(f"{n}:{d}" for n in NOISES for d in (10, 5))],
    )
    return parser.parse_args()


def main() -> None:
    show([word for each in heard(arguments()) for word in each])


if __name__ == "__main__":
    main()
