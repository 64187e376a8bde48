"""The claim sheet: what a warranty desk reads, in its order, and nothing that is not its business."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import html5lib
import pytest

from fieldnotes.records import Visit
from fieldnotes.settings import Settings, Shop
from fieldnotes.transcript import Transcript
from fieldnotes.write import Contents
from fieldnotes.write.pages import render_pages

from .page_reader import HtmlPage
from .visits import (
    FULL,
    FULL_TRANSCRIPT,
    LONG_TRANSCRIPT,
    LONG_WORDS,
    NO_TRANSCRIPT,
    NOTHING_HEARD,
    breath,
    page_of,
)  # fmt: skip

SHOP = Shop(
    name="Quill & Vale <Appliances>", address=("14 Fennel Row", "Upper Dallow"), telephone="020 7946 0018",
    email="desk@quillvale.example", licence="ARL-20418", colour="#7a1f4f",
)  # fmt: skip


def claim(visit: Visit = FULL, shop: Shop | None = None) -> HtmlPage:
    settings = Settings(shop=shop or Shop())
    return HtmlPage(render_pages(Contents(visit, FULL_TRANSCRIPT, settings), ["claim.html"])["claim.html"])


def shown(page: HtmlPage) -> str:
    return re.sub(r"\s+", " ", page.visible)


def on_job(**times: str) -> Visit:
    return FULL.model_copy(update={"job": FULL.job.model_copy(update=times)})


def test_sections_stand_in_the_order_in_which_a_desk_reads() -> None:
    assert [text for _, text in claim().headings] == [
        "Warranty claim", "Unit and visit", "Complaint", "Cause", "Correction", "Work done", "Parts", "Verdict",
        "Check list", "Readings", "Cycles and service tests", "Fault codes", "Safety and state of the unit",
        "Open points", "Follow-up", "Needed by others", "How this report was made",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("times", "on_site"),
    [
        (
            {"started": "2026-03-02T09:05:00", "ended": "2026-03-02T10:20:00"},
            "09:05 to 10:20 (1\xa0h 15\xa0min)",
        ),
        ({"started": "09:05", "ended": "09:50"}, "09:05 to 09:50 (45\xa0min)"),
        ({"started": "09:05", "ended": "10:05"}, "09:05 to 10:05 (1\xa0h 0\xa0min)"),
        ({"started": "23:50", "ended": "00:20"}, "23:50 to 00:20"),
        ({"started": "09:05"}, "started 09:05, ended not given"),
        ({"started": "", "ended": "10:20"}, "started not given, ended 10:20"),
        ({"started": ""}, "not given"),
    ],
)
def test_head_says_when_somebody_was_there(times: dict[str, str], on_site: str) -> None:
    page = HtmlPage(page_of("claim.html", on_job(**times)))
    text = re.sub(r"[ \n]+", " ", page.visible)

    assert re.search(rf"Time on site {re.escape(on_site)} Technician", text)


@pytest.mark.parametrize(
    "words",
    [
        "Brackwell", "K40718822", "J-2041", "R. Quill", "drain hose isn't kinked and the high loop is there",
        "⚠ please check: heard unclearly", "✗ outside limit, 6.5\xa0V below",
        "limit 10 to 20\xa0Ω; source: plate of the pump",
        "part no. 5512", "× 2", "F21", "✗ Fault found", "Come back with the hose clamps.", "01:20",
        "fieldnotes 0.1.0; vocabulary 1; a speech model", FULL.recording[1].sha256,
    ],
)  # fmt: skip
def test_claim_shows(words: str) -> None:
    assert words in re.sub(r"[ \n]+", " ", claim().visible).replace(" ;", ";")


@pytest.mark.parametrize(
    "words",
    [
        "Mrs. Tansley", "Rinse the filter once a month.", "Disconnect the supply", "much machine noise",
        "The usual cautions", "Transcript", "It's a Brackwell, model B K D",
    ],
)  # fmt: skip
def test_claim_keeps_to_itself(words: str) -> None:
    assert words not in shown(claim())


def test_what_the_desk_needs_comes_first_among_the_open_points() -> None:
    needed = [("office",), ("warranty desk",), ("customer", "warranty desk")]
    gaps = [
        gap.model_copy(update={"needed_by": who, "weight": weight})
        for gap, who, weight in zip(FULL.gaps, needed, (1, 3, 2), strict=True)
    ]
    page = claim(FULL.model_copy(update={"gaps": tuple(gaps)}))

    headings = [text for _, text in page.headings]
    assert headings[-4:-1] == ["Follow-up", "Needed by the warranty desk", "Needed by others"]
    whats = [gap.what for gap in gaps]
    assert [t for t in page.texts["text"] if t in whats] == [
        "Water inlet valve",
        "Date of purchase",
        "Time of leaving",
    ]


def test_nothing_open_is_said_plainly() -> None:
    page = shown(claim(FULL.model_copy(update={"gaps": (), "follow_ups": ()})))

    assert "Open points Nothing that this report asks for is missing." in page


@pytest.mark.parametrize(
    ("struck", "words"),
    [
        ([], None),
        ([{"kind": "name", "count": 2}, {"kind": "telephone", "count": 1}], "2 names, 1 telephone number"),
        ([{"kind": "something else", "count": 3}], "3 something else"),
    ],
    ids=["nothing", "two kinds", "a kind without words"],
)
def test_what_was_struck_out_is_counted(struck: list[dict[str, object]], words: str | None) -> None:
    page = shown(claim(FULL.model_copy(update={"struck": struck})))

    assert re.findall(r"Private words struck out: (.*?)\.", page) == ([words] if words else [])


def test_shop_stands_on_the_page_as_text() -> None:
    page = claim(shop=SHOP)

    assert page.texts["shop-name"] == ["Quill & Vale <Appliances>"]
    words = [*SHOP.address, SHOP.telephone, SHOP.email, f"Licence {SHOP.licence}"]
    assert [each for each in words if str(each) not in page.texts["shop"][0]] == []
    other = {address for address, _ in page.links if "#t=" not in address}
    assert other == {"kitchen%20side.flac", "cellar.m4a"}
    assert not claim().texts.get("shop")


def test_logo_travels_inside_the_page(tmp_path: Path) -> None:
    (tmp_path / "logo.png").write_bytes(b"picture")
    page = claim(shop=SHOP.model_copy(update={"logo": tmp_path / "logo.png"}))

    assert ("data:image/png;base64,cGljdHVyZQ==", "") in page.links


@pytest.mark.parametrize(
    ("visit", "transcript"),
    [(FULL, FULL_TRANSCRIPT), (NOTHING_HEARD, NO_TRANSCRIPT), (LONG_WORDS, LONG_TRANSCRIPT)],
    ids=["full", "nothing heard", "long words"],
)
def test_claim_is_valid_to_a_strict_parser(visit: Visit, transcript: Transcript) -> None:
    """Source: the parse errors of the HTML Standard, as html5lib knows them."""
    page = page_of("claim.html", visit, transcript)

    html5lib.HTMLParser(strict=True).parse(page)
    levels = [level for level, _ in HtmlPage(page).headings]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_written_notes_leave_nothing_to_play() -> None:
    notes = FULL.recording[0].model_copy(update={"file": "notes.txt", "seconds": None})
    visit = FULL.model_copy(update={"recording": (notes,)})
    page = HtmlPage(
        page_of("claim.html", visit, FULL_TRANSCRIPT.model_copy(update={"breaths": (breath(None, "a"),)}))
    )

    assert page.links == []
    assert not any(tag.startswith(("audio", "script")) for tag in page.tags)
