"""`transcript.vtt`: all that was heard, as WebVTT (W3C, WebVTT: The Web Video Text Tracks Format)."""

from __future__ import annotations

from fieldnotes.transcript import Breath, Transcript
from fieldnotes.write.wording import one_line

_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;"})
SHORTEST = 0.001  # a cue must end after it starts


def breath_text(breath: Breath) -> str:
    """The words of a breath on one line."""
    return one_line(" ".join(word.text for word in breath.words)).strip()


def breath_times(breath: Breath) -> tuple[float | None, float | None]:
    """First start and last end of a breath, in seconds of the visit; None where its words carry no times."""
    starts = [word.start for word in breath.words if word.start is not None]
    ends = [word.end for word in breath.words if word.end is not None]
    return min(starts, default=None), max(ends, default=None)


def webvtt(transcript: Transcript) -> str:
    """One cue a breath. Notes without times become comments: they have no place on a clock."""
    blocks = ["WEBVTT"]
    for breath in transcript.breaths:
        start, end = breath_times(breath)
        text = breath_text(breath).translate(_ESCAPES)
        if not text:
            continue
        if start is None:
            blocks.append(f"NOTE {text}")
        else:
            last = max(end if end is not None else start, start + SHORTEST)
            blocks.append(f"{timestamp(start)} --> {timestamp(last)}\n{text}")
    return "\n\n".join(blocks) + "\n"


def timestamp(seconds: float) -> str:
    """A time of the visit as WebVTT writes it: 61.2 -> "00:01:01.200"."""
    thousandths = round(seconds * 1000)
    whole, rest = divmod(thousandths, 1000)
    return f"{whole // 3600:02d}:{whole // 60 % 60:02d}:{whole % 60:02d}.{rest:03d}"
