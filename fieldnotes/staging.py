"""A folder that is there whole or not at all: written beside its place, then renamed."""

from __future__ import annotations

import errno
import os
import secrets
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from fieldnotes.errors import JobFolderError


@contextmanager
def written_beside(out: Path) -> Iterator[Path]:
    """A new folder beside `out`. Whatever goes wrong, it and the parents made for it are gone afterwards."""
    made = [folder for folder in out.parents if not folder.exists()]
    staging = free_name(out, "part")
    try:
        staging.mkdir(parents=True)
        yield staging
    except BaseException as fault:
        shutil.rmtree(staging, ignore_errors=True)
        for folder in made:
            if folder.exists() and not any(folder.iterdir()):
                folder.rmdir()
        if isinstance(fault, OSError):
            raise JobFolderError(sentence(out, fault)) from fault
        raise


def swap_in(staging: Path, out: Path) -> None:
    """`staging` takes the place of `out`. The old folder is set aside, and removed only when all is well."""
    if not out.exists():
        staging.rename(out)
        return
    old = free_name(out, "old")
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


def write_through(path: Path, content: bytes) -> None:
    """Writes and waits for the disk, so that a power cut after the rename finds whole files."""
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def free_name(out: Path, ending: str) -> Path:
    """A hidden name beside `out` that nothing has."""
    return out.with_name(f".{out.name[:40]}.{secrets.token_hex(4)}.{ending}")


def sentence(out: Path, fault: OSError) -> str:
    """Why a folder cannot be written, and what to do."""
    match fault.errno:
        case errno.ENOSPC | errno.EDQUOT:
            return f"{out} cannot be written: the disk is full; make room, or choose a folder on another disk"
        case errno.EACCES | errno.EPERM | errno.EROFS:
            return f"{out} cannot be written: not allowed there; choose a folder of your own"
        case _:
            return f"{out} cannot be written: {fault.strerror or fault}; choose another folder"
