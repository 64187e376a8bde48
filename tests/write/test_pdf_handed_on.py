"""claim.pdf and customer.pdf: what they say, and what they keep to themselves."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import cache

import pytest

from fieldnotes.records import Check, Explained, Gap, Visit
from fieldnotes.write.contents import Explanation

from .generated_visits import transcript_of, visit_of_eighty
from .pdf_reader import Pdf, contents_of, pdf_of, squeezed
from .test_report_pages import evidence_of
from .visits import FULL, FULL_TRANSCRIPT, MADE_WITH, NO_TRANSCRIPT, NOTHING_HEARD, said

CLAIMED = (
    *FULL.complaints, *FULL.checks, *FULL.readings, *FULL.trials, *FULL.codes, *FULL.work, *FULL.parts, *FULL.causes,
    *FULL.follow_ups, *FULL.safety,
)  # fmt: skip


@cache
def claim() -> Pdf:
    return pdf_of("claim.pdf")


@cache
def customer() -> Pdf:
    return pdf_of("customer.pdf")


def test_claim_says_its_lines_and_quotes_once() -> None:
    texts = [squeezed(text) for text in (*(item.text for item in CLAIMED), *(gap.what for gap in FULL.gaps))]
    left_out = [each.evidence.quote for each in FULL.advice]
    quotes = Counter(squeezed(f"“{each.quote}”") for each in evidence_of(FULL) if each.quote not in left_out)

    assert {text: claim().text.count(text) for text in texts} == {
        text: sum(other.count(text) for other in texts) for text in texts
    }
    assert {quote: claim().text.count(quote) for quote in quotes} == dict(quotes)


@pytest.mark.parametrize(
    "words",
    [
        FULL.advice[0].text, FULL.advice[0].evidence.quote, FULL.cautions[0].text, FULL.notices[0], "Transcript",
        "Okay, she says it's leaving water", "Mrs. Tansley",
    ],
)  # fmt: skip
def test_claim_leaves_out(words: str) -> None:
    assert squeezed(words) not in claim().text


@pytest.mark.parametrize(
    "words",
    [
        "Serial no. K40718822 00:26", "Purchased not heard", "Date of visit 2026-03-02",
        "Time on site 09:05 to not given",
        "! needed × 2 Hose clamps", "part no. 5512", "limit 10 to 20 Ω", "F21 Code", "✓ passed",
        "likely Label paper in the filter kept the water from draining. “so it's", "cleaned Cleaned the filter",
    ],
)  # fmt: skip
def test_claim_shows(words: str) -> None:
    assert squeezed(words) in claim().text


def test_claim_puts_what_the_warranty_desk_needs_first() -> None:
    gaps = (
        Gap(what="Of the office", why="Bills.", needed_by=("office",), weight=1),
        Gap(what="Of the desk", why="Pays.", needed_by=("office", "warranty desk"), weight=3),
        Gap(what="Heavy of the desk", why="Pays.", needed_by=("warranty desk",), weight=1),
    )
    page = pdf_of("claim.pdf", contents_of(Visit(gaps=gaps, made_with=MADE_WITH)))
    places = [
        page.text.index(squeezed(what)) for what in ("Heavy of the desk", "Of the desk", "Of the office")
    ]

    assert places == sorted(places)
    assert page.headings[-3:-1] == ["Needed by the warranty desk", "Needed by others"]


def test_customer_page_has_plain_sections_in_order() -> None:
    assert customer().headings == [
        "Safety", "What you told us", "What we found", "What we did", "What is still to come",
        "What you can do, and what to watch for", "What we looked at",
    ]  # fmt: skip
    assert len(customer().pages) == 1


@pytest.mark.parametrize(
    "words",
    [
        *(item.text for item in (*FULL.complaints, *FULL.work, *FULL.advice, *FULL.follow_ups, *FULL.safety)),
        *(item.text for item in FULL.causes), "We found a fault.", "✓ in order Drain hose", "✗ fault found Filter",
        "? not clear Impeller", "– not tested Water inlet valve", "Hose clamps for the next visit. (2 ×)",
    ],
)  # fmt: skip
def test_customer_page_says_once(words: str) -> None:
    assert customer().text.count(squeezed(words)) == 1


def test_customer_page_keeps_what_is_internal() -> None:
    inside = [
        *(f"“{each.quote}" for each in evidence_of(FULL)), *(gap.what + " (" for gap in FULL.gaps),
        *(gap.why for gap in FULL.gaps), "please check", "14.5", "part no.", "said to be good at", "0.9", "limit",
        "SHA-256", "much machine noise", "00:04",
    ]  # fmt: skip

    assert [words for words in inside if squeezed(words) in customer().text] == []


def test_thing_looked_at_twice_is_told_as_it_was_found_last() -> None:
    checks = tuple(
        Check(about="belt", text="Belt.", evidence=said(1.0, 2.0, "belt"), outcome=outcome)
        for outcome in ("good", "fault", "good")
    )
    page = pdf_of("customer.pdf", contents_of(Visit(checks=checks, made_with=MADE_WITH)))

    assert page.section("What we looked at") == "✓inorderBelt"


def test_eighty_items_leave_the_customer_one_page() -> None:
    visit = visit_of_eighty()

    assert len(pdf_of("customer.pdf", contents_of(visit, transcript_of(visit))).pages) == 1


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("claim.pdf", "Nothing was heard."),
        ("claim.pdf", "Not stated"),
        ("customer.pdf", "could not be filled in"),
    ],
)
def test_silence_is_said_plainly(name: str, words: str) -> None:
    assert squeezed(words) in pdf_of(name, contents_of(NOTHING_HEARD, NO_TRANSCRIPT)).text


def test_customer_page_explains_with_a_drawing() -> None:
    drawing = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0h9"/></svg>'
    loading = Explanation("How full", ("Half full.", "Not more."), drawing, "Two drums")
    visit = FULL.model_copy(update={"explained": (Explained(topic="load", about=FULL.advice[0].about),)})
    contents = replace(contents_of(visit, FULL_TRANSCRIPT), explanations={"load": loading})
    page = pdf_of("customer.pdf", contents)

    assert page.headings[-1] == "How full"
    assert "Halffull.Notmore." in page.text
