"""Text that must come out as text in CommonMark, whatever signs it holds (CommonMark 0.31.2, 2.4 and 4)."""

from __future__ import annotations

import re

from markupsafe import Markup

from fieldnotes.write.wording import one_line

_ALWAYS = re.compile(r"([\\`*_\[\]<>|~]|&(?=[#\w]))")
# what opens a block only at the start of a line: a bullet, a heading, a rule, a heading's underline
_OPENS_BLOCK = re.compile(r"[-+](?=\s|$)|#{1,6}(?=\s|$)|=+\s*$|-(?=[\s-]*$)")
_NUMBERED = re.compile(r"(\d{1,9})([.)])(?=\s|$)")


def markdown_text(text: str) -> Markup:
    """The text with every sign escaped that CommonMark would act on, marked as ready for the page."""
    escaped = _ALWAYS.sub(r"\\\1", one_line(text).strip())
    if _OPENS_BLOCK.match(escaped):
        escaped = "\\" + escaped
    return Markup(_NUMBERED.sub(r"\1\\\2", escaped, count=1) if _NUMBERED.match(escaped) else escaped)
