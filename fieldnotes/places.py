"""Where files lie: the vocabulary and the templates, this user's settings, and what is kept from run to run.

Vocabulary and templates are in an installed wheel, or at the top of a checkout.
"""

from __future__ import annotations

from pathlib import Path

import platformdirs

PACKAGE = Path(__file__).resolve().parent
USER_CACHE = Path(platformdirs.user_cache_dir("fieldnotes", appauthor=False))  # need not exist


def data_folder(name: str) -> Path:
    """The folder `vocab` or `templates` that came with this program."""
    packed = PACKAGE / "_data" / name
    return packed if packed.is_dir() else PACKAGE.parent / name


def home_configuration() -> Path:
    """The folder of this user's settings; it need not exist."""
    return Path(platformdirs.user_config_dir("fieldnotes", appauthor=False))
