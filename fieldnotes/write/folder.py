"""The job folder: written beside its place, then renamed, so that it is there whole or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace as replace_in
from pathlib import Path

from pydantic import ValidationError

from fieldnotes.bag import PAYLOAD, TAG_FILES, close_bag, is_sealed
from fieldnotes.errors import JobFolderError
from fieldnotes.records import Visit
from fieldnotes.staging import free_name, sentence, swap_in, write_through, written_beside
from fieldnotes.write.bag_info import bag_info
from fieldnotes.write.contents import ALWAYS, PAGES, PRINTED, RECORD, Contents
from fieldnotes.write.documents import documents
from fieldnotes.write.file_names import safe_names
from fieldnotes.write.keeping import copy_recording, keep_what_is_not_ours

OURS = (
    *ALWAYS,
    *PRINTED.values(),
    *(name for pages in PAGES.values() for name in pages),
)  # names that no recording may take


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
    names = safe_names((source.name for source in sources), taken=(*OURS, *office.photos))
    office, claim = _naming(office, names), claim and _naming(claim, names)
    made = documents(office, claim)
    with written_beside(out) as staging:
        payload = staging / PAYLOAD
        payload.mkdir()
        for source, recording in zip(sources, office.visit.recording, strict=True):
            copy_recording(source, payload / recording.file, recording.sha256)
        for name, content in (*office.photos.items(), *made.items()):
            write_through(payload / name, content)
        if (out / PAYLOAD).is_dir():
            keep_what_is_not_ours(out / PAYLOAD, payload, (*OURS, *_photos_in(out)))
            keep_what_is_not_ours(out, staging, (PAYLOAD, *TAG_FILES))
        close_bag(staging, bag_info(office))
        swap_in(staging, out)
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
        probe = free_name(ground / out.name, "probe")
        probe.mkdir()
        probe.rmdir()
    except OSError as fault:
        raise JobFolderError(sentence(out, fault)) from fault


def _check_existing(out: Path, replace: bool) -> None:
    if not out.is_dir():
        raise JobFolderError(f"{out} is a file, not a folder; choose another name for the job folder")
    if not replace:
        raise JobFolderError(f"{out} exists already; choose another folder, or replace it with --replace")
    if is_sealed(out):
        raise JobFolderError(
            f"{out} is sealed and is not replaced; add a later version: fieldnotes amend {out}"
        )
    if not (out / PAYLOAD / RECORD).is_file() and any(out.iterdir()):
        raise JobFolderError(f"{out} is not a job folder (it holds no {RECORD}), so it is not replaced")


def _photos_in(out: Path) -> tuple[str, ...]:
    """Names of the photographs that an earlier record there tells of; they were made here."""
    try:
        return tuple(
            photo.file for photo in Visit.model_validate_json((out / PAYLOAD / RECORD).read_bytes()).photos
        )
    except (OSError, ValidationError):
        return ()
