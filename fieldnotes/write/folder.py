"""The job folder: written beside its place, then renamed, so that it is there whole or not at all."""

from __future__ import annotations

import errno
import os
import secrets
import shutil
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace as replace_in
from pathlib import Path

from fieldnotes.errors import JobFolderError
from fieldnotes.write.contents import ALWAYS, PAGES, RECORD, Contents
from fieldnotes.write.documents import documents
from fieldnotes.write.file_names import safe_names
from fieldnotes.write.keeping import copy_recording, keep_what_is_not_ours

PAYLOAD = "data"  # RFC 8493, 2.1.2
OURS = (*ALWAYS, *(name for pages in PAGES.values() for name in pages))  # names that no recording may take


def write_job(
    office: Contents,
    sources: Sequence[Path],
    out: Path,
    *,
    claim: Contents | None = None,
    replace: bool = False,
) -> Path:
    """Writes the job folder `out` and returns the path of its first document.

    `sources[i]` is the file of `visit.recording[i]`; each is copied, and visit.json names the copy. With
    `replace`, an earlier job folder at `out` gives way once the new one is in place; what stood in it and was
    not made here (photographs, recordings that are no longer part of the visit) moves along.

    Args:
        office: the visit as it was heard.
        claim: the same with private words struck out, for the claim sheet; None: there are none.

    Raises:
        JobFolderError: `out` exists, is no job folder, or cannot be written.
        RecordingError: a source is missing, or is no longer the file that was heard.
        TemplateError: a template does not render.
    """
    if len(sources) != len(office.visit.recording):
        raise ValueError(
            f"{len(sources)} sources for {len(office.visit.recording)} recordings in the visit record"
        )
    out = out.resolve()
    check_destination(out, replace)
    names = safe_names((source.name for source in sources), taken=OURS)
    office, claim = _naming(office, names), claim and _naming(claim, names)
    made = documents(office, claim)
    with _written_beside(out) as staging:
        payload = staging / PAYLOAD
        payload.mkdir()
        for source, recording in zip(sources, office.visit.recording, strict=True):
            copy_recording(source, payload / recording.file, recording.sha256)
        for name, content in made.items():
            _write_through(payload / name, content)
        if (out / PAYLOAD).is_dir():
            keep_what_is_not_ours(out / PAYLOAD, payload, OURS)
            keep_what_is_not_ours(out, staging, [PAYLOAD])
        _swap_in(staging, out)
    first = next((name for name in made if name.endswith(".html")), RECORD)
    return out / PAYLOAD / first


def _naming(contents: Contents, names: Sequence[str]) -> Contents:
    """The record with the names of the copied recordings."""
    renamed = zip(contents.visit.recording, names, strict=True)
    recording = tuple(each.model_copy(update={"file": name}) for each, name in renamed)
    return replace_in(contents, visit=contents.visit.model_copy(update={"recording": recording}))


def check_destination(out: Path, replace: bool = False) -> None:
    """Raises JobFolderError where `out` could not be written. Quick: ask before the slow hearing."""
    out = out.resolve()
    try:
        if out.exists():
            _check_existing(out, replace)
        ground = next(folder for folder in out.parents if folder.exists())
        probe = _free_name(ground / out.name, "probe")
        probe.mkdir()
        probe.rmdir()
    except OSError as fault:
        raise JobFolderError(_sentence(out, fault)) from fault


def _check_existing(out: Path, replace: bool) -> None:
    if not out.is_dir():
        raise JobFolderError(f"{out} is a file, not a folder; choose another name for the job folder")
    if not replace:
        raise JobFolderError(f"{out} exists already; choose another folder, or replace it with --replace")
    if not (out / PAYLOAD / RECORD).is_file() and any(out.iterdir()):
        raise JobFolderError(f"{out} is not a job folder (it holds no {RECORD}), so it is not replaced")


@contextmanager
def _written_beside(out: Path) -> Iterator[Path]:
    """A new folder beside `out`. Whatever goes wrong, it and the parents made for it are gone afterwards."""
    made = [folder for folder in out.parents if not folder.exists()]
    staging = _free_name(out, "part")
    try:
        staging.mkdir(parents=True)
        yield staging
    except BaseException as fault:
        shutil.rmtree(staging, ignore_errors=True)
        for folder in made:
            if folder.exists() and not any(folder.iterdir()):
                folder.rmdir()
        if isinstance(fault, OSError):
            raise JobFolderError(_sentence(out, fault)) from fault
        raise


def _swap_in(staging: Path, out: Path) -> None:
    """`staging` takes the place of `out`. The old folder is set aside, and removed only when all is well."""
    if not out.exists():
        staging.rename(out)
        return
    old = _free_name(out, "old")
    try:
        out.rename(old)
        staging.rename(out)
    except BaseException:
        if old.exists() and not out.exists():
            old.rename(out)
        raise
    try:
        shutil.rmtree(old)
    except OSError as fault:
        raise JobFolderError(
            f"{out} is written, but the former folder could not be removed; it lies at {old}"
        ) from fault


def _write_through(path: Path, content: bytes) -> None:
    """Writes and waits for the disk, so that a power cut after the rename finds whole files."""
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _free_name(out: Path, ending: str) -> Path:
    return out.with_name(f".{out.name[:40]}.{secrets.token_hex(4)}.{ending}")


def _sentence(out: Path, fault: OSError) -> str:
    match fault.errno:
        case errno.ENOSPC | errno.EDQUOT:
            return f"{out} cannot be written: the disk is full; make room, or choose a folder on another disk"
        case errno.EACCES | errno.EPERM | errno.EROFS:
            return f"{out} cannot be written: not allowed there; choose a folder of your own"
        case _:
            return f"{out} cannot be written: {fault.strerror or fault}; choose another folder"
