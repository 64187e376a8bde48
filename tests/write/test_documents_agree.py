"""Every line of the record stands once in each document that should have it, and no document says more."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from typing import NamedTuple

import pytest

from fieldnotes.records import Item, Visit
from fieldnotes.write.findings import ITEM_SECTIONS

from .documents_made import CHANGES, NAMES, documents_of, documents_of_changed, visit_called
from .documents_read import (
    Line,
    Lines,
    html_lines,
    html_text,
    markdown_lines,
    markdown_text_read,
    plain_lines,
    table_lines,
    track_lines,
    track_text,
)  # fmt: skip
from .pdf_lines import pdf_lines, pdf_text
from .visits import FULL

EVERYTHING = {*ITEM_SECTIONS, "verdict", "gaps", "cautions", "notices"}
CLAIMED = EVERYTHING - {"advice", "cautions", "notices"}


class Document(NamedTuple):
    """What a document holds of the record; all else of EVERYTHING it must not hold."""

    holds: set[str]
    lines: Callable[[bytes], Lines]
    text: Callable[[bytes], str]
    repeats: bool = True  # quotes of the times at which the same was said again


DOCUMENTS = {
    "report.html": Document(EVERYTHING, html_lines, html_text),
    "report.md": Document(EVERYTHING, markdown_lines, markdown_text_read),
    "report.txt": Document(EVERYTHING, plain_lines, bytes.decode),
    "report.pdf": Document(EVERYTHING, pdf_lines, pdf_text),
    "claim.html": Document(CLAIMED, html_lines, html_text),
    "claim.pdf": Document(CLAIMED, pdf_lines, pdf_text),
    "checklist.csv": Document({"checks"}, table_lines, bytes.decode, repeats=False),
    "findings.vtt": Document({*ITEM_SECTIONS, "verdict"}, track_lines, track_text, repeats=False),
}


def expected_lines(visit: Visit, document: Document, name: str) -> Lines:
    """The record as this document should say it: gaps by their weight, on the claim sheet the desk's first."""
    lines = {
        section: [_line(item, document) for item in getattr(visit, section)] for section in ITEM_SECTIONS
    }
    said = visit.verdict
    quotes = (said.evidence.quote,) if said.evidence else ()
    lines["verdict"] = [Line(said.text, quotes)] if said.text or quotes else []
    gaps = sorted(visit.gaps, key=lambda gap: gap.weight)
    if name.startswith("claim."):
        gaps.sort(key=lambda gap: "warranty desk" not in gap.needed_by)
    lines["gaps"] = [Line(gap.what) for gap in gaps]
    lines["cautions"] = [Line(caution.text) for caution in visit.cautions]
    lines["notices"] = [Line(notice) for notice in visit.notices]
    return {section: found for section, found in lines.items() if found and section in document.holds}


def _line(item: Item, document: Document) -> Line:
    return Line(item.text, (item.evidence.quote, *(again.quote for again in item.also if document.repeats)))


def without_label(line: Line, wanted: Line) -> Line:
    """The line without a label in front ("✓ good – ", "Drain hose: ") and the reason of a gap behind."""
    around = re.fullmatch(rf"(.{{0,300}}?(?: – |  |: ))?({re.escape(wanted.text)})( \(.*)?", line.text)
    return line._replace(text=around[2]) if around else line


@pytest.mark.parametrize("file", DOCUMENTS)
@pytest.mark.parametrize("name", NAMES)
def test_document_says_every_line_in_its_order_and_no_other(name: str, file: str) -> None:
    document = DOCUMENTS[file]
    wanted = expected_lines(visit_called(name)[0], document, file)
    found = {section: lines for section, lines in document.lines(documents_of(name)[file]).items() if lines}

    assert set(found) == set(wanted)
    for section, lines in wanted.items():
        assert len(found[section]) == len(lines), section
        bare = [without_label(line, want) for line, want in zip(found[section], lines, strict=True)]
        assert bare == lines, section


def tokens_of(visit: Visit) -> dict[str, set[str]]:
    """For each section of the generated visit the words that stand nowhere else: zz000t, zz000q, ..."""

    def found(part: object) -> set[str]:
        return set(re.findall(r"zz\d+[tq]?", repr(part)))

    tokens = {section: found(getattr(visit, section)) for section in EVERYTHING}
    assert sum(map(len, tokens.values())) == len(set().union(*tokens.values()))
    return tokens


@pytest.mark.parametrize("file", DOCUMENTS)
def test_words_of_a_line_stand_once_where_they_should_and_nowhere_else(file: str) -> None:
    document = DOCUMENTS[file]
    times = Counter(re.findall(r"zz\d+[tq]?", document.text(documents_of("eighty")[file])))
    tokens = tokens_of(visit_called("eighty")[0])
    wanted = {token: 1 for section, named in tokens.items() if section in document.holds for token in named}

    assert times == Counter(wanted)


@pytest.mark.parametrize(
    "file", ["report.html", "report.md", "report.txt", "report.pdf", "claim.html", "claim.pdf"]
)
@pytest.mark.parametrize("change", CHANGES)
def test_disagreement_would_be_seen(file: str, change: str) -> None:
    """The readers themselves: a page of another record never passes for this one."""
    found = DOCUMENTS[file].lines(documents_of_changed("checks", change)[file])["checks"]
    wanted = [_line(check, DOCUMENTS[file]) for check in FULL.checks]
    bare = [without_label(line, want) for line, want in zip(found, wanted, strict=False)]

    assert len(found) != len(wanted) or bare != wanted
