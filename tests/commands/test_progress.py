"""How a long run shows itself: one rewritten line on a terminal, and nothing but its stages elsewhere."""

from __future__ import annotations

import io
import re

import pytest

from fieldnotes import progress
from fieldnotes.progress import Shown


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


class Clock:
    """Time that passes only when it is told to."""

    def __init__(self) -> None:
        self.now = 100.0

    def monotonic(self) -> float:
        return self.now


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Clock:
    made = Clock()
    monkeypatch.setattr(progress, "time", made)
    return made


@pytest.fixture(autouse=True)
def _eighty_columns(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")


def hear_ten_minutes(shown: Shown, clock: Clock) -> None:
    shown.stage("hearing kitchen.m4a")
    shown.heard(0.0, 600.0)
    for heard in (60, 120, 300, 599.5):
        clock.now += 4
        shown.heard(heard, 600.0)
    shown.stage("writing")
    shown.told("Notice", [])
    shown.told("Still missing", ["The serial number.", "The job number."])


def last_line(out: io.StringIO) -> str:
    """What a terminal shows at the bottom."""
    return out.getvalue().rpartition("\r\x1b[K")[2]


def test_terminal_shows_one_line_that_is_rewritten(clock: Clock) -> None:
    out = Terminal()
    hear_ten_minutes(Shown(out=out), clock)

    assert out.getvalue() == (
        "hearing kitchen.m4a\n"
        "\r\x1b[K  0:00 of 10:00 of sound"
        "\r\x1b[K  1:00 of 10:00 of sound, 15.0 times as fast, about 0:36 left"
        "\r\x1b[K  2:00 of 10:00 of sound, 15.0 times as fast, about 0:32 left"
        "\r\x1b[K  5:00 of 10:00 of sound, 25.0 times as fast, about 0:12 left"
        "\r\x1b[K  9:59 of 10:00 of sound, 37.5 times as fast"
        "\nwriting\nStill missing:\n  The serial number.\n  The job number.\n"
    )


def test_log_gets_the_stages_only_however_long_it_takes(clock: Clock) -> None:
    out = io.StringIO()
    shown = Shown(out=out)
    shown.stage("hearing night.m4a")
    for done in range(0, 8 * 3600, 20):
        clock.now += 2
        shown.heard(float(done), 8 * 3600.0)
    shown.stage("writing")

    assert out.getvalue() == "hearing night.m4a\nwriting\n"


def test_quiet_shows_nothing(clock: Clock) -> None:
    out = Terminal()
    hear_ten_minutes(Shown(quiet=True, out=out), clock)

    assert out.getvalue() == ""


def test_run_that_goes_on_counts_only_what_it_hears_itself(clock: Clock) -> None:
    """Eight of ten minutes were done before; one more in 10 s leaves another 10 s."""
    out = Terminal()
    shown = Shown(out=out)
    shown.stage("hearing kitchen.m4a")
    shown.heard(480.0, 600.0)
    clock.now += 10
    shown.heard(540.0, 600.0)

    assert last_line(out) == "  9:00 of 10:00 of sound, 6.0 times as fast, about 0:10 left"


def test_each_recording_is_timed_from_its_own_start(clock: Clock) -> None:
    out = Terminal()
    shown = Shown(out=out)
    hear_ten_minutes(shown, clock)
    shown.stage("hearing cellar.m4a")
    clock.now += 100
    shown.heard(0.0, 300.0)
    clock.now += 10
    shown.heard(100.0, 300.0)

    assert last_line(out) == "  1:40 of 5:00 of sound, 10.0 times as fast, about 0:20 left"


def test_first_seconds_give_no_estimate(clock: Clock) -> None:
    out = Terminal()
    shown = Shown(out=out)
    shown.heard(0.0, 600.0)
    clock.now += 0.5
    shown.heard(28.0, 600.0)

    assert last_line(out) == "  0:28 of 10:00 of sound"


def test_time_left_is_steady_where_speech_is_uneven(clock: Clock) -> None:
    """Pieces of 10 to 100 s, each taking as long as the last: the time left is never off by more than a fifth."""
    out = Terminal()
    shown = Shown(out=out)
    done, total = 0.0, 100 * 55.0
    shown.heard(done, total)
    for turn in range(100):
        clock.now += 2
        done += 10 if turn % 2 else 100
        shown.heard(done, total)
        if 10 <= turn < 90:
            left = re.search(r"about (\d+):(\d\d) left", last_line(out))
            assert left
            really = (99 - turn) * 2
            assert int(left[1]) * 60 + int(left[2]) == pytest.approx(really, rel=0.2)


@pytest.mark.parametrize("columns", [30, 80])
def test_line_never_grows_wider_than_the_terminal(
    clock: Clock, monkeypatch: pytest.MonkeyPatch, columns: int
) -> None:
    """A wider one would wrap, and each rewriting would add a line."""
    monkeypatch.setenv("COLUMNS", str(columns))
    out = Terminal()
    shown = Shown(out=out)
    shown.heard(0.0, 100 * 3600.0)
    clock.now += 3600
    shown.heard(10 * 3600.0 + 1, 100 * 3600.0)

    assert len(last_line(out)) <= columns - 1
    assert last_line(out).startswith("  10:00:01 of 100:00:00")


def test_unknown_length_gives_no_time_left(clock: Clock) -> None:
    out = Terminal()
    shown = Shown(out=out)
    shown.stage("hearing a.mp3")
    shown.heard(0.0, None)
    clock.now += 10
    shown.heard(3725, None)

    assert last_line(out) == "  1:02:05 of sound, 372.5 times as fast"
