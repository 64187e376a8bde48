"""report.html and report.md say all that the record says, once, in the agreed order."""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest

from fieldnotes.records import Doubt, Evidence, Item, Reading, Visit
from fieldnotes.transcript import Transcript

from .page_reader import HtmlPage, MarkdownPage
from .visits import (
    FULL,
    FULL_TRANSCRIPT,
    LONG_TRANSCRIPT,
    LONG_WORDS,
    NO_TRANSCRIPT,
    NOTHING_HEARD,
    breath,
    page_of,
    said,
)  # fmt: skip

ORDER = [
    "Safety and state of the unit", "Unit and job", "Complaint", "Cause", "Correction", "Work done", "Parts",
    "Verdict", "Check list", "Readings", "Cycles and service tests", "Fault codes", "Advice to the customer",
    "Follow-up", "What is missing", "Cautions", "Notes on the recording", "Transcript",
    "How this report was made",
]  # fmt: skip


def items_of(visit: Visit) -> list[Item]:
    lists = (
        visit.complaints, visit.checks, visit.readings, visit.trials, visit.codes, visit.work, visit.parts,
        visit.causes, visit.advice, visit.follow_ups, visit.safety,
    )  # fmt: skip
    return [item for entries in lists for item in entries]


def evidence_of(visit: Visit) -> list[Evidence]:
    items = items_of(visit)
    verdict = [visit.verdict.evidence] if visit.verdict.evidence else []
    sums = [made for reading in visit.readings for made in reading.sums]
    own = [reading.evidence for reading in visit.readings]
    inputs = [one.evidence for made in sums for one in made.inputs if one.evidence not in own]
    return [
        *filter(None, inputs), *verdict,
        *(item.evidence for item in items), *(again for item in items for again in item.also),
        *visit.appliance.evidence.values(),
    ]  # fmt: skip


def texts_of(visit: Visit) -> list[str]:
    return [
        *(item.text for item in items_of(visit)), visit.verdict.text, *(gap.what for gap in visit.gaps),
        *(caution.text for caution in visit.cautions),
    ]  # fmt: skip


def html(visit: Visit = FULL, transcript: Transcript = FULL_TRANSCRIPT) -> HtmlPage:
    return HtmlPage(page_of("report.html", visit, transcript))


def markdown(visit: Visit = FULL, transcript: Transcript = FULL_TRANSCRIPT) -> MarkdownPage:
    return MarkdownPage(page_of("report.md", visit, transcript))


def test_html_says_every_line_and_quote_once() -> None:
    page = html()

    said_lines = Counter([*page.texts["text"], FULL.verdict.text])
    assert said_lines - Counter([FULL.verdict.text]) == Counter(texts_of(FULL))
    assert Counter(page.texts["quote"]) == Counter(evidence.quote for evidence in evidence_of(FULL))


def test_markdown_says_every_line_and_quote_once() -> None:
    page = markdown()
    report = page.paragraphs[: page.paragraphs.index("Transcript")]

    for text, times in Counter(texts_of(FULL)).items():
        ends = (text, f"– {text}", f": {text}", f"– {text} (not heard)", f"– {text} (said not done)")
        found = [p for p in report if p == text or p.endswith(ends[1:])]
        assert len(found) == times, text
    quotes = Counter(evidence.quote for evidence in evidence_of(FULL))
    for quote, times in quotes.items():
        assert sum(f"“{quote}”" in paragraph for paragraph in report) == times, quote


def test_both_pages_keep_the_agreed_order() -> None:
    on_the_web = [*ORDER[: ORDER.index("Check list")], "Timeline", *ORDER[ORDER.index("Check list") :]]

    assert [text for _, text in html().headings] == ["Visit report", *on_the_web]
    assert markdown().headings == ["Visit report", *ORDER]


@pytest.mark.parametrize(
    ("visit", "transcript"),
    [(FULL, FULL_TRANSCRIPT), (NOTHING_HEARD, NO_TRANSCRIPT), (LONG_WORDS, LONG_TRANSCRIPT)],
    ids=["full", "nothing heard", "long words"],
)
def test_html_is_valid_to_a_strict_parser(visit: Visit, transcript: Transcript) -> None:
    """Source: the parse errors of the HTML Standard, as html5lib knows them."""
    html5lib = pytest.importorskip("html5lib", reason="html5lib is not installed")

    html5lib.HTMLParser(strict=True).parse(page_of("report.html", visit, transcript))


