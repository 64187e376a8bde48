"""From the visit's clock to the file and the second in it: links that play exactly the words of a line."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import PurePath
from urllib.parse import quote

from fieldnotes.transcript import Recording

WRITTEN_NOTES = {".vtt", ".txt"}  # sources that hold words, not sound


def is_sound(recording: Recording) -> bool:
    """Whether there is something to play."""
    return PurePath(recording.file).suffix.lower() not in WRITTEN_NOTES


def file_link(file: str) -> str:
    """A file of the job folder as a relative URL."""
    return quote(file)


def media_link(
    recordings: Sequence[Recording],
    start: float | None,
    end: float | None,
    part: int | None = None,
    beside: str = "",
) -> str:
    """A link such as `kitchen.flac#t=61.2,66`; empty where nothing can be played.

    `start` and `end` are seconds on the visit's clock; `part` is the recording, where it is known; `beside` is
    the way from the page to the recordings.
    Source: Media Fragments URI 1.0 (W3C, 2012), 4.2.1, temporal dimension in Normal Play Time.
    """
    if start is None:
        return ""
    recording = recordings[part] if part is not None else _recording_at(recordings, start)
    if recording is None or not is_sound(recording):
        return ""
    first = max(0.0, start - recording.starts_at)
    link = f"{beside}{file_link(recording.file)}#t={_seconds(first)}"
    if end is None:
        return link
    last = end - recording.starts_at
    if recording.seconds is not None:
        last = min(last, recording.seconds)
    return f"{link},{_seconds(last)}" if round(last, 3) > round(first, 3) else link


def _recording_at(recordings: Sequence[Recording], time: float) -> Recording | None:
    """The recording that was running at that time of the visit."""
    begun = [recording for recording in recordings if recording.starts_at <= time]
    running = [r for r in begun if r.seconds is None or time <= r.starts_at + r.seconds]
    return max(running, key=lambda recording: recording.starts_at, default=None)


def _seconds(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
