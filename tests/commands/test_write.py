"""`fieldnotes write`: what comes out, what is said while it runs, and that a stop leaves nothing."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from jsonschema import Draft202012Validator

import fieldnotes.hear
from fieldnotes.hear.packed import PACKED, is_installed
from fieldnotes.hear.sound import RATE
from fieldnotes.places import PACKAGE
from tests.hear.sounds import Beeper, beeps, write_sound

from .conftest import DEMO, Run, files_in

PAGES = {
    "visit.json", "report.html", "report.md", "report.txt", "customer.html", "claim.html", "report.pdf",
    "customer.pdf", "claim.pdf", "transcript.vtt",
    "transcript.json", "findings.vtt", "checklist.csv",
}  # fmt: skip


def visit_in(folder: Path) -> dict[str, object]:
    found: dict[str, object] = json.loads((folder / "data" / "visit.json").read_text(encoding="utf-8"))
    return found


def test_path_of_the_report_is_all_of_stdout(run: Run, here: Path) -> None:
    ran = run("write", "notes.txt", "--out", "jobs/1042")

    assert (ran.code, ran.out) == (0, f"{here / 'jobs' / '1042' / 'data' / 'report.html'}\n")
    assert set(files_in(here / "jobs" / "1042" / "data")) == {*PAGES, "notes.txt"}


def test_quiet_run_says_nothing_on_stderr(run: Run, beeping: Path, engines: list[Beeper]) -> None:
    ran = run("write", beeping, "--out", "job", "--quiet")

    assert (ran.code, ran.err) == (0, "")


def test_options_end_up_in_the_record(run: Run, here: Path) -> None:
    run("write", "notes.txt", "--out", "job", "--job", "1042", "--technician", "R. Vale",
        "--customer", "Ms. Orrin", "--date", "2026-03-02")  # fmt: skip

    assert visit_in(here / "job")["job"] == {
        "number": "1042",
        "date": "2026-03-02",
        "technician": "R. Vale",
        "customer": "Ms. Orrin",
        "started": None,
        "ended": None,
    }


def test_several_sources_stand_on_one_clock(
    run: Run, here: Path, beeping: Path, engines: list[Beeper]
) -> None:
    (here / "cellar.vtt").write_text("WEBVTT\n\n00:01.000 --> 00:03.000\nNo fault found.\n")
    ran = run("write", beeping, "cellar.vtt", "notes.txt", "--out", "job")
    visit = visit_in(here / "job")

    assert ran.code == 0
    recordings = visit["recording"]
    assert isinstance(recordings, list)
    assert [(r["file"], r["seconds"], r["starts_at"]) for r in recordings] == [
        ("kitchen.wav", 6.0, 0.0),
        ("cellar.vtt", 3.0, 6.0),
        ("notes.txt", None, 9.0),
    ]
    transcript = (here / "job" / "data" / "transcript.vtt").read_text(encoding="utf-8")
    assert "00:00:07.000 --> 00:00:09.000\nNo fault found." in transcript
    assert len(engines) == 1


def test_second_run_hears_nothing_again(run: Run, here: Path, beeping: Path, engines: list[Beeper]) -> None:
    first = run("write", beeping, "--out", "one", "--date", "2026-03-02")
    second = run("write", beeping, "--out", "two", "--date", "2026-03-02")

    assert (first.code, second.code, len(engines)) == (0, 0, 1)
    assert files_in(here / "one") == files_in(here / "two")
    assert "loading the speech model" in first.err
    assert "loading the speech model" not in second.err


def test_replacing_writes_the_new_job(run: Run, here: Path) -> None:
    run("write", "notes.txt", "--out", "job", "--job", "1")
    ran = run("write", "notes.txt", "--out", "job", "--job", "2", "--replace")

    job = visit_in(here / "job")["job"]
    assert isinstance(job, dict)
    assert (ran.code, job["number"]) == (0, "2")


def test_only_the_stages_are_told_where_there_is_no_terminal(
    run: Run, beeping: Path, engines: list[Beeper]
) -> None:
    ran = run("write", beeping, "--out", "job")

    assert "\r" not in ran.err
    assert "\x1b" not in ran.err
    assert re.match(
        r'loading the speech model "model"\nhearing kitchen\.wav\n'
        r"understanding and judging\nwriting\nStill missing:\n  ",
        ran.err,
    )


def test_what_is_missing_is_told_at_the_end(run: Run, here: Path) -> None:
    ran = run("write", "notes.txt", "--out", "job")
    gaps = visit_in(here / "job")["gaps"]

    assert isinstance(gaps, list)
    assert gaps
    listed = "".join(f"  {gap['what']}\n" for gap in gaps)
    assert ran.err.endswith(f"Still missing:\n{listed}")


def test_silent_recording_gives_a_report_that_says_so(run: Run, here: Path, engines: list[Beeper]) -> None:
    path = write_sound(here / "pocket.wav", beeps(2.0) * 0, "pcm_s16le")
    ran = run("write", path, "--out", "job")
    visit = visit_in(here / "job")

    assert ran.code == 0
    assert "Notice:\n  pocket.wav: no speech found\n" in ran.err
    assert visit["notices"] == ["pocket.wav: no speech found"]
    sections = ("complaints", "checks", "readings", "work", "parts", "causes", "advice", "safety")
    assert [visit[section] for section in sections] == [[]] * len(sections)
    assert "pocket.wav: no speech found" in (here / "job" / "data" / "report.html").read_text(
        encoding="utf-8"
    )


@pytest.mark.speech
@pytest.mark.skipif(
    not any(is_installed(packed) for packed in PACKED), reason="no speech weights package is installed"
)
def test_noise_gives_an_empty_report(run: Run, here: Path) -> None:
    noise = np.random.default_rng(3).normal(0, 3000, 2 * RATE).clip(-32768, 32767).astype(np.int16)
    path = write_sound(here / "spin.wav", noise, "pcm_s16le")
    ran = run("write", path, "--out", "job")

    assert (ran.code, visit_in(here / "job")["notices"]) == (0, ["spin.wav: no speech found"])


def test_demo_record_keeps_to_the_printed_schema(run: Run, here: Path) -> None:
    """Validated by the jsonschema library against what `fieldnotes schema` prints."""
    printed = run("schema")
    assert printed.code == 0
    validator = Draft202012Validator(json.loads(printed.out))
    for source in sorted(DEMO.glob("*.vtt")):
        assert run("write", source, "--out", source.stem).code == 0
        assert list(validator.iter_errors(visit_in(here / source.stem))) == []


def test_demo_gives_the_same_files_twice(run: Run, here: Path) -> None:
    source = DEMO / "washer-no-fault.vtt"
    for folder in ("one", "two"):
        run("write", source, "--out", folder, "--date", "2026-03-02")

    assert files_in(here / "one") == files_in(here / "two")


@pytest.mark.parametrize(
    ("name", "day"),
    [
        ("2026-03-02 kitchen.txt", "2026-03-02"),
        ("REC20260302_0915.txt", "2026-03-02"),
        ("visit_2026_03_02.txt", "2026-03-02"),
        ("2026-02-30.txt", None),
        ("serial 9920260302.txt", None),
        ("kitchen.txt", None),
    ],
)
def test_date_comes_from_the_name_of_the_recording(run: Run, here: Path, name: str, day: str | None) -> None:
    (here / name).write_text("No fault found.\n")
    run("write", name, "--out", "job")
    job = visit_in(here / "job")["job"]

    assert isinstance(job, dict)
    assert job["date"] == (day or "2026-03-10")


def test_stop_by_the_user_leaves_nothing(run: Run, here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = files_in(here)

    def stopped(*given: object, **more: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(fieldnotes.hear, "hear", stopped)
    ran = run("write", "notes.txt", "--out", "jobs/1042")

    assert ran.code == 130
    assert ran.err == (
        "fieldnotes: stopped; nothing was written. The same command goes on with what was heard so far\n"
    )
    assert files_in(here) == before


# Tests that run in the background are started with the interrupt signal ignored.
HEARS_FOR_EVER = """
import signal, sys, time
signal.signal(signal.SIGINT, signal.default_int_handler)
import fieldnotes.hear
def hear(*given, **more):
    print("hearing", flush=True)
    time.sleep(60)
