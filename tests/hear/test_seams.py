"""A recording that was split in the middle of speech is heard across the cut; nothing is doubled or lost."""

from __future__ import annotations

import pytest

from fieldnotes.hear.pieces import Stretch
from fieldnotes.hear.seams import Side, rejoined, runs_on, stretch_across
from fieldnotes.transcript import Breath, Word


def breath(start: float, end: float, text: str = "") -> Breath:
    """Of one word, named for its start unless it has a text."""
    return Breath(words=(Word(text=text or f"{start:g}", start=start, end=end),))


def side(seconds: float, speech: tuple[float, float] | None, *breaths: Breath) -> Side:
    return Side(breaths, seconds, Stretch(*speech) if speech else None)


QUIET = side(10.0, None)


@pytest.mark.parametrize(
    ("before", "after", "expected"),
    [
        pytest.param(side(10.0, (1.0, 10.0)), side(8.0, (0.0, 5.0)), True, id="speech on both sides"),
        pytest.param(side(10.0, (1.0, 9.9)), side(8.0, (0.1, 5.0)), True, id="nearly up to the cut"),
        pytest.param(side(10.0, (1.0, 9.0)), side(8.0, (0.0, 5.0)), False, id="over before"),
        pytest.param(side(10.0, (1.0, 10.0)), side(8.0, (1.0, 5.0)), False, id="begins after"),
        pytest.param(QUIET, side(8.0, (0.0, 5.0)), False, id="nobody before"),
        pytest.param(side(8.0, (0.0, 8.0)), QUIET, False, id="nobody after"),
        pytest.param(side(0.0, None), side(8.0, (0.0, 5.0)), False, id="written notes before"),
    ],
)
def test_only_speech_on_both_sides_runs_on(before: Side, after: Side, expected: bool) -> None:
    assert runs_on(before, after) is expected


@pytest.mark.parametrize(
    ("before", "after", "expected"),
    [
        pytest.param(
            side(60.0, (1.0, 60.0), breath(1.0, 9.0), breath(50.0, 59.5)),
            side(30.0, (0.0, 29.0), breath(0.0, 7.5), breath(9.0, 12.0)),
            (49.6, 7.9),
            id="whole breaths and something of the pauses around",
        ),
        pytest.param(
            side(60.0, (1.0, 60.0), breath(1.0, 49.8), breath(50.0, 59.5)),
            side(30.0, (0.0, 29.0), breath(0.0, 7.5), breath(7.6, 12.0)),
            (49.9, 7.55),
            id="no more than half of a short pause",
        ),
        pytest.param(
            side(3.0, (0.0, 3.0), breath(0.2, 2.9)),
            side(3.0, (0.0, 3.0), breath(0.0, 2.9)),
            (0.1, 2.95),
            id="one breath each",
        ),
        pytest.param(
            side(60.0, (1.0, 60.0), breath(1.0, 9.0)),
            side(30.0, (0.0, 29.0), breath(9.0, 12.0)),
            (55.0, 5.0),
            id="no word was understood at the cut",
        ),
        pytest.param(
            side(2.0, (0.0, 2.0)), side(3.0, (0.0, 3.0)), (0.0, 3.0), id="short parts without words"
        ),
    ],
)
def test_whole_breaths_at_the_cut_are_heard_again(
    before: Side, after: Side, expected: tuple[float, float]
) -> None:
    assert stretch_across(before, after) == pytest.approx(expected)


def test_what_is_heard_across_takes_the_place_of_both_halves() -> None:
    """The first part is 60 s long; of the breaths across one lies mostly before the cut, one after it."""
    before = side(60.0, (1.0, 60.0), breath(1.0, 9.0), breath(50.0, 59.5, "two-hund"))
    after = side(30.0, (0.0, 29.0), breath(0.0, 7.5, "red"), breath(9.0, 12.0))
    across = [breath(50.0, 61.0, "two-hundred"), breath(62.0, 67.5, "ohms")]

    first, second = rejoined(before, after, across, 50.0, 7.5)

    assert first == (breath(1.0, 9.0), breath(50.0, 61.0, "two-hundred"))
    assert second == (breath(2.0, 7.5, "ohms"), breath(9.0, 12.0))


def test_nothing_understood_across_leaves_the_other_breaths() -> None:
    before = side(60.0, (1.0, 60.0), breath(1.0, 9.0), breath(50.0, 59.5))
    after = side(30.0, (0.0, 29.0), breath(0.0, 7.5), breath(9.0, 12.0))

    assert rejoined(before, after, [], 50.0, 7.5) == ((breath(1.0, 9.0),), (breath(9.0, 12.0),))
