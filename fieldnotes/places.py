"""Where the vocabulary and the templates lie (in an installed wheel, or at the top of a checkout), and the settings."""

from __future__ import annotations

from pathlib import Path

import platformdirs

PACKAGE = Path(__file__).resolve().parent


def data_folder(name: str) -> Path:
    """The folder `vocab` or `templates` that came with this program."""
    packed = PACKAGE / "_data" / name
    return packed if packed.is_dir() else PACKAGE.parent / name


def home_configuration() -> Path:
    """The folder of this user's settings; it need not exist."""
    return Path(platformdirs.user_config_dir("fieldnotes", appauthor=False))