def test_headings_never_skip_a_level() -> None:
    levels = [level for level, _ in html().headings]

    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_page_refers_to_nothing_but_the_recordings() -> None:
    text = page_of("report.html")
    addresses = {re.split("#", address)[0] for address, _ in HtmlPage(text).links}

    assert addresses == {"kitchen%20side.flac", "cellar.m4a"}
    assert not re.search(r"https?://|@import|url\(", text)


def test_times_link_to_the_words_in_the_right_recording() -> None:
    links = [address for address, classes in html().links if classes == "play"]

    assert "kitchen%20side.flac#t=61.2,66" in links  # drain hose
    assert "cellar.m4a#t=12.5,16" in links  # air gap: 612.5 s of the visit, 12.5 s of the second recording
    assert len(links) == len(evidence_of(FULL)) + len(FULL_TRANSCRIPT.breaths)


def test_written_notes_leave_nothing_to_play() -> None:
    notes = FULL.recording[0].model_copy(update={"file": "notes.txt", "seconds": None})
    visit = FULL.model_copy(update={"recording": (notes,)})
    page = html(visit, Transcript(breaths=(breath(None, "No times here"),), recordings=(notes,)))

    assert page.links == []
    assert not any(tag.startswith(("audio", "script")) for tag in page.tags)
    assert "01:01" in page.visible


def test_words_without_a_time_show_none() -> None:
    complaint = Item(about="noise", text="A noise.", evidence=said(None, None, "there is a noise"))
    visit = Visit(complaints=(complaint,), made_with=FULL.made_with)
    page = html(visit, Transcript(breaths=(breath(None, "there is a noise"),), recordings=()))

    assert page.texts["quote"] == ["there is a noise"]
    assert not re.search(r"\d\d:\d\d", page.visible)


def test_doubt_is_said_in_words_where_confidence_is_low() -> None:
    low = [evidence for evidence in evidence_of(FULL) if evidence.confidence < 0.6]

    assert html().texts["doubt"] == ["⚠ please check: heard unclearly"] * len(low)
    assert sum("please check: heard unclearly" in p for p in markdown().paragraphs) == len(low) == 2


def test_number_that_cannot_be_is_shown_with_the_one_that_fits() -> None:
    words = "⚠ please check: heard −80\xa0°C, which cannot be; −18\xa0°C would fit"
    one = Reading(
        about="freezer", text="Minus eighty.", evidence=said(1.0, 2.0, "minus eighty"), value=-18, unit="degC",
        doubt=Doubt(heard=-80, fits=-18),
    )  # fmt: skip
    visit = FULL.model_copy(update={"readings": (one,)})
    plain = FULL.model_copy(update={"readings": (one.model_copy(update={"doubt": None}),)})

    assert words in html(visit).texts["doubt"]
    assert words in "\n".join(markdown(visit).paragraphs)
    assert "would fit" not in html(plain).visible + "\n".join(markdown(plain).paragraphs)


@pytest.mark.parametrize("name", ["report.html", "report.md", "report.txt"])
def test_times_on_site_are_those_of_the_wall_clock(name: str) -> None:
    job = FULL.job.model_copy(update={"started": "2026-03-02T09:05:00", "ended": "2026-03-03T00:20:00"})
    page = page_of(name, FULL.model_copy(update={"job": job}))

    assert "09:05" in page
    assert "2026-03-03 00:20" in page
    assert "T09:05" not in page


