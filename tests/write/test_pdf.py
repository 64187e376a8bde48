"""report.pdf says all that the record says, once, in the agreed order and on good paper."""

from __future__ import annotations

import re
from collections import Counter
from datetime import timedelta
from functools import cache
from itertools import takewhile
from pathlib import Path

import pytest

from fieldnotes.errors import SettingsError, TemplateError
from fieldnotes.records import Doubt, Item, Reading, Visit
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.write import Contents
from fieldnotes.write.pdf import render_pdf

from .generated_visits import transcript_of, visit_of_eighty
from .pdf_reader import Pdf, attached, contents_of, pdf_of, squeezed
from .test_documents_agree import tokens_of
from .test_report_pages import ORDER, evidence_of, texts_of
from .visits import (
    FULL,
    FULL_TRANSCRIPT,
    LONG_TRANSCRIPT,
    LONG_WORD,
    LONG_WORDS,
    NO_TRANSCRIPT,
    NOTHING_HEARD,
    breath,
    said,
)  # fmt: skip

PIXEL = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="20" height="20">'
    b'<rect width="20" height="20" fill="#123456"/>'
    b"</svg>"
)


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


def test_footer_counts_the_pages_and_names_the_job() -> None:
    footers = full().footers

    assert [re.sub(r"\s+", " ", footer) for footer in footers] == [
        f"Visit report · Job no. J-2041 page {n} of {len(footers)}" for n in range(1, len(footers) + 1)
    ]


@pytest.mark.parametrize(
    ("paper", "size"), [("letter", (612, 792)), ("A4", (595, 842))], ids=["letter", "A4"]
)
def test_paper_is_the_shops(paper: str, size: tuple[int, int]) -> None:
    """Source: ISO 216, 210 mm by 297 mm; ANSI/ASME Y14.1, 8.5 in by 11 in; in points of 1/72 in."""
    assert set(pdf_of("report.pdf", contents_of(paper=paper)).sizes) == {size}


def test_document_says_what_it_is_whose_and_of_when() -> None:
    page = pdf_of(
        "report.pdf",
        contents_of(
            name="Fell & Sons", address=("1 Quay Row", "Port Anders"), telephone="555 0100", licence="L-7"
        ),
    )
    with page.opened() as file:
        said_of_it = {key: str(value) for key, value in dict(file.docinfo.items()).items()}

    assert said_of_it["/Title"] == "Visit report: J-2041, dishwasher Brackwell BKD614S, 2026-03-02"
    assert said_of_it["/Author"] == "Fell & Sons"
    assert said_of_it["/Keywords"] == "J-2041, dishwasher, Brackwell, BKD614S, K40718822"
    assert said_of_it["/CreationDate"] == said_of_it["/ModDate"] == "D:20260302120000Z"
    assert "Fell&Sons1QuayRow·PortAnders5550100LicenceL-7" in page.text


def test_same_visit_gives_the_same_bytes_and_another_time_others() -> None:
    contents = contents_of()
    later = Contents(
        contents.visit, contents.transcript, contents.settings, written=contents.written + timedelta(days=1)
    )

    assert pdf_of("report.pdf", contents).content == full().content
    assert pdf_of("report.pdf", later).content != full().content


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


def test_each_page_of_a_long_table_has_its_head() -> None:
    checks, pages = visit_of_eighty().checks, [squeezed(text) for text in eighty().pages]
    first, last = (
        next(n for n, text in enumerate(pages) if squeezed(check.text) in text)
        for check in (checks[0], checks[-1])
    )

    assert last > first
    assert eighty().section("Check list").count("OutcomeWhatwascheckedTime") == last - first + 1


def test_line_and_its_quote_stay_on_one_page() -> None:
    pages = [squeezed(text) for text in eighty().pages]

    for check in visit_of_eighty().checks:
        both = squeezed(check.text), squeezed(f"“{check.evidence.quote}”")
        assert any(all(part in text for part in both) for text in pages), check.text


@pytest.mark.parametrize("name", ["report.pdf", "claim.pdf", "customer.pdf"])
def test_long_words_are_broken_and_stay_on_the_paper(name: str) -> None:
    page = pdf_of(name, contents_of(LONG_WORDS, LONG_TRANSCRIPT))
    margin = 17 / 25.4 * 72

    assert squeezed(LONG_WORD) in page.text
    for (width, _), letters in zip(page.sizes, page.letters, strict=True):
        assert min(letter.x0 for letter in letters) > margin - 1
        assert max(letter.x1 for letter in letters if not letter.get_text().isspace()) < width - margin + 1


