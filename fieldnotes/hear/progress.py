"""How the caller learns how far hearing has come. Nothing in this package prints."""

from __future__ import annotations

from typing import Protocol


class Progress(Protocol):
    """What a command line or a page implements to show progress."""

    def stage(self, name: str) -> None:
        """A new stretch of work begins, e.g. `"hearing kitchen.m4a"`."""

    def heard(self, seconds_done: float, seconds_total: float | None) -> None:
        """So much of the present recording is done; None: its length is not known beforehand.

        The first call for a recording says what was done before, in an earlier run.
        """


class Unwatched:
    """Progress that nobody looks at."""

    def stage(self, name: str) -> None:
        """Show nothing."""

    def heard(self, seconds_done: float, seconds_total: float | None) -> None:
        """Show nothing."""
