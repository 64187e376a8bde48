"""The job folder is there whole or not at all, and no recording is ever lost."""

from __future__ import annotations

import errno
import json
import os
import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from fieldnotes.errors import JobFolderError, RecordingError, TemplateError
from fieldnotes.records import Visit
from fieldnotes.settings import PageSettings, Settings
from fieldnotes.write import Contents, check_destination, folder, keeping, write_job

from .visits import CELLAR, FULL, FULL_TRANSCRIPT, KITCHEN, sha256

PAGES = {
    "visit.json", "report.html", "report.md", "report.txt", "transcript.vtt", "transcript.json", "findings.vtt",
    "checklist.csv", "report.pdf",
}  # fmt: skip
Files = dict[str, bytes]
WRITTEN = datetime(2026, 3, 2, 18, 30, tzinfo=UTC)


@pytest.fixture
def sources(tmp_path: Path) -> list[Path]:
    van = tmp_path / "van"
    van.mkdir()
    (van / "kitchen side.flac").write_bytes(KITCHEN)
    (van / "cellar.m4a").write_bytes(CELLAR)
    return [van / "kitchen side.flac", van / "cellar.m4a"]


def write(
    sources: list[Path], out: Path, visit: Visit = FULL, templates: Path | None = None, **options: Any
) -> Path:
    settings = Settings(pages=PageSettings(documents=("office",), templates=templates))
    return write_job(Contents(visit, FULL_TRANSCRIPT, settings, written=WRITTEN), sources, out, **options)


def contents(where: Path) -> Files:
    """Everything under a folder, hidden or not."""
    return {str(p.relative_to(where)): p.read_bytes() for p in sorted(where.rglob("*")) if p.is_file()}


def test_job_folder_holds_pages_and_copies(tmp_path: Path, sources: list[Path]) -> None:
    report = write(sources, tmp_path / "jobs" / "2041")

    assert report == tmp_path / "jobs" / "2041" / "data" / "report.html"
    written = contents(report.parent)
    assert set(written) == PAGES | {"kitchen side.flac", "cellar.m4a"}
    assert (written["kitchen side.flac"], written["cellar.m4a"]) == (KITCHEN, CELLAR)
    assert Visit.model_validate_json(written["visit.json"]) == FULL
    assert [p.name for p in (tmp_path / "jobs").iterdir()] == ["2041"]


def test_same_input_gives_the_same_bytes(tmp_path: Path, sources: list[Path]) -> None:
    one, two = write(sources, tmp_path / "one"), write(sources, tmp_path / "two")

    assert contents(one.parent) == contents(two.parent)


def test_record_names_the_copies(tmp_path: Path, sources: list[Path]) -> None:
    """Two recordings of one name, one of them with a name that the job folder needs itself."""
    other = tmp_path / "phone"
    other.mkdir()
    twins = [tmp_path / "van" / "visit.json", other / "visit.json"]
    for path, content in zip(twins, (KITCHEN, CELLAR), strict=True):
        path.write_bytes(content)
    report = write(twins, tmp_path / "job")

    named = [r["file"] for r in json.loads((report.parent / "visit.json").read_text())["recording"]]
    assert named == ["visit-2.json", "visit-3.json"]
    assert [(report.parent / name).read_bytes() for name in named] == [KITCHEN, CELLAR]
    assert "visit-2.json#t=61.2,66" in report.read_text(encoding="utf-8")


def test_source_that_changed_since_it_was_heard_is_refused(tmp_path: Path, sources: list[Path]) -> None:
    sources[1].write_bytes(b"something else")

    with pytest.raises(RecordingError, match=r"cellar\.m4a has changed"):
        write(sources, tmp_path / "job")
    assert [p.name for p in tmp_path.iterdir()] == ["van"]


def test_missing_source_leaves_nothing(tmp_path: Path, sources: list[Path]) -> None:
    sources[1].unlink()

    with pytest.raises(RecordingError, match=r"cellar\.m4a cannot be read"):
        write(sources, tmp_path / "deep" / "down" / "job")
    assert [p.name for p in tmp_path.iterdir()] == ["van"]


def test_sources_must_match_the_record(tmp_path: Path, sources: list[Path]) -> None:
    with pytest.raises(ValueError, match="1 sources for 2 recordings"):
        write(sources[:1], tmp_path / "job")