def test_line_longer_than_a_page_runs_on() -> None:
    words = " ".join(f"word{n}" for n in range(3000))
    time = "00:01"  # stands on the first page, beside the beginning
    item = Item(about="noise", text=words, evidence=said(1.0, 2.0, "noise"))
    page = report(Visit(complaints=(item,), made_with=FULL.made_with))

    assert squeezed(words) in page.section("Complaint").replace(time, "")
    assert len(page.pages) > 3
    assert all(letter.y0 > 0 for letters in page.letters for letter in letters)


def test_names_from_right_to_left_keep_their_letters_and_their_place() -> None:
    """The letters of a name stand from right to left, the words around it from left to right."""
    job = FULL.job.model_copy(update={"customer": "רחל כהן", "technician": "ليلى"})
    page = report(FULL.model_copy(update={"job": job}))
    hebrew = [each for letters in page.letters for each in letters if "\u05d0" <= each.get_text() <= "\u05ea"]
    by_place = sorted(hebrew, key=lambda letter: -letter.x0)

    assert "".join(letter.get_text() for letter in by_place) == "רחלכהן"
    assert "Ended" in page.text
    assert "[U+" not in page.text


def test_sign_that_no_font_has_stands_as_its_code() -> None:
    notices = ("中 is not here 😀", "\U0001f468\u200d\U0001f527 ok")
    page = report(FULL.model_copy(update={"notices": notices}))

    assert page.section("Notes on the recording") == "[U+4E2D]isnothere😀\U0001f468\U0001f527ok"


@pytest.mark.parametrize("suffix", [".svg", ".png"])
def test_logo_stands_on_the_page(tmp_path: Path, suffix: str) -> None:
    logo = tmp_path / f"mark{suffix}"
    logo.write_bytes(PIXEL if suffix == ".svg" else png_of_a_pixel())
    with_logo = pdf_of("report.pdf", contents_of(logo=logo))

    assert len(with_logo.content) != len(full().content)
    assert with_logo.text == full().text


@pytest.mark.parametrize(
    ("name", "content", "message"),
    [
        ("mark.png", b"no picture", r"shop\.logo: .*mark\.png is no picture that can be printed"),
        ("mark.svg", b"<svg", r"shop\.logo: .*mark\.svg is no picture that can be printed"),
        ("mark.jpg", None, r"shop\.logo: .*mark\.jpg cannot be read"),
    ],
    ids=["png", "svg", "missing"],
)
def test_logo_that_is_no_picture_is_told(
    tmp_path: Path, name: str, content: bytes | None, message: str
) -> None:
    logo = tmp_path / name
    if content is not None:
        logo.write_bytes(content)

    with pytest.raises(SettingsError, match=message):
        pdf_of("report.pdf", contents_of(logo=logo))


def test_unknown_document_is_refused() -> None:
    with pytest.raises(TemplateError, match=r"bill\.pdf: there is no template bill\.typ"):
        render_pdf("bill.pdf", contents_of(), attached(FULL))


def test_transcript_of_notes_has_no_empty_column() -> None:
    notes = Transcript(breaths=(Breath(words=(Word(text="noted"),)),), recordings=())
    page = report(Visit(made_with=FULL.made_with), notes)

    (letters,) = [
        letters for letters in page.letters if "noted" in "".join(each.get_text() for each in letters)
    ]
    first = next(letter for letter in letters if letter.get_text() == "n" and letter.y0 < 740)
    assert first.x0 == pytest.approx(17 / 25.4 * 72, abs=1)


def png_of_a_pixel() -> bytes:
    """One half-transparent pixel. Source: W3C, PNG specification, third edition, 5 and 11.2."""
    import struct
    import zlib

    def chunk(kind: bytes, content: bytes) -> bytes:
        return (
            struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))
        )

    head = struct.pack(">IIBBBBB", 1, 1, 8, 6, 0, 0, 0)
    pixel = zlib.compress(b"\x00\x12\x34\x56\x80")
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", pixel) + chunk(b"IEND", b"")