@pytest.mark.parametrize(
    "words",
    [
        "✓ good", "✗ fault", "? unclear", "– not tested", "seems so", "possibly so", "✓ passed", "14.5\xa0Ω",
        "101.5\xa0V", "51\xa0°F", "43.9\xa0µF", "✓ within limit", "✗ outside limit, 6.5\xa0V below",
        "✗ outside common practice, 69\xa0°F below", "no limit known", "Needed by: office, customer.",
        "limit 10 to 20\xa0Ω; source: plate of the pump; stated by the technician",
        "limit 108 to 132\xa0V (at the outlet, under load); source: invented utility handbook, table 3; "
        "from memory, not looked up", "limit at least 120\xa0°F; common practice, no source", "likely",
        "Deviation from the mark", "−2.444%", "✓ within limit (−6 to 6%)", "100 % × (C − C₀) / C₀; with",
        "C = 43.9\xa0µF (run capacitor)", "C₀ = 45\xa0µF (marked capacitance)",
        "common practice, no source. against the can's own mark",
        "6.25\xa0°F", "T = 33.5\xa0°C (taken from the handbook)",
        "source: invented property tables; from memory, not looked up",
        "none stored", "F21", "part no. 5512", "× 2", "said to be good at 02:10, later in doubt",
        "taken from the parts that were named, never said", "said not done", "not heard", "not given",
        "✗ Fault found", "Standing water: Water stands", "K40718822", "Mrs. Tansley",
        "cellar.m4a: much machine noise", FULL.recording[0].sha256,
    ],
)  # fmt: skip
def test_both_pages_show(words: str) -> None:
    def squeezed(text: str) -> str:
        return re.sub(r"[ \n]+", " ", text).replace(" ;", ";")

    assert words in squeezed(html().visible)
    assert words in squeezed("\n".join(markdown().paragraphs))


def test_sums_are_folded_behind_the_line_of_their_reading() -> None:
    page = {name: page_of(name) for name in ("report.html", "report.md")}
    (folded,) = re.findall(r"<tr>(?:(?!<tr>).)*?(<details.*?</details>)", page["report.html"], re.DOTALL)

    assert "43.9\xa0µF" in page["report.html"].split("<details")[0]
    assert folded.startswith('<details class="sums"><summary>')
    assert folded.count("<li>") == len(FULL.readings[-1].sums) == 2
    assert "\n  - Deviation from the mark: −2.444%" in page["report.md"]
    assert "<details open" not in page["report.html"]


def test_heaviest_gap_comes_first() -> None:
    whats = [gap.what for gap in FULL.gaps]

    assert [t for t in html().texts["text"] if t in whats] == [
        "Date of purchase",
        "Water inlet valve",
        "Time of leaving",
    ]


def test_silence_is_said_plainly_and_no_verdict_made_up() -> None:
    page, plain = html(NOTHING_HEARD, NO_TRANSCRIPT), markdown(NOTHING_HEARD, NO_TRANSCRIPT)

    assert page.texts["nothing"][0].startswith("Nothing was heard.")
    assert page.texts["finding"] == ["Not stated"]
    assert any(p.startswith("Nothing was heard.") for p in plain.paragraphs)
    assert "Not stated" in plain.paragraphs
    assert "silence.flac: no speech found" in page.visible


def test_transcript_shows_every_breath_with_its_time() -> None:
    breaths = [" ".join(word.text for word in b.words) for b in FULL_TRANSCRIPT.breaths]

    assert html().texts["transcript text"] == breaths
    assert html().texts["transcript play"] == ["00:04", "00:20", "01:01", "02:00", "10:12"]
    for said_words in breaths:
        assert sum(p.endswith(said_words) for p in markdown().paragraphs) == 1


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_colours_of_text_reach_contrast_aa(scheme: str) -> None:
    """Source: WCAG 2.2, success criterion 1.4.3 and the definition of relative luminance."""
    css = (Path(__file__).parents[2] / "templates" / "report.css").read_text(encoding="utf-8")
    light, dark = re.findall(r":root \{(.*?)\}", css, re.DOTALL)[:2]
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6})", light if scheme == "light" else dark))

    def luminance(colour: str) -> float:
        parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
        return 0.2126 * r + 0.7152 * g + 0.0722 * b

    def contrast(one: str, other: str) -> float:
        low, high = sorted((luminance(colours[one]), luminance(colours[other])))
        return (high + 0.05) / (low + 0.05)

    texts = ["ink", "quiet", "link", "good", "bad", "doubt"]
    assert {(t, ground) for t in texts for ground in ("paper", "wash") if contrast(t, ground) < 4.5} == set()
    assert contrast("paper", "link") >= 4.5  # a time that is being played
