"""The clock on the wall against the clock of the visit."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldnotes.records import Job
from fieldnotes.transcript import Recording
from fieldnotes.wall_clock import Started, WallClock, WallTime

NOON = datetime(2026, 3, 2, 12, 0, 0)
HOUR = timedelta(hours=1)


def recordings(*lengths: float | None) -> list[Recording]:
    """One after the other on the visit's clock."""
    made, at = [], 0.0
    for n, seconds in enumerate(lengths):
        made.append(Recording(file=f"{n}.wav", sha256="0" * 64, seconds=seconds, starts_at=at))
        at += seconds or 0.0
    return made


def begun(seconds_after_noon: float) -> Started:
    return Started(WallTime(NOON + timedelta(seconds=seconds_after_noon)), "its name")


@pytest.mark.parametrize(
    ("later", "earlier", "seconds"),
    [
        (WallTime(NOON + HOUR), WallTime(NOON), 3600.0),
        (WallTime(NOON, HOUR), WallTime(NOON, HOUR), 0.0),
        (
            WallTime(NOON, timedelta(0)),
            WallTime(NOON, HOUR),
            3600.0,
        ),  # noon in London is later than in Berlin
        (WallTime(NOON, HOUR), WallTime(NOON), 0.0),  # one offset unknown: by the faces of the clocks
    ],
    ids=["no offsets", "one zone", "two zones", "one unknown"],
)
def test_true_time_counts_where_both_offsets_are_known(
    later: WallTime, earlier: WallTime, seconds: float
) -> None:
    assert later.seconds_since(earlier) == seconds


@pytest.mark.parametrize(
    ("lengths", "starts", "job"),
    [
        ((90.5,), [begun(0)], ("2026-03-02T12:00:00", "2026-03-02T12:01:30")),
        ((60.0, 30.0), [begun(0), None], ("2026-03-02T12:00:00", "2026-03-02T12:01:30")),
        ((60.0, 30.0), [begun(0), begun(600)], ("2026-03-02T12:00:00", "2026-03-02T12:10:30")),
        ((60.0, 30.0), [begun(0), begun(20)], ("2026-03-02T12:00:00", "2026-03-02T12:01:30")),
        ((60.0, 30.0), [begun(0), begun(9e5)], ("2026-03-02T12:00:00", "2026-03-02T12:01:30")),
        ((60.0, 30.0), [None, begun(60)], ("2026-03-02T12:00:00", "2026-03-02T12:01:30")),
        ((None,), [begun(0)], ("2026-03-02T12:00:00", None)),
        ((7200.0,), [begun(43_200 - 60)], ("2026-03-02T23:59:00", "2026-03-03T01:59:00")),
    ],
    ids=["one", "second unknown", "pause", "second too early", "second far too late", "first unknown", "no length",
         "midnight"],
)  # fmt: skip
def test_job_gets_its_times(
    lengths: tuple[float | None, ...],
    starts: list[Started | None],
    job: tuple[str | None, str | None],
) -> None:
    clock = WallClock.of(recordings(*lengths), starts)

    assert clock is not None
    assert clock.written_into(Job(number="7")) == Job(number="7", started=job[0], ended=job[1])


def test_without_any_start_there_is_no_clock() -> None:
    assert WallClock.of(recordings(60.0, 30.0), [None, None]) is None


@pytest.mark.parametrize(
    ("wall_s", "second"),
    [(-3.0, None), (-1.0, 0.0), (0.0, 0.0), (59.0, 59.0), (61.0, 60.0), (100.0, None), (300.0, 60.0), (310.0, 70.0),
     (331.0, 90.0), (340.0, None)],
    ids=str,
)  # fmt: skip
def test_visits_clock_stands_still_between_two_recordings(wall_s: float, second: float | None) -> None:
    clock = WallClock.of(recordings(60.0, 30.0), [begun(0), begun(300)])

    assert clock is not None
    assert clock.second(wall_s) == second


@given(
    lengths=st.lists(st.floats(1, 4000), min_size=1, max_size=4),
    pause=st.floats(3, 4000),
    part=st.floats(0.01, 0.99),
)
def test_second_of_the_visit_and_back(lengths: list[float], pause: float, part: float) -> None:
    begins = [sum(lengths[:n]) + pause * n for n in range(len(lengths))]
    clock = WallClock.of(recordings(*lengths), [begun(begin) for begin in begins])
    second = sum(lengths) * part

    assert clock is not None
    assert clock.second(clock.wall_s(second)) == pytest.approx(second, abs=0.001)
