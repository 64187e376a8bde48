"""How report.pdf lies on paper: sizes, page breaks, long words, letters of other scripts, the shop's head."""

from __future__ import annotations

import re
import struct
import zlib
from datetime import timedelta
from pathlib import Path

import pytest

from fieldnotes.errors import SettingsError
from fieldnotes.records import Item, Visit
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.write import Contents

from .generated_visits import visit_of_eighty
from .pdf_reader import contents_of, pdf_of, squeezed
from .test_pdf import eighty, full, report
from .visits import FULL, LONG_TRANSCRIPT, LONG_WORD, LONG_WORDS, said

PIXEL = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="20" height="20">'
    b'<rect width="20" height="20" fill="#123456"/>'
    b"</svg>"
)


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

    def chunk(kind: bytes, content: bytes) -> bytes:
        return (
            struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))
        )

    head = struct.pack(">IIBBBBB", 1, 1, 8, 6, 0, 0, 0)
    pixel = zlib.compress(b"\x00\x12\x34\x56\x80")
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", pixel) + chunk(b"IEND", b"")
