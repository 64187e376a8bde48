"""When a recording started: its metadata, its name, what was given."""

from __future__ import annotations

import struct
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Final

import av
import pytest

from fieldnotes.errors import FieldnotesError, RecordingError
from fieldnotes.hear.started import recording_start, recording_starts, start_in_name, started_given
from fieldnotes.wall_clock import Started, WallTime

from .sounds import beeps, write_sound

EAST = timezone(timedelta(hours=1))
HOUR = timedelta(hours=1)
FILE: Final = "the file's own metadata"
NAME: Final = "its name"


def at(hour: int, minute: int, second: int = 0, offset: timedelta | None = None) -> WallTime:
    return WallTime(datetime(2026, 3, 2, hour, minute, second), offset)


def sound_with(path: Path, tags: Mapping[str, str], codec: str, seconds: float = 1.0) -> Path:
    """A recording with metadata as its container writes it."""
    plain = write_sound(path.with_name("plain-" + path.name), beeps(seconds, rate=48_000), codec, rate=48_000)
    options = {"movflags": "use_metadata_tags"} if path.suffix in (".m4a", ".mov", ".mp4") else {}
    with av.open(str(plain)) as source, av.open(str(path), "w", options=options) as target:
        stream = target.add_stream_from_template(source.streams.audio[0])
        target.metadata.update(tags)
        for packet in source.demux(source.streams.audio[0]):
            if packet.dts is not None:
                packet.stream = stream
                target.mux(packet)
    plain.unlink()
    return path


@pytest.mark.parametrize(
    ("stem", "time"),
    [
        ("2026-03-02 14.05.33", at(14, 5, 33)),
        ("20260302_140533", at(14, 5, 33)),
        ("2026-03-02T14-05-33", at(14, 5, 33)),
        ("20260302T140533", at(14, 5, 33)),
        ("20260302140533", at(14, 5, 33)),
        ("REC_20260302_140533_001", at(14, 5, 33)),
        ("Voice 2026-03-02 at 14.05.33", at(14, 5, 33)),
        ("2026_03_02_14_05_33", at(14, 5, 33)),
        ("memo 2026-03-02 2.05.33 PM", at(14, 5, 33)),
        ("memo 2026-03-02 12.05.33 am", at(0, 5, 33)),
        ("2026-03-02 14-05", at(14, 5)),
        ("20260302T1405", at(14, 5)),
        ("20260302-140533-kitchen", at(14, 5, 33)),
        ("20260302T140533Z", at(15, 5, 33, HOUR)),  # UTC, read at an hour east of it
        ("2026-03-02", None),
        ("20260302", None),
        ("2026-03-02 kitchen", None),
        ("2026-03-02 1405", None),  # a job's number as likely
        ("2026-03-02_3", None),
        ("2026-02-30 14.05.33", None),
        ("2026-03-02 25.05.33", None),
        ("2026-13-02 14.05.33", None),
        ("job 120260302140533", None),
        ("14.05.33", None),
        ("kitchen", None),
        ("", None),
        ("1904-01-01 00.00.00", None),
    ],
    ids=lambda value: str(value) if isinstance(value, str) else "",
)
def test_name_tells_the_start_where_it_holds_day_and_time(stem: str, time: WallTime | None) -> None:
    assert start_in_name(stem, EAST) == time


UTC_TIME = {"creation_time": "2026-03-02T13:05:33.000000Z"}


@pytest.mark.parametrize(
    ("name", "codec", "tags", "start"),
    [
        ("a.m4a", "aac", UTC_TIME, Started(at(14, 5, 33, HOUR), FILE)),
        ("a.mov", "pcm_s16le", UTC_TIME, Started(at(14, 5, 33, HOUR), FILE)),
        ("a.mov", "pcm_s16le", {"com.apple.quicktime.creationdate": "2026-03-02T09:05:33-0500"},
         Started(at(9, 5, 33, timedelta(hours=-5)), FILE)),
        ("a.m4a", "aac", {"creation_time": "1904-01-01T00:00:00Z"}, None),
        ("a.m4a", "aac", {"creation_time": "1970-01-01T00:00:00Z"}, None),
        ("a.m4a", "aac", {}, None),
        ("a.flac", "flac", {"DATE": "2026-03-02T14:05:33"}, Started(at(14, 5, 33), FILE)),
        ("a.flac", "flac", {"DATE": "2026-03-02T14:05:33+02:00"}, Started(at(14, 5, 33, 2 * HOUR), FILE)),
        ("a.flac", "flac", {"DATE": "2026-03-02"}, None),
        ("a.flac", "flac", {"DATE": "2026"}, None),
        ("a.ogg", "libopus", {"DATE": "2026-03-02 14:05:33"}, Started(at(14, 5, 33), FILE)),
        ("a.wav", "pcm_s16le", {"date": "2026-03-02 14:05:33"}, Started(at(14, 5, 33), FILE)),
        ("a.wav", "pcm_s16le", {"date": "2026-03-02"}, None),
        # name and metadata
        ("2026-03-02 14.05.33.m4a", "aac", {}, Started(at(14, 5, 33), NAME)),
        ("2026-03-02 14.05.33.m4a", "aac", UTC_TIME, Started(at(14, 5, 33, HOUR), NAME)),
        ("2026-03-02 09.05.30.m4a", "aac", UTC_TIME, Started(at(9, 5, 30), NAME)),  # made in another zone
        ("2026-03-01 11.00.00.m4a", "aac", UTC_TIME, Started(at(14, 5, 33, HOUR), FILE)),  # an old name
        ("2026-03-02 14.05.33.m4a", "aac", {"creation_time": "1904-01-01T00:00:00Z"},
         Started(at(14, 5, 33), NAME)),
    ],
    ids=["mp4 in UTC", "mov in UTC", "mov with offset", "zero of 1904", "zero of 1970", "nothing", "flac local",
         "flac with offset", "flac day", "flac year", "ogg", "wav", "wav day", "name alone", "name agrees",
         "name in another zone", "name of another day", "name beside a zero"],
)  # fmt: skip
def test_start_comes_from_metadata_or_name(
    tmp_path: Path, name: str, codec: str, tags: dict[str, str], start: Started | None
) -> None:
    path = sound_with(tmp_path / name, tags, codec)

    assert recording_start(path, EAST) == start


