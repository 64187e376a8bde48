"""`findings.vtt`: the lines of the record as a metadata track beside the captions, for players and other software.

Source: W3C, "WebVTT: The Web Video Text Tracks Format", WebVTT metadata text: any text without "-->" and without
an empty line. Here each payload is one JSON object (RFC 8259) on one line.
"""

from __future__ import annotations

import json
from collections.abc import Iterator

from fieldnotes.records import Evidence, Visit
from fieldnotes.write.captions import SHORTEST, timestamp

ITEM_SECTIONS = (
    "complaints", "checks", "readings", "trials", "codes", "work", "parts", "causes", "advice", "follow_ups",
    "safety",
)  # fmt: skip

# JSON may write any character by its number; so no payload holds a sign that WebVTT or a page acts on
_ESCAPES = str.maketrans({"<": "\\u003c", ">": "\\u003e", "&": "\\u0026"})
Finding = tuple[Evidence, dict[str, object]]


def findings_vtt(visit: Visit) -> str:
    """One cue a line of the record, while its words are being said; lines without a time stand in comments below.

    A payload names its place in `visit.json` by `section` and `index` (no index: the verdict, and what is known of
    the appliance), and repeats what the line says: about, text, outcome and so on, quote and confidence.
    """
    timed, untimed = [], []
    for said, told in _findings(visit):
        payload = json.dumps(told).translate(_ESCAPES)
        if said.start is None:
            untimed.append(f"NOTE {payload}")
        else:
            last = max(said.start + SHORTEST, said.start if said.end is None else said.end)
            timed.append((said.start, last, payload))
    timed.sort(key=lambda cue: cue[:2])  # a cue may not start before the one above it
    cues = [f"{timestamp(start)} --> {timestamp(end)}\n{payload}" for start, end, payload in timed]
    return "\n\n".join(["WEBVTT", *cues, *untimed]) + "\n"


def _findings(visit: Visit) -> Iterator[Finding]:
    for section in ITEM_SECTIONS:
        for index, item in enumerate(getattr(visit, section)):
            plain = item.model_dump(mode="json", exclude_none=True)
            words = {name: value for name, value in plain.items() if not isinstance(value, dict | list)}
            yield item.evidence, {"section": section, "index": index} | words | _quoted(item.evidence)
    for about, said in sorted(visit.appliance.evidence.items()):
        text = getattr(visit.appliance, about, None)
        yield said, {"section": "appliance", "about": about, "text": text} | _quoted(said)
    if visit.verdict.evidence is not None:
        told = {"section": "verdict", "finding": visit.verdict.finding, "text": visit.verdict.text}
        yield visit.verdict.evidence, told | _quoted(visit.verdict.evidence)


def _quoted(said: Evidence) -> dict[str, object]:
    return {"quote": said.quote, "confidence": said.confidence}
