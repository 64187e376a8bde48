"""The camera's clock against spoken words: which constant offset they agree on."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldnotes.photos.offset import (
    ONE_PAIR_S,
    SHUTTER_AFTER_S,
    SHUTTER_BEFORE_S,
    TOGETHER_S,
    estimated_offset,
)

VISIT_S = 1800.0
HOUR = 3600.0


@pytest.mark.parametrize(
    ("cues", "pictures", "seconds", "pairs"),
    [
        # lags 3600, 3601, 3599
        ([100.0, 400.0, 950.0], [100 - HOUR, 399 - HOUR, 951 - HOUR], HOUR, 3),
        ([100.0, 400.0], [100 + HOUR, 400 + HOUR], -HOUR, 2),
        ([100.0, 400.0], [100.0 - 7, 400.0 - 7], None, 0),  # as they are they fit: within the shutter's time
        ([100.0, 400.0], [], None, 0),
        ([], [100.0, 400.0], None, 0),
        ([300.0], [220.0], 80.0, 1),  # a lone pair within two minutes
        ([300.0], [300 - ONE_PAIR_S - 1], None, 0),
        ([300.0], [220.0, 370.0], None, 0),  # which of the two?
        ([300.0, 330.0], [220.0, 800.0], None, 0),  # which of the words?
        ([100.0, 400.0, 700.0], [100.0, 3000.0, 3300.0], None, 0),  # one fits as it is, two agree on another
        # two of nine pictures that nobody spoke of are as far apart as the cues, within 4 s
        ([100.0, 400.0], [150.0, 207.0, 301.0, 511.0, 597.0, 806.0, 941.0, 1100.0, 1333.0], None, 0),
        # the same with a third that agrees
        ([100.0, 400.0, 1036.0], [213.0, 301.0, 511.0, 597.0, 941.0, 1147.0], -112.0, 3),
        # two cues 300 s apart and pictures 300 s and 300 s apart: two offsets fit alike
        ([600.0, 900.0], [5000.0, 5300.0, 5600.0], None, 0),
    ],
    ids=["camera slow", "camera fast", "clock right", "no pictures", "no words", "one pair", "one pair too far",
         "two pictures", "two cues", "one fits already", "by chance", "three", "two ways"],
)  # fmt: skip
def test_offset_needs_words_and_pictures_to_agree(
    cues: list[float], pictures: list[float], seconds: float | None, pairs: int
) -> None:
    found = estimated_offset(cues, pictures, VISIT_S)

    if seconds is None:
        assert found is None
    else:
        assert found is not None
        assert found.pairs == pairs
        assert abs(found.seconds - seconds) <= TOGETHER_S / 2


@pytest.mark.parametrize(("cues", "others"), [(1, 5), (2, 3), (2, 10), (3, 8)], ids=str)
def test_right_clock_is_hardly_ever_moved_by_chance(cues: int, others: int) -> None:
    """Nobody handed in the pictures that were spoken of; those that are there were taken at any time."""
    chance = Random(20260302)
    moved = 0
    for _ in range(400):
        said = [chance.uniform(0, VISIT_S) for _ in range(cues)]
        pictures = [chance.uniform(0, VISIT_S) for _ in range(others)]
        moved += estimated_offset(said, pictures, VISIT_S) is not None

    assert moved <= 20  # one in twenty


gaps = st.lists(st.integers(50, 400), min_size=3, max_size=8, unique=True)
offsets = st.integers(-9 * 24 * 3600, 9 * 24 * 3600)
quarters = st.integers(0, 20_000).map(lambda n: n / 4)  # seconds whose sums are exact
shake = st.lists(st.floats(-3, 3), min_size=8, max_size=8)


def _cue_times(steps: list[int]) -> list[float]:
    """Times of cues such that no two distances between any of them are alike."""
    times = [30.0]
    for n, step in enumerate(steps):
        times.append(times[-1] + step + 37.0 * 2**n)
    return times


@given(steps=gaps, offset=offsets, late=shake)
def test_random_constant_offset_is_found(steps: list[int], offset: int, late: list[float]) -> None:
    cues = _cue_times(steps)
    pictures = [cue + wait - offset for cue, wait in zip(cues, late, strict=False)]
    as_it_is = sum(-SHUTTER_AFTER_S <= cue - time <= SHUTTER_BEFORE_S for cue in cues for time in pictures)

    found = estimated_offset(cues, pictures, cues[-1] + 60)

    if as_it_is:  # the clock is right, or nearly so
        assert found is None or abs(found.seconds - offset) <= TOGETHER_S
    else:
        assert found is not None
        assert abs(found.seconds - offset) <= TOGETHER_S
        assert found.pairs >= len(pictures)


@given(steps=gaps, offset=offsets, late=shake, others=st.lists(st.floats(0, 5000), max_size=3))
def test_pictures_that_nobody_spoke_of_do_not_mislead(
    steps: list[int], offset: int, late: list[float], others: list[float]
) -> None:
    cues = _cue_times(steps)
    pictures = [cue + wait - offset for cue, wait in zip(cues, late, strict=False)]
    pictures += [time - offset for time in others]

    found = estimated_offset(cues, pictures, cues[-1] + 60)

    assert found is None or abs(found.seconds - offset) <= TOGETHER_S


@given(steps=gaps, times=st.lists(quarters, max_size=6), zero=st.integers(-(10**6), 10**6))
def test_where_no_start_is_known_the_zero_of_the_pictures_does_not_count(
    steps: list[int], times: list[float], zero: int
) -> None:
    cues = _cue_times(steps)

    here = estimated_offset(cues, times, 5000, clock_known=False)
    there = estimated_offset(cues, [time + zero for time in times], 5000, clock_known=False)

    assert (here is None) == (there is None)
    if here and there:
        assert there.seconds + zero == here.seconds
