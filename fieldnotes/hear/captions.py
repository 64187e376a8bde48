"""WebVTT -> breaths. Source: W3C, WebVTT: The Web Video Text Tracks Format, sections 4 and 6."""

from __future__ import annotations

import html
import re
from bisect import bisect_right
from collections.abc import Iterator
from pathlib import Path

from fieldnotes.errors import RecordingError
from fieldnotes.transcript import Breath, Word

_TIME = r"(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})"
_TIMING = re.compile(rf"\s*{_TIME}[ \t]+-->[ \t]+{_TIME}(?:[ \t].*)?$")
_TAG = re.compile(r"<[^>]*(?:>|$)")
_INLINE = re.compile(rf"<{_TIME}>$")
_BREAK = re.compile(r"\r\n|\n|\r")
Block = list[tuple[int, str]]  # line number and text


def read_captions(path: Path, text: str) -> tuple[list[Breath], float]:
    """One breath a cue, in order of start, and the end of the last cue in seconds.

    Word times are spread over the cue in proportion to its characters, between inline time stamps where it
    has some. Raises RecordingError with the line of what is wrong.
    """
    lines = _BREAK.split(text)
    if not re.match(r"WEBVTT(?:[ \t]|$)", lines[0]):
        raise RecordingError(f'{path}, line 1: is no WebVTT file, which begins with the line "WEBVTT"')
    cues: list[tuple[float, Breath]] = []
    length = 0.0
    for block in _blocks(lines):
        timed = next((index for index, (_, line) in enumerate(block) if "-->" in line), None)
        if timed is None:
            continue  # NOTE, STYLE, REGION or the head
        start, end = _timing(path, *block[timed])
        length = max(length, end)
        words = _words("\n".join(line for _, line in block[timed + 1 :]), start, end)
        if words:
            cues.append((start, Breath(words=words)))
    return [breath for _, breath in sorted(cues, key=lambda cue: cue[0])], length


def _blocks(lines: list[str]) -> Iterator[Block]:
    """Runs of lines between blank ones; a second timing line begins a new block, with or without a blank."""
    block: Block = []
    for number, line in enumerate([*lines, ""], start=1):
        timing = "-->" in line
        if block and (not line.strip() or (timing and any("-->" in held for _, held in block))):
            yield block
            block = []
        if line.strip():
            block.append((number, line))


def _timing(path: Path, number: int, line: str) -> tuple[float, float]:
    match = _TIMING.match(line)
    if not match:
        raise RecordingError(
            f'{path}, line {number}: "{line.strip()[:60]}" is no cue timing;'
            " write it as 00:01:02.500 --> 00:01:04.000"
        )
    start, end = _seconds(*match.groups()[:4]), _seconds(*match.groups()[4:8])
    if end < start:
        raise RecordingError(f"{path}, line {number}: the cue ends before it starts; mend its times")
    return start, end


def _seconds(hours: str | None, minutes: str, seconds: str, thousandths: str) -> float:
    return int(hours or 0) * 3600 + int(minutes) * 60 + int(seconds) + int(thousandths) / 1000


def _words(payload: str, start: float, end: float) -> tuple[Word, ...]:
    """The cue's words with times; tags go, entities are written out."""
    text, anchors, at = "", [(0, start)], 0
    for tag in _TAG.finditer(payload):
        text += html.unescape(payload[at : tag.start()])
        at = tag.end()
        stamp = _INLINE.match(tag.group())
        if stamp and anchors[-1][1] < (seconds := _seconds(*stamp.groups())) < end:
            anchors.append((len(text), seconds))
    text += html.unescape(payload[at:])
    points = _at_words(text, anchors)
    points.append((max(len(text.rstrip()), points[-1][0]), end))
    return tuple(
        Word(text=match.group(), start=_time(points, match.start()), end=_time(points, match.end()))
        for match in re.finditer(r"\S+", text)
    )


def _at_words(text: str, anchors: list[tuple[int, float]]) -> list[tuple[int, float]]:
    """Anchors moved to the word that follows them; of several at one place the last holds."""
    places = {at + len(text[at:]) - len(text[at:].lstrip()): seconds for at, seconds in anchors}
    return sorted(places.items())


def _time(points: list[tuple[int, float]], at: int) -> float:
    """Seconds at a character, on the broken line through the points."""
    index = min(max(bisect_right(points, (at, float("inf"))), 1), len(points) - 1)
    (a, start), (b, end) = points[index - 1], points[index]
    share = (at - a) / (b - a) if b > a else 0.0
    return round(start + (end - start) * share, 3)
