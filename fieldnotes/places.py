"""Where the vocabulary and the templates lie: inside an installed wheel, or at the top of a checkout."""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent


def data_folder(name: str) -> Path:
    """The folder `vocab` or `templates` that came with this program."""
    packed = PACKAGE / "_data" / name
    return packed if packed.is_dir() else PACKAGE.parent / name
