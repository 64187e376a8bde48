"""The copy of a job folder that leaves the shop: private words struck out of its papers, and silent in its sound."""

from __future__ import annotations

import shutil
import tempfile
import zipfile
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Literal

from fieldnotes.bag import PAYLOAD, close_bag
from fieldnotes.bag.tag_files import files_in, sha256_of
from fieldnotes.errors import JobFolderError
from fieldnotes.job_file import JobFile, photos_of
from fieldnotes.papers import explanations_of, papers
from fieldnotes.private.silencing import silenced_copy
from fieldnotes.private.striking import Struck, strike
from fieldnotes.records import StruckCount
from fieldnotes.settings import Document, Settings
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.write.bag_info import bag_info
from fieldnotes.write.contents import Contents
from fieldnotes.write.documents import documents
from fieldnotes.write.playback import is_sound

Recipient = Literal["claim", "customer"]
OLDEST = (1980, 1, 1, 0, 0, 0)  # a ZIP file knows no time before it (APPNOTE 4.4.6)


@dataclass(frozen=True, slots=True)
class Shared:
    """What was left out of a copy: private words by kind, and seconds of sound that were silenced."""

    path: Path
    struck: tuple[StruckCount, ...]
    silenced_s: float


def share(
    job: JobFile, recipient: Recipient, out: Path, settings: Settings, vocabulary: Vocabulary
) -> Shared:
    """Writes a ZIP file with a bag in it for those who get it.

    For a claim: the claim sheet, the struck record, check list and captions, the photographs, and the recordings
    with silence where private words were said. For the customer: the customer page and the photographs.

    Raises JobFolderError: the file exists, or cannot be written.
    """
    if out.exists():
        raise JobFolderError(f"{out} exists already; choose another name")
    struck = strike(job.visit, job.transcript, vocabulary, region=settings.shop.region)
    try:
        out.resolve().parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=out.resolve().parent, prefix=".share-") as place:
            folder, packed = Path(place) / "bag", Path(place) / "zip"
            payload = folder / PAYLOAD
            payload.mkdir(parents=True)
            if recipient == "claim":
                contents = _with_copies(job, struck, payload, _pages(settings, "claim"), vocabulary)
            else:
                contents = papers(job.visit, job.transcript, _pages(settings, "customer"), vocabulary).office
            contents = replace(contents, photos=photos_of(job))
            for name, content in contents.photos.items() if recipient == "claim" else ():
                (payload / name).write_bytes(content)
            for name, content in documents(contents, contents).items():
                if recipient == "claim" or name.startswith("customer."):
                    (payload / name).write_bytes(content)
            close_bag(folder, bag_info(contents))
            _pack(folder, packed, out.stem, contents.written)
            packed.rename(out)
    except OSError as fault:
        raise JobFolderError(
            f"{out} cannot be written: {fault.strerror or fault}; choose another place"
        ) from fault
    if recipient == "customer":
        return Shared(out, (), 0.0)
    return Shared(out, struck.visit.struck, sum(each.end_s - each.start_s for each in struck.silences))


def _pages(settings: Settings, document: Document) -> Settings:
    return settings.model_copy(update={"pages": settings.pages.model_copy(update={"documents": (document,)})})


def _with_copies(
    job: JobFile, struck: Struck, payload: Path, settings: Settings, vocabulary: Vocabulary
) -> Contents:
    """The struck visit with silenced copies of its recordings, which get names that tell nothing.

    Captions and notes that words came from are left out: what they say stands, struck, in the captions.
    """
    recordings = []
    for index, recording in enumerate(struck.visit.recording):
        if not is_sound(recording):
            recordings.append(recording.model_copy(update={"file": f"notes-{index + 1} (not included)"}))
            continue
        silences = [(each.start_s, each.end_s) for each in struck.silences if each.recording == index]
        source = job.folder / PAYLOAD / recording.file
        copy = silenced_copy(source, payload / f"recording-{index + 1}", silences)
        told = {"file": copy.name, "sha256": sha256_of(copy), "silenced_from": recording.sha256}
        recordings.append(recording.model_copy(update=told))
    visit = struck.visit.model_copy(update={"recording": tuple(recordings)})
    transcript = struck.transcript.model_copy(update={"recordings": tuple(recordings)})
    return Contents(visit, transcript, settings, explanations=explanations_of(vocabulary))


def _pack(folder: Path, packed: Path, top: str, written: datetime) -> None:
    """One ZIP file with everything below `top/`; the same content gives the same bytes."""
    date = max(written.timetuple()[:6], OLDEST)
    with zipfile.ZipFile(packed, "w") as archive:
        for name in files_in(folder):
            entry = zipfile.ZipInfo(f"{top}/{name}", date)
            entry.external_attr = 0o644 << 16
            small = Path(name).suffix not in {".jpg", ".ogg", ".flac", ".pdf"}  # these are packed already
            entry.compress_type = zipfile.ZIP_DEFLATED if small else zipfile.ZIP_STORED
            with (folder / name).open("rb") as source, archive.open(entry, "w", force_zip64=True) as target:
                shutil.copyfileobj(source, target, 1 << 20)
