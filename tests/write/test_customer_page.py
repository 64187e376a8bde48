"""The customer page: plain words, nothing of the office, nothing that was heard unclearly."""

from __future__ import annotations

import html5lib
import pytest

from fieldnotes.records import Caution, Check, Explained, Item, Part, Visit, Work
from fieldnotes.settings import Settings, Shop
from fieldnotes.transcript import Transcript
from fieldnotes.write.contents import Contents, Explanation
from fieldnotes.write.pages import render_pages, words_of
from fieldnotes.write.wording import plainly

from .page_reader import HtmlPage
from .visits import FULL, FULL_TRANSCRIPT, MADE_WITH, page_of, said

DRAWING = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0h9"/></svg>'
LOADING = Explanation("How full", ("Half full.",), DRAWING, "Two drums")
CLEAR = {
    name: tuple(item for item in getattr(FULL, name) if item.evidence.confidence >= 0.6)
    for name in ("complaints", "causes", "work", "parts", "advice", "follow_ups", "checks")
}


def customer(visit: Visit = FULL, settings: Settings | None = None) -> HtmlPage:
    contents = Contents(visit, FULL_TRANSCRIPT, settings or Settings(), explanations={"loading": LOADING})
    return HtmlPage(render_pages(contents, ["customer.html"])["customer.html"])


@pytest.mark.parametrize("section", ["complaints", "causes", "work", "parts", "advice", "follow_ups"])
def test_every_clear_line_stands_there_once(section: str) -> None:
    texts = customer().texts["text"]

    assert CLEAR[section]
    for item in CLEAR[section]:
        assert sum(item.text.rstrip(".").casefold() in text.casefold() for text in texts) >= 1, item.text


def test_each_thing_that_was_looked_at_stands_there_once() -> None:
    assert sorted(name.casefold() for name in customer().texts["checked"]) == sorted(
        {check.about.casefold() for check in CLEAR["checks"]}
    )


def test_thing_looked_at_twice_is_told_as_it_was_found_last() -> None:
    again = (
        Check(about="hose", text="", evidence=said(1, 2, "hose is kinked"), outcome="fault"),
        Check(about="lamp", text="", evidence=said(3, 4, "lamp is fine"), outcome="good"),
        Check(about="hose", text="", evidence=said(5, 6, "hose is fine now"), outcome="good"),
    )
    page = customer(Visit(checks=again, made_with=MADE_WITH))

    assert page.texts["checked"] == ["Lamp", "Hose"]
    assert page.texts["state"] == ["✓ in order", "✓ in order"]


@pytest.mark.parametrize(("quantity", "times"), [(1, 1), (2, 2)])
def test_part_that_was_replaced_is_told_once_unless_there_were_several(quantity: int, times: int) -> None:
    work = Work(about="pump", text="Put in a new pump.", evidence=said(1, 2, "new pump"), action="replaced")
    part = Part(
        about="pump", text="A new pump.", evidence=said(1, 2, "pump"), status="fitted", quantity=quantity
    )
    told = customer(Visit(work=(work,), parts=(part,), made_with=MADE_WITH)).texts["text"]

    assert len(told) == times


def test_leaks_that_were_not_there_are_not_called_in_order() -> None:
    check = Check(about="leaks", text="No leaks.", evidence=said(1, 2, "no leaks"), outcome="good")

    assert customer(Visit(checks=(check,), made_with=MADE_WITH)).texts["checked"] == [
        "Tightness against leaks"
    ]


@pytest.mark.parametrize(
    ("about", "told"), [("power disconnected; proved dead", False), ("left on; supply shut", True)]
)
def test_steps_of_the_technician_alone_are_left_out(about: str, told: bool) -> None:
    line = Item(about=about, text="Breaker words.", evidence=said(1, 2, "breaker"))

    assert ("Breaker words." in customer(Visit(safety=(line,), made_with=MADE_WITH)).visible) == told


