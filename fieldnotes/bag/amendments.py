"""Later versions of a job folder. Nothing of before is rewritten: a version adds a folder `data/version-N/` with its
own record and documents, and in `earlier/` the tag files of the version before, which thus can be checked for ever.
"""

from __future__ import annotations

import json
import os
import re
import shutil
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Final, Literal

from fieldnotes.bag.tag_files import PAYLOAD, TAG_FILES, TAG_MANIFEST, close_bag, files_in, sha256_of
from fieldnotes.staging import swap_in, write_through, written_beside
from fieldnotes.transcript import Plain

SCHEMA: Final = "fieldnotes-amendment/1"
AMENDMENT, EARLIER, RECORD = "amendment.json", "earlier", "visit.json"
_VERSION = re.compile(r"version-([2-9]|[1-9]\d+)")


class Amendment(Plain):
    """Why there is a later version. The hashes are those of the version before; `at` is UTC in ISO 8601."""

    schema_name: Literal["fieldnotes-amendment/1"] = SCHEMA
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


def record_paths(folder: Path) -> list[Path]:
    """The record of each version, the first first."""
    payload = folder / PAYLOAD
    found = (_VERSION.fullmatch(path.name) for path in payload.iterdir() if path.is_dir())
    later = sorted(int(match[1]) for match in found if match)
    return [folder / version_folder(version) / RECORD for version in (1, *later)]


def amend(
    folder: Path, files: Mapping[str, bytes], *, reason: str, by: str, at: datetime, info: Mapping[str, str]
) -> Path:
    """Adds a version to a folder that was found whole, and returns the path of the version's folder.

    Args:
        folder: the bag; it is exchanged for the new one in one step, or stays as it was.
        files: the version's record and documents by name.
        reason: why; `by`: who; `at`: when.
        info: for the new `bag-info.txt`.

    Raises JobFolderError: the folder cannot be written.
    """
    folder = folder.resolve()
    before = record_paths(folder)[-1]
    version = len(record_paths(folder)) + 1
    amendment = Amendment(
        version=version,
        reason=reason,
        by=by,
        at=at.astimezone(UTC).replace(microsecond=0).isoformat().replace("+00:00", "Z"),
        record=before.relative_to(folder).as_posix(),
        record_sha256=sha256_of(before),
        tag_manifest_sha256=sha256_of(folder / TAG_MANIFEST),
    )
    with written_beside(folder) as staging:
        _link_all(folder, staging)
        target = staging / version_folder(version)
        (target / EARLIER).mkdir(parents=True)
        for name in TAG_FILES:
            (staging / name).rename(target / EARLIER / name)  # a new file takes the place of each
        for name, content in {**files, AMENDMENT: _json(amendment)}.items():
            path = target / name
            path.parent.mkdir(parents=True, exist_ok=True)
            write_through(path, content)
        close_bag(staging, info)
        swap_in(staging, folder)
    return folder / version_folder(version)


def _json(amendment: Amendment) -> bytes:
    return (json.dumps(amendment.model_dump(), ensure_ascii=False, indent=2) + "\n").encode()


def _link_all(folder: Path, staging: Path) -> None:
    """Every file once more, without copying its content where the file system can do that."""
    for name in files_in(folder):
        target = staging / name
        target.parent.mkdir(parents=True, exist_ok=True)
        try:
            os.link(folder / name, target, follow_symlinks=False)
        except OSError:
            shutil.copy2(folder / name, target, follow_symlinks=False)
