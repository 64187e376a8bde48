"""Recordings are never lost: they are copied and compared, and a replaced folder's own files move along."""

from __future__ import annotations

import hashlib
import os
import shutil
from collections.abc import Collection
from pathlib import Path

from fieldnotes.errors import RecordingError
from fieldnotes.write.file_names import safe_names

BLOCK_BYTES = 1 << 20


def copy_recording(source: Path, target: Path, sha256: str) -> None:
    """Copies a source with its date. Raises RecordingError unless it still is the file that was heard."""
    digest = hashlib.sha256()
    try:
        reading = source.open("rb")
    except OSError as fault:
        raise RecordingError(f"{source} cannot be read: {fault.strerror}; the job was not written") from fault
    with reading, target.open("xb") as copy:
        while block := reading.read(BLOCK_BYTES):
            digest.update(block)
            copy.write(block)
        copy.flush()
        os.fsync(copy.fileno())
        times = os.fstat(reading.fileno())
    os.utime(target, ns=(times.st_atime_ns, times.st_mtime_ns))
    if digest.hexdigest() != sha256:
        raise RecordingError(f"{source} has changed since it was heard; run the command again")


def keep_what_is_not_ours(old: Path, new: Path, pages: Collection[str]) -> None:
    """Copies from the old job folder what neither is a page nor stands in the new one, byte for byte."""
    present = {path.name: path for path in new.iterdir()}
    leftover = [
        path
        for path in sorted(old.iterdir())
        if path.name not in pages and not any(_same_file(path, copy) for copy in present.values())
    ]
    taken = {*present, *(path.name for path in leftover)}
    for path in leftover:
        name = path.name if path.name not in present else safe_names([path.name], taken)[0]
        taken.add(name)
        if path.is_dir() and not path.is_symlink():
            shutil.copytree(path, new / name, symlinks=True)
        else:
            shutil.copy2(path, new / name, follow_symlinks=False)


def _same_file(one: Path, other: Path) -> bool:
    if not (one.is_file() and other.is_file()) or one.stat().st_size != other.stat().st_size:
        return False
    return _sha256(one) == _sha256(other)


def _sha256(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
