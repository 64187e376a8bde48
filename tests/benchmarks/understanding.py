"""How much of what was said ends up in the record, and how much that was not said.

    python -m tests.benchmarks.understanding [--show] FILE...

Each file is an annotated narration as in tests/narrations/: `lines` with `say` and labels under `is`, and a
`verdict`. Its lines go through tidy, understand and judge as captions would, without sound. Prints precision,
recall and F1 a section, how many unlabelled lines (the traps) gave an item, and times. An item is right when
its section, its time, what it is about and its fields all agree with a label of that line. With --bare the lines
lose stops and capitals first, as a recogniser may leave them out; with --stops each comma becomes a full stop, as it
may set them, and the words count as heard, not as written.
"""

from __future__ import annotations

import argparse
import itertools
import re
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from fieldnotes.judge.units import convert, measure_the_same
from fieldnotes.records import Evidence, Item, Visit
from fieldnotes.transcript import Breath, Recording, Transcript, Word
from fieldnotes.visit import Order, visit_of
from fieldnotes.vocabulary.load import Vocabulary, load_vocabulary

WORD_S, PAUSE_S, SHORTEST_S = 1 / 2.6, 0.5, 0.6  # pace of the made-up clock
HEARD = 0.95  # confidence of a word that a recogniser wrote
TOUCH_S = 0.15  # an overlap that counts
LONG_VISIT = 4500  # words: half an hour of speech
SECTIONS = {
    "complaint": "complaints", "check": "checks", "reading": "readings", "trial": "trials", "code": "codes",
    "work": "work", "part": "parts", "cause": "causes", "advice": "advice", "follow_up": "follow_ups",
    "safety": "safety",
}  # fmt: skip
FIELDS = {
    "check": ("outcome",), "trial": ("outcome",), "work": ("action",), "cause": ("certainty",),
    "part": ("status", "number", "quantity"),
}  # fmt: skip
IDENTITY = ("kind", "make", "model", "serial", "purchased")
Label = dict[str, Any]
Line = dict[str, Any]
Span = tuple[float, float]


@dataclass
class Score:
    """Counts of one section, and what was missed or wrong in words."""

    right: int = 0
    wanted: int = 0
    given: int = 0
    missed: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)

    def __iadd__(self, other: Score) -> Score:
        self.right += other.right
        self.wanted += other.wanted
        self.given += other.given
        self.missed += other.missed
        self.wrong += other.wrong
        return self

    @property
    def precision(self) -> float:
        return self.right / self.given if self.given else 1.0

    @property
    def recall(self) -> float:
        return self.right / self.wanted if self.wanted else 1.0

    @property
    def f1(self) -> float:
        total = self.precision + self.recall
        return 2 * self.precision * self.recall / total if total else 0.0


def read_narration(path: Path, bare: bool = False, stops: bool = False) -> dict[str, Any]:
    """The file as it stands; `bare`: without stops and capitals; `stops`: full stops for all commas."""
    plain: dict[str, Any] = yaml.safe_load(path.read_text(encoding="utf-8"))
    if bare:
        for line in plain["lines"]:
            line["say"] = re.sub(r"[.,;:!?](?=\s|$)", "", line["say"]).lower()
    if stops:
        for line in plain["lines"]:
            line["say"] = re.sub(r"[,;:] (\w)", lambda found: f". {found[1].upper()}", str(line["say"]))
    return plain


def transcript_of(lines: list[Line], confidence: float = 1.0) -> tuple[Transcript, list[Span]]:
    """One breath a line on a made-up clock, and when each line was said. Words of confidence 1 count as written."""
    breaths, spans, at = [], [], 0.0
    for line in lines:
        said = str(line["say"]).split()
        step = max(SHORTEST_S, len(said) * WORD_S) / len(said)
        times = [round(at + n * step, 3) for n in range(len(said) + 1)]
        words = (
            Word(text=word, start=times[n], end=times[n + 1], confidence=confidence)
            for n, word in enumerate(said)
        )
        breaths.append(Breath(words=tuple(words)))
        spans.append((times[0], times[-1]))
        at = times[-1] + PAUSE_S
    recording = Recording(file="narration.vtt", sha256="0" * 64, seconds=round(at, 3))
    return Transcript(breaths=tuple(breaths), recordings=(recording,)), spans


