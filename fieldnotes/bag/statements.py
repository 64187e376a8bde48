"""Small JSON files that are signed or hashed: written in one way only, so that any other spelling is noticed."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from typing import Final

from fieldnotes.transcript import Plain

_UTC: Final = "%Y-%m-%dT%H:%M:%SZ"


def json_of(record: Plain) -> bytes:
    """The one way in which a statement is written: UTF-8, fields in their order, indented by two, LF at the end."""
    return (json.dumps(record.model_dump(by_alias=True), ensure_ascii=False, indent=2) + "\n").encode()


def utc_text(at: datetime) -> str:
    """UTC to the second in ISO 8601, `2026-03-02T18:30:00Z`. Raises ValueError for a time without its zone."""
    if at.tzinfo is None:
        raise ValueError(f"{at} does not say in which time zone")
    return at.astimezone(UTC).strftime(_UTC)


def utc_time(text: str) -> datetime:
    """What `utc_text` wrote. Raises ValueError for any other spelling."""
    at = datetime.strptime(text, _UTC).replace(tzinfo=UTC)
    if utc_text(at) != text:  # strptime takes 2026-3-2 too
        raise ValueError(f"{text} is not written as {utc_text(at)}")
    return at
