"""When a recording started: by its own metadata, by its name, or as it was given."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime, timedelta, tzinfo
from pathlib import Path

from fieldnotes.errors import FieldnotesError
from fieldnotes.hear.sound import SoundFile
from fieldnotes.hear.visit import WRITTEN
from fieldnotes.wall_clock import Started, WallTime, believable

SAME_S = (
    5.0  # two times of one moment: whole seconds, and a recorder that takes a while to open or close a file
)
QUARTER_S = 900.0  # offsets from UTC are whole quarters of an hour (IANA time zone database, all since 1972)
FARTHEST_S = 14 * 3600.0  # from UTC to any zone; same source
_APPLE = "com.apple.quicktime.creationdate"
_ANDROID = "com.android."
_DAY = re.compile(r"(\d{4})[-_: .](\d\d)[-_: .](\d\d)")
_CLOCK = re.compile(r"(\d\d)[-_: .](\d\d)[-_: .](\d\d)")
# 2026-03-02 14.05.33, 20260302_140533, 2026-03-02T14-05, 20260302140533, 2026-03-02 at 2.05.33 PM. Four digits
# behind a day are as often a job's number as a time, so they count with a T only.
_IN_NAME = re.compile(
    r"(?<!\d)(?P<year>20\d\d)(?P<between>[-_.]?)(?P<month>\d\d)(?P=between)(?P<day>\d\d)"
    r"(?:(?:T|[ _,-]+(?:at[ _]+)?)(?P<hour>\d{1,2})[-.:_h](?P<minute>\d\d)(?:[-.:_m](?P<second>\d\d))?"
    r"|(?:T|[ _,-]*)(?P<hour2>\d\d)(?P<minute2>\d\d)(?P<second2>\d\d)"
    r"|T(?P<hour3>\d\d)(?P<minute3>\d\d))"
    r"(?!\d)(?:(?P<utc>Z)|[ _]?(?P<half>[ap])m\b)?",
    re.IGNORECASE,
)
_GIVEN = re.compile(r"(?:(\d{4}-\d\d-\d\d)[ T])?(\d\d?:\d\d(?::\d\d)?)(Z|[+-]\d\d:?\d\d)?")


def recording_start(source: Path, zone: tzinfo | None = None) -> Started | None:
    """When the recording began, by the clock on the wall; None where neither file nor name tells.

    UTC in the metadata becomes the time in `zone`; None: the zone that this device is set to. The name is right
    where it and the metadata's UTC are whole quarters of an hour, the recording's length, or both apart.

    Raises RecordingError where the file is no recording.
    """
    named = start_in_name(source.stem, zone)
    tags, length_s = ({}, None) if source.suffix.lower() in WRITTEN else _opened(source)
    own = _own_time(tags)
    told = own or _time_from_utc(tags, length_s, zone)
    if told is None:
        return Started(named, "its name") if named else None
    if named is not None and own is None:
        for ahead_s in (0.0, length_s or 0.0):  # of the start, where the file holds the time of its end
            off_s = (told.at - named.at).total_seconds() - ahead_s
            quarters = round(off_s / QUARTER_S)
            if abs(off_s - quarters * QUARTER_S) <= SAME_S and abs(off_s) <= FARTHEST_S + SAME_S:
                # another zone than this device's, or a recorder that writes local time for UTC
                return Started(WallTime(named.at, None if quarters else told.utc_offset), "its name")
    return Started(told, "the file's own metadata")


def recording_starts(
    sources: Sequence[Path], given: Started | None = None, zone: tzinfo | None = None
) -> tuple[Started | None, ...]:
    """For each of the visit's recordings when it began. `given` is the first one's start; what the files tell
    of the others moves along with it, as one device recorded them all.

    Raises RecordingError where a file is no recording.
    """
    own = [recording_start(source, zone) for source in sources]
    if given is None or not own:
        return tuple(own)
    shift = given.time.at - own[0].time.at if own[0] else timedelta(0)
    offset = given.time.utc_offset
    moved = [
        Started(WallTime(start.time.at + shift, offset), start.told_by) if start else None
        for start in own[1:]
    ]
    return (given, *moved)


def started_given(text: str, day: str | None) -> Started:
    """The start as `--started` gives it: "2026-03-02 14:05", or "14:05" on a day that is known (ISO 8601).

    Raises FieldnotesError where it is no time, or has no day.
    """
    found = _GIVEN.fullmatch(text.strip())
    on = (found[1] or day) if found else None
    try:
        at = datetime.fromisoformat(f"{on or '2000-01-01'} {found[2]:0>5}{found[3] or ''}") if found else None
    except ValueError:
        at = None
    if found is None or at is None:
        raise FieldnotesError(f'--started "{text}" is no time; write it as "2026-03-02 14:05"')
    if on is None:
        raise FieldnotesError(
            f'--started "{text}" is on no known day; write it as "2026-03-02 {text.strip()}", or give --date'
        )
    return Started(WallTime(at.replace(tzinfo=None), at.utcoffset()), "--started")


def start_in_name(stem: str, zone: tzinfo | None = None) -> WallTime | None:
    """The day and the time in a recording's name; None where it holds no time, whatever its day."""
    found = _IN_NAME.search(stem)
    if found is None:
        return None
    hour, minute, second = (
        int(found[name] or found[f"{name}2"] or (name != "second" and found[f"{name}3"]) or 0)
        for name in ("hour", "minute", "second")
    )
    if found["half"]:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if found["half"].lower() == "p" else 0)
    elif found["hour"] and len(found["hour"]) == 1:
        return None  # "2026-03-02 3.15 kitchen" is no time of day
    try:
        at = datetime(int(found["year"]), int(found["month"]), int(found["day"]), hour, minute, second)
    except ValueError:  # 2026-02-30, 25.61
        return None
    return _local(at.replace(tzinfo=UTC), zone) if found["utc"] else WallTime(at)


