"""SHA-256 of files of any size."""

from __future__ import annotations

import hashlib
from pathlib import Path


def sha256_of(*paths: Path) -> str:
    """In hex, of the files' bytes one after the other."""
    digest = hashlib.sha256()
    for path in paths:
        with path.open("rb") as file:
            while block := file.read(1 << 20):
                digest.update(block)
    return digest.hexdigest()
