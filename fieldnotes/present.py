"""The present time, which a caller may fix."""

from __future__ import annotations

import os
from datetime import UTC, datetime

from fieldnotes.errors import SettingsError


def present_time() -> datetime:
    """Now, in UTC to the second; or what SOURCE_DATE_EPOCH says, so that the same input gives the same bytes.

    Raises SettingsError where the variable holds no number. Source: reproducible-builds.org, SOURCE_DATE_EPOCH.
    """
    fixed = os.environ.get("SOURCE_DATE_EPOCH")
    if not fixed:
        return datetime.now(UTC).replace(microsecond=0)
    try:
        return datetime.fromtimestamp(int(fixed), UTC)
    except (ValueError, OverflowError, OSError) as fault:
        raise SettingsError(
            f'SOURCE_DATE_EPOCH "{fixed}" is no number of seconds since 1970; mend or unset it'
        ) from fault
