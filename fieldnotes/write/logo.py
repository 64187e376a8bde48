"""A shop's logo inside a page, so that the page stays one file."""

from __future__ import annotations

import base64
from pathlib import Path

from fieldnotes.errors import SettingsError
from fieldnotes.settings import LOGO_KINDS


def logo_link(logo: Path | None) -> str:
    """The picture as a data URL (RFC 2397); empty without a logo. Raises SettingsError where it cannot be read."""
    if logo is None:
        return ""
    try:
        picture = logo.read_bytes()
    except OSError as fault:
        raise SettingsError(f"shop.logo: {logo} cannot be read: {fault.strerror}; check the path") from fault
    return f"data:{LOGO_KINDS[logo.suffix.lower()]};base64,{base64.b64encode(picture).decode('ascii')}"