fieldnotes.hear.hear = hear
from fieldnotes.cli import main
main(["write", "notes.txt", "--out", "job"])
"""


def test_interrupt_signal_ends_with_130(here: Path) -> None:
    with subprocess.Popen(
        [sys.executable, "-c", HEARS_FOR_EVER],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(PACKAGE.parent)},
    ) as child:
        assert child.stdout is not None
        assert child.stdout.readline() == "hearing\n"
        child.send_signal(signal.SIGINT)
        _, err = child.communicate(timeout=30)

    assert (child.returncode, err.count("\n"), "Traceback" in err) == (130, 1, False)
    assert list(files_in(here)) == ["notes.txt"]


def test_further_part_fills_what_was_missing(run: Run, here: Path) -> None:
    """What the run says is missing can be said into the recorder before driving off."""
    (here / "van.txt").write_text("Model number, P X W, five oh four two.\n", encoding="utf-8")

    alone = run("write", "notes.txt", "--out", "alone")
    both = run("write", "notes.txt", "van.txt", "--out", "both")

    assert "The model number was not heard." in alone.err
    assert "The model number was not heard." not in both.err
    assert visit_in(here / "both")["appliance"]["model"] == "PXW5042"  # type: ignore[index]


@pytest.mark.parametrize(
    ("options", "pages"),
    [
        ((), {"report.html", "report.md"}),
        (("--documents", "office"), {"report.html", "report.md"}),
        (("--documents", "claim, customer"), set()),
        (("--settings", "shop.toml"), set()),
        (("--settings", "shop.toml", "--documents", "office"), {"report.html", "report.md"}),
    ],
    ids=["all", "one", "two", "as set", "asked for before set"],
)
def test_documents_are_made_as_asked(run: Run, here: Path, options: tuple[str, ...], pages: set[str]) -> None:
    (here / "shop.toml").write_text('[pages]\ndocuments = ["customer"]\n')
    run("write", "notes.txt", "--out", "job", *options)

    office = {"report.html", "report.md"}
    assert office & set(files_in(here / "job" / "data")) == pages


def test_unknown_document_is_refused(run: Run) -> None:
    ran = run("write", "notes.txt", "--out", "job", "--documents", "ofice")

    assert ran.code == 2
    assert 'none of office, customer, claim. Did you mean "office"?' in ran.err
