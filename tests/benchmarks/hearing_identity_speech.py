"""Invented model and serial numbers, and visits in which a technician reads them aloud in one of three styles.

All strings are drawn at random; I and O are left out, as plates leave them out for their likeness to 1 and 0.
"""

from __future__ import annotations

import random
import re
import subprocess
import zlib
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from typing import Literal, get_args

import soundfile  # type: ignore[import-untyped]

from fieldnotes.hear.captions import read_captions
from tests.benchmarks.hearing_sounds import GAP_S, RATE, SPEAK, Line, Spoken

Style = Literal["letters", "code words", "as in"]
STYLES: tuple[Style, ...] = get_args(Style)

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
# L a letter, D a digit, a run of either read as one group
MODELS = ("LLDDDL", "LLLDDD", "LLDDDDL", "LLLDDDD", "LDDDLL", "LLDDDD", "LLLDDDDL", "LLDDLDD")
SERIALS = ("DDLDDDDD", "LDDDDDDD", "LLDDDDDD", "DDDDDDDD", "DDDDLDDD", "LDDLDDDD", "DDLLDDDD")
DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
ICAO = [
    "alpha", "bravo", "charlie", "delta", "echo", "foxtrot", "golf", "hotel", "india", "juliet", "kilo",
    "lima", "mike", "november", "oscar", "papa", "quebec", "romeo", "sierra", "tango", "uniform", "victor",
    "whiskey", "x-ray", "yankee", "zulu",
]  # fmt: skip
WORDS = {
    "A": ("apple", "Adam", "alpha"), "B": ("boy", "bravo", "Bob"), "C": ("cat", "Charlie", "Chicago"),
    "D": ("dog", "David", "delta"), "E": ("echo", "Edward", "easy"), "F": ("Frank", "fox", "Florida"),
    "G": ("George", "golf", "green"), "H": ("Henry", "hotel", "house"), "J": ("John", "Juliet", "Jack"),
    "K": ("king", "kilo", "Kansas"), "L": ("Larry", "lemon", "London"), "M": ("Mike", "Mary", "mother"),
    "N": ("Nancy", "November", "north"), "P": ("Peter", "papa", "Paul"), "Q": ("queen", "Quebec"),
    "R": ("Robert", "Romeo", "red"), "S": ("Sam", "sugar", "Sierra"), "T": ("Tom", "Texas", "tango"),
    "U": ("uncle", "uniform", "under"), "V": ("Victor", "Vegas"), "W": ("William", "whiskey", "water"),
    "X": ("x-ray",), "Y": ("yellow", "Yankee", "young"), "Z": ("zebra", "zulu", "zero"),
}  # fmt: skip
OPENERS = (
    "Okay, I'm in the kitchen with the dishwasher.",
    "Right, here we are, it's a gas dryer in the basement.",
    "Customer has a front load washer that won't spin.",
    "This one is a refrigerator that stopped cooling on Sunday.",
    "Let me find the plate, it's behind the kick panel.",
    "The top load washer is leaking from underneath, she says.",
)
MODEL_LINES = (
    "Model number is {}.", "Model {}.", "The model number's {}.", "Okay, model is {}.", "Plate says model {}.",
)  # fmt: skip
SERIAL_LINES = (
    "Serial number is {}.", "Serial {}.", "And the serial number is {}.", "Serial's {}.", "Serial number {}.",
)  # fmt: skip
CLOSERS = (
    "I'll pull the lower panel and have a look at the drain pump.",
    "It's about six years old and she bought it new.",
    "Next I'm going to run a short cycle and listen to it.",
    "The inlet valve looks fine from here, no drips.",
)


@dataclass(frozen=True)
class Read:
    """A visit of four lines that reads out one model and one serial number."""

    style: Style
    model: str
    serial: str
    lines: tuple[str, ...]


def visits(count: int, seed: int) -> list[Read]:
    """As many visits, the styles in turn."""
    draw = random.Random(seed)
    return [_visit(draw, STYLES[n % len(STYLES)]) for n in range(count)]