def test_nothing_of_the_office_stands_there() -> None:
    page = customer()
    things = {check.about.casefold() for check in FULL.checks}  # a gap may be called as what was looked at
    office = (
        [gap.what for gap in FULL.gaps if gap.what.casefold() not in things]
        + [gap.why for gap in FULL.gaps]
        + list(FULL.notices)
    )
    quotes = [item.evidence.quote for name in CLEAR for item in getattr(FULL, name)]

    assert [text for text in office + quotes if text in page.visible] == []
    assert "please check" not in page.visible
    assert page.links == []
    assert not any(recording.file in page.visible for recording in FULL.recording)


def test_what_was_heard_unclearly_is_left_out() -> None:
    unclear = Item(about="belt", text="Belt was advised upon.", evidence=said(1, 2, "belt", 0.5))
    page = customer(Visit(advice=(unclear,), made_with=MADE_WITH))

    assert "elt" not in page.visible
    assert "could not be filled in" in page.visible


def test_only_cautions_for_the_householder_are_told() -> None:
    cautions = (
        Caution(about="heat", text="Let it cool before work.", for_customer="It stays hot."),
        Caution(about="meter", text="Prove it dead."),
        Caution(about="all", text="Codes first.", for_customer="The manual comes first."),
    )

    assert customer(Visit(cautions=cautions, made_with=MADE_WITH)).texts["caution"] == [
        "It stays hot.",
        "The manual comes first.",
    ]


@pytest.mark.parametrize(("confidence", "shown"), [(0.9, True), (0.4, False)], ids=["clear", "unclear"])
def test_explanation_comes_with_its_advice(confidence: float, shown: bool) -> None:
    advice = Item(about="load", text="Half full.", evidence=said(1, 2, "half full", confidence))
    visit = Visit(
        advice=(advice,), explained=(Explained(topic="loading", about="load"),), made_with=MADE_WITH
    )
    page = customer(visit)

    assert ((3, "How full") in page.headings) == shown
    assert (page.tags["path d"] == 1) == shown


def test_shop_stands_at_the_head_only_when_it_is_known() -> None:
    shop = Shop(name="Harrowby Care", address=("12 Mill Lane",), telephone="555 0134", colour="#7a1f3d")

    assert "Harrowby Care" in customer(settings=Settings(shop=shop)).visible
    assert "#7a1f3d" in page_source(Settings(shop=shop))
    assert customer().texts.get("shop") is None


def page_source(settings: Settings) -> str:
    return render_pages(Contents(FULL, FULL_TRANSCRIPT, settings), ["customer.html"])["customer.html"]


@pytest.mark.parametrize("visit", [FULL, Visit(made_with=MADE_WITH)], ids=["full", "nothing"])
def test_page_is_valid_and_fetches_nothing(visit: Visit) -> None:
    text = page_of("customer.html", visit, Transcript(breaths=(), recordings=()))

    html5lib.HTMLParser(strict=True).parse(text)
    assert "http" not in text.replace('http-equiv="', "").replace("http://www.w3.org/2000/svg", "")
    assert "<script" not in text


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Customer was advised: told her not to overload it.", "Do not overload it."),
        ("Customer was advised: I told them to clean the filter.", "Clean the filter."),
        ("Customer was advised: never to use plastic hose again.", "Never use plastic hose again."),
        ("Customer was advised: to rinse the filter.", "Rinse the filter."),
        ("Customer was advised to rinse the filter.", "Rinse the filter."),
        ("Customer was advised not to overload it.", "Do not overload it."),
        ("Customer reported: to the left it leaks.", "To the left it leaks."),
        ("Customer reported: she says it leaks.", "It leaks."),
        ("Likely cause: The cause was most likely the hose.", "The hose."),
        ("Still to be done: call about the part.", "Call about the part."),
        # nothing is turned round in the middle of a sentence, and nothing else is taken off
        ("Customer was advised: showed her, and told her to use it.", "Showed her, and told her to use it."),
        ("The hose: it was told to us.", "The hose: it was told to us."),
        ("Still to be done: I've asked the office to send a quote.", "I've asked the office to send a quote."),
    ],
)  # fmt: skip
def test_words_to_the_office_become_words_to_the_customer(text: str, expected: str) -> None:
    assert plainly(text, words_of(None)["customer_instead"]) == expected
