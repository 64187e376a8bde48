"""Where marks stand on the timeline, and what the drawing says of them."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldnotes.records import Check, Item, Part, Reading, Trial, Visit, Work
from fieldnotes.transcript import Recording
from fieldnotes.write import Contents
from fieldnotes.write.pages import timeline_svg
from fieldnotes.write.timeline import LANES, MOST_ROWS, NARROW, SPACE, WIDE, Chart, Mark, Paper, chart_of

from .generated_visits import transcript_of, visit_of_eighty
from .visits import FULL, FULL_TRANSCRIPT, MADE_WITH, NO_TRANSCRIPT, NOTHING_HEARD, page_of, said

PAPERS = [pytest.param(WIDE, id="wide"), pytest.param(NARROW, id="narrow")]


def check(start: float | None, outcome: str = "good") -> Check:
    end = None if start is None else start + 1
    line = {"about": "belt", "text": "Belt.", "evidence": said(start, end, "belt"), "outcome": outcome}
    return Check.model_validate(line)


def visit(checks: list[Check], *lengths: float) -> Visit:
    starts = [sum(lengths[:n]) for n in range(len(lengths))]
    parts = [
        Recording(file=f"{n}.flac", sha256="0" * 64, seconds=length, starts_at=start)
        for n, (length, start) in enumerate(zip(lengths, starts, strict=True))
    ]
    return Visit(checks=tuple(checks), recording=tuple(parts), made_with=MADE_WITH)


def drawn(of: Visit, paper: Paper = WIDE) -> Chart:
    chart = chart_of(of, paper)
    assert chart is not None
    return chart


def marks_of(chart: Chart) -> list[Mark]:
    return [mark for lane in chart.lanes for mark in lane.marks]


def test_marks_stand_where_their_time_is() -> None:
    """From 84 to 696 units across: 60 s of 120 is the middle, 390."""
    chart = drawn(visit([check(0.0), check(60.0), check(119.0)], 120.0))

    assert [mark.x for mark in marks_of(chart)] == [84.0, 390.0, 690.9]
    assert len({mark.y for mark in marks_of(chart)}) == 1
    assert (chart.left, chart.right, chart.seconds) == (84.0, 696.0, 120.0)


def test_marks_that_would_touch_stand_above_each_other() -> None:
    """One second is 5.1 units here, a mark takes ten."""
    chart = drawn(visit([check(10.0), check(11.0), check(12.0)], 120.0))
    first, second, third = marks_of(chart)

    assert first.y == third.y
    assert second.y < first.y


def test_more_than_can_be_stacked_are_one_mark_with_their_number() -> None:
    checks = [check(10.0) for _ in range(MOST_ROWS)] + [check(10.1, "fault"), check(10.2)]
    *single, last = marks_of(drawn(visit(checks, 3600.0)))

    assert [len(mark.items) for mark in single] == [1] * (MOST_ROWS - 1)
    assert last.items == tuple(checks[MOST_ROWS - 1 :])
    assert last.shape == "bad"


def test_later_recordings_are_marked_where_they_begin() -> None:
    chart = drawn(visit([check(5.0)], 60.0, 60.0))

    assert [(border.x, border.recording.file) for border in chart.borders] == [(390.0, "1.flac")]


@pytest.mark.parametrize(
    ("seconds", "paper", "ticks"),
    [
        (3.0, WIDE, [0, 1, 2, 3]),
        (120.0, WIDE, [0, 15, 30, 45, 60, 75, 90, 105, 120]),
        (120.0, NARROW, [0, 30, 60, 90, 120]),
        (2400.0, WIDE, [0, 300, 600, 900, 1200, 1500, 1800, 2100, 2400]),
        (2400.0, NARROW, [0, 600, 1200, 1800, 2400]),
        (5000.0, NARROW, [0, 1800, 3600]),
        (8 * 3600.0, WIDE, [3600 * n for n in range(9)]),
        (8 * 3600.0, NARROW, [0, 7200, 14400, 21600, 28800]),
        (5 * 86400.0, NARROW, [0, 172800, 345600]),
    ],
)  # fmt: skip
def test_times_below_the_chart_are_round_and_few(seconds: float, paper: Paper, ticks: list[int]) -> None:
    assert [tick.seconds for tick in drawn(visit([check(1.0)], seconds), paper).ticks] == ticks


@pytest.mark.parametrize(
    ("section", "item", "shape"),
    [
        ("checks", check(1.0, "good"), "good"), ("checks", check(1.0, "fault"), "bad"),
        ("checks", check(1.0, "unclear"), "unclear"), ("checks", check(1.0, "not tested"), "none"),
        ("trials", Trial(about="spin", text="Spin.", evidence=said(1, 2, "spin"), outcome="passed"), "good"),
        ("trials", Trial(about="spin", text="Spin.", evidence=said(1, 2, "spin"), outcome="failed"), "bad"),
        ("work", Work(about="belt", text="Belt.", evidence=said(1, 2, "belt"), action="replaced"), "done"),
        ("parts", Part(about="belt", text="Belt.", evidence=said(1, 2, "belt"), status="fitted"), "done"),
        ("parts", Part(about="belt", text="Belt.", evidence=said(1, 2, "belt"), status="ordered"), "open"),
        ("parts", Part(about="belt", text="Belt.", evidence=said(1, 2, "belt"), status="needed"), "open"),
        *(
            (
                "readings",
                Reading.model_validate(
                    {"about": "motor", "text": "Motor.", "evidence": said(1, 2, "motor"), "value": 4, "unit": "ohm"}
                    | {"judgement": judgement}
                ),
                shape,
            )
            for judgement, shape in [("within", "good"), ("outside", "bad"), ("no limit known", "none")]
        ),
    ],
)  # fmt: skip
def test_shape_says_what_came_of_it(section: str, item: Item, shape: str) -> None:
    one = Visit.model_validate({section: (item,), "made_with": MADE_WITH})

    assert [mark.shape for mark in marks_of(drawn(one))] == [shape]


TIMES = st.none() | st.floats(-5, 30_000, allow_nan=False)
VISITS = st.builds(
    lambda checks, work, lengths: visit([check(at) for at in checks], *lengths).model_copy(
        update={
            "work": tuple(
                Work(about="b", text="B.", evidence=said(at, at, "b"), action="reset") for at in work
            )
        }
    ),
    st.lists(TIMES, max_size=60),
    st.lists(TIMES, max_size=5),
    st.lists(st.floats(0, 9_000), max_size=3),
)


@pytest.mark.parametrize("paper", PAPERS)
@given(VISITS)
@settings(deadline=None)
def test_every_item_with_a_time_is_in_one_mark_in_its_order(paper: Paper, one: Visit) -> None:
    chart = chart_of(one, paper)
    lanes = {lane.name: lane.marks for lane in chart.lanes} if chart else {}

    for name in LANES:
        timed = [item for item in getattr(one, name) if item.evidence.start is not None]
        shown = [item for mark in lanes.get(name, ()) for item in mark.items]
        assert sorted(map(id, shown)) == sorted(map(id, timed))
        starts = [mark.items[0].evidence.start or 0.0 for mark in lanes.get(name, ())]
        assert starts == sorted(starts)


@pytest.mark.parametrize("paper", PAPERS)
@given(VISITS)
@settings(deadline=None)
def test_marks_stand_inside_the_chart_apart_and_in_the_order_of_time(paper: Paper, one: Visit) -> None:
    chart = chart_of(one, paper)
    if chart is None:
        return
    for lane in chart.lanes:
        places = [(mark.x, mark.y) for mark in lane.marks]
        assert [x for x, _ in places] == sorted(x for x, _ in places)
        assert all(chart.left <= x <= chart.right and 0 < y < lane.floor < chart.axis for x, y in places)
        for row in {y for _, y in places}:
            along = [x for x, y in places if y == row]
            assert all(after - before >= SPACE for before, after in pairwise(along))
    assert 1 <= len(chart.ticks) <= (chart.right - chart.left) / paper.tick + 1
    assert all(chart.left <= tick.x <= chart.right for tick in chart.ticks)
    assert all(0 < key.x < chart.width and chart.axis < key.y < chart.height for key in chart.key)


@pytest.mark.parametrize("times", [[], [None]], ids=["no items", "items without times"])
def test_there_is_no_chart_where_nothing_has_a_time(times: list[float | None]) -> None:
    without = visit([check(at) for at in times], 120.0)

    assert chart_of(without, WIDE) is None
    assert timeline_svg(Contents(without, NO_TRANSCRIPT)) == ""
    assert "<svg" not in page_of("report.html", without, NO_TRANSCRIPT)
    assert "<svg" not in page_of("report.html", NOTHING_HEARD, NO_TRANSCRIPT)


def test_page_holds_a_wide_and_a_narrow_drawing_whose_marks_play_their_words() -> None:
    page = page_of("report.html")
    wide, narrow = re.findall("<svg.*?</svg>", page, re.DOTALL)

    for drawing in map(ElementTree.fromstring, (wide, narrow)):
        marks = {
            (title.text or ""): link.get("href") for link in drawing.iter("a") for title in link.iter("title")
        }
        assert len(marks) == len([item for name in LANES for item in getattr(FULL, name)])
        assert marks["01:20 Filter: ✗ fault"] == "kitchen%20side.flac#t=80,84"
        assert marks["10:12 Air gap: ✓ good"] == "cellar.m4a#t=12.5,16"
        assert marks["02:40 Supply voltage: 101.5\xa0V, ✗ outside limit, 6.5\xa0V below"]
        assert marks["05:10 Filter: cleaned"]
        assert marks["05:50 Hose clamp: ! needed"]
        assert {link.get("tabindex") for link in drawing.iter("a")} == {"-1"}


def test_drawing_says_in_words_what_it_shows() -> None:
    drawing = ElementTree.fromstring(timeline_svg(Contents(FULL, FULL_TRANSCRIPT)))

    assert (drawing.get("role"), drawing.get("aria-label")) == (
        "img",
        "Timeline of 12:00. Checks: 7, 01:01 to 10:12. Readings: 4, 02:00 to 03:00. Tests run: 2, 06:50 to 07:10. "
        "Work: 2, 05:10 to 05:30. Parts: 2, 05:30 to 05:50.",
    )


def test_drawing_alone_needs_no_style_and_refers_to_nothing() -> None:
    eighty = visit_of_eighty()
    drawing = ElementTree.fromstring(timeline_svg(Contents(eighty, transcript_of(eighty))))
    attributes = {name for element in drawing.iter() for name in element.attrib}

    assert attributes & {"class", "style", "href", "tabindex"} == set()
    assert {"width", "height", "viewBox", "color", "font-family"} <= attributes


def test_page_without_sound_calls_its_drawing_a_picture() -> None:
    notes = FULL.model_copy(
        update={"recording": (FULL.recording[0].model_copy(update={"file": "notes.txt"}),)}
    )
    page = page_of("report.html", notes)

    assert page.count('role="img"') == 2
    assert 'class="play mark"' not in page
