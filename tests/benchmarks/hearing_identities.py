"""Which model and serial numbers come out whole, of strings invented at random and read aloud in three styles.

    python -m tests.benchmarks.hearing_identities --speaker VENV/bin/python --folder spoken \\
        --voices joe flite:slt --conditions clean wash:10 --count 6 --seed 1

Styles: letters ("P X W, five oh four two"), code words ("papa x-ray whiskey"), letter as in word ("P as in Peter").
Each voice reads `--count` visits of four lines with one model and one serial number in each. Rows count strings:
right as a whole, of those the ones that bear no "please check"; wrong; missing. What was heard is kept in the folder,
so that a second run reads the same words with changed rules.
"""

from __future__ import annotations

import argparse
from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path

from fieldnotes.tidy import tidy
from fieldnotes.trade_terms import terms_of
from fieldnotes.transcript import Transcript
from fieldnotes.understand.understanding import Understanding
from fieldnotes.vocabulary.load import load_vocabulary
from fieldnotes.write.wording import PLEASE_CHECK_BELOW
from tests.benchmarks.hearing_figures import text_of
from tests.benchmarks.hearing_identity_speech import Read, spoken_visits
from tests.benchmarks.hearing_kept import Ear
from tests.benchmarks.hearing_sounds import Spoken

VOICES = ["joe", "hibari-us", "flite:slt", "flite:rms", "flite:awb", "espeak:en-gb"]


@dataclass
class Tally:
    """Strings said, and what became of them."""

    said: int = 0
    right: int = 0
    right_sure: int = 0
    wrong: int = 0
    wrong_sure: int = 0

    def add(self, said: str, given: str | None, confidence: float) -> None:
        sure = confidence >= PLEASE_CHECK_BELOW
        self.said += 1
        self.right += given == said
        self.right_sure += given == said and sure
        self.wrong += given is not None and given != said
        self.wrong_sure += given is not None and given != said and sure

    def row(self) -> str:
        missing = self.said - self.right - self.wrong
        return (
            f"{self.right}/{self.said} ({self.right / self.said:.0%}) | {self.right_sure} |"
            f" {self.wrong - self.wrong_sure} | {self.wrong_sure} | {missing}"
        )


class Reader:
    """Model and serial number of what was heard, as the report gives them."""

    def __init__(self) -> None:
        self._vocabulary = load_vocabulary()
        self._understanding = Understanding(self._vocabulary)

    def read(self, heard: Transcript) -> dict[str, tuple[str | None, float]]:
        """Each with its confidence."""
        unit = self._understanding.findings(tidy(heard, self._vocabulary.measures)).appliance
        given = {"model": unit.model, "serial": unit.serial}
        return {name: (text, unit.evidence[name].confidence if text else 0.0) for name, text in given.items()}


def arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--speaker", default="python", help="a Python that has the voices' packages")
    parser.add_argument("--folder", type=Path, default=Path("spoken"), help="where sound and words are kept")
    parser.add_argument("--voices", nargs="+", default=VOICES, metavar="VOICE")
    parser.add_argument(
        "--conditions", nargs="+", default=["clean", "wash:10", "spin:10"], metavar="NOISE:DB"
    )
    parser.add_argument("--count", type=int, default=6, help="visits of each voice")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--model")
    parser.add_argument("--heard", type=Path, help="file of what was heard (default: in the folder)")
    parser.add_argument("--show", action="store_true", help="print every string that did not come out sure")
    return parser.parse_args()


def main() -> None:
    args = arguments()
    tallies: dict[tuple[str, str, str], Tally] = defaultdict(Tally)
    kept = args.heard or args.folder / "identities.json"
    ear, reader = Ear(kept, args.model, terms_of(load_vocabulary(), None)), Reader()
    for voice in args.voices:
        speech = spoken_visits(args.count, args.seed, voice, args.folder, args.speaker)
        for condition in args.conditions:
            for read, spoken in speech:
                words, _ = ear.heard(spoken, condition)
                given = reader.read(words)
                for name, text in (("model", read.model), ("serial", read.serial)):
                    tallies[condition, read.style, voice].add(text, *given[name])
                if args.show:
                    show(read, spoken, condition, words, given)
    print("| condition | style or voice | right | of them sure | wrong, doubtful | wrong, sure | missing |")
    print("|---|---|---|---|---|---|---|")
    for condition in args.conditions:
        for place in (1, 2):
            names = dict.fromkeys(key[place] for key in tallies)
            for name in names:
                summed(
                    {k: t for k, t in tallies.items() if k[0] == condition and k[place] == name},
                    condition,
                    name,
                )
        summed({k: t for k, t in tallies.items() if k[0] == condition}, condition, "all")


def summed(tallies: dict[tuple[str, str, str], Tally], condition: str, name: str) -> None:
    """Print the sum of tallies as a row."""
    total = Tally()
    for tally in tallies.values():
        for field in vars(total):
            setattr(total, field, getattr(total, field) + getattr(tally, field))
    print(f"| {condition} | {name} | {total.row()} |")


def show(
    read: Read,
    spoken: Spoken,
    condition: str,
    words: Transcript,
    given: dict[str, tuple[str | None, float]],
) -> None:
    """What went wrong with a visit, beside what was heard."""
    for name, text, line in (("model", read.model, 1), ("serial", read.serial, 2)):
        got, sure = given[name]
        if got != text or sure < PLEASE_CHECK_BELOW:
            mark = "ok?  " if got == text else "MISS " if got is None else "WRONG"
            mark = mark if sure < PLEASE_CHECK_BELOW or got is None else "SURE!"
            print(
                f"{mark} {spoken.voice} {condition} {name} {text} -> {got} ({sure:.2f}) said: {read.lines[line]}"
            )
            print(f"      heard: {text_of(words)}")


if __name__ == "__main__":
    main()
