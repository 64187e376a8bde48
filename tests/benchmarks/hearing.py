"""How well recordings with known lines are heard: ours beside the plain call, same weights, same run.

    python -m tests.benchmarks.hearing --speaker VENV/bin/python --noises clean wash --levels 10 0

Speaks narrations (tests/narrations) in voices that are unlike each other, lays noise over them at each level,
with stretches of noise alone before and after, and prints one row a condition and way of hearing. All of it
takes hours; every option names the part to run. VENV holds the voices' packages (demo_audio/README.md); this
program itself needs jiwer, soundfile and whisper-normalizer. Recordings of one's own: --recordings, each with
a .vtt of its lines beside it. People's voices: --readers (hearing_readers.py says where to get some).
"""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

import soundfile  # type: ignore[import-untyped]
import yaml

from tests.benchmarks.hearing_figures import HEAD, Figures, written
from tests.benchmarks.hearing_readers import reader
from tests.benchmarks.hearing_runs import WAYS, Run, run_alone
from tests.benchmarks.hearing_sounds import NARRATIONS, NOISES, RATE, Line, Spoken, in_noise, recorded, spoken

SPEAKERS = ["n01=joe", "n05=hibari-us", "n03=flite:slt", "n07=flite:rms", "n11=flite:awb", "n09=espeak:en-gb"]
Cases = list[tuple[Spoken, list[Line], str, float]]  # speech, its lines in the noise, kind, seconds


def kind_of(name: str) -> str:
    """The kind of appliance that a narration is about, as the vocabulary calls it."""
    told = str(yaml.safe_load((NARRATIONS / f"{name}.yaml").read_text(encoding="utf-8"))["appliance"])
    return {"electric oven": "electric range", "microwave oven": "microwave"}.get(told, told)


def speech_options(parser: argparse.ArgumentParser) -> None:
    """Which narrations are spoken, by which voices, with which program."""
    parser.add_argument("--speaker", default="python", help="a Python that has the voices' packages")
    parser.add_argument("--folder", type=Path, default=Path("spoken"), help="where clean speech is kept")
    parser.add_argument("--voices", nargs="*", default=SPEAKERS, metavar="NARRATION=VOICE")
    parser.add_argument("--lines", type=int, default=16, help="at most so many of each narration")


def arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    speech_options(parser)
    parser.add_argument("--recordings", nargs="*", default=[], type=Path, help="further speech, .vtt beside")
    parser.add_argument("--readers", nargs="*", default=[], type=Path, metavar="FOLDER")
    parser.add_argument("--noises", nargs="+", default=["clean", *NOISES], choices=["clean", *NOISES])
    parser.add_argument("--levels", nargs="+", type=float, default=[20, 10, 5, 0], metavar="DB")
    parser.add_argument("--ways", nargs="+", default=list(WAYS), choices=WAYS)
    parser.add_argument("--model")
    parser.add_argument("--told-kind", action="store_true", help="the appliance is known beforehand")
    return parser.parse_args()


def main() -> None:
    args = arguments()
    speech = [(recorded(path), "") for path in args.recordings]
    speech += [(reader(folder), "") for folder in args.readers]
    for each in args.voices:
        name, _, voice = each.partition("=")
        speech.append((spoken(name, voice, args.lines, args.folder, args.speaker), kind_of(name)))
    print(f"| noise, dB | way | {' | '.join(HEAD)} | s of sound / s | peak MB |")
    print("|---" * (len(HEAD) + 4) + "|")
    ceiling = Figures()
    for each, kind in speech:
        ceiling.add(written(each.lines), each.lines, kind, each.identities, 0.0)
    show("clean", "read, not heard", ceiling, None, 0)
    for noise in args.noises:
        for level in args.levels if noise != "clean" else [0.0]:
            condition(speech, noise, level, args)


def condition(speech: list[tuple[Spoken, str]], noise: str, level: float, args: argparse.Namespace) -> None:
    """Hear all speech in one noise at one level, each way in a process of its own."""
    with tempfile.TemporaryDirectory() as folder:
        cases: Cases = []
        paths = []
        for n, (each, kind) in enumerate(speech):
            sound, lines = in_noise(each, noise, level)
            paths.append(Path(folder) / f"{n}.wav")
            soundfile.write(paths[-1], sound, RATE, subtype="PCM_16")
            cases.append((each, lines, kind, len(sound) / RATE))
        for way in args.ways:
            kinds = [kind or None if args.told_kind else None for _, _, kind, _ in cases]
            run = run_alone(way, paths, args.model, kinds)
            figures = Figures()
            for heard, (each, lines, kind, seconds) in zip(run.transcripts, cases, strict=True):
                figures.add(heard, lines, kind, each.identities, seconds)
            label = "clean" if noise == "clean" else f"{noise} {level:g}"
            show(label, way, figures, run, sum(seconds for *_, seconds in cases))


def show(label: str, way: str, figures: Figures, run: Run | None, seconds: float) -> None:
    cost = [f"{seconds / run.seconds:.0f}", str(run.peak_mb)] if run else ["-", "-"]
    print(f"| {label} | {way} | {' | '.join([*figures.row(), *cost])} |", flush=True)


if __name__ == "__main__":
    main()