def _visit(draw: random.Random, style: Style) -> Read:
    model, serial = (_string(draw, draw.choice(shapes)) for shapes in (MODELS, SERIALS))
    lines = (
        draw.choice(OPENERS),
        draw.choice(MODEL_LINES).format(said(draw, model, style)),
        draw.choice(SERIAL_LINES).format(said(draw, serial, style)),
        draw.choice(CLOSERS),
    )
    return Read(style, model, serial, lines)


def _string(draw: random.Random, shape: str) -> str:
    return "".join(draw.choice(LETTERS if sign == "L" else "0123456789") for sign in shape)


def said(draw: random.Random, text: str, style: Style) -> str:
    """How it is read aloud: groups of letters and of digits with a short rest between them."""
    zero, joint = draw.choice(("oh", "zero")), draw.choice((" as in ", " for ", " like ", " as in "))
    groups = ["".join(run) for _, run in groupby(text, str.isdigit)]
    return ", ".join(
        _digits(draw, run, zero) if run.isdigit() else _letters(draw, run, style, joint) for run in groups
    )


def _digits(draw: random.Random, run: str, zero: str) -> str:
    """ "four, double seven, oh": long runs in two halves."""
    if len(run) > 4:
        middle = len(run) // 2
        return f"{_digits(draw, run[:middle], zero)}, {_digits(draw, run[middle:], zero)}"
    names: list[str] = []
    for digit, same in groupby(run):
        times, name = len(list(same)), zero if digit == "0" else DIGITS[int(digit)]
        names += [f"double {name}"] if times == 2 and draw.random() < 0.5 else [name] * times
    return " ".join(names)


def _letters(draw: random.Random, run: str, style: Style, joint: str) -> str:
    if style == "code words":
        return " ".join(ICAO[ord(letter) - ord("A")] for letter in run)
    names = ["ay" if letter == "A" else letter for letter in run]  # "A" would be spoken as the article
    if style == "letters":
        return " ".join(names)
    return ", ".join(
        f"{name}{joint}{draw.choice(WORDS[letter])}" for name, letter in zip(names, run, strict=True)
    )


def spoken_visits(count: int, seed: int, voice: str, folder: Path, speaker: str) -> list[tuple[Read, Spoken]]:
    """Visits read by a voice, all in one go, and cut apart in the middle of the pauses. Kept in `folder`."""
    reads = visits(count, seed + zlib.crc32(voice.encode()) % 1000)
    path = folder / f"identities-{seed}-{count}-{re.sub(r'[^a-z0-9.-]', '_', voice)}.flac"
    if not path.with_suffix(".vtt").is_file():
        folder.mkdir(parents=True, exist_ok=True)
        text = path.with_suffix(".txt")
        text.write_text("\n".join(line for read in reads for line in read.lines), encoding="utf-8")
        subprocess.run(
            [speaker, SPEAK, text, "--voice", voice, "--gap", GAP_S, "--out", path],
            check=True,
            stdout=subprocess.DEVNULL,
        )
    sound = soundfile.read(path)[0]
    captions = path.with_suffix(".vtt")
    breaths, _ = read_captions(captions, captions.read_text(encoding="utf-8"))
    times = [(b.words[0].start or 0.0, b.words[-1].end or 0.0) for b in breaths]
    pause = float(GAP_S) / 2
    made, first = [], 0
    for n, read in enumerate(reads):
        mine = times[first : first + len(read.lines)]
        begin, end = mine[0][0] - pause, mine[-1][1] + pause
        lines = tuple(Line(say, a - begin, b - begin) for say, (a, b) in zip(read.lines, mine, strict=True))
        cut = sound[round(begin * RATE) : round(end * RATE)]
        made.append((read, Spoken(f"{path.stem}-{n}", voice, cut, lines, (read.model, read.serial))))
        first += len(read.lines)
    return made
