"""findings.vtt, read back by webvtt-py and by json."""

from __future__ import annotations

import json

import webvtt

from fieldnotes.records import Appliance, Check, Item, Reading, Verdict, Visit
from fieldnotes.write.findings import findings_vtt

from .visits import FULL, MADE_WITH, said

SMALL = Visit(
    complaints=(Item(about="noise", text="A noise.", evidence=said(None, None, "it's noisy", 1.0)),),
    checks=(
        Check(
            about="belt", text="Belt --> good.", evidence=said(61.2, 66.0, "belt's good"), outcome="good",
            also=(said(80.0, 81.0, "belt is good"),), note="said twice",
        ),
    ),
    readings=(
        Reading(about="motor", text="Motor 4 Ω.", evidence=said(12.0, 12.0, "four ohms"), value=4, unit="ohm"),
    ),
    appliance=Appliance(make="Brackwell", evidence={"make": said(3661.5, 3662.0, "a Brackwell")}),
    verdict=Verdict(finding="no fault found", text="No fault.", evidence=said(61.2, 63.0, "no fault")),
    made_with=MADE_WITH,
)  # fmt: skip


def test_every_line_with_a_time_is_a_cue_in_the_order_of_time() -> None:
    cues = [
        (cue.start, cue.end, json.loads(cue.text)) for cue in webvtt.from_string(findings_vtt(SMALL)).captions
    ]

    assert cues == [
        (
            "00:00:12.000", "00:00:12.001",
            {
                "section": "readings", "index": 0, "about": "motor", "text": "Motor 4 Ω.", "value": 4.0,
                "unit": "ohm", "judgement": "no limit known", "quote": "four ohms", "confidence": 0.9,
            },
        ),
        (
            "00:01:01.200", "00:01:03.000",
            {
                "section": "verdict", "finding": "no fault found", "text": "No fault.", "quote": "no fault",
                "confidence": 0.9,
            },
        ),
        (
            "00:01:01.200", "00:01:06.000",
            {
                "section": "checks", "index": 0, "about": "belt", "text": "Belt --> good.", "note": "said twice",
                "outcome": "good", "certainty": "certain", "quote": "belt's good", "confidence": 0.9,
            },
        ),
        (
            "01:01:01.500", "01:01:02.000",
            {
                "section": "appliance", "about": "make", "text": "Brackwell", "quote": "a Brackwell",
                "confidence": 0.9,
            },
        ),
    ]  # fmt: skip


def test_line_without_a_time_stands_in_a_comment() -> None:
    (comment,) = [block for block in findings_vtt(SMALL).split("\n\n") if block.startswith("NOTE ")]

    assert json.loads(comment.removeprefix("NOTE ")) == {
        "section": "complaints", "index": 0, "about": "noise", "text": "A noise.", "quote": "it's noisy",
        "confidence": 1.0,
    }  # fmt: skip


def test_no_cue_starts_before_the_one_above_it() -> None:
    """Source: W3C WebVTT, "WebVTT cue timings": the start is not before that of any earlier cue."""
    cues = webvtt.from_string(findings_vtt(FULL)).captions

    starts = [cue.start_in_seconds for cue in cues]
    assert starts == sorted(starts)
    assert all(cue.end_in_seconds >= cue.start_in_seconds for cue in cues)
    assert len(cues) == 26 + 1 + 3  # items, verdict, what is known of the appliance


def test_empty_record_is_an_empty_track() -> None:
    assert findings_vtt(Visit(made_with=MADE_WITH)) == "WEBVTT\n"
