"""Later versions of a job folder. Nothing of before is rewritten: a version adds a folder `data/version-N/` with its
own record and documents, and in `earlier/` the tag files of the version before, which thus can be checked for ever.
"""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Iterable, Mapping
from datetime import datetime
from pathlib import Path, PurePosixPath
from typing import Final, Literal

from pydantic import ConfigDict, Field

from fieldnotes.bag.statements import json_of, utc_text
from fieldnotes.bag.tag_files import PAYLOAD, TAG_FILES, TAG_MANIFEST, close_bag, files_in, sha256_of
from fieldnotes.errors import JobFolderError
from fieldnotes.staging import swap_in, write_through, written_beside
from fieldnotes.transcript import Plain

SCHEMA: Final = "fieldnotes-amendment/1"
AMENDMENT, EARLIER, RECORD = "amendment.json", "earlier", "visit.json"
_VERSION = re.compile(r"version-([2-9]|[1-9]\d+)")


class Amendment(Plain):
    """Why there is a later version. The hashes are those of the version before; `at` is UTC in ISO 8601."""

    model_config = ConfigDict(populate_by_name=True)

    schema_: Literal["fieldnotes-amendment/1"] = Field(default=SCHEMA, alias="schema")
    version: int
    reason: str
    by: str
    at: str
    record: str  # path of the record that this one amends
    record_sha256: str
    tag_manifest_sha256: str


def version_folder(version: int) -> str:
    """`data/version-2`; the first version is the payload itself."""
    return f"{PAYLOAD}/version-{version}" if version > 1 else PAYLOAD


def version_numbers(folders: Iterable[str]) -> list[int]:
    """The versions among the names of the payload's folders, the first first."""
    found = (_VERSION.fullmatch(name) for name in folders)
    return [1, *sorted(int(match[1]) for match in found if match)]


def record_paths(folder: Path) -> list[Path]:
    """The record of each version, the first first."""
    folders = (path.name for path in (folder / PAYLOAD).iterdir() if path.is_dir())
    return [folder / version_folder(version) / RECORD for version in version_numbers(folders)]


def amend(
    folder: Path, files: Mapping[str, bytes], *, reason: str, by: str, at: datetime, info: Mapping[str, str]
) -> Path:
    """Adds a version to a folder that was found whole, and returns the path of the version's folder.

    Args:
        folder: the bag; it is exchanged for the new one in one step, or stays as it was.
        files: the version's record and documents by name, the record among them.
        reason: why; `by`: who; `at`: when, with its time zone.
        info: for the new `bag-info.txt`.

    Raises:
        JobFolderError: the folder cannot be written, or nobody says why, or who.
    """
    if not reason.strip() or not by.strip():
        raise JobFolderError(f"{folder}: a later version needs a reason and the name of who answers for it")
    _check_names(files)
    folder = folder.resolve()
    with written_beside(folder) as staging:
        before = record_paths(folder)[-1]
        version = 1 + len(record_paths(folder))
        amendment = Amendment(
            version=version,
            reason=reason,
            by=by,
            at=utc_text(at),
            record=before.relative_to(folder).as_posix(),
            record_sha256=sha256_of(before),
            tag_manifest_sha256=sha256_of(folder / TAG_MANIFEST),
        )
        _link_all(folder, staging)
        target = staging / version_folder(version)
        (target / EARLIER).mkdir(parents=True)
        for name in TAG_FILES:
            (staging / name).rename(target / EARLIER / name)  # a new file takes the place of each
        for name, content in {**files, AMENDMENT: json_of(amendment)}.items():
            path = target / name
            path.parent.mkdir(parents=True, exist_ok=True)
            write_through(path, content)
        close_bag(staging, info)
        swap_in(staging, folder)
    return folder / version_folder(version)


def _check_names(files: Mapping[str, bytes]) -> None:
    """Files stay inside their version, and away from what is written there of itself."""
    if RECORD not in files:
        raise ValueError(f"a version needs its {RECORD}")
    for name in files:
        path = PurePosixPath(name)
        if path.is_absolute() or ".." in path.parts or path.parts[0] in (EARLIER, AMENDMENT):
            raise ValueError(f"{name} is no name for a file of a version")


def _link_all(folder: Path, staging: Path) -> None:
    """Every file once more, without copying its content where the file system can do that."""
    for name in files_in(folder):
        target = staging / name
        target.parent.mkdir(parents=True, exist_ok=True)
        try:
            os.link(folder / name, target, follow_symlinks=False)
        except OSError:
            shutil.copy2(folder / name, target, follow_symlinks=False)
            _write_out(target)


def _write_out(path: Path) -> None:
    """Waits until a copy is on the disk."""
    with path.open("rb") as file:
        os.fsync(file.fileno())
