"""The clock on the wall and the clock of the visit: when each recording began, and what time it was at a second of it.

Times of day are kept as a clock on the wall shows them, for that is what a camera writes into its pictures. Where
both sides of a comparison know their offset from UTC, the true time between them counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from itertools import accumulate
from typing import Literal

from fieldnotes.records import Job
from fieldnotes.transcript import Recording

# Zeroes of clocks that were never set: 1904 (MP4), 1970 (Unix), 1980 (FAT, ZIP). EXIF itself is of 1995.
YEARS = (1995, 2099)
OVERLAP_S = (
    2.0  # starts are written in whole seconds, so a recording may seem to begin before the last one ended
)
LONGEST_GAP_S = 12 * 3600.0  # a later "start" is that of a copy: no visit has such a pause
EDGE_S = 2.0  # what lies so little before or behind a recording counts as its edge, for the same reason


@dataclass(frozen=True, slots=True)
class WallTime:
    """A local date and time without a zone, and its offset from UTC where that is known."""

    at: datetime
    utc_offset: timedelta | None = None

    def seconds_since(self, other: WallTime) -> float:
        """Seconds from the other time to this one; by the faces of the clocks where an offset is not known."""
        shown = self.at - other.at
        if self.utc_offset is not None and other.utc_offset is not None:
            shown -= self.utc_offset - other.utc_offset
        return shown.total_seconds()

    def text(self) -> str:
        """ISO 8601 to the second, with the offset where it is known: `2026-03-02T14:05:33+01:00`."""
        zone = None if self.utc_offset is None else timezone(self.utc_offset)
        return self.at.replace(tzinfo=zone).isoformat(timespec="seconds")


@dataclass(frozen=True, slots=True)
class Started:
    """When a recording began, and how that is known."""

    time: WallTime
    told_by: Literal["the file's own metadata", "its name", "--started"]


def believable(at: datetime) -> bool:
    """Whether a clock that was set can have shown this."""
    return YEARS[0] <= at.year <= YEARS[1]


class WallClock:
    """Reckons between seconds of the visit and seconds since its first recording began.

    The two differ where time passed between two recordings: the visit's clock stands still there.
    """

    def __init__(self, start: WallTime, recordings: Sequence[Recording], begins: Sequence[float]) -> None:
        self.start = start
        self._parts = [
            (begin, recording.starts_at, recording.seconds or 0.0)
            for begin, recording in zip(begins, recordings, strict=True)
        ]

    @classmethod
    def following(cls, start: WallTime, recordings: Sequence[Recording]) -> WallClock:
        """The clock of recordings that were made right one after the other."""
        lengths = [recording.seconds or 0.0 for recording in recordings[:-1]]
        return cls(start, recordings, list(accumulate(lengths, initial=0.0))[: len(recordings)])

    @classmethod
    def of(cls, recordings: Sequence[Recording], starts: Sequence[Started | None]) -> WallClock | None:
        """The clock of these recordings, `starts[i]` that of `recordings[i]`; None where no start is known.

        A recording follows right on the one before where its own start is not known or cannot be: before that
        one ended, or half a day later.
        """
        known = next((n for n, start in enumerate(starts) if start), None)
        if known is None:
            return None
        lengths = [recording.seconds or 0.0 for recording in recordings]
        first = starts[known]
        assert first is not None
        start = WallTime(
            first.time.at - timedelta(seconds=sum(lengths[:known])),
            first.time.utc_offset,
        )
        begins = list(accumulate(lengths[:known], initial=0.0))
        for n in range(known + 1, len(lengths)):
            follows, own = begins[-1] + lengths[n - 1], starts[n]
            begin = own.time.seconds_since(start) if own else follows
            fits = follows - OVERLAP_S <= begin <= follows + LONGEST_GAP_S
            begins.append(max(begin, follows) if fits else follows)
        return cls(start, recordings, begins)

    @property
    def length_s(self) -> float:
        """Seconds from the first recording's beginning to the last one's end; 0 where none has a length."""
        return max((begin + seconds for begin, _, seconds in self._parts if seconds), default=0.0)

    def wall_s(self, second: float) -> float:
        """A second on the visit's clock as seconds since the first recording began."""
        begin, starts_at, _ = next(
            (part for part in reversed(self._parts) if part[1] <= second), self._parts[0]
        )
        return begin + second - starts_at

    def second(self, wall_s: float) -> float | None:
        """The second of the visit at a time since the first recording began; None while nothing was recorded."""
        for begin, starts_at, seconds in self._parts:
            if seconds and begin - EDGE_S <= wall_s <= begin + seconds + EDGE_S:
                return starts_at + min(max(wall_s - begin, 0.0), seconds)
        return None

    def written_into(self, job: Job) -> Job:
        """The job with the local times, ISO 8601, at which the first recording began and the last one ended."""
        times = {"started": self.start.at}
        if self.length_s:
            times["ended"] = self.start.at + timedelta(seconds=self.length_s)
        return job.model_copy(update={name: at.isoformat(timespec="seconds") for name, at in times.items()})
