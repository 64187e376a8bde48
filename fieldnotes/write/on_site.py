"""When the technician was at the unit: local times as people read them, and how long it took."""

from __future__ import annotations

from datetime import datetime, time, timedelta


def local_time(text: str | None, day: str | None) -> str | None:
    """The time of day of an ISO 8601 time: "2026-03-02T09:05:00" on "2026-03-02" -> "09:05".

    On another day than the visit's its date stays in front. Text that is no such time stays as it is.
    """
    moment = _moment(text)
    if moment is None:
        return text
    if isinstance(moment, time) or moment.date().isoformat() == day:
        return f"{moment:%H:%M}"
    return f"{moment:%Y-%m-%d %H:%M}"


def minutes_on_site(started: str | None, ended: str | None) -> int | None:
    """Whole minutes between two ISO 8601 times, as on the clock's face. None where one is missing or is no time,
    where only one has a date or an offset from UTC, or where the end comes first: then nobody can tell."""
    first, last = _moment(started), _moment(ended)
    if isinstance(first, time) and isinstance(last, time):
        first, last = (datetime.combine(datetime.min, moment) for moment in (first, last))
    if not isinstance(first, datetime) or not isinstance(last, datetime):
        return None
    if (first.tzinfo is None) != (last.tzinfo is None):
        return None
    lasted = last - first
    return lasted // timedelta(minutes=1) if lasted >= timedelta() else None


def _moment(text: str | None) -> datetime | time | None:
    """A time of day, or a time on a day; a day alone is neither."""
    for kind in (time, datetime):
        try:
            if text and ":" in text:
                return kind.fromisoformat(text.strip())
        except ValueError:
            continue
    return None
