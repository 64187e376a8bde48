"""Text for fields that know no markup: one line a value, and runs of spaces stay, since they align."""

from __future__ import annotations

import re

from markupsafe import Markup

from fieldnotes.write.wording import one_line

_ALIGNED = re.compile(r"( +)")


def plain_text(text: str) -> Markup:
    """The text on one line, marked as ready for the page."""
    return Markup("".join(part if _ALIGNED.match(part) else one_line(part) for part in _ALIGNED.split(text)))
