"""checklist.csv: the whole table as it must stand, and what counts as a formula."""

from __future__ import annotations

import csv
import io
import re

import pytest

from fieldnotes.write.checklist import checklist_csv, safe_cell

from .visits import FULL


def test_checklist_has_one_row_a_check() -> None:
    rows = list(csv.DictReader(io.StringIO(checklist_csv(FULL), newline="")))

    assert [(row["time"], row["about"], row["outcome"]) for row in rows] == [
        ("01:01", "drain hose", "good"),
        ("01:20", "filter", "fault"),
        ("02:00", "drain pump", "good"),
        ("02:11", "check valve", "good"),
        ("02:20", "impeller", "unclear"),
        ("02:30", "water inlet valve", "not tested"),
        ("10:12", "air gap", "good"),
    ]
    assert rows[3] == {
        "time": "02:11", "start_s": "131.00", "end_s": "134.00", "about": "check valve", "outcome": "good",
        "certainty": "likely", "text": "Check valve seems to sit right.",
        "quote": "check valve seems to sit right",
        "confidence": "0.52", "please_check": "yes", "also_at": "", "note": "",
        "recording": "kitchen%20side.flac#t=131,134",
    }  # fmt: skip
    assert rows[2]["also_at"] == "06:42"


def test_every_row_ends_as_rfc_4180_asks() -> None:
    text = checklist_csv(FULL)

    assert text.endswith("\r\n")
    assert text.count("\r\n") == text.count("\n") == 1 + len(FULL.checks)


def test_every_cell_is_quoted() -> None:
    """So that a program which also parts rows at semicolons finds no cell that begins with "=" (RFC 4180, 2.5)."""
    check = FULL.checks[0].model_copy(update={"text": "Hose is fine;=1+1"})
    text = checklist_csv(FULL.model_copy(update={"checks": (check,)}))

    assert all(re.fullmatch(r'"[^"]*"(,"[^"]*")*', row) for row in text.splitlines())
    assert ',"Hose is fine;=1+1",' in text


@pytest.mark.parametrize(
    ("text", "cell"),
    [
        ("=SUM(A1)", "'=SUM(A1)"), ("+1 800", "'+1 800"), ("-2.5", "-2.5"), ("+7", "+7"), ("-", "'-"),
        ("@x", "'@x"),
        ("\tx", " x"), ("\t=x", "' =x"), ("\r\n=x", "' =x"), ("\x00=x", "'=x"), ("  =x", "' =x"), ("\xa0=x", "'\xa0=x"),
        ("'=x", "''=x"), ("'tis", "'tis"), ("a=b", "a=b"), ("", ""), ("-1-1", "'-1-1"), ("-2\n", "'-2 "),
    ],
)  # fmt: skip
def test_cells_that_would_calculate_get_an_apostrophe(text: str, cell: str) -> None:
    assert safe_cell(text) == cell
