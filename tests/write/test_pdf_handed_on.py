"""claim.pdf and customer.pdf: what they say, and what they keep to themselves."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

from fieldnotes.records import Check, Gap, Visit
from fieldnotes.write.printed import printed

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
        "likely Label paper in the filter kept the water from draining. 05:20", "cleaned Cleaned the filter",
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
        "What you reported", "What we looked at", "What we found", "What we did", "Safety and state of the unit",
        "What to do and watch for", "Cautions",
    ]  # fmt: skip
    assert len(customer().pages) == 1


@pytest.mark.parametrize(
    "words",
    [
        *(item.text for item in (*FULL.complaints, *FULL.work, *FULL.parts, *FULL.causes, *FULL.advice)),
        *(item.text for item in (*FULL.follow_ups, *FULL.safety)), *(caution.text for caution in FULL.cautions),
        FULL.verdict.text, "✗ fault: filter", "? unclear: impeller, quick wash", "– not tested: water inlet valve",
        "✓ good: drain hose, drain pump, check valve, air gap", "✓ passed: drain test", "Likely: Label paper",
        "measured: drain pump, supply voltage, water temperature, run capacitor", "Hose clamps for the next visit. × 2",
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


def test_thing_with_two_outcomes_stands_with_the_worst() -> None:
    checks = tuple(
        Check(about="belt", text="Belt.", evidence=said(1.0, 2.0, "belt"), outcome=outcome)
        for outcome in ("good", "fault", "good")
    )
    page = pdf_of("customer.pdf", contents_of(Visit(checks=checks, made_with=MADE_WITH)))

    assert page.section("What we looked at") == "✗fault:belt"


def test_eighty_items_leave_the_customer_one_page() -> None:
    visit = visit_of_eighty()

    assert len(pdf_of("customer.pdf", contents_of(visit, transcript_of(visit))).pages) == 1


@pytest.mark.parametrize("name", ["claim.pdf", "customer.pdf"])
def test_silence_is_said_plainly(name: str) -> None:
    page = pdf_of(name, contents_of(NOTHING_HEARD, NO_TRANSCRIPT))

    assert "Nothingwasheard." in page.text
    assert "Notstated" in page.text


def test_customer_page_has_a_place_for_drawings_and_photographs(monkeypatch: pytest.MonkeyPatch) -> None:
    """They are handed over as data and files; here beside the built-in templates."""

    def with_more(*given: object) -> dict[str, object]:
        explained = {
            "title": "How full", "text": "Leave a hand's width.", "drawing": "timeline.svg", "shown": "A drum",
        }  # fmt: skip
        bare = {"title": "How wet", "text": "It stays damp.", "drawing": None, "shown": None}
        more = {
            "explanations": [explained, bare],
            "photographs": [{"file": "timeline.svg", "shown": "The filter"}],
        }
        return {**printed(*given), **more}  # type: ignore[arg-type]

    monkeypatch.setattr("fieldnotes.write.pdf.printed", with_more)
    page = pdf_of("customer.pdf", contents_of(FULL, FULL_TRANSCRIPT))

    assert page.headings[-3:] == ["Photographs", "How full", "How wet"]
    assert page.section("How wet") == "Itstaysdamp."
    assert squeezed("Leave a hand's width.") in page.text
