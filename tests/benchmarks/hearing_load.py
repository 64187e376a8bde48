"""How long a whole visit takes to hear and how much memory, against the plain call with the same weights.

    python -m tests.benchmarks.hearing_load --speaker VENV/bin/python --minutes 30 [--way ours] [--repeat 3]
    python -m tests.benchmarks.hearing_load --speaker VENV/bin/python --minutes 480 --share 0.03 --way ours

A third of the visit, or another share of it, is speech, with pauses between the lines, all of it in noise. Each
hearing runs in a process of its own, one after the other.
"""

from __future__ import annotations

import argparse
import re
from pathlib import Path
from statistics import median

import numpy as np
import soundfile  # type: ignore[import-untyped]

from tests.benchmarks.hearing_runs import WAYS, run_alone
from tests.benchmarks.hearing_sounds import NOISES, RATE, Samples, Spoken, loudness, spoken

PLATE = re.compile(r"\b(model|serial)\b", re.IGNORECASE)
BLOCK_S = 600  # noise is computed in blocks of so many seconds


def visit(speech: list[Spoken], seconds: int, share: float, noise: str, level_db: float, path: Path) -> None:
    """A recording of that length, written block by block: one of 8 hours never lies in memory as a whole.

    `share` of it is speech."""
    rng = np.random.default_rng(5)
    once, said = (
        _lines(speech[0], plate=True),
        [part for each in speech for part in _lines(each, plate=False)],
    )
    loud = loudness(np.concatenate(said))
    held, turn = np.zeros(0), 0
    with soundfile.SoundFile(path, "w", RATE, 1, "PCM_16") as file:
        for at in range(0, seconds, BLOCK_S):
            want = min(BLOCK_S, seconds - at) * RATE
            while len(held) < want:
                line = once[turn] if turn < len(once) else said[(turn - len(once)) % len(said)]
                turn += 1
                rest = len(line) * (1 / share - 1) * rng.choice([0.25, 0.25, 0.25, 3.25])
                held = np.concatenate([held, line, np.zeros(round(rest))])
            sound = held[:want] + NOISES[noise](rng, want) * loud / 10 ** (level_db / 20)
            held = held[want:]
            file.write(np.clip(sound, -0.98, 0.98))


def _lines(each: Spoken, *, plate: bool) -> list[Samples]:
    """The sound of each line; those that spell numbers off the plate are in a visit once."""
    lines = [line for line in each.lines if plate or not PLATE.search(line.say)]
    return [each.sound[round(line.start * RATE) : round(line.end * RATE)] for line in lines]


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--speaker", default="python", help="a Python that has the voices' packages")
    parser.add_argument("--folder", type=Path, default=Path("spoken"), help="where sound is kept")
    parser.add_argument("--minutes", type=int, default=30)
    parser.add_argument(
        "--share", type=float, default=1 / 3, help="of the visit is speech (default: a third)"
    )
    parser.add_argument("--noise", choices=list(NOISES), default="wash")
    parser.add_argument("--level", type=float, default=10, help="dB of the speech over the noise")
    parser.add_argument("--way", choices=[*WAYS, "both"], default="both")
    parser.add_argument("--model")
    parser.add_argument("--repeat", type=int, default=1)
    args = parser.parse_args()
    path = args.folder / f"visit-{args.minutes}-{args.share:.2f}-{args.noise}-{args.level:g}.flac"
    if not path.is_file():
        voices = {"n01": "joe", "n05": "hibari-us", "n02": "joe", "n06": "hibari-us"}
        speech = [spoken(name, voice, 16, args.folder, args.speaker) for name, voice in voices.items()]
        visit(speech, args.minutes * 60, args.share, args.noise, args.level, path)
    for way in WAYS if args.way == "both" else [args.way]:
        runs = [run_alone(way, [path], args.model, [None]) for _ in range(args.repeat)]
        took, peak = [run.seconds for run in runs], max(run.peak_mb for run in runs)
        words = sum(len(breath.words) for breath in runs[0].transcripts[0].breaths)
        print(
            f"{way}: {args.minutes} min of {args.noise} at {args.level:g} dB in {median(took):.1f} s"
            f" (median of {', '.join(f'{s:.1f}' for s in took)}; {runs[0].cpu_s:.0f} s of processor time),"
            f" peak {peak} MB, {words} words",
            flush=True,
        )


if __name__ == "__main__":
    main()
