"""Whatever was said or typed is only text on the printed pages: never Typst, never a failure."""

from __future__ import annotations

import unicodedata
from collections import Counter
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldnotes.write.glyphs import characters
from fieldnotes.write.legible import legible

from .pdf_reader import Pdf, contents_of, pdf_of, squeezed
from .test_hostile_text import HARMLESS, visit_that_says

FONTS = characters((Path(__file__).parents[2] / "templates" / "fonts",))
NASTY = st.sampled_from(
    [
        "#let x = 1", '#eval("1")', "#", "$", "$x$", "*", "_", "`", "```", "= ", "== x", "- ", "+ ", "/ a: b", "]",
        "[", "{", "}", '"', "'", "\\", "\\u{41}", "<label>", "@preview/a:1.0.0", "@ref", "//", "/* ", "*/", "~",
        "https://a.example", "---", "...", "#import", "#include", "\n", "\n\n", "\x00", "\x85", "\u2028", "\ufffe",
        "\u202eabc", "\u2069", "\ufeff", "\ue000", "\u0301", "\u200d", "😀", "\U0001f468\u200d\U0001f527",
        "\U0001f1ec\U0001f1e7", "中", "שלום", "مرحبا", "\u05b8", "a" * 60, "é" * 40,
    ]
)  # fmt: skip
MARKER = "zqx"  # tells each place that the text stands in
TEXT = st.builds(
    lambda before, letter, after: "".join(before) + letter + "".join(after),
    st.lists(NASTY | st.text(max_size=5), max_size=4),
    st.sampled_from("ax"),
    st.lists(NASTY | st.text(max_size=5), max_size=4),
)


@cache
def harmless() -> Pdf:
    return pdf_of("report.pdf", contents_of(*visit_that_says(MARKER + HARMLESS)))


@settings(max_examples=15, deadline=None)
@given(TEXT)
def test_hostile_text_is_only_text_on_paper(text: str) -> None:
    """It stands wherever harmless words would, and nothing else is there."""
    page = pdf_of("report.pdf", contents_of(*visit_that_says(MARKER + text)))
    notes = page.section("Notes on the recording")

    assert page.headings == harmless().headings
    assert page.text.lower().count(MARKER) == harmless().text.lower().count(MARKER)
    # letters from right to left come in the order of the paper, so they are only counted; and those with a mark may
    # be told twice (Typst 0.15)
    counted = set if any(unicodedata.category(c).startswith("M") for c in text) else Counter
    assert counted(notes) == counted(squeezed(legible(MARKER + text, FONTS)))
    with page.opened() as file:
        assert set(file.attachments) == {"visit.json", "checklist.csv"}


@pytest.mark.parametrize("name", ["report.pdf", "claim.pdf", "customer.pdf"])
@settings(max_examples=15, deadline=None)
@given(text=st.text(min_size=1, max_size=60))
def test_no_text_makes_a_document_fail(name: str, text: str) -> None:
    visit, transcript = visit_that_says(text)

    assert pdf_of(name, contents_of(visit, transcript, name=text, address=(text, text))).pages


@pytest.mark.parametrize(
    "text",
    [
        '#let x = "a"',
        "$ x^2 $",
        "*bold* _emph_ `raw`",
        "= Heading",
        '\\ ] } #eval("1")',
        "@preview/x:1.0.0",
        "<script>",
    ],
)
def test_signs_of_typst_come_out_as_they_were_said(text: str) -> None:
    page = pdf_of("report.pdf", contents_of(*visit_that_says(text)))

    assert page.section("Notes on the recording") == squeezed(text)
