"""The visit's clock leads to the right file and second."""

from __future__ import annotations

import pytest

from fieldnotes.transcript import Recording
from fieldnotes.write.playback import media_link


def recording(file: str, starts_at: float, seconds: float | None) -> Recording:
    return Recording(file=file, sha256="0" * 64, starts_at=starts_at, seconds=seconds)


PARTS = (
    recording("a b#1.flac", 0, 60.0),
    recording("notes.vtt", 60.0, 10.0),
    recording("ü.m4a", 100.0, None),
)


@pytest.mark.parametrize(
    ("start", "end", "link"),
    [
        (61.2, 66.0, ""),  # in the written notes
        (12.0, 13.5, "a%20b%231.flac#t=12,13.5"),
        (59.0, 61.0, "a%20b%231.flac#t=59,60"),  # no further than the file
        (12.3456, None, "a%20b%231.flac#t=12.346"),
        (12.0, 12.0, "a%20b%231.flac#t=12"),
        (80.0, 81.0, ""),  # between two recordings
        (100.0, 101.25, "%C3%BC.m4a#t=0,1.25"),
        (None, None, ""),
    ],
)
def test_link_plays_the_words_from_their_file(start: float | None, end: float | None, link: str) -> None:
    assert media_link(PARTS, start, end) == link


def test_known_recording_decides_where_two_meet() -> None:
    """A breath that starts as the first recording ends belongs to the one that it came from."""
    assert media_link(PARTS, 60.0, 60.5, part=0) == "a%20b%231.flac#t=60"
