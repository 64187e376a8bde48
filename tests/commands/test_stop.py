"""Ctrl-C in the middle of a recording: it ends at once, says so, and the same command goes on from there."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from fieldnotes.places import PACKAGE
from tests.hear.sounds import beeps, write_sound

from .conftest import files_in

TESTS = Path(__file__).resolve().parents[1]  # not beside the package where an installed one is tested

# A recogniser that takes no time over the first pieces it is asked for and a minute over the next, in a thread.
CHILD = """
import functools, signal, sys, time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
import fieldnotes.hear
from fieldnotes.cli import main
from tests.hear.sounds import Beeper

signal.signal(signal.SIGINT, signal.default_int_handler)  # ignored where the tests run in the background
quick = int(sys.argv[1])

class Slow(Beeper):
    def recognise(self, sound, pieces, terms):
        def one(numbered):
            number, piece = numbered
            if number >= quick:
                print("stuck", flush=True)
                time.sleep(60)
            print(f"{piece[0].start:.0f}", flush=True)
            return next(Beeper.recognise(self, sound, [piece], terms))
        pool = ThreadPoolExecutor(1)
        try:
            yield from pool.map(one, enumerate(pieces))
        finally:
            pool.shutdown(wait=False, cancel_futures=True)

hear = functools.partial(fieldnotes.hear.hear, cache=Path("cache"), make_engine=Slow)
fieldnotes.hear.hear = lambda sources, **given: hear(sources, **{**given, "model": "./model"})
main(["write", "kitchen.wav", "--out", "job", "--appliance", "dishwasher"])
"""


@pytest.fixture
def room(tmp_path: Path) -> Path:
    """A folder with two minutes of sound and a model."""
    (tmp_path / "model").mkdir()
    for name in ("model.bin", "config.json", "tokenizer.json", "vocabulary.txt"):
        (tmp_path / "model" / name).write_text(name)
    write_sound(tmp_path / "kitchen.wav", beeps(120.0, every_s=1.5), "pcm_s16le")
    return tmp_path


def started(room: Path, quick: int) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", CHILD, str(quick)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=room,
        env={**os.environ, "PYTHONPATH": os.pathsep.join([str(PACKAGE.parent), str(TESTS.parent)])},
    )


def stopped(room: Path, quick: int) -> tuple[list[str], subprocess.Popen[str], str, float]:
    """A run that is stopped in its piece number `quick`: pieces heard, the process, what it said, how long it took."""
    with started(room, quick) as child:
        assert child.stdout is not None
        heard = []
        while (line := child.stdout.readline().strip()) not in ("stuck", ""):
            heard.append(line)
        time.sleep(0.3)  # the piece before is being kept
        at = time.monotonic()
        child.send_signal(signal.SIGINT)
        _, said = child.communicate(timeout=50)
    return heard, child, said, time.monotonic() - at


def test_stop_ends_at_once_in_one_line_and_leaves_no_job(room: Path) -> None:
    _, child, said, took_s = stopped(room, 2)

    assert child.returncode == 130
    assert said.splitlines()[-1] == (
        "fieldnotes: stopped; nothing was written. The same command goes on with what was heard so far"
    )
    assert "Traceback" not in said
    assert took_s < 20  # the recogniser's thread sleeps for a minute
    assert not (room / "job").exists()
    assert not [path for path in files_in(room) if path.endswith(".part")]


def test_runs_that_were_stopped_add_up(room: Path) -> None:
    """Two runs of two pieces each, and one to the end: no piece is heard twice."""
    first, second = stopped(room, 2)[0], stopped(room, 2)[0]
    with started(room, 100) as child:
        out, said = child.communicate(timeout=50)

    *rest, report = out.splitlines()
    heard = [int(start) for start in (*first, *second, *rest)]
    assert (child.returncode, len(first), len(second)) == (0, 2, 2), said
    assert heard == sorted(set(heard))
    assert heard[-1] > 80
    assert (room / report).is_file()
