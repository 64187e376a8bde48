"""report.pdf says all that the record says, once, in the agreed order and on good paper."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from itertools import takewhile

import pytest

from fieldnotes.errors import TemplateError
from fieldnotes.records import Doubt, Item, Reading, Visit
from fieldnotes.transcript import Transcript
from fieldnotes.write.pdf import render_pdf

from .generated_visits import transcript_of, visit_of_eighty
from .pdf_reader import Pdf, attached, contents_of, pdf_of, squeezed
from .test_documents_agree import tokens_of
from .test_report_pages import ORDER, evidence_of, texts_of
from .visits import (
    FULL,
    FULL_TRANSCRIPT,
    NO_TRANSCRIPT,
    NOTHING_HEARD,
    breath,
    said,
)  # fmt: skip


@cache
def full() -> Pdf:
    return pdf_of("report.pdf")


def report(visit: Visit, transcript: Transcript = FULL_TRANSCRIPT) -> Pdf:
    return pdf_of("report.pdf", contents_of(visit, transcript))


@pytest.mark.parametrize(
    ("heading", "texts"),
    [
        ("Safety and state of the unit", [item.text for item in FULL.safety]),
        ("Complaint", [item.text for item in FULL.complaints]),
        ("Cause", [item.text for item in FULL.causes]),
        ("Work done", [item.text for item in FULL.work]),
        ("Parts", [item.text for item in FULL.parts]),
        ("Verdict", [FULL.verdict.text]),
        ("Check list", [item.text for item in FULL.checks]),
        ("Readings", [item.text for item in FULL.readings]),
        ("Cycles and service tests", [item.text for item in FULL.trials]),
        ("Fault codes", [item.text for item in FULL.codes]),
        ("Advice to the customer", [item.text for item in FULL.advice]),
        ("Follow-up", [item.text for item in FULL.follow_ups]),
        (
            "What is missing",
            ["Date of purchase", "Water inlet valve", "Time of leaving"],
        ),  # the heaviest first
        ("Cautions", [caution.text for caution in FULL.cautions]),
        ("Notes on the recording", list(FULL.notices)),
        (
            "Transcript",
            [" ".join(word.text for word in spoken.words) for spoken in FULL_TRANSCRIPT.breaths],
        ),
        ("How this report was made", [recording.sha256 for recording in FULL.recording]),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_section_says_its_lines_in_order(heading: str, texts: list[str]) -> None:
    section = full().section(heading)
    places = [section.find(squeezed(text)) for text in texts]

    assert -1 not in places
    assert places == sorted(places)


def test_every_line_and_quote_stands_once() -> None:
    texts = [squeezed(text) for text in texts_of(FULL)]
    quotes = Counter(squeezed(f"“{evidence.quote}”") for evidence in evidence_of(FULL))
    whole = full().text

    # one line may hold another: "Water inlet valve was not tested." and "Water inlet valve"
    assert {text: whole.count(text) for text in texts} == {
        text: sum(other.count(text) for other in texts) for text in texts
    }
    assert {quote: whole.count(quote) for quote in quotes} == dict(quotes)


def test_headings_are_those_of_the_web_page_and_make_the_bookmarks() -> None:
    assert [heading for heading in full().headings if heading != "Timeline"] == ORDER


@pytest.mark.parametrize(
    "words",
    [
        "✓ good Drain hose is not kinked", "✗ fault Filter", "? unclear possibly so Impeller", "– not tested",
        "✓ passed Drain test: Service test", "14.5 Ω ✓ within limit", "101.5 V ✗ outside limit, 6.5 V below",
        "51 °F ✗ outside common practice, 69 °F below", "43.9 µF no limit known",
        "limit 10 to 20 Ω; source: plate of the pump; stated by the technician",
        "limit 108 to 132 V (at the outlet, under load); source: invented utility handbook, table 3; from memory",
        "limit at least 120 °F; common practice, no source",
        "Deviation from the mark: −2.444%, ✓ within limit (−6 to 6%) 100 % × (C − C₀) / C₀; with C = 43.9 µF",
        "C₀ = 45 µF (marked capacitance) 10:12 “marked forty five”",
        "common practice, no source. against the can's own mark", "T = 33.5 °C (taken from the handbook)",
        "none stored No codes", "F21 Code: F21 was stored.", "part no. 5512", "! needed × 2 Hose clamps",
        "Note: said to be good at 02:10, later in doubt", "also 06:42 “pump's fine like I said”",
        "“check valve seems to sit right” ⚠ please check: heard unclearly 02:11",
        "taken from the parts that were named, never said", "Purchased not heard", "Ended not given",
        "1 must have Date of purchase (not heard)", "2 should have Water inlet valve (said not done)",
        "Needed by: office, customer.", "likely Label paper", "✗ Fault found Blocked filter", "Anti-tip device: Unit",
        "00:04 Okay, she says", "10:12 Down here the air gap is clear.", "kitchen side.flac, 10:00, SHA-256",
        "fieldnotes 0.1.0; vocabulary 1; a speech model",
    ],
)  # fmt: skip
def test_report_shows(words: str) -> None:
    assert squeezed(words) in full().text


def test_number_that_cannot_be_is_shown_with_the_one_that_fits() -> None:
    one = Reading(
        about="freezer", text="Minus eighty.", evidence=said(1.0, 2.0, "minus eighty"), value=-18, unit="degC",
        doubt=Doubt(heard=-80, fits=-18),
    )  # fmt: skip
    words = squeezed("⚠ please check: heard −80 °C, which cannot be; −18 °C would fit")

    assert words in report(FULL.model_copy(update={"readings": (one,)})).text
    assert "wouldfit" not in full().text


def test_silence_is_said_plainly_and_no_verdict_made_up() -> None:
    page = report(NOTHING_HEARD, NO_TRANSCRIPT)

    assert "Nothingwasheard." in page.text
    assert page.section("Verdict") == "Notstated"
    assert "Transcript" not in page.headings
    assert "silence.flac:nospeechfound" in page.text


def test_words_without_a_time_show_none() -> None:
    complaint = Item(about="noise", text="A noise.", evidence=said(None, None, "there is a noise"))
    visit = Visit(complaints=(complaint,), made_with=FULL.made_with)
    page = report(visit, Transcript(breaths=(breath(None, "there is a noise"),), recordings=()))

    assert "thereisanoise" in page.section("Transcript")
    assert not re.search(r"\d\d:\d\d", page.text)


@cache
def eighty() -> Pdf:
    return report(visit_of_eighty(), transcript_of(visit_of_eighty()))


def test_eighty_items_all_stand_once() -> None:
    texts = Counter(texts_of(visit_of_eighty()))

    assert {text: eighty().text.count(squeezed(text)) for text in texts} == dict(texts)


@pytest.mark.parametrize(
    ("name", "left_out"),
    [("report.pdf", set()), ("claim.pdf", {"advice", "cautions", "notices"})],
    ids=["report", "claim"],
)
def test_words_of_a_line_stand_once_where_they_should_and_nowhere_else(name: str, left_out: set[str]) -> None:
    visit = visit_of_eighty()
    pages = pdf_of(name, contents_of(visit, transcript_of(visit))).pages
    above = takewhile(lambda text: not text.startswith("Transcript\n"), pages)
    wanted = {
        token: 1
        for section, tokens in tokens_of(visit).items()
        if section not in left_out
        for token in tokens
    }

    assert Counter(re.findall(r"zz\d+[tq]?", "\n".join(above))) == Counter(wanted)


def test_unknown_document_is_refused() -> None:
    with pytest.raises(TemplateError, match=r"bill\.pdf: there is no template bill\.typ"):
        render_pdf("bill.pdf", contents_of(), attached(FULL))
