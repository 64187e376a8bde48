"""How a long run shows itself: rewritten on a terminal, thinned out elsewhere."""

from __future__ import annotations

import io

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


def hear_ten_minutes(shown: Shown, clock: Clock) -> None:
    shown.stage("hearing kitchen.m4a")
    for heard in (60, 120, 300, 599.5):
        clock.now += 4
        shown.heard(heard, 600.0)
    shown.stage("writing")
    shown.told("Notice", [])
    shown.told("Still missing", ["The serial number.", "The job number."])


def test_terminal_shows_one_line_that_is_rewritten(clock: Clock) -> None:
    out = Terminal()
    hear_ten_minutes(Shown(out=out), clock)

    assert out.getvalue() == (
        "hearing kitchen.m4a\n"
        "\r\x1b[Khearing kitchen.m4a: 1:00 of 10:00 of sound, 15.0 times as fast, about 0:36 left"
        "\r\x1b[Khearing kitchen.m4a: 2:00 of 10:00 of sound, 15.0 times as fast, about 0:32 left"
        "\r\x1b[Khearing kitchen.m4a: 5:00 of 10:00 of sound, 25.0 times as fast, about 0:12 left"
        "\r\x1b[Khearing kitchen.m4a: 9:59 of 10:00 of sound, 37.5 times as fast"
        "\nwriting\nStill missing:\n  The serial number.\n  The job number.\n"
    )


def test_file_gets_a_line_every_few_seconds(clock: Clock) -> None:
    out = io.StringIO()
    hear_ten_minutes(Shown(out=out), clock)

    assert out.getvalue() == (
        "hearing kitchen.m4a\n"
        "hearing kitchen.m4a: 2:00 of 10:00 of sound, 15.0 times as fast, about 0:32 left\n"
        "hearing kitchen.m4a: 9:59 of 10:00 of sound, 37.5 times as fast\n"
        "writing\nStill missing:\n  The serial number.\n  The job number.\n"
    )


def test_quiet_shows_nothing(clock: Clock) -> None:
    out = Terminal()
    hear_ten_minutes(Shown(quiet=True, out=out), clock)

    assert out.getvalue() == ""


def test_unknown_length_gives_no_time_left(clock: Clock) -> None:
    out = io.StringIO()
    shown = Shown(out=out)
    shown.stage("hearing a.mp3")
    clock.now += 10
    shown.heard(3725, None)

    assert out.getvalue().endswith("hearing a.mp3: 1:02:05 of sound, 372.5 times as fast\n")
