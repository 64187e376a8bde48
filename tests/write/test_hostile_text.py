"""Whatever was said or typed comes out as text, never as markup, a script, a template or a formula."""

from __future__ import annotations

import csv
import io
import json
import re
import unicodedata
from xml.etree import ElementTree

import pytest
import webvtt
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldnotes.records import (
    Caution,
    Check,
    Code,
    Gap,
    Item,
    Job,
    Limit,
    Part,
    Reading,
    Sum,
    SumInput,
    Verdict,
    Visit,
)  # fmt: skip
from fieldnotes.transcript import Breath, Recording, Transcript, Word
from fieldnotes.write import Contents
from fieldnotes.write.checklist import checklist_csv
from fieldnotes.write.findings import findings_vtt
from fieldnotes.write.markdown_text import markdown_text
from fieldnotes.write.pages import timeline_svg
from fieldnotes.write.plain_text import plain_text
from fieldnotes.write.wording import one_line, sentence

from .page_reader import HtmlPage, MarkdownPage
from .visits import MADE_WITH, page_of, said

NASTY = st.sampled_from(
    [
        "<script>alert(1)</script>", "</script>", "</style>", "<!--", "-->", "]]>", "javascript:alert(1)",
        "{{ visit }}", "{% raw %}", "{# x", "'", '"', "&amp;", "&#60;", "=1+1", "@cmd", "|", "`", "``", "*",
        "**", "_", "[a](b)", "![a](b)", "<http://a.example>", "\\", "1. ", "- ", "#", "+ ", "~~~", "---",
        "===", "    code", "\n", "\r\n", "\n\n# x", "\n- y", "\t", "\x00", "\x85", "\u2028", "\ufffe",
        "\u202eabc", "😀", "שלום",
    ]
)  # fmt: skip
HARMLESS = "harmlesswords"  # stand nowhere else on the pages
# a letter keeps the text from being empty on the page; an empty text leaves its element out
TEXT = st.builds(
    lambda before, letter, after: "".join(before) + letter + "".join(after),
    st.lists(NASTY | st.text(max_size=5), max_size=4),
    st.sampled_from("ax"),
    st.lists(NASTY | st.text(max_size=5), max_size=4),
)


def visit_that_says(text: str) -> tuple[Visit, Transcript]:
    """A visit with that text in every place that takes free text."""
    line = Item(
        about=text, text=text, evidence=said(1.0, 2.0, text, 0.3), also=(said(3.0, 4.0, text),), note=text
    )
    limit = Limit(maximum=2, unit="ohm", source=text, status="looked up", note=text)
    worked_out = Sum(
        id=text, what=text, formula=text, value=1, unit="ohm", source=text, status="looked up", note=text,
        inputs=(SumInput(symbol=text, what=text, value=1, unit="ohm", evidence=said(7.0, 8.0, text)),),
    )  # fmt: skip
    visit = Visit(
        job=Job(number=text, date=text, technician=text, customer=text),
        complaints=(line,),
        checks=(Check(**dict(line), outcome="good"),),
        readings=(Reading(**dict(line), value=1, unit="ohm", limit=limit, sums=(worked_out,)),),
        codes=(Code(**dict(line), code=text),),
        parts=(Part(**dict(line), status="fitted", number=text),),
        verdict=Verdict(finding=None, text=text, evidence=said(5.0, 6.0, text)),
        gaps=(Gap(what=text, why=text, weight=1),),
        cautions=(Caution(about=text, text=text),),
        notices=(text,),
        recording=(Recording(file="a.flac", sha256="0" * 64, seconds=9.0),),
        made_with=MADE_WITH,
    )
    spoken = Breath(words=(Word(text=text, start=1.0, end=2.0),))
    return visit, Transcript(breaths=(spoken,), recordings=visit.recording)


def printed(text: str) -> str:
    """What of a text can be seen: no spaces, control characters or noncharacters."""
    return "".join(c for c in text if not c.isspace() and unicodedata.category(c) not in {"Cc", "Cn"})


@pytest.mark.parametrize("file", ["report.html", "claim.html"])
@settings(max_examples=50, deadline=None)
@given(text=TEXT)
def test_hostile_text_is_only_text_in_html(file: str, text: str) -> None:
    page = HtmlPage(page_of(file, *visit_that_says(text)))
    harmless = HtmlPage(page_of(file, *visit_that_says(HARMLESS)))

    assert page.tags == harmless.tags
    assert page.links == harmless.links
    for name in {"text", "quote", "transcript text"} & set(harmless.texts):
        assert {printed(t) for t in page.texts[name]} == {printed(text)}, name
        assert len(page.texts[name]) == len(harmless.texts[name])


@settings(max_examples=50, deadline=None)
@given(TEXT)
def test_hostile_text_is_only_text_in_plain_text(text: str) -> None:
    """Line by line it is the harmless page with other words in it; columns may be as wide as they like."""
    page = page_of("report.txt", *visit_that_says(text)).split("\n")
    harmless = page_of("report.txt", *visit_that_says(HARMLESS)).split("\n")

    assert len(page) == len(harmless)
    seen = [printed(line) for line in page]
    assert [line for line in seen if printed(text) in line]
    # the about of a caution is written with a capital, so it is left out
    told = [
        (one, plain) for one, plain in zip(seen, harmless, strict=True) if HARMLESS.capitalize() not in plain
    ]
    assert [one for one, _ in told] == [printed(plain.replace(HARMLESS, text)) for _, plain in told]


