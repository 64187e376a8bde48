"""What was written instead of spoken: reads .vtt and .txt files as text."""

from __future__ import annotations

import codecs
from pathlib import Path

from fieldnotes.errors import RecordingError
from fieldnotes.transcript import Breath, Word


def read_text(path: Path) -> str:
    """The file's text: UTF-8, or UTF-16 where it says so. Raises RecordingError for anything else."""
    raw = path.read_bytes()
    coding = "utf-16" if raw.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)) else "utf-8-sig"
    try:
        text = raw.decode(coding)
    except UnicodeDecodeError as fault:
        raise RecordingError(
            f"{path}: is not UTF-8 text (byte {fault.start}); save it again as UTF-8,"
            " or if it is a recording, give it the name of one"
        ) from fault
    if "\0" in text:
        raise RecordingError(
            f"{path}: holds binary data where text was expected; is it a recording with a wrong name?"
        )
    return text


def read_notes(text: str) -> list[Breath]:
    """One breath a line that is not blank, without times."""
    return [
        Breath(words=tuple(Word(text=word) for word in line.split()))
        for line in text.splitlines()
        if line.strip()
    ]
