"""How well and how fast recordings with known lines are heard.

    python tests/benchmarks/hearing.py spoken/*.wav [--model NAME] [--hotwords "drain pump, ..."]

Beside each recording lies a .json with `lines: [{"say", "start", "end"}]`, times in seconds. Prints the word
error rate, the lines that came back as exactly one breath, how far their starts are off, time and memory.
"""

from __future__ import annotations

import argparse
import json
import re
import resource
import time
from pathlib import Path

import jiwer

from fieldnotes.hear import hear
from fieldnotes.transcript import Transcript

Span = tuple[float, float]
TOUCH_S = 0.3  # an overlap that counts


def plain(text: str) -> str:
    """Lower case, letters, digits and decimal points; numbers in figures and in words remain different."""
    return " ".join(re.findall(r"\d+(?:\.\d+)?|[a-z']+", text.lower().replace("-", " ")))


def touching(span: Span, others: list[Span]) -> list[Span]:
    return [o for o in others if min(span[1], o[1]) - max(span[0], o[0]) > TOUCH_S]


def score(transcript: Transcript, lines: list[dict[str, object]]) -> str:
    """One line of figures for a recording."""
    heard = " ".join(word.text for breath in transcript.breaths for word in breath.words)
    wer = jiwer.wer(plain(" ".join(str(line["say"]) for line in lines)), plain(heard))
    said = [(float(str(line["start"])), float(str(line["end"]))) for line in lines]
    breaths = [(b.words[0].start or 0.0, b.words[-1].end or 0.0) for b in transcript.breaths]
    single = [touching(span, breaths) for span in said]
    whole = [
        (s, b[0]) for s, b in zip(said, single, strict=True) if len(b) == 1 and len(touching(b[0], said)) == 1
    ]
    off = sorted(abs(s[0] - b[0]) for s, b in whole)
    middle = f"{off[len(off) // 2]:.2f}" if off else "-"
    return f"WER {wer:.1%}, {len(whole)} of {len(said)} lines are one breath, starts {middle} s off (median)"


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("recordings", nargs="+", type=Path)
    parser.add_argument("--model")
    parser.add_argument("--hotwords")
    args = parser.parse_args()
    for path in args.recordings:
        lines = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))["lines"]
        begun = time.monotonic()
        got = hear([path], model=args.model, hotwords=args.hotwords, cache=None)
        took, length = time.monotonic() - begun, got.recordings[0].seconds or 0.0
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
        print(f"{path}: {length:.0f} s in {took:.1f} s, peak {peak} MB, {score(got, lines)}")


if __name__ == "__main__":
    main()