@given(st.lists(NASTY | st.text(max_size=6), max_size=6).map("".join))
def test_plain_text_is_one_line_and_keeps_its_signs(text: str) -> None:
    shown = str(plain_text(text))

    assert len(shown.splitlines()) <= 1
    assert printed(shown) == printed(text)


@settings(max_examples=50, deadline=None)
@given(TEXT)
def test_hostile_text_is_only_text_in_findings(text: str) -> None:
    """Source: W3C WebVTT, read by webvtt-py; RFC 8259, read by Python's json."""
    visit, _ = visit_that_says(text)
    track = findings_vtt(visit)
    told = [json.loads(cue.text) for cue in webvtt.from_string(track).captions]

    assert track.count("-->") == len(told) == 6
    assert not set("<>&") & set(track.replace("-->", ""))
    assert all(finding["text"] == finding["quote"] == text for finding in told)


@settings(max_examples=50, deadline=None)
@given(TEXT)
def test_hostile_text_is_only_text_in_the_timeline(text: str) -> None:
    """Well-formed XML, read by expat: one title a mark on the page, and alone none of the words at all."""
    visit, transcript = visit_that_says(text)
    drawings = re.findall("<svg.*?</svg>", page_of("report.html", visit, transcript), re.DOTALL)
    titles = [
        title.text or "" for drawing in drawings for title in ElementTree.fromstring(drawing).iter("title")
    ]

    assert len(titles) == 2 * len([*visit.checks, *visit.readings, *visit.parts])
    assert all(printed(title).startswith("00:01" + printed(sentence(text)) + ":") for title in titles)
    alone = timeline_svg(Contents(visit, transcript))
    assert alone == timeline_svg(Contents(*visit_that_says(HARMLESS)))
    assert ElementTree.fromstring(alone).tag == "{http://www.w3.org/2000/svg}svg"


@settings(max_examples=50, deadline=None)
@given(TEXT)
def test_hostile_text_is_only_text_in_markdown(text: str) -> None:
    page = MarkdownPage(page_of("report.md", *visit_that_says(text)))
    harmless = MarkdownPage(page_of("report.md", *visit_that_says(HARMLESS)))

    assert page.shape == harmless.shape
    # the about of a caution is written with a capital, so it is left out
    seen = [
        printed(p)
        for p, plain in zip(page.paragraphs, harmless.paragraphs, strict=True)
        if HARMLESS.capitalize() not in plain
    ]
    wanted = [
        printed(p.replace(HARMLESS, text)) for p in harmless.paragraphs if HARMLESS.capitalize() not in p
    ]
    assert seen == wanted


@given(st.lists(NASTY | st.text(max_size=6), max_size=6).map("".join))
def test_markdown_text_reads_back_as_it_was(text: str) -> None:
    page = MarkdownPage(str(markdown_text(text)))

    assert printed("".join(page.paragraphs)) == printed(text)
    assert {kind for kind, _ in page.shape} <= {"paragraph_open", "inline", "paragraph_close"}
    assert {kind for _, kinds in page.shape for kind in kinds} <= {"text"}


@pytest.mark.parametrize(
    "text",
    [
        "1. a", "12) a", "1.", "- a", "+ a", "* a", "-", "# a", "###### a", "---", "- - -", "-- -", "===",
        "=", "> a", "    code", "~~~", "```", "***", "[a]: b", "<div>", "&copy;", "&#60;", "a  \n# b", "\\",
        "-40 is cold", "1.5 a",
    ],
)  # fmt: skip
def test_markdown_opens_no_block_with(text: str) -> None:
    """Source: CommonMark 0.31.2, chapter 4 (leaf blocks) and 5 (container blocks)."""
    page = MarkdownPage(str(markdown_text(text)))

    assert [kind for kind, _ in page.shape] == ["paragraph_open", "inline", "paragraph_close"]
    assert printed(page.paragraphs[0]) == printed(text)


@given(TEXT | st.sampled_from(["=1", "'=1", "''", "-5.5", "+3", "-5.5x", "=", "@a", "\ta", "\ra", "＝1"]))
def test_checklist_reads_back_and_holds_no_formula(text: str) -> None:
    """Source: RFC 4180, read by Python's csv; OWASP, "CSV Injection", for the opening signs."""
    visit, _ = visit_that_says(text)
    rows = list(csv.DictReader(io.StringIO(checklist_csv(visit), newline="")))

    assert len(rows) == 1
    for column in ("about", "text", "quote", "note"):
        cell = rows[0][column]
        number = cell.lstrip("+-").replace(".", "", 1).isdecimal()
        assert number or cell.lstrip(" \xa0")[:1] not in set("=+-@\t\r\x00")
        assert one_line(text) in (cell, cell.removeprefix("'"))
