"""The camera's clock against the recording's: what brings the times of pictures to those of the visit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fieldnotes.photos.cues import Cue
from fieldnotes.photos.offset import Offset, estimated_offset
from fieldnotes.transcript import Recording
from fieldnotes.wall_clock import WallClock, WallTime


@dataclass(frozen=True, slots=True)
class Aligned:
    """The recordings' clock, and the seconds by which pictures are moved to it."""

    clock: WallClock
    offset_s: float

    def wall_s(self, time: WallTime | None) -> float | None:
        """A picture's time in seconds since the first recording began."""
        return None if time is None else time.seconds_since(self.clock.start) + self.offset_s


def aligned(
    clock: WallClock | None,
    recordings: Sequence[Recording],
    times: Sequence[WallTime],
    cues: Sequence[Cue],
    offset_s: float | None,
) -> tuple[Aligned | None, str]:
    """How the pictures' times lie on the visit, and what is to be told of it; None where nothing tells.

    `offset_s` is added to the pictures' times; None: what spoken words and pictures agree on, else nothing.
    """
    if not times or not recordings:
        return None, ""
    # where no start is known, any will do: spoken words may say how far it is from the true one
    measure = clock or WallClock.following(times[0], recordings)
    if not measure.length_s:
        return None, "photographs: the visit's words have no times, so all stand at the end"
    if clock is not None and offset_s is not None:
        return Aligned(clock, offset_s), ""
    found = estimated_offset(
        [measure.wall_s(cue.evidence.end) for cue in cues if cue.evidence.end is not None],
        [time.seconds_since(measure.start) for time in times],
        measure.length_s,
        clock_known=clock is not None,
    )
    if found is None:
        unknown = (
            "photographs: when the recording started is not known, so all stand at the end; give --started"
        )
        return (Aligned(measure, 0.0), "") if clock else (None, unknown)
    return Aligned(measure, found.seconds), _told(found, clock is not None)


def _told(found: Offset, clock_known: bool) -> str:
    spoken = "a time at which one was" if found.pairs == 1 else f"{found.pairs} times at which one was"
    if not clock_known:
        return f"photographs: placed by {spoken} spoken of, as it is not known when the recording started"
    way = "slow" if found.seconds > 0 else "fast"
    length = _length(abs(found.seconds))
    return (
        f"photographs: the camera's clock is taken to be {length} {way}, by {spoken} spoken of;"
        " --photo-offset sets it otherwise"
    )


def _length(seconds: float) -> str:
    """ "1 h 2 min 5 s": the two or three parts that it has."""
    whole = round(seconds)
    days, rest = divmod(whole, 86_400)
    parts = [(days, "days"), (rest // 3600, "h"), (rest // 60 % 60, "min"), (rest % 60, "s")]
    return " ".join(f"{count} {unit}" for count, unit in parts if count) or "0 s"
