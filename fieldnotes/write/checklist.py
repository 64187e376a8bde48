"""`checklist.csv`: the check list as a table for the warranty desk (RFC 4180, UTF-8)."""

from __future__ import annotations

import csv
import io
import re

from fieldnotes.records import Check, Visit
from fieldnotes.write.playback import media_link
from fieldnotes.write.wording import clock, is_doubtful, one_line

COLUMNS = (
    "time", "start_s", "end_s", "about", "outcome", "certainty", "text", "quote", "confidence",
    "please_check", "also_at", "note", "recording",
)  # fmt: skip

# A spreadsheet takes such a cell for a formula (OWASP, "CSV Injection"; spaces in front, as some programs drop
# them). An apostrophe in front makes it text; apostrophes already there are counted in, so that taking one off
# again always gives the words back.
_FORMULA = re.compile(r"'*[ \u00a0\u3000]*[=+\-@＝＋－＠]")
_PLAIN_NUMBER = re.compile(r"[+-]?\d+(\.\d+)?")


def checklist_csv(visit: Visit) -> str:
    """One row a check, in spoken order, under a row of names.

    Every cell is quoted: many spreadsheets also part a row at semicolons, and what stands behind one in a quote
    could then begin with "=".
    """
    page = io.StringIO()
    table = csv.writer(page, lineterminator="\r\n", quoting=csv.QUOTE_ALL)
    table.writerow(COLUMNS)
    for check in visit.checks:
        table.writerow([safe_cell(cell) for cell in _row(check, visit)])
    return page.getvalue()


def safe_cell(text: str) -> str:
    """The text on one line without control characters (RFC 4180, TEXTDATA), as in the other documents; with an
    apostrophe in front where a spreadsheet would calculate with it."""
    line = one_line(text)
    return f"'{line}" if _FORMULA.match(line) and not _PLAIN_NUMBER.fullmatch(line) else line


def _row(check: Check, visit: Visit) -> list[str]:
    said = check.evidence
    return [
        "" if said.start is None else clock(said.start),
        "" if said.start is None else f"{said.start:.2f}",
        "" if said.end is None else f"{said.end:.2f}",
        check.about,
        check.outcome,
        check.certainty,
        check.text,
        said.quote,
        f"{said.confidence:.2f}",
        "yes" if is_doubtful(said) else "",
        " ".join(clock(again.start) for again in check.also if again.start is not None),
        check.note or "",
        media_link(visit.recording, said.start, said.end),
    ]
