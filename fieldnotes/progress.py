"""How a long run shows itself on a terminal: seconds of sound done, speed, and the stage."""

from __future__ import annotations

import sys
import time
from collections.abc import Sequence
from typing import TextIO

PLAIN_EVERY_S = 5.0  # seconds between lines where the output is no terminal


class Shown:
    """Progress on standard error: on a terminal one line that is rewritten, else plain lines, or nothing."""

    def __init__(self, quiet: bool = False, out: TextIO | None = None) -> None:
        self._out = out or sys.stderr
        self._quiet = quiet
        self._live = self._out.isatty()
        self._stage = ""
        self._began = self._last = time.monotonic()
        self._open_line = False
        self._held = ""  # the latest line that came too soon after another; shown if it stays the last

    def stage(self, name: str) -> None:
        """A new stretch of work begins."""
        self._end_line()
        self._stage = name
        self._began = time.monotonic()
        self._last = self._began
        self._write(name, lasting=True)

    def heard(self, seconds_done: float, seconds_total: float | None) -> None:
        """So much sound of the present recording is done."""
        now = time.monotonic()
        speed = seconds_done / max(now - self._began, 1e-3)
        total = f" of {_clock(seconds_total)}" if seconds_total else ""
        left_s = (seconds_total - seconds_done) / speed if seconds_total and speed > 0 else 0.0
        left = f", about {_clock(left_s)} left" if left_s >= 1 else ""
        text = f"{self._stage}: {_clock(seconds_done)}{total} of sound, {speed:.1f} times as fast{left}"
        if self._live or now - self._last >= PLAIN_EVERY_S:
            self._write(text)
            self._last, self._held = now, ""
        else:
            self._held = text

    def told(self, head: str, lines: Sequence[str]) -> None:
        """What the user should know at the end, one a line under a heading; nothing where there is none."""
        self._end_line()
        if lines:
            self._write("\n  ".join([f"{head}:", *lines]), lasting=True)

    def _write(self, text: str, lasting: bool = False) -> None:
        if self._quiet:
            return
        if self._live and not lasting:
            self._out.write(f"\r\033[K{text}")
            self._open_line = True
        else:
            self._out.write(f"{text}\n")
        self._out.flush()

    def _end_line(self) -> None:
        if self._open_line:
            self._out.write("\n")
            self._open_line = False
        if self._held:
            self._write(self._held)
            self._held = ""


def _clock(seconds: float | None) -> str:
    whole = int(seconds or 0)
    return (
        f"{whole // 3600}:{whole // 60 % 60:02d}:{whole % 60:02d}"
        if whole >= 3600
        else f"{whole // 60}:{whole % 60:02d}"
    )