def compare(narration: dict[str, Any], spans: list[Span], visit: Visit) -> dict[str, Score]:
    """Label by label against the record, by section; also "identity" and "verdict"."""
    scores = {kind: _section(kind, narration["lines"], spans, visit) for kind in SECTIONS}
    scores["identity"] = _identity(narration["lines"], visit)
    wanted, given = narration["verdict"]["finding"], visit.verdict.finding
    scores["verdict"] = Score(
        int(wanted == given), 1, int(given is not None), [] if wanted == given else [f"{wanted}, got {given}"]
    )
    return scores


def trap_hits(narration: dict[str, Any], spans: list[Span], visit: Visit) -> list[str]:
    """Lines without a label that an item rests on alone; none of them belongs in a report."""
    verdict_lines = narration["verdict"].get("lines", [])
    evidence = [item.evidence for section in SECTIONS.values() for item in getattr(visit, section)]
    owners = Counter(
        touched[0]
        for each in evidence
        if len(touched := [n for n, span in enumerate(spans) if _touches(span, each)]) == 1
    )
    lines = enumerate(narration["lines"])
    return [
        f"{line['say']!r}" for n, line in lines if not line.get("is") and owners[n] and n not in verdict_lines
    ]


def traps(narration: dict[str, Any]) -> int:
    """How many lines carry no label and do not say the verdict."""
    verdict_lines = narration["verdict"].get("lines", [])
    return sum(not line.get("is") and n not in verdict_lines for n, line in enumerate(narration["lines"]))


def _section(kind: str, lines: list[Line], spans: list[Span], visit: Visit) -> Score:
    labels = [
        (n, label[kind]) for n, line in enumerate(lines) for label in line.get("is") or () if kind in label
    ]
    left: list[Item] = list(getattr(visit, SECTIONS[kind]))
    score = Score(wanted=len(labels), given=len(left))
    for n, label in labels:
        right = next((i for i in left if _touches(spans[n], i.evidence) and _agrees(kind, label, i)), None)
        if right is None:
            score.missed.append(f"{kind} {label} <- {lines[n]['say']!r}")
        else:
            left.remove(right)
            score.right += 1
    shown = ("code", "value", "unit", *FIELDS.get(kind, ()))
    for item in left:
        said = {name: getattr(item, name) for name in shown if hasattr(item, name)}
        score.wrong.append(f"{kind} {item.about!r} {said} <- {item.evidence.quote!r}")
    return score


def _agrees(kind: str, label: Label, item: Any) -> bool:
    if kind == "code":
        return _signs(label["code"]) == _signs(item.code)
    if not _same_thing(label["about"], item):
        return False
    if kind == "reading":
        if not measure_the_same(item.unit, label["unit"]):
            return False
        said = float(label["value"])
        return abs(convert(item.value, item.unit, label["unit"]) - said) <= max(1e-9, 0.005 * abs(said))
    return all(
        _signs(label[name]) == _signs(getattr(item, name)) for name in FIELDS.get(kind, ()) if name in label
    )


def _identity(lines: list[Line], visit: Visit) -> Score:
    wanted: Label = {}
    for line in lines:
        for label in line.get("is") or ():
            wanted |= label.get("identity", {})
    given = {name: value for name in IDENTITY if (value := getattr(visit.appliance, name))}
    score = Score(wanted=len(wanted))
    for name, value in wanted.items():
        exact = name in ("make", "model", "serial")
        got = given.get(name, "")
        same = _signs(value) == _signs(got) if exact else bool(_stems(str(value)) & _stems(got))
        score.right += same
        if not same:
            score.missed.append(f"{name} {value}, got {got or 'nothing'}")
    unasked = [name for name in given if name not in wanted and name not in ("kind", "make")]
    score.wrong = [f"{name} {given[name]}" for name in unasked]
    score.given = len([name for name in given if name in wanted]) + len(unasked)
    return score


