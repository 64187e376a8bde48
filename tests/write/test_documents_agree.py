"""Every line of the record stands once in each document that should have it, and no document says more."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

from fieldnotes.hear import hear
from fieldnotes.records import Item, Visit
from fieldnotes.settings import PageSettings, Settings
from fieldnotes.transcript import Transcript
from fieldnotes.visit import Order, visit_of
from fieldnotes.vocabulary.load import load_vocabulary
from fieldnotes.write import Contents
from fieldnotes.write.documents import documents
from fieldnotes.write.findings import ITEM_SECTIONS

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
from .generated_visits import transcript_of, visit_of_eighty
from .visits import FULL, FULL_TRANSCRIPT, NO_TRANSCRIPT, NOTHING_HEARD

AUDIO = Path(__file__).parents[2] / "demo_audio"
DEMOS = sorted(path.stem for path in AUDIO.glob("*.vtt"))
EVERYTHING = {*ITEM_SECTIONS, "verdict", "gaps", "cautions", "notices"}


class Document(NamedTuple):
    """What a document holds of the record; all else of EVERYTHING it must not hold."""

    holds: set[str]
    lines: Callable[[str], Lines]
    text: Callable[[str], str]
    repeats: bool = True  # quotes of the times at which the same was said again


DOCUMENTS = {
    "report.html": Document(EVERYTHING, html_lines, html_text),
    "report.md": Document(EVERYTHING, markdown_lines, markdown_text_read),
    "report.txt": Document(EVERYTHING, plain_lines, str),
    "claim.html": Document(EVERYTHING - {"advice", "cautions", "notices"}, html_lines, html_text),
    "checklist.csv": Document({"checks"}, table_lines, str, repeats=False),
    "findings.vtt": Document({*ITEM_SECTIONS, "verdict"}, track_lines, track_text, repeats=False),
}


@cache
def visit_called(name: str) -> tuple[Visit, Transcript]:
    if name in DEMOS:
        transcript = hear([AUDIO / f"{name}.vtt"])
        return visit_of(transcript, load_vocabulary(), Order(date="2026-03-02")), transcript
    eighty = visit_of_eighty()
    return {
        "full": (FULL, FULL_TRANSCRIPT),
        "eighty": (eighty, transcript_of(eighty)),
        "nothing heard": (NOTHING_HEARD, NO_TRANSCRIPT),
    }[name]


@cache
def documents_of(name: str) -> dict[str, str]:
    everything = Settings(pages=PageSettings(documents=("office", "customer", "claim")))
    made = documents(Contents(*visit_called(name), everything))
    return {file: content.decode() for file, content in made.items() if file in DOCUMENTS}


def expected_lines(visit: Visit, document: Document, name: str) -> Lines:
    """The record as this document should say it: gaps by their weight, on the claim sheet the desk's first."""
    lines = {
        section: [_line(item, document) for item in getattr(visit, section)] for section in ITEM_SECTIONS
    }
    said = visit.verdict
    quotes = (said.evidence.quote,) if said.evidence else ()
    lines["verdict"] = [Line(said.text, quotes)] if said.text or quotes else []
    gaps = sorted(visit.gaps, key=lambda gap: gap.weight)
    if name == "claim.html":
        gaps.sort(key=lambda gap: "warranty desk" not in gap.needed_by)
    lines["gaps"] = [Line(gap.what) for gap in gaps]
    lines["cautions"] = [Line(caution.text) for caution in visit.cautions]
    lines["notices"] = [Line(notice) for notice in visit.notices]
    return {section: found for section, found in lines.items() if found and section in document.holds}


def _line(item: Item, document: Document) -> Line:
    return Line(item.text, (item.evidence.quote, *(again.quote for again in item.also if document.repeats)))


def without_label(line: Line, wanted: Line) -> Line:
    """The line without a short label in front ("✓ good – ", "Drain hose: ") and the reason of a gap behind."""
    around = re.fullmatch(rf"(.{{0,200}}?(?: – |  |: ))?({re.escape(wanted.text)})( \(.*)?", line.text)
    return line._replace(text=around[2]) if around else line


@pytest.mark.parametrize("file", DOCUMENTS)
@pytest.mark.parametrize("name", ["full", "eighty", "nothing heard", *DEMOS])
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


@pytest.mark.parametrize("file", ["report.html", "report.md", "report.txt", "claim.html"])
@pytest.mark.parametrize("change", ["gone", "twice", "other words"])
def test_disagreement_would_be_seen(file: str, change: str) -> None:
    """The readers themselves: a page of another record never passes for this one."""
    visit, transcript = visit_called("full")
    first, second, *rest = visit.checks
    other = second.model_copy(update={"text": "Filter is clean."})
    checks = {
        "gone": (first, *rest),
        "twice": (first, second, second, *rest),
        "other words": (first, other, *rest),
    }
    changed = visit.model_copy(update={"checks": checks[change]})
    page = documents(Contents(changed, transcript))[file].decode()
    found = DOCUMENTS[file].lines(page)["checks"]

    wanted = [_line(check, DOCUMENTS[file]) for check in visit.checks]
    bare = [without_label(line, want) for line, want in zip(found, wanted, strict=False)]
    assert len(found) != len(wanted) or bare != wanted
