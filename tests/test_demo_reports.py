"""The reports on the three demo visits against tests/demo/: what was said is in them, and not much more.

Compared label by label as the benchmark does (section, time, thing, fields); sections that came out whole are
pinned, the rest is held above a floor.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from fieldnotes.hear import hear
from fieldnotes.hear.packed import PACKED, is_installed
from fieldnotes.hear.sound import RATE, SoundFile
from fieldnotes.records import Visit
from fieldnotes.trade_terms import terms_of
from fieldnotes.transcript import Transcript
from fieldnotes.visit import Order, visit_of
from fieldnotes.vocabulary.load import load_vocabulary
from tests.benchmarks.understanding import SECTIONS, Score, Span, compare, read_narration, trap_hits
from tests.hear.sounds import write_sound

LABELS = Path(__file__).parent / "demo"
AUDIO = Path(__file__).parents[1] / "demo_audio"
DEMOS = sorted(path.stem for path in LABELS.glob("*.yaml"))
LEAST_PRECISION, LEAST_RECALL = 0.9, 0.85
WHOLE = ("reading", "code", "part", "follow_up", "safety", "identity", "verdict")  # in all three demos


@cache
def judged(demo: str) -> tuple[Transcript, list[Span], Visit]:
    """The report on the demo's captions, and when each of its lines was said."""
    transcript = hear([AUDIO / f"{demo}.vtt"])
    spans = [(breath.words[0].start or 0.0, breath.words[-1].end or 0.0) for breath in transcript.breaths]
    return transcript, spans, visit_of(transcript, load_vocabulary(), Order(date="2026-03-02"))


def scores(demo: str) -> dict[str, Score]:
    _, spans, visit = judged(demo)
    return compare(read_narration(LABELS / f"{demo}.yaml"), spans, visit)


def test_there_are_demos_to_test() -> None:
    assert DEMOS == ["dishwasher-drain-pump", "dryer-long-dry-in-noise", "washer-no-fault"]


@pytest.mark.parametrize("demo", DEMOS)
def test_captions_are_the_labelled_lines(demo: str) -> None:
    transcript, _, _ = judged(demo)
    lines = [line["say"] for line in read_narration(LABELS / f"{demo}.yaml")["lines"]]

    assert [" ".join(word.text for word in breath.words) for breath in transcript.breaths] == lines


def test_reports_hold_what_was_said_and_no_more() -> None:
    total = Score()
    for demo in DEMOS:
        for score in scores(demo).values():
            total += score
    told = "\n".join([*total.missed, *total.wrong])

    assert total.precision >= LEAST_PRECISION, told
    assert total.recall >= LEAST_RECALL, told


@pytest.mark.parametrize("section", WHOLE)
@pytest.mark.parametrize("demo", DEMOS)
def test_section_is_exactly_what_was_said(demo: str, section: str) -> None:
    score = scores(demo)[section]

    assert (score.missed, score.wrong) == ([], [])


@pytest.mark.parametrize("demo", DEMOS)
def test_nothing_is_made_of_lines_that_report_nothing(demo: str) -> None:
    _, spans, visit = judged(demo)

    assert trap_hits(read_narration(LABELS / f"{demo}.yaml"), spans, visit) == []


@pytest.mark.parametrize("demo", DEMOS)
def test_every_line_rests_on_words_that_were_said(demo: str) -> None:
    """Each quote is found word for word in the transcript, in the breaths that its times name."""
    transcript, _, visit = judged(demo)
    words = [word for breath in transcript.breaths for word in breath.words]
    wrong = []
    for section in SECTIONS.values():
        for item in getattr(visit, section):
            said = " ".join(
                word.text
                for word in words
                if word.start is not None
                and word.end is not None
                and word.start >= item.evidence.start - 0.001
                and word.end <= item.evidence.end + 0.001
            )
            if item.evidence.quote.strip(" ,.;:") not in said:
                wrong.append(f"{section}: {item.evidence.quote!r} is not in {said!r}")

    assert wrong == []


@pytest.mark.speech
@pytest.mark.skipif(
    not any(is_installed(packed) for packed in PACKED), reason="no speech weights package is installed"
)
def test_minute_of_the_demo_is_understood_from_sound(tmp_path: Path) -> None:
    """With the real model, from 1:01 to 2:00: a reading taken back, two good ones, the repair."""
    with SoundFile(AUDIO / "dishwasher-drain-pump.opus") as file:
        minute = np.concatenate(list(file.blocks()))[round(61.5 * RATE) : round(119.5 * RATE)]
    path = write_sound(tmp_path / "minute.wav", (minute * 32767).astype(np.int16), "pcm_s16le")
    vocabulary = load_vocabulary()
    visit = visit_of(hear([path], terms=terms_of(vocabulary, "dishwasher"), cache=None), vocabulary, Order())
    ohms = {reading.value for reading in visit.readings if reading.unit == "ohm"}

    assert ohms >= {240.0, 0.3, 21.5}
    assert 22.0 not in ohms
    assert ("replaced", "drain pump") in {(work.action, work.about) for work in visit.work}
    assert ("fitted", "drain pump") in {(part.status, part.about) for part in visit.parts}
