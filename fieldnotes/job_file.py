"""What a job folder holds, read back, and a later version of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from pydantic import ValidationError

from fieldnotes.bag import PAYLOAD, amend, record_paths, verify
from fieldnotes.errors import JobFolderError
from fieldnotes.papers import papers
from fieldnotes.present import present_time
from fieldnotes.records import Visit
from fieldnotes.settings import Settings
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.write.bag_info import bag_info
from fieldnotes.write.contents import RECORD, TRANSCRIPT
from fieldnotes.write.documents import documents


@dataclass(frozen=True, slots=True)
class JobFile:
    """The present version of a job folder that was found whole."""

    folder: Path
    visit: Visit
    transcript: Transcript


@dataclass(frozen=True, slots=True)
class Why:
    """The reason for a later version, and who answers for it."""

    reason: str
    by: str


def open_job(folder: Path) -> JobFile:
    """Raises JobFolderError: it is no job folder, not whole, or its record cannot be read."""
    if problems := verify(folder).problems:
        raise JobFolderError(f"{folder} is not as it was: {problems[0]}; see: fieldnotes verify {folder}")
    transcript = folder / PAYLOAD / TRANSCRIPT
    try:
        heard = Transcript.model_validate_json(transcript.read_bytes())
    except (OSError, ValidationError) as fault:
        raise JobFolderError(f"{transcript} cannot be read; write the job folder anew") from fault
    return JobFile(folder, _record(record_paths(folder)[-1]), heard)


def amend_job(job: JobFile, record: Path, why: Why, settings: Settings, vocabulary: Vocabulary) -> Path:
    """Adds a version with a corrected record and the documents made from it; returns its first document.

    Raises JobFolderError: the corrected record cannot be read, changes nothing, or is of other recordings.
    """
    corrected = _record(record)
    if corrected == job.visit:
        raise JobFolderError(f"{record} says the same as the present version, so nothing was added")
    if corrected.recording != job.visit.recording:
        raise JobFolderError(f'{record} is of other recordings; leave its "recording" as it was')
    both = papers(corrected, job.transcript, settings, vocabulary, photos=photos_of(job))
    made = documents(replace(both.office, beside="../"), replace(both.claim, beside="../"))
    del made[TRANSCRIPT]  # what was heard stays what it was
    folder = amend(
        job.folder, made, reason=why.reason, by=why.by, at=present_time(), info=bag_info(both.office)
    )
    first = next((name for name in made if name.endswith(".html")), RECORD)
    return folder / first


def photos_of(job: JobFile) -> dict[str, bytes]:
    """The photographs by their name in the folder."""
    return {photo.file: (job.folder / PAYLOAD / photo.file).read_bytes() for photo in job.visit.photos}


def _record(path: Path) -> Visit:
    try:
        return Visit.model_validate_json(path.read_bytes())
    except OSError as fault:
        raise JobFolderError(f"{path} cannot be read: {fault.strerror}; check the path") from fault
    except ValidationError as fault:
        first = fault.errors()[0]
        where = ".".join(str(part) for part in first["loc"])
        raise JobFolderError(
            f"{path} is no visit record: {where}: {first['msg']}; see: fieldnotes schema"
        ) from fault
