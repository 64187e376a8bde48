"""What a report loses by being heard: narrations read aloud, against the same narrations as text.

    python -m tests.benchmarks.hearing_reports --speaker VENV/bin/python --folder spoken \\
        --voices p03=joe v03=hibari-us --conditions clean wash:10 --show

All lines of each narration (tests/narrations) are spoken, noise is laid over them, and what is heard goes through
understanding as in a visit. A row a condition: F1 of the text, and of what was heard with its precision and recall,
over all sections (see tests/benchmarks/understanding.py). `--show` lists each label that only the sound lost, with
what was heard there, and each item that only the sound gave. What was heard is kept in the folder, so that a second
run reads the same words with changed rules; delete reports.json to hear anew.
"""

from __future__ import annotations

import argparse
from collections import Counter
from pathlib import Path
from typing import Any

from fieldnotes.trade_terms import terms_heard_of, terms_of
from fieldnotes.transcript import Transcript
from fieldnotes.visit import Order, visit_of
from fieldnotes.vocabulary.load import Vocabulary, load_vocabulary
from tests.benchmarks.hearing_kept import Ear
from tests.benchmarks.hearing_sounds import NARRATIONS, Line, spoken
from tests.benchmarks.understanding import Score, compare, read_narration, transcript_of

JOE, HIBARI = ("n02", "p03", "q05", "r04"), ("t02", "v03", "w02", "h05")
VOICES = [*(f"{name}=joe" for name in JOE), *(f"{name}=hibari-us" for name in HIBARI)]
ORDER = Order(date="2026-03-02")
Scores = dict[str, Score]


def main() -> None:
    args = arguments()
    vocabulary = load_vocabulary(args.vocab)
    kept = args.folder / (f"reports-{args.vocab.name}.json" if args.vocab else "reports.json")
    ear = Ear(kept, args.model, terms_of(vocabulary, None), terms_heard_of(vocabulary))
    print(
        "| condition | labels | F1 of the text | F1 heard | precision | recall |\n|---|---|---|---|---|---|"
    )
    for condition in args.conditions:
        text, heard = Score(), Score()
        for each in args.voices:
            name, _, voice = each.partition("=")
            speech = spoken(name, voice, None, args.folder, args.speaker)
            narration = read_narration(NARRATIONS / f"{name}.yaml")
            read = text_scores(narration, vocabulary)
            transcript, lines = ear.heard(speech, condition)
            spans = [(line.start, line.end) for line in lines]
            said = compare(narration, spans, visit_of(transcript, vocabulary, ORDER))
            for kind in said:
                text += read[kind]
                heard += said[kind]
                if args.show:
                    show_lost(f"{name} {condition} {kind}", read[kind], said[kind], transcript, lines)
        figures = " | ".join(f"{n:.3f}" for n in (text.f1, heard.f1, heard.precision, heard.recall))
        print(f"| {condition} | {heard.wanted} | {figures} |", flush=True)


def text_scores(narration: dict[str, Any], vocabulary: Vocabulary) -> Scores:
    """A narration's scores as text, section by section."""
    written, spans = transcript_of(narration["lines"])
    return compare(narration, spans, visit_of(written, vocabulary, ORDER))


def show_lost(head: str, read: Score, said: Score, heard: Transcript, lines: list[Line]) -> None:
    """What only the sound lost, with the words that were heard on its line, and what only the sound gave."""
    words = [word for breath in heard.breaths for word in breath.words]
    for missed in (Counter(said.missed) - Counter(read.missed)).elements():
        print(f"{head}: lost {missed}")
        for line in lines:
            if repr(line.say) in missed:
                there = [
                    w.text for w in words if line.start <= ((w.start or 0.0) + (w.end or 0.0)) / 2 <= line.end
                ]
                print(f"    heard: {' '.join(there)}")
    given = {text.split("<-")[0] for text in read.wrong}
    for wrong in said.wrong:
        if wrong.split("<-")[0] not in given:
            print(f"{head}: wrong {wrong}")


def arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--speaker", default="python", help="a Python that has the voices' packages")
    parser.add_argument("--folder", type=Path, default=Path("spoken"), help="where sound and words are kept")
    parser.add_argument("--voices", nargs="+", default=VOICES, metavar="NARRATION=VOICE")
    parser.add_argument(
        "--conditions", nargs="+", default=["clean", "spin:10", "wash:10"], metavar="NOISE:DB"
    )
    parser.add_argument("--model")
    parser.add_argument("--vocab", type=Path, help="a shop's own words and makes")
    parser.add_argument("--show", action="store_true", help="list what was lost by hearing")
    return parser.parse_args()


if __name__ == "__main__":
    main()
