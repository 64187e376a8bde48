"""A shop's logo inside its pages, so that nothing has to be fetched."""

from __future__ import annotations

import base64
from pathlib import Path

from fieldnotes.settings import LOGO_KINDS


def logo_uri(path: Path | None) -> str:
    """The picture as a `data:` address (RFC 2397); empty where there is none. In <img> an SVG runs no script."""
    if path is None:
        return ""
    content = base64.b64encode(path.read_bytes()).decode()
    return f"data:{LOGO_KINDS[path.suffix.lower()]};base64,{content}"