def _touches(span: Span, evidence: Evidence) -> bool:
    if evidence.start is None or evidence.end is None:
        return False
    return min(span[1], evidence.end) - max(span[0], evidence.start) > TOUCH_S


def _same_thing(wordings: list[str], item: Item) -> bool:
    about, said = _stems(item.about), _stems(f"{item.about} {item.text}")
    return any(_stems(w) <= said or (bool(about) and about <= _stems(w)) for w in wordings)


def _stems(text: str) -> set[str]:
    words = re.findall(r"[a-z0-9]+", text.lower())
    return {re.sub(r"(ing|ers|er|ies|es|ed|s|y)$", "", word) if len(word) > 4 else word for word in words}


def _signs(value: object) -> str:
    return re.sub(r"[^A-Z0-9]", "", str(value).upper())


def scored(
    narrations: list[dict[str, Any]], vocabulary: Vocabulary, confidence: float = 1.0
) -> Iterator[tuple[str, dict[str, Score], list[str], int]]:
    """Of each narration: its name, its scores, the traps that caught something, and how many traps there are."""
    for narration in narrations:
        transcript, spans = transcript_of(narration["lines"], confidence)
        visit = visit_of(transcript, vocabulary, Order(date="2026-03-02"))
        hits = trap_hits(narration, spans, visit)
        yield narration["id"], compare(narration, spans, visit), hits, traps(narration)


def show_speed(narrations: list[dict[str, Any]]) -> None:
    """Print how long the vocabulary takes to load, and a long visit, made of all lines in turn, to be understood
    and judged: the first time and once warm."""
    begun = time.perf_counter()
    vocabulary = load_vocabulary()
    loaded_s = time.perf_counter() - begun
    lines: list[Line] = []
    words = 0
    for line in itertools.cycle([line for each in narrations for line in each["lines"]]):
        if words >= LONG_VISIT:
            break
        lines.append(line)
        words += len(line["say"].split())
    transcript, _ = transcript_of(lines)
    times = []
    for _ in range(3):
        begun = time.perf_counter()
        visit_of(transcript, vocabulary, Order(date="2026-03-02"))
        times.append(time.perf_counter() - begun)
    print(f"vocabulary loaded in {loaded_s:.2f} s, {words} words: {times[0]:.2f} s, warm {min(times):.2f} s")


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--show", action="store_true", help="list what was missed and what was wrong")
    parser.add_argument("--bare", action="store_true", help="without stops and capitals")
    parser.add_argument("--stops", action="store_true", help="heard, with full stops for commas")
    parser.add_argument("narrations", nargs="+", type=Path)
    args = parser.parse_args()
    narrations = [read_narration(path, args.bare, args.stops) for path in args.narrations]
    show_speed(narrations)

    totals: dict[str, Score] = {}
    caught, set_out = [], 0
    for name, scores, hits, count in scored(narrations, load_vocabulary(), HEARD if args.stops else 1.0):
        caught += [f"{name}  trap    {hit}" for hit in hits]
        set_out += count
        for kind, score in scores.items():
            score.missed = [f"{name}  missed  {text}" for text in score.missed]
            score.wrong = [f"{name}  wrong   {text}" for text in score.wrong]
            for key in (kind, "all"):
                totals.setdefault(key, Score())
                totals[key] += score

    if args.show:
        print("\n".join([*totals["all"].missed, *totals["all"].wrong, *caught]))
    print(
        f"{'section':<10} {'right':>6} {'wanted':>7} {'given':>6} {'precision':>10} {'recall':>7} {'F1':>6}"
    )
    for kind in [*SECTIONS, "identity", "verdict", "all"]:
        s = totals[kind]
        counts = f"{kind:<10} {s.right:>6} {s.wanted:>7} {s.given:>6}"
        print(f"{counts} {s.precision:>10.3f} {s.recall:>7.3f} {s.f1:>6.3f}")
    print(f"{len(caught)} of {set_out} unlabelled lines gave an item")


if __name__ == "__main__":
    main()
