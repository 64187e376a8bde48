"""transcript.vtt, read back by webvtt-py."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.write.captions import webvtt

from .visits import FULL_TRANSCRIPT, breath


def test_independent_parser_reads_every_cue(tmp_path: Path) -> None:
    reader = pytest.importorskip("webvtt", reason="webvtt-py is not installed")
    path = tmp_path / "transcript.vtt"
    path.write_text(webvtt(FULL_TRANSCRIPT), encoding="utf-8")

    assert [(cue.start, cue.text) for cue in reader.read(str(path))] == [
        ("00:00:04.000", "Okay, she says it's leaving water in the bottom after every wash."),
        ("00:00:20.000", "It's a Brackwell, model B K D six one four S."),
        ("00:01:01.200", "Drain hose isn't kinked and the high loop is there."),
        ("00:02:00.500", "Fourteen point five ohms across the drain pump, that's good."),
        ("00:10:12.500", "Down here the air gap is clear."),
    ]


def test_signs_of_the_format_are_escaped() -> None:
    words = (
        Word(text="a", start=3599.9996, end=3599.9996),
        Word(text="-->"),
        Word(text="<b>&"),
        Word(text="\n\nx"),
    )
    transcript = Transcript(breaths=(Breath(words=words),), recordings=())

    assert webvtt(transcript) == "WEBVTT\n\n01:00:00.000 --> 01:00:00.001\na --&gt; &lt;b&gt;&amp; x\n"


def test_notes_without_times_become_comments() -> None:
    transcript = Transcript(breaths=(breath(None, "belt --> fine"), Breath(words=())), recordings=())

    assert webvtt(transcript) == "WEBVTT\n\nNOTE belt --&gt; fine\n"
