"""Sealing a job folder: only what was found whole is vouched for."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from fieldnotes.bag.checking import verify
from fieldnotes.bag.keys import read_key
from fieldnotes.bag.seals import add_seal, signer_name
from fieldnotes.errors import JobFolderError


def seal(folder: Path, key: Path, signer: str, at: datetime) -> Path:
    """Adds a seal to a folder that is whole, and returns the path of its statement.

    Args:
        folder: the job folder.
        key: file of the private key.
        signer: the name of who vouches for the folder.
        at: when, with its time zone.

    Raises:
        KeyFileError: no usable key, or no name of a signer.
        JobFolderError: no job folder, or one that is not whole or cannot be written.
    """
    signer = signer_name(signer)
    read_key(key)  # asked for first: it is quick, the check of the folder may not be
    if problems := verify(folder).problems:
        raise JobFolderError(
            f"{folder} is not whole, so it is not sealed: {problems[0]}; see: fieldnotes verify {folder}"
        )
    try:
        return add_seal(folder, key, signer, at)
    except OSError as fault:
        raise JobFolderError(
            f"{folder} cannot be sealed: {fault.strerror}; check who may write there"
        ) from fault