def test_name_that_holds_the_start_and_metadata_the_end(tmp_path: Path) -> None:
    path = sound_with(
        tmp_path / "20260302_140503.m4a", {"creation_time": "2026-03-02T13:05:33Z"}, "aac", seconds=30
    )

    assert recording_start(path, EAST) == Started(at(14, 5, 3, HOUR), NAME)


def test_writer_that_notes_the_end_is_set_back_by_the_length(tmp_path: Path) -> None:
    tags = {"creation_time": "2026-03-02T13:05:33Z", "com.android.version": "14"}
    path = sound_with(tmp_path / "memo.m4a", tags, "aac", seconds=30)

    start = recording_start(path, EAST)

    assert start is not None
    assert abs((start.time.at - datetime(2026, 3, 2, 14, 5, 3)).total_seconds()) < 0.2


def test_broadcast_wave_tells_its_origination_in_local_time(tmp_path: Path) -> None:
    """The `bext` chunk by hand: EBU Tech 3285, 2.3."""
    plain = write_sound(tmp_path / "plain.wav", beeps(1), "pcm_s16le").read_bytes()
    body = b"kitchen".ljust(256, b"\0") + b"recorder".ljust(32, b"\0") + b"ref".ljust(32, b"\0")
    body += b"2026-03-02" + b"14:05:33" + struct.pack("<QH", 0, 1) + bytes(64 + 190)
    chunk = b"bext" + struct.pack("<I", len(body)) + body
    whole = plain[12:]
    path = tmp_path / "a.wav"
    path.write_bytes(b"RIFF" + struct.pack("<I", 4 + len(chunk) + len(whole)) + b"WAVE" + chunk + whole)

    assert recording_start(path, EAST) == Started(at(14, 5, 33), FILE)


def test_notes_tell_their_start_by_name_alone(tmp_path: Path) -> None:
    path = tmp_path / "2026-03-02 14.05.33.vtt"
    path.write_text("WEBVTT\n")

    assert recording_start(path) == Started(at(14, 5, 33), NAME)


def test_file_that_is_no_recording_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "2026-03-02 14.05.33.m4a"
    path.write_bytes(b"nothing of the kind")

    with pytest.raises(RecordingError, match="is no recording"):
        recording_start(path)


@pytest.mark.parametrize(
    ("text", "day", "time"),
    [
        ("2026-03-02 14:05", None, at(14, 5)),
        ("2026-03-02T14:05:33", None, at(14, 5, 33)),
        (" 14:05 ", "2026-03-02", at(14, 5)),
        ("9:05", "2026-03-02", at(9, 5)),
        ("2026-03-02 14:05", "2025-01-01", at(14, 5)),
        ("2026-03-02 14:05+01:00", None, at(14, 5, 0, HOUR)),
        ("2026-03-02T14:05Z", None, at(14, 5, 0, timedelta(0))),
    ],
    ids=str,
)
def test_start_that_was_given(text: str, day: str | None, time: WallTime) -> None:
    assert started_given(text, day) == Started(time, "--started")


@pytest.mark.parametrize(
    ("text", "day", "told"),
    [
        (
            "14:05",
            None,
            '--started "14:05" is on no known day; write it as "2026-03-02 14:05", or give --date',
        ),
        ("25:05", "2026-03-02", '--started "25:05" is no time; write it as "2026-03-02 14:05"'),
        ("2026-02-30 14:05", None, '--started "2026-02-30 14:05" is no time; write it as "2026-03-02 14:05"'),
        ("two", None, '--started "two" is no time; write it as "2026-03-02 14:05"'),
        ("", None, '--started "" is no time; write it as "2026-03-02 14:05"'),
        ("1405", "2026-03-02", '--started "1405" is no time; write it as "2026-03-02 14:05"'),
    ],
    ids=["no day", "25 o'clock", "30 February", "words", "nothing", "no colon"],
)
def test_start_that_is_no_time_is_refused(text: str, day: str | None, told: str) -> None:
    with pytest.raises(FieldnotesError) as caught:
        started_given(text, day)
    assert str(caught.value) == told


def test_starts_of_further_recordings_move_along_with_the_given_one(tmp_path: Path) -> None:
    first = sound_with(tmp_path / "20260302_140000.flac", {}, "flac")
    second = sound_with(tmp_path / "20260302_143000.flac", {}, "flac")
    given = Started(at(15, 0), "--started")

    assert recording_starts([first, second]) == (Started(at(14, 0), NAME), Started(at(14, 30), NAME))
    assert recording_starts([first, second], given) == (given, Started(at(15, 30), NAME))


def test_no_zone_means_that_of_this_device(tmp_path: Path) -> None:
    path = sound_with(tmp_path / "a.m4a", UTC_TIME, "aac")
    here = datetime(2026, 3, 2, 13, 5, 33, tzinfo=UTC).astimezone()

    assert recording_start(path) == Started(WallTime(here.replace(tzinfo=None), here.utcoffset()), FILE)
