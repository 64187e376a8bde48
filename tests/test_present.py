"""The present time, and how it is fixed."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from fieldnotes.errors import SettingsError
from fieldnotes.present import present_time


def test_source_date_epoch_fixes_the_present(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1000000000")

    assert present_time() == datetime(2001, 9, 9, 1, 46, 40, tzinfo=UTC)


@pytest.mark.parametrize("fixed", ["soon", "1e9", "99999999999999999999"])
def test_epoch_that_is_no_number_is_refused(monkeypatch: pytest.MonkeyPatch, fixed: str) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", fixed)

    with pytest.raises(SettingsError, match="no number of seconds"):
        present_time()


def test_otherwise_it_is_now_in_whole_seconds(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    now = present_time()

    assert abs(datetime.now(UTC) - now) < timedelta(seconds=5)
    assert (now.microsecond, now.tzinfo) == (0, UTC)
