"""How much private data is found in sentences marked by hand: `python -m tests.benchmarks.private_data FILE`.

Recall counts marked stretches of which every word was struck, as whatever kind; precision counts struck words
that are private. Every miss and every word struck falsely is shown.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

from pydantic import BaseModel

from fieldnotes.private.finding import ORDER, find_private
from fieldnotes.vocabulary.load import load_vocabulary
from fieldnotes.vocabulary.yaml_file import load_yaml
from fieldnotes.vocabulary_bench.marked import found_places, read_marked


class Utterance(BaseModel):
    id: str
    said: str


class Utterances(BaseModel):
    utterances: tuple[Utterance, ...]


def main() -> None:
    vocabulary = load_vocabulary()
    wanted: Counter[str] = Counter()
    hit: Counter[str] = Counter()
    given: Counter[str] = Counter()
    right: Counter[str] = Counter()
    for utterance in load_yaml(Path(sys.argv[1]), Utterances).utterances:
        transcript, marks = read_marked(utterance.said)
        found = found_places(find_private(transcript, vocabulary))
        for kind, stretch in sorted(set(marks.values())):
            places = [place for place, mark in marks.items() if mark == (kind, stretch)]
            wanted[kind] += 1
            hit[kind] += all(place in found for place in places)
            if left := [place for place in places if place not in found]:
                words = " ".join(transcript.breaths[b].words[w].text for b, w in left)
                print(f"missed {utterance.id}: {kind} {words!r} <- {utterance.said}")
        for (breath, word), kind in found.items():
            given[kind] += 1
            right[kind] += (breath, word) in marks
            if (breath, word) not in marks:
                text = transcript.breaths[breath].words[word].text
                print(f"false  {utterance.id}: {kind} {text!r} <- {utterance.said}")
    for kind in (*ORDER, "all"):
        counts = [c.total() if kind == "all" else c[kind] for c in (hit, wanted, right, given)]
        print(f"{kind:10} recall {counts[0]}/{counts[1]} stretches, precision {counts[2]}/{counts[3]} words")


if __name__ == "__main__":
    main()
