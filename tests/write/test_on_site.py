"""Times on site, as they are shown and as they are billed."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldnotes.write.on_site import local_time, minutes_on_site

DAY = "2026-03-02"


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("2026-03-02T09:05:00", "09:05"), ("2026-03-02T09:05:59+01:00", "09:05"), ("2026-03-02 09:05", "09:05"),
        ("09:05", "09:05"), ("9:05", "9:05"), ("after lunch", "after lunch"), ("2026-03-02", "2026-03-02"),
        ("2026-03-03T00:20:00", "2026-03-03 00:20"), ("25:00", "25:00"), ("", ""), (None, None),
    ],
)  # fmt: skip
def test_local_time_is_what_the_clock_on_the_wall_showed(text: str | None, shown: str | None) -> None:
    assert local_time(text, DAY) == shown


@pytest.mark.parametrize(
    ("started", "ended", "minutes"),
    [
        ("09:05", "10:20", 75),
        ("2026-03-02T09:05:00", "2026-03-02T09:05:59", 0),
        ("2026-03-02T23:50:00", "2026-03-03T00:20:00", 30),
        ("2026-03-02T09:00:00+01:00", "2026-03-02T09:00:00+00:00", 60),
        ("23:50", "00:20", None),  # over midnight, or a mistake: nobody can tell
        ("09:05", "2026-03-02T10:20:00", None),
        ("2026-03-02T09:05:00", "2026-03-02T10:20:00+01:00", None),
        ("09:05", None, None),
        (None, "10:20", None),
        ("09:05", "about ten", None),
        ("2026-03-02", "2026-03-03", None),
    ],
)
def test_time_on_site_is_told_only_where_it_is_known(
    started: str | None, ended: str | None, minutes: int | None
) -> None:
    assert minutes_on_site(started, ended) == minutes


@given(st.datetimes(datetime(2000, 1, 1), datetime(2090, 1, 1)), st.integers(0, 60 * 24 * 3))
def test_minutes_come_back_from_any_two_times(start: datetime, minutes: int) -> None:
    end = start + timedelta(minutes=minutes)

    assert minutes_on_site(start.isoformat(), end.isoformat()) == minutes
