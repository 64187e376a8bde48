"""How a long run shows itself: its stages, and on a terminal how much sound is done and how long it still takes."""

from __future__ import annotations

import shutil
import sys
import time
from collections.abc import Sequence
from typing import TextIO

STEADY_S = 3.0  # so long a run says nothing about its speed: the first pieces are too few to tell


class Shown:
    """Progress on standard error: a line for each stage, and below it, on a terminal only, one that is rewritten."""

    def __init__(self, quiet: bool = False, out: TextIO | None = None) -> None:
        self._out = out or sys.stderr
        self._quiet = quiet
        self._live = self._out.isatty() and not quiet
        self._began: tuple[float, float] | None = None  # when this recording's hearing began, and where in it
        self._open_line = False

    def stage(self, name: str) -> None:
        """A new stretch of work begins."""
        self._began = None
        self._write(name)

    def heard(self, seconds_done: float, seconds_total: float | None) -> None:
        """So much sound of the present recording is done; what the first call says was done before this run."""
        now = time.monotonic()
        if self._began is None:
            self._began = (now, seconds_done)
        took_s, new_s = now - self._began[0], seconds_done - self._began[1]
        total = f" of {_clock(seconds_total)}" if seconds_total else ""
        text = f"  {_clock(seconds_done)}{total} of sound"
        if took_s >= STEADY_S and new_s > 0:
            text += f", {new_s / took_s:.1f} times as fast"
            left_s = (seconds_total - seconds_done) * took_s / new_s if seconds_total else 0.0
            text += f", about {_clock(left_s)} left" if left_s >= 1 else ""
        self._rewrite(text)

    def told(self, head: str, lines: Sequence[str]) -> None:
        """What the user should know at the end, one a line under a heading; nothing where there is none."""
        if lines:
            self._write("\n  ".join([f"{head}:", *lines]))

    def _write(self, text: str) -> None:
        """A line that stays."""
        if self._quiet:
            return
        if self._open_line:
            self._out.write("\n")
            self._open_line = False
        self._out.write(f"{text}\n")
        self._out.flush()

    def _rewrite(self, text: str) -> None:
        """The line at the bottom; one that is longer than the terminal is wide could not be rewritten."""
        if not self._live:
            return
        self._out.write(f"\r\033[K{text[: shutil.get_terminal_size().columns - 1]}")
        self._out.flush()
        self._open_line = True


def _clock(seconds: float | None) -> str:
    whole = int(seconds or 0)
    return (
        f"{whole // 3600}:{whole // 60 % 60:02d}:{whole % 60:02d}"
        if whole >= 3600
        else f"{whole // 60}:{whole % 60:02d}"
    )
