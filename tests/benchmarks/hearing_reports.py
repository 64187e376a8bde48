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
import json
import tempfile
from collections import Counter
from pathlib import Path

import soundfile  # type: ignore[import-untyped]

from fieldnotes.hear import hear
from fieldnotes.hear.engine import Engine
from fieldnotes.hear.whisper import Whisper
from fieldnotes.trade_terms import terms_heard_of, terms_of
from fieldnotes.transcript import Transcript
from fieldnotes.visit import Order, visit_of
from fieldnotes.vocabulary.load import load_vocabulary
from tests.benchmarks.hearing_sounds import NARRATIONS, RATE, Line, Spoken, in_noise, spoken
from tests.benchmarks.understanding import Score, compare, read_narration, transcript_of

JOE, HIBARI = ("n02", "p03", "q05", "r04"), ("t02", "v03", "w02", "h05")
VOICES = [*(f"{name}=joe" for name in JOE), *(f"{name}=hibari-us" for name in HIBARI)]
LEAD_S = 2.0  # of noise before and after each visit
ORDER = Order(date="2026-03-02")
Scores = dict[str, Score]


class Ear:
    """Hears narrations; what it heard is kept in a file."""

    def __init__(self, path: Path, model: str | None) -> None:
        self._path, self._model = path, model
        self._kept: dict[str, object] = json.loads(path.read_text("utf-8")) if path.is_file() else {}
        self._engine: Engine | None = None
        self.vocabulary = load_vocabulary()

    def heard(self, speech: Spoken, condition: str) -> tuple[Transcript, list[Line]]:
        """What is heard of the speech in a noise, and where its lines lie."""
        noise, _, level = condition.partition(":")
        sound, lines = in_noise(speech, noise, float(level or 0), lead_s=LEAD_S)
        key = f"{speech.name} {condition} {self._model or ''}"
        if key not in self._kept:
            with tempfile.TemporaryDirectory() as folder:
                path = Path(folder) / "visit.wav"
                soundfile.write(path, sound, RATE, subtype="PCM_16")
                self._kept[key] = self._hear(path).model_dump()
            self._path.write_text(json.dumps(self._kept), encoding="utf-8")
        return Transcript.model_validate(self._kept[key]), lines

    def _hear(self, path: Path) -> Transcript:
        return hear(
            [path],
            model=self._model,
            terms=terms_of(self.vocabulary, None),
            choose_terms=terms_heard_of(self.vocabulary),
            cache=None,
            make_engine=self._engine_of,
        )

    def _engine_of(self, folder: Path) -> Engine:
        self._engine = self._engine or Whisper(folder)
        return self._engine


def main() -> None:
    args = arguments()
    ear = Ear(args.folder / "reports.json", args.model)
    print(
        "| condition | labels | F1 of the text | F1 heard | precision | recall |\n|---|---|---|---|---|---|"
    )
    for condition in args.conditions:
        text, heard = Score(), Score()
        for each in args.voices:
            name, _, voice = each.partition("=")
            read, said = scores(
                ear, name, spoken(name, voice, None, args.folder, args.speaker), condition, args.show
            )
            for kind in said:
                text += read[kind]
                heard += said[kind]
        figures = " | ".join(f"{n:.3f}" for n in (text.f1, heard.f1, heard.precision, heard.recall))
        print(f"| {condition} | {heard.wanted} | {figures} |", flush=True)


def scores(ear: Ear, name: str, speech: Spoken, condition: str, show: bool) -> tuple[Scores, Scores]:
    """A narration's scores as text and as heard, section by section."""
    narration = read_narration(NARRATIONS / f"{name}.yaml")
    written, spans = transcript_of(narration["lines"])
    read = compare(narration, spans, visit_of(written, ear.vocabulary, ORDER))
    transcript, lines = ear.heard(speech, condition)
    said = compare(narration, [(s.start, s.end) for s in lines], visit_of(transcript, ear.vocabulary, ORDER))
    if show:
        for kind in said:
            show_lost(f"{name} {condition} {kind}", read[kind], said[kind], transcript, lines)
    return read, said


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
    parser.add_argument("--show", action="store_true", help="list what was lost by hearing")
    return parser.parse_args()


if __name__ == "__main__":
    main()