def _existing_job(out: Path) -> None:
    out.mkdir()
    (out / "visit.json").write_text("{}")


def _foreign_folder(out: Path) -> None:
    out.mkdir()
    (out / "photo.jpg").write_text("x")


@pytest.mark.parametrize(
    ("prepare", "replace", "message"),
    [
        (_existing_job, False, "exists already"),
        (Path.mkdir, False, "exists already"),
        (_foreign_folder, False, "exists already"),
        (_foreign_folder, True, "is not a job folder"),
        (Path.touch, True, "is a file, not a folder"),
    ],
    ids=["job", "empty folder", "foreign folder", "foreign folder, replace", "file, replace"],
)
def test_existing_destination_is_refused_early(
    tmp_path: Path, sources: list[Path], prepare: Callable[[Path], None], replace: bool, message: str
) -> None:
    out = tmp_path / "job"
    prepare(out)
    before = contents(tmp_path)

    with pytest.raises(JobFolderError, match=message):
        check_destination(out, replace)
    with pytest.raises(JobFolderError, match=message):
        write(sources, out, replace=replace)
    assert contents(tmp_path) == before


@pytest.mark.parametrize(
    "below", ["job", "a/b/job", ".", "file/job"], ids=["new", "deep", "parent is here", "below a file"]
)
def test_check_of_destination_leaves_no_trace(tmp_path: Path, below: str) -> None:
    (tmp_path / "file").touch()
    if below == "file/job":
        with pytest.raises(JobFolderError, match="cannot be written"):
            check_destination(tmp_path / below)
    else:
        check_destination(tmp_path / "x" / below)
    assert [p.name for p in tmp_path.iterdir()] == ["file"]


def test_name_too_long_for_the_disk_is_refused_early(tmp_path: Path) -> None:
    with pytest.raises(JobFolderError, match="cannot be written"):
        check_destination(tmp_path / ("x" * 300))


