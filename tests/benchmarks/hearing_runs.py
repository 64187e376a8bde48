"""The two ways of hearing that are compared, each in a process of its own so that its memory can be told."""

from __future__ import annotations

import json
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from fieldnotes.hear import Unwatched
from fieldnotes.hear.weights import find_weights
from fieldnotes.places import USER_CACHE
from fieldnotes.transcript import Breath, Recording, Transcript, Word

WAYS = ("plain", "ours")


@dataclass(frozen=True)
class Run:
    """What one process heard in some recordings. `seconds`: of hearing, the loading of the model included."""

    transcripts: list[Transcript]
    seconds: float
    cpu_s: float
    peak_mb: int


def run_alone(way: str, recordings: Sequence[Path], model: str | None, kinds: Sequence[str | None]) -> Run:
    """Hear the recordings in a fresh process. `kinds`: of each one's appliance, None: found while hearing."""
    with tempfile.TemporaryDirectory() as folder:
        order, answer = Path(folder) / "order.json", Path(folder) / "answer.json"
        order.write_text(
            json.dumps([way, [str(r) for r in recordings], model, list(kinds)]), encoding="utf-8"
        )
        subprocess.run([sys.executable, "-m", "tests.benchmarks.hearing_runs", order, answer], check=True)
        got = json.loads(answer.read_text(encoding="utf-8"))
    return Run(
        [Transcript.model_validate(t) for t in got["transcripts"]],
        got["seconds"],
        got["cpu_s"],
        got["peak_mb"],
    )


def _plain(recordings: Sequence[Path], model: str | None) -> tuple[list[Transcript], float]:
    """faster-whisper with nothing set: float32, one window after the other, no voice detection, no terms."""
    from faster_whisper import WhisperModel  # type: ignore[import-untyped]

    weights = find_weights(model, joined=USER_CACHE / "weights", progress=Unwatched()).folder()
    begun = time.monotonic()
    whisper = WhisperModel(str(weights))
    return [
        _transcript(path, whisper.transcribe(str(path))[0]) for path in recordings
    ], time.monotonic() - begun


def _transcript(path: Path, segments: object) -> Transcript:
    """Plain segments as breaths; a segment's words share its time, having none of their own."""
    breaths = []
    for segment in segments:  # type: ignore[attr-defined]
        texts = segment.text.split()
        step = (segment.end - segment.start) / max(len(texts), 1)
        words = (
            Word(text=text, start=segment.start + n * step, end=segment.start + (n + 1) * step)
            for n, text in enumerate(texts)
        )
        breaths.append(Breath(words=tuple(words)))
    return Transcript(breaths=tuple(breaths), recordings=(Recording(file=path.name, sha256=""),))


def _ours(
    recordings: Sequence[Path], model: str | None, kinds: Sequence[str | None]
) -> tuple[list[Transcript], float]:
    from fieldnotes.hear import hear
    from fieldnotes.trade_terms import terms_heard_of, terms_of
    from fieldnotes.vocabulary.load import load_vocabulary

    vocabulary = load_vocabulary()
    begun = time.monotonic()
    heard = [
        hear(
            [path],
            model=model,
            terms=terms_of(vocabulary, kind),
            choose_terms=None if kind else terms_heard_of(vocabulary),
            cache=None,
        )
        for path, kind in zip(recordings, kinds, strict=True)
    ]
    return heard, time.monotonic() - begun


def _work(order: Path, answer: Path) -> None:
    way, names, model, kinds = json.loads(order.read_text(encoding="utf-8"))
    recordings = [Path(name) for name in names]
    heard, seconds = _plain(recordings, model) if way == "plain" else _ours(recordings, model, kinds)
    used = resource.getrusage(resource.RUSAGE_SELF)
    told = {
        "transcripts": [transcript.model_dump() for transcript in heard],
        "seconds": seconds,
        "cpu_s": used.ru_utime + used.ru_stime,
        "peak_mb": _peak_mb(),
    }
    answer.write_text(json.dumps(told), encoding="utf-8")


def _peak_mb() -> int:
    """Of this program alone: the resource module's figure starts from that of the process which began it."""
    for line in Path("/proc/self/status").read_text(encoding="ascii").splitlines():
        if line.startswith("VmHWM:"):
            return int(line.split()[1]) // 1024
    raise RuntimeError("this system tells no peak of memory")


if __name__ == "__main__":
    _work(*map(Path, sys.argv[1:]))