def _opened(source: Path) -> tuple[Mapping[str, str], float | None]:
    with SoundFile(source) as file:
        return file.tags, file.declared_s


def _own_time(tags: Mapping[str, str]) -> WallTime | None:
    """A time that the recorder wrote as local, or with its offset.

    Apple's creation date is the start, with offset. A Broadcast Wave's origination is the start by the recorder's
    clock (EBU Tech 3285, 2.3; FFmpeg calls its two fields `date` and `creation_time`). A comment `DATE` (Ogg,
    FLAC), `ICRD` (RIFF) or `TDRC` (ID3) tells when it was recorded; mostly a day alone, which gives no start.
    """
    if apple := _iso(tags.get(_APPLE)):
        return WallTime(apple.replace(tzinfo=None), apple.utcoffset())
    day, clock = tags.get("date", ""), tags.get("creation_time", "")
    if (d := _DAY.fullmatch(day)) and (c := _CLOCK.fullmatch(clock)):
        at = _iso("{}-{}-{}T{}:{}:{}".format(*d.groups(), *c.groups()))
        return WallTime(at) if at else None
    dated = _iso(day) if ":" in day else None
    if dated is None or dated.tzinfo is UTC:
        return None
    return WallTime(dated.replace(tzinfo=None), dated.utcoffset())


def _time_from_utc(tags: Mapping[str, str], length_s: float | None, zone: tzinfo | None) -> WallTime | None:
    """A time written in UTC: the movie header of MP4 and QuickTime (ISO/IEC 14496-12, 8.2.2), `DateUTC` of Matroska.

    Android's writer takes it when the file is closed (`MPEG4Writer::writeMvhdBox` in its open source), so the
    start lies the recording's length before it. Others write the start, and some cameras the local time: without
    a name beside it, nothing in the file tells.
    """
    utc = _iso(tags.get("creation_time")) or _iso(tags.get("date") if ":" in tags.get("date", "") else None)
    if utc is None or utc.tzinfo is None:
        return None
    if length_s and any(name.startswith(_ANDROID) for name in tags):
        utc -= timedelta(seconds=length_s)
    return _local(utc, zone)


def _iso(text: str | None) -> datetime | None:
    try:
        at = datetime.fromisoformat((text or "").strip())
    except ValueError:
        return None
    return at if believable(at) else None


def _local(at: datetime, zone: tzinfo | None) -> WallTime:
    there = at.astimezone(zone)
    return WallTime(there.replace(tzinfo=None), there.utcoffset())