def test_folder_without_permission_is_refused_early(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(self: Path, *args: Any, **kwargs: Any) -> None:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(Path, "mkdir", refuse)
    with pytest.raises(JobFolderError, match="not allowed there"):
        check_destination(tmp_path / "job")


FAULTS = [
    (OSError(errno.ENOSPC, "No space left on device"), JobFolderError, "the disk is full"),
    (OSError(errno.EIO, "Input/output error"), JobFolderError, "Input/output error"),
    (KeyboardInterrupt(), KeyboardInterrupt, "^$"),
    (RuntimeError("a bug"), RuntimeError, "a bug"),
]
STEPS = ["write_through", "copy_recording", "swap_in"]


@pytest.mark.parametrize("step", STEPS)
@pytest.mark.parametrize(
    ("fault", "shown", "message"), FAULTS, ids=["full disk", "disk error", "ctrl-c", "bug"]
)
@pytest.mark.parametrize("replace", [False, True], ids=["new", "replace"])
def test_failure_in_the_middle_leaves_things_as_they_were(
    tmp_path: Path,
    sources: list[Path],
    monkeypatch: pytest.MonkeyPatch,
    step: str,
    fault: BaseException,
    shown: type[BaseException],
    message: str,
    replace: bool,
) -> None:
    """The second call of each step fails; the swap fails at once."""
    out = tmp_path / "new" / "job"
    if replace:
        write(sources, out)
        (out / "data" / "report.md").write_text("signed by hand")
    before = contents(tmp_path)
    real, calls = getattr(folder, step), []

    def failing(*args: Any) -> None:
        calls.append(args)
        if len(calls) == 2 or step == "swap_in":
            raise fault
        real(*args)

    monkeypatch.setattr(folder, step, failing)
    with pytest.raises(shown, match=message):
        write(sources, out, replace=replace)
    assert calls != []
    assert contents(tmp_path) == before
    assert (tmp_path / "new").exists() == replace


@pytest.mark.parametrize(
    "fault", [OSError(errno.EIO, "Input/output error"), KeyboardInterrupt()], ids=["disk", "ctrl-c"]
)
def test_old_job_comes_back_when_the_swap_fails(
    tmp_path: Path, sources: list[Path], monkeypatch: pytest.MonkeyPatch, fault: BaseException
) -> None:
    out = tmp_path / "job"
    write(sources, out)
    before = contents(tmp_path)
    real, renames = Path.rename, []

    def failing(self: Path, target: Path) -> Path:
        renames.append(target)
        if len(renames) == 2:
            raise fault
        return real(self, target)

    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises((JobFolderError, KeyboardInterrupt)):
        write(sources, out, replace=True)
    assert len(renames) == 3
    assert contents(tmp_path) == before


def test_former_folder_that_stays_is_named(
    tmp_path: Path, sources: list[Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "job"
    write(sources, out)

    remove = shutil.rmtree

    def refuse(path: Path, ignore_errors: bool = False, **rest: Any) -> None:
        if rest:  # a temporary folder of the printed pages
            remove(path, **rest)
        elif not ignore_errors:
            raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(shutil, "rmtree", refuse)
    with pytest.raises(JobFolderError, match="is written, but the former folder could not be removed"):
        write(sources, out, replace=True)
    assert (out / "data" / "report.html").exists()


def test_replace_keeps_recordings_that_lie_inside(tmp_path: Path, sources: list[Path]) -> None:
    """The job folder's own copies are the sources, as after a correction; the originals are gone."""
    out = tmp_path / "job"
    data = out / "data"
    write(sources, out)
    shutil.rmtree(tmp_path / "van")
    corrected = FULL.model_copy(update={"complaints": ()})

    write([data / "kitchen side.flac", data / "cellar.m4a"], out, corrected, replace=True)
    assert set(contents(data)) == PAGES | {"kitchen side.flac", "cellar.m4a"}
    assert Visit.model_validate_json((data / "visit.json").read_bytes()) == corrected


def test_replace_takes_along_what_was_not_made_here(tmp_path: Path, sources: list[Path]) -> None:
    """Photographs, and a recording that is no longer part of the visit, even under the name of another."""
    out = tmp_path / "job"
    data = out / "data"
    write(sources, out)
    (data / "photos").mkdir()
    (data / "photos" / "plate.jpg").write_bytes(b"plate")
    (out / "note from the office.txt").write_bytes(b"call back")
    (data / "cellar.m4a").write_bytes(b"only copy of an older sound")

    write(sources, out, replace=True)
    kept = contents(data)
    assert kept["photos/plate.jpg"] == b"plate"
    assert kept["cellar.m4a"] == CELLAR
    assert kept["cellar-2.m4a"] == b"only copy of an older sound"
    assert set(kept) == PAGES | {"kitchen side.flac", "cellar.m4a", "cellar-2.m4a", "photos/plate.jpg"}
    assert (out / "note from the office.txt").read_bytes() == b"call back"


def test_empty_folder_may_be_replaced(tmp_path: Path, sources: list[Path]) -> None:
    (tmp_path / "job").mkdir()

    assert write(sources, tmp_path / "job", replace=True).is_file()


def test_sources_are_never_altered(tmp_path: Path, sources: list[Path]) -> None:
    os.utime(sources[0], ns=(10**18, 10**18))
    report = write(sources, tmp_path / "job")

    assert [source.read_bytes() for source in sources] == [KITCHEN, CELLAR]
    assert [p.stat().st_mtime_ns for p in (sources[0], report.parent / "kitchen side.flac")] == [10**18] * 2


def test_mistake_in_a_template_leaves_nothing(tmp_path: Path, sources: list[Path]) -> None:
    own = tmp_path / "own"
    own.mkdir()
    (own / "report.md").write_text("{{ nobody }}")

    with pytest.raises(TemplateError):
        write(sources, tmp_path / "job", templates=own)
    assert {p.name for p in tmp_path.iterdir()} == {"own", "van"}


def test_copy_is_compared_with_what_was_heard(tmp_path: Path) -> None:
    (tmp_path / "a.wav").write_bytes(b"x" * (keeping.BLOCK_BYTES + 1))

    keeping.copy_recording(tmp_path / "a.wav", tmp_path / "b.wav", sha256(b"x" * (keeping.BLOCK_BYTES + 1)))
    assert (tmp_path / "b.wav").read_bytes() == (tmp_path / "a.wav").read_bytes()
